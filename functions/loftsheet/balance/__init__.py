"""Elastic balance of masts and stays: what each stay carries at rest, warm, cold and heeled, and which goes slack.

`model` is a rig, `named_tables` reads one from ranges of cells. `structure` puts it together of `beam`s and stays;
`equilibrium` finds it at rest (`banded` solves), `tuning` what each lashing takes out, `buckling` how much more it
carries, `held` whether stays can hold it at all. `solve` does it all, `answers` and `at_a_point` give rows of
it, and `calls` are the functions of a cell.
"""
