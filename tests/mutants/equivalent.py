"""Mutants that do the same as the original for whoever uses it, each with the reason."""

EQUIVALENT: "dict[str, str]" = {}
