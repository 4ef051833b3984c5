"""The contract of names and arguments, and declarations that are refused."""

import ast
import inspect
import re
import textwrap
from typing import Annotated, Any, Optional

import pytest
from loftsheet import CALCS, measure, registry
from loftsheet.errors import BadInput, NoSolution, NotInTable
from loftsheet.examples import EXAMPLES, NamedRange, example
from loftsheet.forms import COLUMN, TABLE
from loftsheet.formula import parse
from loftsheet.quantities import Bevel, Millimetres, Rod, Rope, length
from loftsheet.registry import Quantity, calc, describe
from loftsheet.splice import bury
from loftsheet.tang import face
from loftsheet.trace import steps
from loftsheet.words import version

ENDS = "upper_fore; upper_out; upper_up; lower_fore; lower_out; lower_up"
INNER, OUTER = (f"{eye}_tension; {eye}_out; {eye}_fore" for eye in ("inner", "outer"))
PAIR = (
    "sizes; pitches; strengths; yields; rods; rope; out_angle; bevel; top; load; required; [sleeve=1]; [root=0]; "
    "[hole_play=0.5]; [ligament=8]; [ligament_share=0.75]; [least=3]; [drill_off=0.5]; [drill_step=0.1]; "
    "[hole_most]; [gamma=1.25]; [bending=1.5]; [straight=0.8]; [shear_factor=0.6]; [outer_rope]; [outer_load]; "
    "[outer_out]; [inner_fore]; [outer_fore]; [outer_sleeve=1]; [told=0]; [thinnest=0]"
)
LOOP = "inside; rope; bury; [take_up=0.1]; [waste=50]; [turns=1]; [stretch=0]"
RIG = "masts; points; stays"
CUT = "span; eye_a; eye_b; bury; stretch; [take_up=0.1]; [waste=50]"
SPLIT = (
    "upper_fore; upper_out; upper_up; split_fore; split_out; split_up; leg_fore; leg_out; leg_up"
    "; [other_fore]; [other_out]; [other_up]"
)

# Files store these: a name, an order or a default that changes here changes the numbers in people's workbooks.
CONTRACT = [
    "RIG.MAST.FORE(along; rake; [foot_fore=0]; [aft=0])",
    "RIG.MAST.UP(along; rake; [foot_up=0]; [aft=0])",
    f"RIG.STAY.LENGTH({ENDS})",
    f"RIG.STAY.OUT({ENDS})",
    f"RIG.STAY.FORE({ENDS}; [rake=0])",
    f"RIG.STAY.ANGLE({ENDS}; [rake=0])",
    f"RIG.STAY.PULL({ENDS}; [rake=0])",
    f"RIG.STAY.PULL.FORE({ENDS}; [rake=0])",
    f"RIG.STAY.PULL.OUT({ENDS})",
    f"RIG.STAY.PULL.DOWN({ENDS}; [rake=0])",
    "RIG.SPREADER.PUSH(tension; above; below)",
    "RIG.SPREADER.RISE(above; below)",
    "RIG.TANG.BEVEL(out_angle; [extra=2])",
    "RIG.TANG.THRUST(tension; out_angle; bevel)",
    "RIG.TANG.TOP(rope; bevel; [sleeve=1]; [clearance=3]; [eyes=1])",
    "RIG.TANG.BASE(rod; bevel; top)",
    "RIG.TANG.FACE(rod; bevel)",
    "RIG.TANG.HOLE(rod; bevel; top; [room]; [rope]; [sleeve]; [plate]; [rise])",
    "RIG.TANG.UPRIGHT(rod; bevel; top; hole; [seat])",
    "RIG.TANG.LIGAMENT(hole; bolt_hole)",
    "RIG.TANG.GRIP(rod; bevel; top; hole)",
    "RIG.TANG.EXIT(rod; bevel; top; hole)",
    "RIG.TANG.LIGAMENT.END(rod; bevel; top; hole; bolt_hole)",
    "RIG.TANG.RISE(rope; [sleeve=1]; [extra=3])",
    "RIG.TANG.GAP(room; bevel; top; hole; rope; [sleeve=1]; [plate=0]; [rise=0])",
    "RIG.TANG.WEDGE(washer; bevel; [thin=1.5])",
    "RIG.TANG.SADDLE(rod; half_fore; half_out)",
    "RIG.TANG.CLEAR(projection; out_angle)",
    "RIG.TANG.ARM(rod; bevel; top; hole; out_angle; [pad=0]; [seat])",
    "RIG.TANG.DROP(rod; bevel; top; hole; eye; bolt; rope; [sleeve=1]; [seat])",
    "RIG.TANG.MASS(rod; bevel; top; [density=1850])",
    "RIG.NEED.ROD(rope; bolt_hole; bevel; [least=3]; [ligament=8])",
    "RIG.ROD.PIECES(stock; rod; bevel; top; [kerf=3]; [hold=0])",
    "RIG.ROD.LENGTHS(stock; rod; bevels; tops; counts; [kerf=3]; [hold=80])",
    "RIG.ROD.WRAP(rod; bevel; [points=25])",
    "RIG.BOLT.AREA(diameter; pitch; [depth=0.9382])",
    "RIG.BOLT.CORE(diameter; pitch)",
    "RIG.BOLT.SHEAR(area; strength; [planes=1]; [factor=0.6]; [gamma=1.25])",
    "RIG.BOLT.TENSION(area; strength; [gamma=1.25])",
    "RIG.BOLT.PULL(tension; out_angle)",
    "RIG.BOLT.CAPACITY(arm; out_angle; moment_capacity; shear_capacity; tension_capacity)",
    "RIG.PIN.BENDING(diameter; yield_stress; [gamma=1]; [factor=1.5])",
    "RIG.PIN.BEARING(diameter; thickness; yield_stress; [gamma=1])",
    "RIG.PIN.USE(moment; moment_capacity; shear; shear_capacity)",
    "RIG.TANG.MOMENT(tension; arm)",
    "RIG.MAST.BEARING(tension; out_angle; arm; mast_width)",
    "RIG.ROD.BEARING(tension; out_angle; bolt; grip; arm; [pad=0])",
    "RIG.ROPE.PRESSURE(load; rope; rod)",
    "RIG.BOLT.LENGTH(mast_width; pad; grip; outside; ends; [sides=2])",
    "RIG.BOLT.SHANK(mast_width; pad; grip)",
    "RIG.BOLT.ENDS(diameter; pitch; [nuts=2]; [nut=1.2])",
    "RIG.TANG.LEAN(out_angle; fore_angle; bevel; [turn=0])",
    "RIG.TANG.SWING(out_angle; fore_angle; bevel; [turn=0])",
    "RIG.TANG.COVER(rod; rise; swing)",
    "RIG.TANG.OVERHANG(rod; bevel; top; [pad=0]; [seat])",
    "RIG.EYE.UNEVEN(swing; throat_angle; [friction=0.15])",
    "RIG.DOUBLE.APART(inner_rope; outer_rope; [inner_sleeve=1]; [outer_sleeve=1])",
    "RIG.DOUBLE.TOP(inner_rope; outer_rope; bevel; [inner_sleeve=1]; [outer_sleeve=1]; [clearance=3])",
    "RIG.DOUBLE.BEVEL(inner_out; inner_fore; outer_out; outer_fore; [extra=2])",
    f"RIG.DOUBLE.TURN({INNER}; {OUTER}; [inner_upright]; [outer_upright])",
    f"RIG.DOUBLE.MOMENT({INNER}; inner_overhang; inner_upright; {OUTER}; outer_overhang; outer_upright; [turn=0])",
    f"RIG.DOUBLE.TWIST({INNER}; inner_upright; {OUTER}; outer_upright; [turn=0])",
    f"RIG.DOUBLE.SHEAR({INNER}; {OUTER})",
    f"RIG.DOUBLE.PULL({INNER}; {OUTER})",
    "RIG.DOUBLE.FIT(inner_out; inner_fore; outer_out; outer_fore; bevel; [friction=0.15])",
    "RIG.BOLT.STRENGTH(property_class)",
    "RIG.BOLT.PROOF(property_class)",
    "RIG.BOLT.FIGURES(strength; yield_stress; [property_class])",
    "RIG.BOLT.PLAIN(length; diameter)",
    "RIG.BOLT.BENDING(diameter; pitch; yield_stress; arm; plain; pad; grip; [gamma=1]; [factor=1.5])",
    "RIG.BOLT.MARGIN(moment; shear; pull; moment_capacity; shear_capacity; tension_capacity)",
    "RIG.ROD.SHEAR(tension; out_angle; ligament; grip)",
    "RIG.ROD.MARGIN(pressure; crushing; [shear]; [shear_strength])",
    f"RIG.NEED.STUB({PAIR})",
    "RIG.GROMMET.INSIDE(apart; bar; pin)",
    f"RIG.GROMMET.MARKS({LOOP}; [taper_share=0.333333]; [growth=1.33333])",
    "RIG.BEND.EDGE(thickness; rounding)",
    "RIG.PLATE.CAPACITY(thickness; hole; end; side; yield_stress; [gamma=1])",
    "RIG.PLATE.END(load; thickness; hole; yield_stress; [gamma=1])",
    "RIG.PLATE.SIDE(load; thickness; hole; yield_stress; [gamma=1])",
    "RIG.PLATE.THICKNESS(load; yield_stress; [gamma=1])",
    "RIG.EYE.REACH(eye; rod; rope; [sleeve=1])",
    "RIG.EYE.ANGLE(eye; rod; rope; [sleeve=1])",
    "RIG.EYE.LENGTH(rod; rope; [max_angle=30]; [sleeve=1])",
    "RIG.EYE.CAPACITY(break_load; bend; throat_angle; [uneven=0.9])",
    "RIG.LEG.LOAD(load; angle)",
    "RIG.LOOP.FIT(eye; rod; rope; [sleeve=1]; [girth]; [max_angle=30])",
    "RIG.LOOP.PLAY(eye; rod; rope; [sleeve=1])",
    "RIG.SLEEVE.LENGTH(eye; [gather=0.15])",
    f"RIG.GROMMET.CUT({LOOP})",
    "RIG.GROMMET.CAPACITY(break_load; [splice=0.9]; [bend=1]; [uneven=0.9]; [turns=1])",
    "RIG.FID(rope; [diameters=21])",
    "RIG.BURY(rope; [diameters=72])",
    "RIG.TAPER(bury; [share=0.333333])",
    "RIG.BURY.MARK(bury; [growth=1.33333])",
    "RIG.TRIAL.TAKEUP(host_before; host_after; bury)",
    "RIG.TRIAL.SET(before; after)",
    "RIG.BENCH.TENSION(rope)",
    "RIG.SPAN(centres; reach_a; reach_b; [lower=0])",
    f"RIG.CUT({CUT})",
    f"RIG.BENCH({CUT}; [taper_share=0.333333]; [growth=1.33333])",
    "RIG.BEND.RATIO(rod; rope)",
    "RIG.BEND.WIRE(ratio)",
    "RIG.BEND.ROPE(ratio; [least=2]; [table])",
    "RIG.CAPACITY(break_load; [splice=0.9]; [ageing=0.8]; [eye_a]; [eye_b])",
    "RIG.MARGIN(break_load; load; [splice=0.9]; [ageing=0.8]; [eye_a]; [eye_b])",
    "RIG.MARGIN.SPARE(margin; required)",
    "RIG.WEAKEST(name; spare; [links; …])",
    "RIG.NEED.STRENGTH(load; required; [splice=0.9]; [ageing=0.8])",
    "RIG.HOLD.LIMIT([temp=20]; [limit=0.15]; [power=5]; [activation=145])",
    "RIG.NEED.HOLD(held; [limit=0.15])",
    "RIG.NEED.STRETCH(wire_ea; [ratio=37.5])",
    "RIG.ROPE.SIZE(sizes; break_loads; needed)",
    "RIG.WIRE.BREAK(diameter; [grade=1570]; [k=0.525])",
    "RIG.ROPE.EA(break_load; [ratio=37.5])",
    "RIG.WIRE.EA(diameter; [modulus=130]; [fill=0.76])",
    "RIG.STRETCH(load; length; ea)",
    "RIG.TEMP.TIGHTEN(mast_length; stay_length; change; [mast_rate=23.6]; [stay_rate=-12])",
    "RIG.TENSION.CHANGE(tightening; length; ea)",
    "RIG.TENSION.AFTER(tension; slack; length; ea)",
    "RIG.TENSION.PLUCK(length; mass; frequency)",
    "RIG.CREEP(length; rate; years; [load]; [ref_load]; [power]; [temp]; [ref_temp]; [activation=145])",
    "RIG.RM.INCLINE(weight; lever; heel)",
    "RIG.SHROUD.TOTAL(rm30; chainplate_out; [factor=1.5]; [angle=0])",
    "RIG.SHROUD.SIDE(side_force; out_angle; [spreader_push=0])",
    "RIG.MAST.PUSH(rm30; chainplate_out; [factor=2.78])",
    "RIG.PRETENSION(load; [heel=20]; [factor=1.5])",
    "RIG.BACKSTAY(forestay; forestay_pull; backstay_pull)",
    "RIG.LASHING.SHARE(parts; [friction=0.15])",
    "RIG.LASHING.HAUL(tension; parts; [friction=0.15]; [half_turns=1])",
    "RIG.LASHING.PARTS(load; line_break; required; [friction=0.15]; [bend=0.8])",
    "RIG.LASHING.GAP(length; lasting_set; stretch; [left=60])",
    "RIG.LASHING.LINE(gap; parts; ring; [tail=1000])",
    "RIG.LASHING.HOLE(parts; line; [lashings=1])",
    "RIG.LASHING.ROOM(hole; line)",
    "RIG.LASHING.CLOSE(gap; ring; rope; [edge=0]; [sleeve=1])",
    "RIG.PAIR.TENSION(side_pull; pull_fore; pull_out; other_fore; other_out)",
    "RIG.STAY.BALANCE(tension; pull_fore; other_fore)",
    f"RIG.SPLIT.ANGLE({SPLIT})",
    f"RIG.SPLIT.TENSION(tension; {SPLIT})",
    "RIG.SPLIT.FORE(upper_fore; upper_up; leg_fore; leg_up; split_up)",
    "RIG.PULL.SUM(pulls_fore; pulls_out; pulls_up)",
    "RIG.PULL.LEAN.FORE(pulls_fore; pulls_out; pulls_up)",
    "RIG.PULL.LEAN.OUT(pulls_fore; pulls_out; pulls_up)",
    "RIG.ANGLE.BETWEEN(fore; outward; up; other_fore; other_out; other_up)",
    "RIG.CASE.EFFORT(shares; heights)",
    "RIG.CASE.FORCE(rm30; effort; [factor=1]; [heel=30])",
    "RIG.CASE.SHROUD(side_force; pull_out)",
    "RIG.CASE.LOWERS(side_force; tension; above; below)",
    "RIG.STRAIN(tension; ea)",
    "RIG.RELAX.TIME(tension; ea; rate; [left=0.5]; [ref_load]; [power]; [temp]; [ref_temp]; [activation=145])",
    "RIG.RELAX.LEFT(tension; ea; rate; years; [ref_load]; [power]; [temp]; [ref_temp]; [activation=145])",
    "RIG.SLACK.HEEL(tension; load; [factor=1.5])",
    "RIG.CREEP.TEMP(temps; [activation=145])",
    "RIG.TENSION.EXPECTED(tension; mast_length; stay_length; ea; change; [mast_rate=23.6]; [stay_rate=-12])",
    "RIG.STAY.SAG(tension; length; side_load)",
    "RIG.STAY.NOTE(tension; length; mass)",
    "RIG.TRIAL.EA(load_low; load_high; length_low; length_high)",
    "RIG.TUBE.AREA(width; fore_and_aft; wall)",
    "RIG.TUBE.INERTIA(bent; across; wall)",
    f"RIG.BALANCE.WORDS({RIG}; [cases]; [loads]; [spreaders])",
    f"RIG.BALANCE.STAYS({RIG}; [cases]; [loads]; [spreaders])",
    f"RIG.BALANCE.MASTS({RIG}; [cases]; [loads]; [spreaders])",
    f"RIG.BALANCE.CASES({RIG}; cases; [loads]; [spreaders])",
    f"RIG.BALANCE.EFFECT({RIG}; [cases]; [loads]; [spreaders])",
    f"RIG.BALANCE.FELT({RIG}; [cases]; [loads]; [spreaders])",
    f"RIG.BALANCE.LINES(rows; {RIG}; [cases]; [loads]; [spreaders])",
    f"RIG.BALANCE.TENSION(stay; case; {RIG}; [cases]; [loads]; [spreaders])",
    f"RIG.BALANCE.POINT(point; case; {RIG}; [cases]; [loads]; [spreaders])",
    "RIG.ROPE.MASS(length; rope; [k=0.58])",
    "RIG.WIRE.MASS(length; diameter; [density=8000]; [fill=0.76])",
    "RIG.RM.GAIN(mass; height; [heel=30])",
    "RIG.READ(text; unit)",
    "RIG.SHOW(value; unit; [denominator])",
    "RIG.CHECK(label; cell; [least]; [most]; [unit])",
    "RIG.WORKING(cell)",
    "RIG.REFUSAL(cell)",
    "RIG.VERSION()",
]
NAMES = [usage.split("(")[0] for usage in CONTRACT]
UNITS = {
    *(dimension.plain for dimension in measure.NAMED),
    *("-", "ratio", "count", "number", "times", "text", "rows", "ratio and share"),
    *("kN/mm", "mm³", "m/s", "m/s²", "1/K", "1/kN", "kJ/(mol·K)"),
}


@pytest.mark.parametrize("usage", CONTRACT, ids=NAMES)
def test_stored_names_arguments_and_defaults(usage):
    name = usage.split("(")[0]
    assert name in CALCS
    assert CALCS[name].usage() == usage


def test_nothing_is_declared_outside_the_contract():
    assert set(CALCS) == set(NAMES)


def test_each_function_has_an_example():
    assert set(EXAMPLES) == set(NAMES)


@pytest.mark.parametrize("name", [name for name in CALCS if name not in ("RIG.REFUSAL", "RIG.WORKING")])
def test_an_example_stands_in_the_docstring_and_reads_as_what_is_called(name):
    wrapped = getattr(inspect.getmodule(CALCS[name].function), CALCS[name].function.__name__)
    assert f"Example: {example(name)}" in wrapped.__doc__
    called = parse(f"={example(name)}")
    assert called.calc is CALCS[name]
    assert len(called.parts) == len(EXAMPLES[name])
    for part, given in zip(called.parts, EXAMPLES[name]):
        if isinstance(given, NamedRange):
            assert part.written == given.name
            continue
        rows = part.written.strip("{}").split("|")
        taken = [[float(cell) for cell in row.split(";")] for row in rows] if part.kind == "other" else part.value
        assert taken == ([list(row) for row in given] if isinstance(given, tuple) else given)


def test_the_example_of_a_cell_and_of_none():
    assert example("RIG.WORKING") == "RIG.WORKING(A1)"
    assert example("RIG.CHECK") == 'RIG.CHECK("rope"; 7; 8; 11; "mm")'
    assert example("RIG.BEND.ROPE") == "RIG.BEND.ROPE(1.5; 2; {1;0.5|2;1})"
    assert example("RIG.NOT.THERE") == ""


@pytest.mark.parametrize("name", CALCS)
def test_the_example_gives_a_result(name):
    result = CALCS[name].call(*EXAMPLES[name])
    assert isinstance(result, (float, str, tuple))


@pytest.mark.parametrize("name", [name for name in CALCS if not CALCS[name].rest])
def test_called_from_python_it_takes_arguments_by_name_too(name):
    declared = CALCS[name]
    wrapped = getattr(inspect.getmodule(declared.function), declared.function.__name__)
    named = dict(zip((argument.name for argument in declared.arguments), EXAMPLES[name]))
    assert wrapped(**named) == wrapped(*EXAMPLES[name]) == declared.call(*EXAMPLES[name])


@pytest.mark.parametrize("name", CALCS)
def test_docstring_and_signature_agree(name):
    declared = CALCS[name]
    wrapped = getattr(inspect.getmodule(declared.function), declared.function.__name__)
    signature = inspect.signature(declared.function)
    assert list(signature.parameters) == [argument.name for argument in declared.arguments]
    for argument in declared.arguments:
        assert f"{argument.name}: {describe(argument)}" in wrapped.__doc__
    for part in ("Formula: ", "Limits: ", "Errors: ", "Source: ", declared.usage()):
        assert part in wrapped.__doc__


CELLS = {BadInput: "Err:502", NoSolution: "Err:523", NotInTable: "#N/A"}


def raised(function, seen=None):
    """What a function raises by itself, and by what it calls of ours."""
    seen = set() if seen is None else seen
    seen.add(function)
    found = set()
    for part in ast.walk(ast.parse(textwrap.dedent(inspect.getsource(function)))):
        if isinstance(part, ast.Raise) and isinstance(part.exc, ast.Call):
            found.add(eval(ast.unparse(part.exc.func), function.__globals__))
        if isinstance(part, ast.Call):
            called = eval(ast.unparse(part.func), function.__globals__) if _is_global(part, function) else None
            called = called.calc.function if hasattr(called, "calc") else called
            ours = inspect.isfunction(called) and called.__module__ in OF_CALCS
            found |= raised(called, seen) if ours and called not in seen else set()
    return found


def _is_global(call, function):
    return isinstance(call.func, ast.Name) and call.func.id in function.__globals__


OF_CALCS = {calc.function.__module__ for calc in CALCS.values()} | {"loftsheet.stubs", "loftsheet.smallest"}


@pytest.mark.parametrize("name", CALCS)
def test_docstring_names_the_errors_that_it_raises(name):
    declared = CALCS[name]
    by_group = {BadInput} if declared.together else set()
    due = {CELLS[error] for error in raised(declared.function) | by_group}
    assert due <= {cell for cell in CELLS.values() if cell in declared.errors}, due
    assert " refused" not in declared.limits, "what is refused stands under Errors"
    assert "Err:" not in declared.limits


FUNCTIONS_OF_MATHS = {"sin", "cos", "tan", "asin", "atan", "atan2", "exp", "ln", "max"}


@pytest.mark.parametrize("name", CALCS)
def test_docstring_defines_every_symbol_of_its_formula(name):
    """A letter, a word in capitals or with an underscore: an argument, or the formula says what it is."""
    declared = CALCS[name]
    plain = re.sub(r"RIG(\.[A-Z]+)+|8\.314e-3|'s\b", "", declared.formula)
    symbols = set(re.findall(r"\b(?:[A-Za-zα-ω]|[A-Z]{2,}|\w+_\w+)\b", plain)) - {"a", "π"}
    symbols |= set(re.findall(r"\b[a-z_]+(?=\()", plain)) - FUNCTIONS_OF_MATHS
    known = {argument.name for argument in declared.arguments}
    defined = {symbol for symbol in symbols if re.search(rf"\b{symbol} (=|is|from|the) ", plain)}
    assert symbols <= known | defined, symbols - known - defined


WITHOUT_SOURCE = re.compile(r"(geometry|statics|definition|none needed)[^;:,]*\.")


@pytest.mark.parametrize("name", CALCS)
def test_source_is_named_and_a_default_has_one_or_is_assumed(name):
    declared = CALCS[name]
    assert "published" not in declared.source, "say where"
    assert "common practice" not in declared.source.replace("common practice, no source", "")
    if any(argument.default for argument in declared.arguments):
        assert not WITHOUT_SOURCE.fullmatch(declared.source), declared.source


@pytest.mark.parametrize("name", CALCS)
def test_each_name_in_backquotes_is_an_argument(name):
    declared = CALCS[name]
    text = " ".join((declared.summary, declared.formula, declared.limits))
    quoted = set(text.split("`")[1::2])
    assert quoted <= {argument.name for argument in declared.arguments}


@pytest.mark.parametrize("name", CALCS)
def test_it_says_in_the_wizard_what_each_argument_is(name):
    for argument in CALCS[name].arguments:
        shown = describe(argument)
        assert shown.split(": ", 1)[1]
        assert (not argument.required) == ("left out" in shown or argument.quantity.form.name == "rest")
        assert argument.required == ("must be given" in shown)


@pytest.mark.parametrize("name", CALCS)
def test_each_function_is_a_straight_line_of_named_steps_with_units(name):
    function = CALCS[name].function
    body = ast.parse(textwrap.dedent(inspect.getsource(function))).body[0].body
    docstring, *lines, last = body
    assert isinstance(docstring, ast.Expr)
    assert isinstance(docstring.value, ast.Constant)
    assigned = []
    for line in lines:
        if isinstance(line, ast.If):
            assert [type(inner) for inner in line.body] == [ast.Raise], f"line {line.lineno}: only raise after if"
            assert line.orelse == []
        else:
            assert isinstance(line, ast.Assign), f"line {line.lineno} is neither a step nor a refusal"
            assert [type(target) for target in line.targets] == [ast.Name]
            assigned.append(line.targets[0].id)
    assert len(assigned) == len(set(assigned)), "a step is given twice"
    assert not set(assigned) & set(inspect.signature(function).parameters), "an argument is given anew"
    assert isinstance(last, ast.Return)
    assert isinstance(last.value, ast.Name)
    assert last.value.id in assigned
    for step in steps(function):
        assert step.unit in UNITS, f"{step.name} has the unit {step.unit!r}"


@pytest.mark.parametrize("name", CALCS)
def test_the_step_returned_has_the_unit_of_the_result(name):
    declared = CALCS[name]
    returned = ast.parse(textwrap.dedent(inspect.getsource(declared.function))).body[0].body[-1].value.id
    (unit,) = (step.unit for step in steps(declared.function) if step.name == returned)
    allowed = {"text": {"text"}, "matrix": {"rows", "mm"}}
    plain = {declared.result.unit} if declared.result.unit else {"ratio", "-", "number"}
    assert unit in allowed.get(declared.result.form.name, plain)


def declare(name="RIG.SOME.THING", docstring="", group="Test", **annotations):
    """Declare a function of two arguments, spoilt in one way, and forget it again."""

    def function(rod, bevel):
        return rod

    function.__annotations__ = {"rod": Rod, "bevel": Bevel, "return": Millimetres, **annotations}
    function.__doc__ = docstring or "A thing.\n\nFormula: rod\nLimits: none.\nSource: geometry."
    try:
        return calc(name, group)(function)
    finally:
        CALCS.pop(name, None)


def test_a_right_declaration_is_taken():
    assert declare()(40.0, 10.0) == 40.0


@pytest.mark.parametrize(
    "name", ["RIG.SHORT", "RIG.STRING", "RIG.Thing", "TANG.FACE", "RIG", "RIG.A_B", "RIG.A1", "RIG..A", "RIG.A."]
)
def test_a_name_that_cannot_be_stored_is_refused(name):
    with pytest.raises(TypeError):
        declare(name)


def test_a_name_declared_twice_is_refused_and_the_first_one_stays():
    first = CALCS["RIG.TANG.FACE"]
    source = "A thing.\n\nFormula: rod\nLimits: none.\nSource: geometry."

    def function(rod: Rod) -> Millimetres:
        return rod

    function.__doc__ = source
    with pytest.raises(TypeError, match="declared twice"):
        calc("RIG.TANG.FACE", "Test")(function)
    assert CALCS["RIG.TANG.FACE"] is first


def test_a_name_that_a_cell_would_store_like_another_is_refused():
    # RIG.TANG.FACE is stored as TANGFACE.
    with pytest.raises(TypeError, match="declared twice"):
        declare("RIG.TANGFACE")


@pytest.mark.parametrize("missing", ["Formula", "Limits", "Source", "first sentence"])
def test_a_docstring_that_lacks_a_part_is_refused(missing):
    parts = {"first sentence": "A thing.\n", "Formula": "rod", "Limits": "none.", "Source": "geometry."}
    text = "\n".join(
        words if part == "first sentence" else f"{part}: {words}"
        for part, words in parts.items()
        if part != missing
    )
    with pytest.raises(TypeError, match=missing):
        declare(docstring=text)


@pytest.mark.parametrize("annotation", [float, Any, Annotated[float, "mm"], Optional[float]])
def test_an_argument_without_a_quantity_is_refused(annotation):
    with pytest.raises(TypeError, match="Quantity"):
        declare(rod=annotation)


def written(text):
    """Declare what a source text says, as a module would, and forget it again."""
    space = {
        "calc": calc,
        "Rod": Rod,
        "Rope": Rope,
        "Bevel": Bevel,
        "Millimetres": Millimetres,
        "Optional": Optional,
    }
    before = set(CALCS)
    try:
        exec(text, space)
        return {name: CALCS[name] for name in set(CALCS) - before}
    finally:
        for name in set(CALCS) - before:
            del CALCS[name]


DOCSTRING = '"""A thing.\n\n    Formula: rod\n    Limits: none.\n    Source: geometry.\n    """'


@pytest.mark.parametrize("keyword", ["set", "out", "string", "any", "default"])
def test_an_argument_named_like_a_word_of_the_interface_language_is_refused(keyword):
    with pytest.raises(TypeError, match=keyword):
        written(f'@calc("RIG.SOME.THING", "Test")\ndef f({keyword}: Rod) -> Millimetres:\n    {DOCSTRING}\n')


def test_a_whole_number_as_default_is_refused():
    with pytest.raises(TypeError, match="float"):
        written(f'@calc("RIG.SOME.THING", "Test")\ndef f(rod: Rod = 1) -> Millimetres:\n    {DOCSTRING}\n')


def test_a_default_outside_its_own_limits_is_refused():
    with pytest.raises(BadInput, match="rod"):
        written(f'@calc("RIG.SOME.THING", "Test")\ndef f(rod: Rod = -1.0) -> Millimetres:\n    {DOCSTRING}\n')


def test_a_group_of_an_argument_that_is_not_there_is_refused():
    with pytest.raises(TypeError, match="group"):
        written(
            '@calc("RIG.SOME.THING", "Test", together=[("rope",)])\n'
            f"def f(rod: Rod) -> Millimetres:\n    {DOCSTRING}\n"
        )


def test_a_refused_declaration_leaves_nothing_behind():
    before = dict(CALCS)
    with pytest.raises(TypeError):
        declare("RIG.SHORT")
    assert before == CALCS


def test_names_of_the_interface_are_in_camel_case():
    found = CALCS["RIG.STAY.LENGTH"]
    assert found.uno_name == "stayLength"
    assert [argument.uno_name for argument in found.arguments][:2] == ["upperFore", "upperOut"]


@pytest.mark.parametrize("name", CALCS)
def test_names_of_the_interface_have_no_underscore_and_do_not_clash(name):
    declared = CALCS[name]
    names = [argument.uno_name for argument in declared.arguments]
    assert len(names) == len({one.lower() for one in names})
    assert all(one.isidentifier() and "_" not in one for one in [declared.uno_name, *names])
    assert not {one.lower() for one in [declared.uno_name, *names]} & registry.UNOIDL_KEYWORDS


def test_half_a_group_is_refused():
    text = (
        '@calc("RIG.SOME.THING", "Test", together=[("rope", "bevel")])\n'
        f"def f(rod: Rod, rope: Optional[Rope] = None, bevel: Optional[Bevel] = None) -> Millimetres:\n"
        f"    {DOCSTRING}\n    return rod\n"
    )
    (declared,) = written(text).values()
    assert declared.call(40.0) == 40.0
    assert declared.call(40.0, 9.0, 10.0) == 40.0
    for half in ((40.0, 9.0), (40.0, None, 10.0)):
        with pytest.raises(BadInput, match="belong together"):
            declared.call(*half)


def test_too_many_arguments_are_refused():
    with pytest.raises(BadInput, match="takes 2 arguments, 3 were given"):
        CALCS["RIG.TANG.FACE"].call(40.0, 10.0, 1.0)


def test_a_refusal_says_which_argument_what_was_given_and_what_is_allowed():
    with pytest.raises(BadInput) as refused:
        CALCS["RIG.TANG.FACE"].call("500 mm", 10.0)
    for part in ("rod", "diameter of the rod", "500 mm", "300 mm"):
        assert part in str(refused.value)


@pytest.mark.parametrize(
    "name, given, words",
    [
        (
            "RIG.TANG.FACE",
            (500.0, 10.0),
            "rod (diameter of the rod): got 500 mm; must be above 0",
        ),
        ("RIG.TANG.FACE", ("500 mm", 10.0), 'rod (diameter of the rod): got "500 mm"; must be'),
        (
            "RIG.TAPER",
            (720.0, 1.5),
            "share (tapered part of the buried tail, at its tip): got 1.5",
        ),
        ("RIG.ROD.WRAP", (50.0, 12.0, 7.5), "got 7.5; must be a whole number from 5 to 361"),
        ("RIG.BURY", (10.0, 30.0), "got 30; must be 45 to 150; a shorter bury creeps out"),
        ("RIG.READ", (9.0, "mm"), "9 was given where a text is due"),
        ("RIG.READ", (((9.0,),), "mm"), "a range of cells was given where a text is due"),
        ("RIG.READ", (True, "mm"), "1 was given where a text is due"),
        ("RIG.TANG.FACE", (50.0,), "bevel (bevel of the bevelled face, from square) is missing"),
    ],
)
def test_the_very_words_of_a_refusal(name, given, words):
    with pytest.raises(BadInput) as refused:
        CALCS[name].call(*given)
    assert words in str(refused.value)


def test_the_very_words_of_a_docstring():
    assert face.__doc__.splitlines() == [
        "Height of the bevelled face of the stub.",
        "",
        "Formula: face = rod / cos(bevel)",
        "Limits: plane cut.",
        "Errors: Err:502 (BadInput) for an argument that is missing, of the wrong kind or not allowed.",
        "Source: geometry of a mitre.",
        "",
        "RIG.TANG.FACE(rod; bevel)",
        "    rod: mm: diameter of the rod (a number above 0 and up to 300 mm), must be given",
        "    bevel: °: bevel of the bevelled face, from square (a number from 0 to 35 °), must be given",
        "    gives: mm: a length",
        "Example: RIG.TANG.FACE(65; 12.3)",
    ]
    assert "Errors: none.\n" in version.__doc__
    assert (
        "    diameters: number: tail buried, in rope diameters (a number from 45 to 150), 72 if left out"
        in bury.__doc__
    )


def test_a_table_is_read_row_by_row_and_keeps_its_texts():
    table = Quantity("rows", form=TABLE)
    assert table.read((("a", 1), ("", None), (2.5, "3/8 in"))) == (("a", 1.0), ("", ""), (2.5, "3/8 in"))
    assert table.read("a") == (("a",),)
    assert table.read(("a", 2)) == (("a",), (2.0,))
    for wrong in (True, float("nan"), float("inf"), object()):
        with pytest.raises(BadInput, match="a cell of the range holds"):
            table.read(((1.0, wrong),))


def test_a_range_is_read_in_reading_order_and_keeps_its_blank_cells():
    column = Quantity("sizes", measure.LENGTH, 0.0, 100.0, form=COLUMN)
    assert column.read(((1.0, ""), ("1/2 in", None))) == (1.0, None, 12.7, None)
    assert column.read(6.0) == (6.0,)
    # A single row may come without the brackets of its row.
    assert column.read((6.0, "", None, "1/2 in")) == (6.0, None, None, 12.7)
    assert column.read([[6.0], 7.0]) == (6.0, 7.0)


@pytest.mark.parametrize("least, allowed", [(0, "from 0"), (5, "from 5"), (None, "above 0")])
def test_what_is_allowed_is_said_in_words(least, allowed):
    quantity = length("size", most=9) if least is None else length("size", least=least, most=9)
    assert allowed in quantity.allowed()
    assert quantity.allowed().endswith("9 mm")


def test_a_quantity_without_limits_says_only_its_kind():
    assert Quantity("ends", measure.LENGTH).allowed() == "a number"
    assert Quantity("ends", measure.COUNT, whole=True).allowed() == "a whole number"


def test_a_name_that_is_no_argument_is_a_mistake_of_the_caller():
    with pytest.raises(TypeError, match="girth"):
        face(40.0, girth=10.0)
    with pytest.raises(TypeError, match="rod"):
        face(40.0, rod=10.0)


def test_a_result_that_is_not_finite_is_refused():
    text = (
        '@calc("RIG.SOME.THING", "Test")\n'
        f"def f(rod: Rod) -> Millimetres:\n    {DOCSTRING}\n    return rod * 1e308 * 1e308\n"
    )
    (declared,) = written(text).values()
    with pytest.raises(BadInput, match="too large"):
        declared.call(40.0)


def test_the_three_refusals_are_told_apart():
    kinds = (BadInput, NoSolution, NotInTable)
    assert all(not issubclass(one, other) for one in kinds for other in kinds if one is not other)
