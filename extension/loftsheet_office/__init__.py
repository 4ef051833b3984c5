"""The part of the extension that runs inside the office."""
