"""Random calls of the functions and random contents of cells: from right over almost right to nonsense."""

import math
import os
import random

from loftsheet.examples import EXAMPLES

LONG = "12 mm and so on " * 4_000
WILD_NUMBERS = (0.0, -0.0, -1.0, 0.5, 5e-324, 1e300, -1e300, 45_000.0, 1e9, math.pi)
NO_NUMBERS = (math.nan, math.inf, -math.inf, True, False, 2**40)
WILD_TEXTS = (
    "",
    " ",
    "12",
    "1,500 mm",
    "abc",
    "#N/A",
    "=1+1",
    "-2",
    "5 µF",
    "1/0 in",
    "١٢ mm",
    "½ in",
    "\x00",
    LONG,
)
SIGNS = " 0123456789.,-+/%'\"°µ½′″\u00a0\u2044\t\nmminftkNlbdegCFKx²·"
TYPED = ("2026-11-25", "12:30", "15%", "1 1/2", "1e3", "-7", "'12", "'", "' ", "'1,500 mm")
FORMULAS = ("=TRUE()", "=FALSE()", "=TODAY()", '=""', '="9 mm"', "=1/0", "=NA()", "=SQRT(-1)", "=NOSUCHNAME")


def seed_of(config):
    """The seed given, the same one each time on a build server, else a new one; which it is is shown."""
    given = config.getoption("--seed")
    fresh = 1 if os.environ.get("CI") == "true" else random.SystemRandom().randrange(10**6)
    seed = fresh if given is None else given
    print(f"to do the same again: --seed {seed}")
    return seed


def throw(config):
    return Dice(seed_of(config))


class Dice(random.Random):
    """Random numbers from a seed, and what the tests make of them."""

    def call(self, calc):
        """Arguments for a call: an example that is right, changed a little or a lot, cut or added to."""
        given = [self.argument(argument, one) for argument, one in self._pairs(calc)]
        if self.random() < 0.2:
            given = given[: self.randrange(len(given) + 1)]
        return (*given, 1.0) if self.random() < 0.02 else tuple(given)

    def argument(self, argument, example):
        if argument.quantity.form.name == "column":
            rows = example if isinstance(example, tuple) and example else ((1.0,), (2.0,))
            return tuple(tuple(self.number(argument.quantity, one) for one in row) for row in rows)
        if argument.quantity.form.name == "number":
            return self.number(argument.quantity, example)
        if argument.quantity.form.name == "table":
            return example if isinstance(example, tuple) else None  # Calc itself refuses what is no range
        return self.pick(0.7, lambda: example, self.wild)

    def number(self, quantity, example):
        """A number near the example, one within the limits, a text with its unit, or anything."""
        near = float(example) if isinstance(example, (int, float)) else self.within(quantity)
        kind = self.random()
        if kind < 0.6:
            factor = self.uniform(0.7, 1.4)
            return round(near * factor) * 1.0 if quantity.whole else near * factor
        if kind < 0.8:
            return self.within(quantity)
        if kind < 0.9 and quantity.dimension.units:
            return f"{near:.6g} {self.choice(list(quantity.dimension.units))}"
        return self.wild()

    def within(self, quantity):
        """A number that the limits allow, small ones as often as large ones, at times the very edge."""
        least, most = max(quantity.least, -1e6), min(quantity.most, 1e6)
        if self.random() < 0.2:
            return float(self.choice((least, most)))
        value = math.exp(self.uniform(-9.0, math.log(max(most, 1.0)))) if least >= 0 else self.uniform(least, most)
        value = min(max(value, least), most)
        return float(round(value)) if quantity.whole else value

    def wild(self):
        return self.choice((self.choice(WILD_NUMBERS), self.choice(WILD_TEXTS), self.text()))

    def text(self):
        """A text that may look like a measure."""
        return "".join(self.choice(SIGNS) for _ in range(self.randrange(12)))

    def cell(self, quantity, example):
        """What is typed into a cell: a number, what a user may type in its place, a formula, or nothing."""
        kind = self.random()
        if kind < 0.75 and quantity.form.name in ("number", "column"):
            return repr(self.number_only(quantity, example))
        if kind < 0.75:
            return f"'{example}" if isinstance(example, str) else repr(example or 1.0)
        if kind < 0.8:
            return ""
        return self.choice(
            (self.choice(TYPED), self.choice(FORMULAS), "'" + self.text().replace("\n", ""), f"'{LONG}")
        )

    def number_only(self, quantity, example):
        found = self.number(quantity, example)
        return found if isinstance(found, float) else self.within(quantity)

    def pick(self, share, usual, other):
        return usual() if self.random() < share else other()

    def _pairs(self, calc):
        """Each argument with an example; further ones of the last for any number of them."""
        examples = EXAMPLES[calc.name]
        arguments = [*calc.arguments, *calc.arguments[-1:] * (len(examples) - len(calc.arguments))]
        given = (*examples, *[None] * (len(arguments) - len(examples)))
        return [
            (
                argument,
                self.within(argument.quantity) if one is None and argument.quantity.form.name == "number" else one,
            )
            for argument, one in zip(arguments, given)
        ]
