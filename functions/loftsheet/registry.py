"""What a calculation function is, declared once: everything else is derived from these declarations.

    @calc("RIG.TANG.FACE", group="Rod tang")
    def face(rod: Rod, bevel: Bevel) -> Millimetres:
        '''Height of the bevelled face of the stub.

        Formula: face = rod / cos(bevel)
        Limits: round rod, plane cut.
        Errors: Err:502 where …, only where the function itself refuses.
        Source: geometry.
        '''
        face_height = rod / cos(bevel)  # mm
        return face_height

The annotations are `Annotated[float, Quantity(...)]`; the body is a straight line of named steps, each with
its unit in a comment, so that the working shown to the user is the code that computed the number. A wrong
declaration is refused when the module is imported.
"""

import functools
import inspect
import math
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Optional, TypeVar, Union, get_args, get_type_hints

from loftsheet import measure
from loftsheet.errors import BadInput
from loftsheet.examples import example
from loftsheet.forms import NUMBER, Form, shown
from loftsheet.measure import Dimension

STORED = "ORG.LOFTSHEET.RIG."  # what the name of every function begins with in a file
SMALLEST = math.nextafter(0.0, 1.0)
ALWAYS_REFUSED = "Err:502 (BadInput) for an argument that is missing, of the wrong kind or not allowed."
UNOIDL_KEYWORDS = frozenset(
    re.findall(
        r"\w+",
        """
        any attribute boolean bound byte char const constants constrained default double enum exception
        false float get hyper in inout interface long maybeambiguous maybedefault maybevoid method module
        needs observes oneway optional out property published raises readonly removable sequence service
        set short singleton string struct switch transient true type typedef union unsigned void
        """,
    )
)


@dataclass(frozen=True)
class Quantity:
    """What one argument or result is: its meaning, its dimension (None for a text), its form, its limits."""

    text: str
    dimension: Optional[Dimension] = None
    least: float = -math.inf
    most: float = math.inf
    whole: bool = False
    form: Form = NUMBER
    advice: str = ""

    @property
    def unit(self) -> str:
        return self.dimension.plain if self.dimension else ""

    def allowed(self) -> str:
        """Say in words which values are allowed."""
        unit = f" {self.unit}" if self.unit not in ("", "share", "count") else ""
        kind = "a whole number" if self.whole else "a number"
        if self.least == -math.inf:
            return kind
        if self.least == SMALLEST:
            return f"{kind} above 0 and up to {measure.digits(self.most)}{unit}"
        return f"{kind} from {measure.digits(self.least)} to {measure.digits(self.most)}{unit}"

    def read(self, given: Any) -> Any:
        """Return the plain value of what was given, or refuse it."""
        return self.form.read(self, given)

    def read_number(self, given: Any) -> float:
        assert self.dimension is not None
        value = given if type(given) is float else measure.number(given, self.dimension)
        if not self.least <= value <= self.most or (self.whole and value % 1):
            advice = f"; {self.advice}" if self.advice else ""
            allowed = self.allowed().removeprefix("a number ").removeprefix("from ")
            raise BadInput(f"got {shown(given, self.unit)}; must be {allowed}{advice}")
        return value


@dataclass(frozen=True)
class Argument:
    """One argument of a function: its name, what it is, and its default where it has one."""

    name: str
    quantity: Quantity
    required: bool
    default: Any = None

    @property
    def uno_name(self) -> str:
        return _camel(self.name.split("_"))

    def read(self, given: Any) -> Any:
        if given is None and not self.quantity.form.takes_anything:
            if self.required:
                raise BadInput(f"{self.name} ({self.quantity.text}) is missing")
            return self.default
        try:
            return self.quantity.read(given)
        except BadInput as refused:
            raise BadInput(f"{self.name} ({self.quantity.text}): {refused}") from None


@dataclass(frozen=True)
class Calc:
    """A declared calculation function."""

    name: str
    group: str
    function: Callable[..., Any]
    arguments: "tuple[Argument, ...]"
    result: Quantity
    together: "tuple[tuple[str, ...], ...]"
    summary: str
    formula: str
    limits: str
    errors: str
    source: str

    @functools.cached_property
    def uno_name(self) -> str:
        return _camel(self.name.split(".")[1:])

    @functools.cached_property
    def stored_name(self) -> str:
        """The name under which a formula is stored in a file; it is never changed."""
        return f"{STORED}{self.uno_name}".upper()

    @functools.cached_property
    def rest(self) -> bool:
        """Whether the last argument stands for any number of further ones."""
        return bool(self.arguments) and self.arguments[-1].quantity.form.is_rest

    @functools.cached_property
    def limits_of_numbers(self) -> "tuple[tuple[float, float], ...]":
        """Least and most for each argument; where a number in between is not all that is asked, none fits."""
        quantities = [argument.quantity for argument in self.arguments]
        return tuple(
            (one.least, one.most) if one.form.is_number and not one.whole else (math.inf, -math.inf)
            for one in quantities
        )

    def usage(self) -> str:
        """The function as a user types it, optional arguments in brackets."""
        return f"{self.name}({'; '.join(_usage(argument) for argument in self.arguments)})"

    def read(self, given: Sequence[Any]) -> "list[Any]":
        """Return the plain values of all arguments, defaults filled in, or refuse them."""
        arguments = self.arguments
        if self.rest:
            fixed = len(arguments) - 1
            given = (*given[:fixed], *[None] * (fixed - len(given)), tuple(given[fixed:]))
        elif len(given) > len(arguments):
            raise BadInput(f"{self.name} takes {len(arguments)} arguments, {len(given)} were given")
        given = (*given, *[None] * (len(arguments) - len(given)))
        # Most are plain numbers that are allowed: taking them here halves what reading costs.
        values = [
            one if type(one) is float and least <= one <= most else argument.read(one)
            for argument, (least, most), one in zip(arguments, self.limits_of_numbers, given)
        ]
        for group in self.together:
            if None in given:
                self._check_group(group, given)
        return values

    def _check_group(self, group: "tuple[str, ...]", given: Sequence[Any]) -> None:
        """Refuse half a group: all its arguments are given or none; those with a default may be left out."""
        present = {argument.name for argument, one in zip(self.arguments, given) if one is not None}
        due = {argument.name for argument in self.arguments if argument.name in group and argument.default is None}
        missing = [name for name in group if name in due and name not in present]
        if missing and present & set(group):
            raise BadInput(f"{', '.join(group)} belong together; missing: {', '.join(missing)}")

    def call(self, *given: Any) -> Any:
        """Read the arguments, compute, and return a finite number, a text or rows of those."""
        try:
            result = self.function(*self.read(given))
        except (OverflowError, ZeroDivisionError):
            raise BadInput("the numbers given are too large or too small to compute with") from None
        if type(result) is float and not math.isfinite(result):
            raise BadInput("the numbers given are too large to compute with")
        return result


CALCS: "dict[str, Calc]" = {}
Function = TypeVar("Function", bound=Callable[..., Any])


def calc(name: str, group: str, together: "Sequence[Sequence[str]]" = ()) -> Callable[[Function], Function]:
    """Declare a calculation function under the name that users type; it is checked whenever it is called."""

    def declare(function: Function) -> Function:
        declared = _declaration(name, group, function, together)
        _refuse_clash(declared)
        CALCS[name] = declared
        names = [argument.name for argument in declared.arguments]

        @functools.wraps(function)
        def checked(*given: Any, **named: Any) -> Any:
            if named:
                unknown = [key for key in named if key not in names[len(given) :]]
                if unknown:
                    raise TypeError(f"{name} has no argument {', '.join(unknown)} left to name")
                given = (*given, *(named.get(key) for key in names[len(given) :]))
            return declared.call(*given)

        checked.__doc__ = _document(declared)
        checked.calc = declared  # type: ignore[attr-defined]
        return checked  # type: ignore[return-value]

    return declare


def _declaration(name: str, group: str, function: Callable[..., Any], together: "Sequence[Sequence[str]]") -> Calc:
    hints = get_type_hints(function, include_extras=True)
    parameters = inspect.signature(function).parameters.values()
    arguments = tuple(
        Argument(
            name=parameter.name,
            quantity=_quantity(name, hints[parameter.name]),
            required=parameter.default is inspect.Parameter.empty
            and parameter.kind is not inspect.Parameter.VAR_POSITIONAL,
            default=None if parameter.default is inspect.Parameter.empty else parameter.default,
        )
        for parameter in parameters
    )
    for argument in arguments:
        if isinstance(argument.default, int):
            raise TypeError(f"{name}: the default of {argument.name} must be a float")
        if argument.default is not None:
            argument.read(argument.default)
    summary, parts = _doc_parts(name, function)
    return Calc(
        name=name,
        group=group,
        function=function,
        arguments=arguments,
        result=_quantity(name, hints["return"]),
        together=tuple(tuple(names) for names in together),
        summary=summary,
        formula=parts["Formula"],
        limits=parts["Limits"],
        errors=parts.get("Errors", ""),
        source=parts["Source"],
    )


def _refuse_clash(declared: Calc) -> None:
    if not re.fullmatch(r"RIG(\.[A-Z]+)+", declared.name):
        raise TypeError(f"{declared.name}: a name is RIG and words in capitals with dots between")
    # A cell stores the name in capitals, so two that differ only in those are the same.
    taken = {other.uno_name.upper() for other in CALCS.values()}
    if declared.uno_name.upper() in taken or declared.name in CALCS:
        raise TypeError(f"{declared.name} is declared twice")
    names = [declared.uno_name, *(argument.uno_name for argument in declared.arguments)]
    keywords = [name for name in names if name.lower() in UNOIDL_KEYWORDS]
    if keywords:
        raise TypeError(f"{declared.name}: {', '.join(keywords)} is a word of the interface language")
    known = {argument.name for argument in declared.arguments}
    if any(set(group) - known for group in declared.together):
        raise TypeError(f"{declared.name}: a group names an argument that is not there")


def _quantity(name: str, hint: Any) -> Quantity:
    """Find the Quantity in an annotation, inside Optional too."""
    if getattr(hint, "__origin__", None) is Union:
        hint = next(part for part in get_args(hint) if part is not type(None))
    found = [extra for extra in getattr(hint, "__metadata__", ()) if isinstance(extra, Quantity)]
    if len(found) != 1:
        raise TypeError(f"{name}: each argument and the result need one Quantity, not {hint}")
    return found[0]


def _doc_parts(name: str, function: Callable[..., Any]) -> "tuple[str, dict[str, str]]":
    """Split a docstring into its first sentence and its Formula, Limits, Errors (if it has its own) and Source."""
    summary, *paragraphs = re.split(
        r"(?:^|\n+)(?=(?:Formula|Limits|Errors|Source):)", inspect.getdoc(function) or ""
    )
    parts = dict(" ".join(paragraph.split()).split(": ", 1) for paragraph in paragraphs)
    missing = [part for part in ("Formula", "Limits", "Source") if not parts.get(part)]
    if missing or not summary.strip():
        raise TypeError(f"{name}: the docstring lacks {', '.join(missing) or 'its first sentence'}")
    return " ".join(summary.split()), parts


def _document(declared: Calc) -> str:
    """The whole docstring: what was written, then arguments, result and errors as declared."""
    lines = [
        declared.summary,
        "",
        *(f"{title}: {text}" for title, text in _texts(declared)),
        "",
        declared.usage(),
        *(f"    {argument.name}: {describe(argument)}" for argument in declared.arguments),
        f"    gives: {describe_result(declared.result)}",
        f"Example: {example(declared.name)}",
    ]
    return "\n".join(lines)


def _texts(declared: Calc) -> "list[tuple[str, str]]":
    return [
        ("Formula", declared.formula),
        ("Limits", declared.limits),
        ("Errors", " ".join([ALWAYS_REFUSED if declared.arguments else "", declared.errors]).strip() or "none."),
        ("Source", declared.source),
    ]


def describe(argument: Argument) -> str:
    """An argument as the Function Wizard shows it: the unit first, then meaning, limits and default."""
    quantity = argument.quantity
    allowed = f" ({quantity.allowed()})" if quantity.dimension else ""
    default = f", {argument.default:g} if left out" if isinstance(argument.default, float) else ""
    # The office calls every argument of an add-in optional, so what is not has to say so.
    otherwise = ", must be given" if argument.required else default or ", may be left out"
    return f"{_unit_first(quantity)}: {quantity.text}{allowed}{otherwise}"


def describe_result(quantity: Quantity) -> str:
    return f"{_unit_first(quantity)}: {quantity.text}"


def _unit_first(quantity: Quantity) -> str:
    if quantity.dimension is None:
        return quantity.form.wizard
    return quantity.unit or "number"


def _usage(argument: Argument) -> str:
    if argument.quantity.form.is_rest:
        return f"[{argument.name}; …]"
    if argument.required:
        return argument.name
    default = f"={argument.default:g}" if isinstance(argument.default, float) else ""
    return f"[{argument.name}{default}]"


def _camel(words: Sequence[str]) -> str:
    first, *others = (word.lower() for word in words)
    return first + "".join(word.capitalize() for word in others)
