"""What would do: the words with which a check ends, looked up in the Library.

Each is a formula for a message, `{…}` there. It is worked out only on a row that complains.
"""

MOST = 1000  # times a row's number: no table is so long


def first_of(table: str, *conditions: str) -> str:
    """Formula: the name of the first item of the Library that meets all conditions; an error where none does."""
    meets = "*".join(f"({condition})" for condition in (f'{table}_name<>""', *conditions))
    row = f"SUMPRODUCT(MIN(IF({meets};ROW({table}_name);{MOST}*ROW({table}_name))))"
    return f"INDEX({table}_name;{row}-ROW(INDEX({table}_name;1))+1)"


def take(item: str, otherwise: str) -> str:
    """Formula: take this item of the Library; where there is none, what it would have to be."""
    return f'IFERROR("take "&{item};"none in Library does, it needs "&{otherwise})'


def kilonewtons(formula: str) -> str:
    return f'FIXED({up(formula, 1)};1;TRUE())&" kN"'


def up(formula: str, digits: int) -> str:
    """Formula: a figure that is enough as it is said; to the nearest it would be short every other time."""
    return f"ROUNDUP({formula};{digits})"


def rope(need: str) -> str:
    """Formula: the smallest rope of the boat's family that breaks at no less."""
    smallest = f"INDEX(rope_name;MATCH(RIG.ROPE.SIZE(rope_family_size;rope_family_break;{need});rope_family_size;0))"
    return take(smallest, f'"a breaking load of "&{kilonewtons(need)}&" or more"')


def wire(need: str) -> str:
    """Formula: the first wire of the Library that breaks at no less."""
    found = first_of("wire", f"IFERROR(wire_break_load>={need};FALSE())")
    return take(found, f'"a breaking load of "&{kilonewtons(need)}&" or more"')


def ring(load: str, groove: str = "", hole: str = "") -> str:
    """Formula: the first ring that may carry a load and whose groove, or hole, is wide enough."""
    wide = {"groove": groove, "hole": hole}
    asked = [f"ISNUMBER(ring_{key})*(ring_{key}>={least})" for key, least in wide.items() if least]
    found = first_of("ring", *asked, f"ISNUMBER(ring_load)*(ring_load>={load})")
    sizes = [f'"a {key} of "&FIXED({up(least, 0)};0;TRUE())&" mm and "' for key, least in wide.items() if least]
    return take(found, "&".join([*sizes, f'{kilonewtons(load)}&" of working load"']))


def of_link(weakest: str, *remedies: "tuple[str, str]") -> str:
    """Formula: the remedy for the link of that name."""
    formula = '""'
    for name, remedy in reversed(remedies):
        formula = f'IF({weakest}="{name}";{remedy};{formula})'
    return formula
