"""python -m tests.mutants [MODULE …] [--sample N] [--seed S]: which changes of functions/ no test notices."""

import argparse

from tests.mutants import report

parser = argparse.ArgumentParser(prog="python -m tests.mutants", description=__doc__)
parser.add_argument("modules", nargs="*", help="modules of functions/loftsheet; all if none is given")
parser.add_argument("--sample", type=int, help="so many mutants of all, not each")
parser.add_argument("--seed", type=int, default=0, help="which sample")
given = parser.parse_args()
raise SystemExit(report.run(given.modules or report.MODULES, given.sample, given.seed))
