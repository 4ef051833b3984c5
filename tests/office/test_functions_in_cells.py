"""The functions in cells of a real office: the same numbers, refusals and texts as in pure Python."""

import zipfile

import pytest
from loftsheet import CALCS
from loftsheet.examples import EXAMPLES
from loftsheet.registry import describe

from tests.office.cells import Raw, Refused, in_cell, outcome, pure, same, write

pytestmark = pytest.mark.office

# Its argument is a cell of the document; it has tests of its own.
IN_CELLS = {name: given for name, given in EXAMPLES.items() if name not in ("RIG.REFUSAL", "RIG.WORKING")}
ROWS_EACH = 40
functions = pytest.mark.parametrize("name", IN_CELLS)


@pytest.fixture(scope="module")
def document(running_office):
    opened = running_office.new()
    yield opened
    running_office.close(opened)


@pytest.fixture
def sheet(office, document):
    """An empty sheet of a document that all tests here share."""
    document.Sheets.insertNewByName("one", 0)
    yield document.Sheets.getByName("one")
    document.Sheets.removeByName("one")


def numbers(name):
    """The places of the arguments that are numbers, with what they are."""
    arguments = enumerate(CALCS[name].arguments)
    return [(at, one.quantity) for at, one in arguments if one.quantity.form.name == "number"]


def with_one(given, at, value):
    return (*given[:at], value, *given[at + 1 :])


@functions
def test_a_cell_shows_what_the_function_gives(sheet, name):
    due = pure(name, IN_CELLS[name])
    assert not isinstance(due, Refused)
    assert same(in_cell(sheet, name, IN_CELLS[name]), due)


@functions
def test_arguments_left_out_at_the_end_or_in_the_middle(sheet, name):
    given = IN_CELLS[name]
    shortened = [given[:length] for length in range(len(given))]
    forms = [argument.quantity.form.name for argument in CALCS[name].arguments]
    gaps = [with_one(given, at, None) for at in range(len(given) - 1) if forms[at : at + 1] != ["cell"]]
    for row, call in enumerate([*shortened, *gaps]):
        missing = missing_forms(name, call)
        # A missing cell is refused by Calc itself, before the function is asked.
        expected = Refused(504) if "cell" in missing else pure(name, call)
        assert same(outcome(write(sheet, name, call, row * ROWS_EACH)), expected), call
        assert not missing or expected in (Refused(502), Refused(504)), call


def missing_forms(name, call):
    """What kinds of argument a call lacks that it must have."""
    filled = (*call, *[None] * 20)
    return {
        argument.quantity.form.name
        for argument, one in zip(CALCS[name].arguments, filled)
        if argument.required and one is None
    }


@functions
def test_a_blank_cell_is_a_zero_and_never_the_default(sheet, name):
    for at, quantity in numbers(name):
        found = in_cell(sheet, name, with_one(IN_CELLS[name], at, Raw("$Z$1")))
        assert same(found, pure(name, with_one(IN_CELLS[name], at, 0.0))), at
        if quantity.least > 0:
            assert found == Refused(502), at


@functions
def test_a_range_is_refused_where_a_number_is_due(sheet, name):
    sheet.getCellRangeByName("Z1:Z3").DataArray = ((1.0,), (2.0,), (3.0,))
    for at, _ in numbers(name):
        assert in_cell(sheet, name, with_one(IN_CELLS[name], at, Raw("$Z$1:$Z$3"))) == Refused(502), at


@functions
def test_a_text_without_a_unit_is_refused_where_a_number_is_due(sheet, name):
    for at, _ in numbers(name):
        assert in_cell(sheet, name, with_one(IN_CELLS[name], at, Raw('"9"'))) == Refused(502), at


@functions
def test_a_number_may_be_a_text_with_its_unit(sheet, name):
    due = pure(name, IN_CELLS[name])
    for at, quantity in numbers(name):
        if at < len(IN_CELLS[name]) and quantity.unit in quantity.dimension.units:
            text = f"{IN_CELLS[name][at]!r} {quantity.unit}"
            assert same(in_cell(sheet, name, with_one(IN_CELLS[name], at, text)), due), text


def test_feet_and_inches_in_a_cell(sheet):
    """Exact by definition: an inch is 25.4 mm (NIST SP 811, Appendix B)."""
    ends = ("0 mm", "0 mm", "5 ft 3 in", "0 mm", "0 mm", "1 1/2 in")
    assert in_cell(sheet, "RIG.STAY.LENGTH", ends) == pytest.approx((63 - 1.5) * 25.4, rel=1e-12)


@pytest.mark.parametrize(
    ("formula", "shown"),
    [
        ("=ORG.LOFTSHEET.RIG.BURY(0)", "Err:502"),
        ("=ORG.LOFTSHEET.RIG.BURY(9;20)", "Err:502"),
        ("=ORG.LOFTSHEET.RIG.EYEREACH(20;40;9)", "Err:523"),
        ("=ORG.LOFTSHEET.RIG.ROPESIZE(Z1:Z2;Z1:Z2;99)", "#N/A"),
        ("=ORG.LOFTSHEET.RIG.BURY(1/0)", "#DIV/0!"),
        ("=SUM(ORG.LOFTSHEET.RIG.BURY(0);1)", "Err:502"),
        ("=SUM(ORG.LOFTSHEET.RIG.EYEREACH(20;40;9);1)", "Err:523"),
        ("=SUM(ORG.LOFTSHEET.RIG.ROPESIZE(Z1:Z2;Z1:Z2;99);1)", "#N/A"),
        ("=SUMPRODUCT((Z1:Z2=5)*1;Y1:Y2)", "Err:502"),
    ],
)
def test_a_refusal_is_an_error_that_sums_pass_on(sheet, formula, shown):
    sheet.getCellRangeByName("Z1:Z2").DataArray = ((5.0,), (6.0,))
    sheet.getCellRangeByName("Y2").Formula = "=ORG.LOFTSHEET.RIG.BURY(0)"
    sheet.getCellRangeByName("A1").Formula = formula
    assert sheet.getCellRangeByName("A1").String == shown


def test_index_takes_either_row_of_a_pair_out(sheet):
    bolts_and_rods = ((12.0, 1.75, 700.0, 450.0, 40.0), (14.0, 2.0, 700.0, 450.0, 50.0))
    sheet.getCellRangeByName("V1:Z2").DataArray = bolts_and_rods
    for load, shown in ((2, ["1", "1"]), (5, ["2", "2"]), (200, ["Err:523", "Err:523"])):
        pair = f"ORG.LOFTSHEET.RIG.NEEDSTUB(V1:V2;W1:W2;X1:X2;Y1:Y2;Z1:Z2;9;12;14;14;{load};1.5)"
        for at, cell in enumerate(("A1", "B1"), 1):
            sheet.getCellRangeByName(cell).Formula = f"=INDEX({pair};1;{at})"
        assert [sheet.getCellRangeByName(cell).String for cell in ("A1", "B1")] == shown


def test_the_name_that_users_type_is_understood(sheet):
    cell = sheet.getCellRangeByName("A1")
    cell.Formula = "=RIG.BURY(10)"
    assert (cell.Value, cell.Formula) == (720.0, "=ORG.LOFTSHEET.RIG.BURY(10)")


def test_a_number_follows_the_cells_it_is_made_from(sheet):
    cell = sheet.getCellRangeByName("A1")
    cell.Formula = "=ORG.LOFTSHEET.RIG.BURY(B1)"
    sheet.getCellRangeByName("B1").Value = 10
    assert cell.Value == 720.0
    sheet.getCellRangeByName("B1").String = "8 mm"
    assert cell.Value == 576.0


def all_functions(office):
    """A document with a call of every function, and where each stands."""
    book = office.new()
    sheet = book.Sheets.getByIndex(0)
    rows = {name: at * ROWS_EACH for at, name in enumerate(IN_CELLS)}
    for name, row in rows.items():
        write(sheet, name, IN_CELLS[name], row)
    return book, rows


@pytest.mark.parametrize("ending", ["ods", "xlsx"])
def test_a_saved_file_keeps_formulas_and_values(office, tmp_path, ending):
    path = tmp_path / f"all.{ending}"
    book, rows = all_functions(office)
    office.store(book, path)
    office.close(book)

    again = office.load(path)
    office.recalculate(again)
    for name, row in rows.items():
        cell = again.Sheets.getByIndex(0).getCellByPosition(0, row)
        assert CALCS[name].stored_name in cell.Formula, name
        assert same(outcome(cell), pure(name, IN_CELLS[name])), name
    office.close(again)


def without_extension(office, bare_office, path):
    """What the cells of a saved file show where the extension is missing, beside what they are."""
    book, rows = all_functions(office)
    office.store(book, path)
    office.close(book)
    bare = bare_office.load(path)
    cells = {name: bare.Sheets.getByIndex(0).getCellByPosition(0, row) for name, row in rows.items()}
    found = {name: (cell.getError(), cell.DataArray[0][0]) for name, cell in cells.items()}
    bare_office.close(bare)
    return found


NAME_UNKNOWN = 525


def test_an_xlsx_keeps_its_values_where_the_extension_is_missing(office, office_without_extension, tmp_path):
    found = without_extension(office, office_without_extension, tmp_path / "all.xlsx")
    for name, (error, value) in found.items():
        due = pure(name, IN_CELLS[name])
        if CALCS[name].result.form.name != "matrix" and due != "":
            assert (error, same(value, due)) == (0, True), name


def test_an_ods_shows_no_other_number_where_the_extension_is_missing(office, office_without_extension, tmp_path):
    """Without a number format it keeps texts only, and shows #NAME? in place of numbers."""
    found = without_extension(office, office_without_extension, tmp_path / "all.ods")
    for name, (error, value) in found.items():
        assert error == NAME_UNKNOWN or same(value, pure(name, IN_CELLS[name])), name


@pytest.mark.parametrize(("ending", "member"), [("ods", "content.xml"), ("xlsx", "xl/worksheets/sheet1.xml")])
def test_files_hold_the_full_name(office, tmp_path, ending, member):
    """Later releases than 7.4 write into .xlsx the name that users type, which every release reads as well."""
    path = tmp_path / f"all.{ending}"
    book, rows = all_functions(office)
    office.store(book, path)
    office.close(book)
    with zipfile.ZipFile(path) as packed:
        content = packed.read(member).decode()
    typed = ending == "xlsx" and ">RIG." in content
    names = {name: name if typed else CALCS[name].stored_name for name in rows}
    assert [name for name in rows if f"{names[name]}(" not in content] == []


def test_a_template_opens_as_a_new_document(office, tmp_path):
    book = office.new()
    office.store(book, tmp_path / "empty.ots")
    office.close(book)
    opened = office.load(tmp_path / "empty.ots", AsTemplate=True)
    assert opened.getURL() == ""
    office.close(opened)


@pytest.fixture(scope="module")
def described(running_office):
    """What the Function Wizard knows, by function."""
    descriptions = running_office.create("com.sun.star.sheet.FunctionDescriptions")
    known = {}
    for at in range(descriptions.Count):
        values = {value.Name: value.Value for value in descriptions.getByIndex(at)}
        known[values["Name"]] = values
    return known


@pytest.mark.parametrize("name", CALCS)
def test_the_function_wizard_shows_every_text(described, name):
    calc, shown = CALCS[name], described[name]
    assert calc.summary in shown["Description"]
    arguments = [(one.Name, one.Description) for one in shown["Arguments"] or ()]
    assert arguments == [(one.name, describe(one)) for one in calc.arguments]
