"""Small changes of a module, one at a time: each is a mutant that some test has to notice.

Numbers, operators, comparisons, conditions and results are changed; texts, annotations, decorators and assertions,
which say something to people or to the type checker, are left.
"""

import ast
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from types import CodeType
from typing import Any

SWAPS: "dict[type, type]" = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Mult,
    ast.Pow: ast.Mult,
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
    ast.And: ast.Or,
    ast.Or: ast.And,
}
NAMES = {"min": "max", "sin": "cos", "floor": "ceil", "any": "all"}
NAMES |= {other: name for name, other in NAMES.items()}
LONGEST = 80  # letters of the statement by which a mutant is known
LEFT_ALONE = ("annotation", "returns", "decorator_list")


@dataclass(frozen=True)
class Mutant:
    """One field of one node of a module's tree, and what it is set to."""

    module: str
    function: str  # "" for what is worked out when the module is imported
    tree: ast.Module
    node: Any
    field: str
    changed: Any
    key: str  # what was changed to what, and where: it stays the same when lines move

    @property
    def line(self) -> int:
        return int(self.node.lineno)

    def code(self) -> CodeType:
        """The module with this change, compiled."""
        with _changed(self.node, self.field, self.changed):
            return compile(ast.fix_missing_locations(self.tree), f"{self.module}.py", "exec")


def mutants(module: str, source: str) -> "list[Mutant]":
    """Every mutant of a module, in the order of its lines."""
    tree = ast.parse(source)
    found: dict[str, Mutant] = {}
    for node, function, statement in _nodes(tree):
        for field, changed in _changes(node):
            place = f"{module}.{function}".rstrip(".")
            key = f"{place}: {_said(node, field, changed)} in {_first(statement)[:LONGEST]}"
            number = sum(known == key or known.startswith(f"{key} (") for known in found) + 1
            name = f"{key} ({number})" if number > 1 else key
            found[name] = Mutant(module, function, tree, node, field, changed, name)
    return list(found.values())


def _said(node: ast.AST, field: str, changed: Any) -> str:
    before = _first(node)
    with _changed(node, field, changed):
        return f"{before} → {_first(ast.fix_missing_locations(node))}"


def _first(node: ast.AST) -> str:
    return ast.unparse(node).splitlines()[0]


@contextmanager
def _changed(node: ast.AST, field: str, changed: Any) -> "Iterator[None]":
    before = getattr(node, field)
    setattr(node, field, changed)
    try:
        yield
    finally:
        setattr(node, field, before)


def _nodes(
    parent: ast.AST, function: str = "", name: str = "", statement: Any = None
) -> "Iterator[tuple[ast.AST, str, ast.stmt]]":
    """All nodes that may be changed, each with the function in whose body it stands and its statement."""
    for field, value in ast.iter_fields(parent):
        for node in value if isinstance(value, list) else [value]:
            if not isinstance(node, ast.AST) or isinstance(node, ast.Assert) or field in LEFT_ALONE:
                continue
            inside = (
                f"{name}.{node.name}".strip(".") if isinstance(node, (ast.FunctionDef, ast.ClassDef)) else name
            )
            # The default of an argument is worked out on import, as what stands in no function.
            body = name if isinstance(parent, ast.FunctionDef) and field == "body" else function
            within = node if isinstance(node, ast.stmt) else statement
            yield node, body, within
            yield from _nodes(node, body, name if body else inside, within)


def _changes(node: ast.AST) -> "Iterator[tuple[str, Any]]":
    """The field of a node that is changed, and to what."""
    if isinstance(node, ast.Constant) and type(node.value) in (int, float):
        yield "value", node.value + 1
        if node.value:
            yield "value", node.value * 0.9 if isinstance(node.value, float) else node.value - 1
    elif isinstance(node, ast.Constant) and type(node.value) is bool:
        yield "value", not node.value
    elif isinstance(node, (ast.BinOp, ast.BoolOp)) and type(node.op) in SWAPS:
        yield "op", SWAPS[type(node.op)]()
    elif isinstance(node, ast.Compare):
        for at, operator in enumerate(node.ops):
            if type(operator) in SWAPS:
                yield "ops", [*node.ops[:at], SWAPS[type(operator)](), *node.ops[at + 1 :]]
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        yield "op", ast.UAdd()
    elif isinstance(node, (ast.If, ast.IfExp, ast.While)):
        yield "test", ast.UnaryOp(ast.Not(), node.test)
    elif isinstance(node, ast.Name) and node.id in NAMES and isinstance(node.ctx, ast.Load):
        yield "id", NAMES[node.id]
    elif isinstance(node, ast.Return) and node.value is not None and ast.unparse(node.value) != "None":
        yield "value", ast.Constant(None)
