"""What every room may use: refusals, the journal, the office's values, files that are never half new."""
