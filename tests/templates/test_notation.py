"""The notation of formulas and messages: what it stands for, and that a wrong name is refused where it stands."""

from dataclasses import replace

import pytest

from templates import checks
from templates.notation import Names, WrongName, in_row, stored
from templates.schedule import (
    DANGER,
    FIX,
    WEIGH,
    Group,
    Item,
    Page,
    Rule,
    Sheet,
    Table,
    calculated,
    choice,
    name_and_check,
    number,
    text,
)

SIZE = "INDEX(rope_size;MATCH([rope];rope_name;0))"
UNREAD_SIZE = f'IF(ISTEXT({SIZE});RIG.READ({SIZE};"mm");IF(ISBLANK({SIZE});NA();{SIZE}))'
READ_SIZE = f"IFERROR(AVERAGE({SIZE});{UNREAD_SIZE})"
TYPED = 'IF(ISTEXT([length]);RIG.READ([length];"mm");IF(ISBLANK([length]);NA();[length]))'


def ropes(*columns, **more):
    return Table(
        "rope",
        "Ropes",
        (
            *name_and_check("Rope", "which"),
            number("size", "Size", "mm", 1, 60, "diameter", required=True),
            number("ratio", "Ratio", "EA / breaking load", 5, 100, "stiffness"),
            text("source", "Source", "where from"),
            choice("maker", "Maker", "maker_name", "who made it"),
            *columns,
        ),
        **more,
    )


def stays(*columns, **more):
    return Table(
        "stays",
        "Stays",
        (
            *name_and_check("Stay", "which"),
            choice("rope_own", "Rope, override", "rope_name", "if another"),
            number("length", "Length", "mm", 100, 40000, "measured"),
            calculated("rope", "Rope", "", 'IF([rope_own]="";boat_rope;[rope_own])', "used", choices="rope_name"),
            calculated("margin", "Safety factor", "", "1", "of the rope"),
            *columns,
        ),
        named_by={"stub": ("tangs_stay",)},
        **more,
    )


def tangs():
    stay = choice("stay", "Stay", "stays_name", "whose eye lies on it")
    return Table(
        "tangs", "Stubs", (*name_and_check("Stub", "which"), stay, calculated("rod", "Rod", "mm", "1", ""))
    )


def makers():
    return Table("maker", "Makers", (*name_and_check("Maker", "who"), text("town", "Town", "where")))


BOAT = Sheet("Boat", "", groups=(Group("", (Item("rope", "Rope"), Item("margin", "Margin", least=2, most=9))),))
PAGE = Page("bench", Item("stay", "Stay", choices="stays_name"), (Item("cut", "Cut", formula="[stay.margin]"),))


def book(*tables):
    return Names(
        [Sheet("Tables", "", tables or (ropes(), stays(), tangs(), makers())), BOAT, Sheet("", "", page=PAGE)]
    )


def formula(written, table=None):
    return book().formula(written, table or stays())


@pytest.mark.parametrize(
    ("written", "due"),
    [
        ("[margin]+1", "[margin]+1"),
        ("[length]", TYPED),
        ('IF([length]="";0;[length])', f'IF([length]="";0;{TYPED})'),
        ('[length] <> ""', '[length]<>""'),
        ("ISBLANK([length])", "ISBLANK([length])"),
        ("[rope.size]", READ_SIZE),
        ('[rope.size]=""', f'{SIZE}=""'),
        ("[rope.source]", SIZE.replace("rope_size", "rope_source")),
        (
            "[rope.maker.town]",
            "INDEX(maker_town;MATCH(INDEX(rope_maker;MATCH([rope];rope_name;0));maker_name;0))",
        ),
        ("[stub.rod]", "INDEX(tangs_rod;MATCH([name];tangs_stay;0))"),
        ("[rope.state]", SIZE.replace("rope_size", "rope_state")),
        ("SUM(stays_margin)/boat_margin", "SUM(stays_margin)/boat_margin"),
        ('"[margin] is no cell in a text"', '"[margin] is no cell in a text"'),
        ('IF([margin]="a ""quoted"" word";\n    1;\n    2)', 'IF([margin]="a ""quoted"" word";1;2)'),
    ],
)
def test_what_a_formula_stands_for(written, due):
    assert formula(written) == due


def test_an_input_without_a_unit_is_an_error_while_it_is_blank():
    ratio = "INDEX(rope_ratio;MATCH([rope];rope_name;0))"
    assert formula("[rope.ratio]") == f"IFERROR(AVERAGE({ratio});IF(ISBLANK({ratio});NA();{ratio}))"


def test_a_row_of_the_same_name_in_another_table():
    assert formula("[rope.source]", makers()) == "INDEX(rope_source;MATCH([name];rope_name;0))"


def test_a_row_that_names_one_that_was_looked_up():
    assert formula("[stay.stub.rod]", tangs()) == "INDEX(tangs_rod;MATCH([stay];tangs_stay;0))"


def test_a_row_that_names_this_one_in_either_of_two_columns():
    table = replace(stays(), named_by={"stub": ("tangs_stay", "tangs_name")})
    row = "IFERROR(MATCH([name];tangs_stay;0);MATCH([name];tangs_name;0))"
    assert book(ropes(), table, tangs(), makers()).formula("[stub.rod]", table) == f"INDEX(tangs_rod;{row})"


def test_a_page_for_one_row_that_is_picked():
    assert book().formula("[stay.margin]", PAGE) == "INDEX(stays_margin;MATCH(bench_stay;stays_name;0))"


@pytest.mark.parametrize(
    ("written", "due"),
    [
        ("too thin", '"too thin"'),
        ("margin {margin:2} is low", '"margin "&FIXED([margin];2;TRUE())&" is low"'),
        ("{rope}", "[rope]"),
        ("{rope.source}!", f'{SIZE.replace("rope_size", "rope_source")}&"!"'),
        ("{boat_margin-[margin]:1} more", 'FIXED(boat_margin-[margin];1;TRUE())&" more"'),
        ("{[margin]-1} left", '([margin]-1)&" left"'),
        ('the "least"', '"the ""least"""'),
    ],
)
def test_what_a_message_stands_for(written, due):
    assert book().message(written, stays()) == due


def test_a_part_of_a_percent_is_not_said_to_be_nothing():
    assert book().message("{margin:%}", stays()) == (
        'IF(TEXT([margin];"0 %")="0 %";"less than 1 %";TEXT([margin];"0 %"))'
    )


WRONG = {
    "no such column": ("stays, cut: there is no [lenght]", calculated("cut", "Cut", "", "[lenght]", "")),
    "no such column there": (
        "stays, cut: [rope.sise]: rope has no sise",
        calculated("cut", "", "", "[rope.sise]", ""),
    ),
    "no such name": ("stays, cut: there is no name boat_rake", calculated("cut", "Cut", "", "boat_rake", "")),
    "nothing is picked there": (
        "stays, cut: [margin] names no row",
        calculated("cut", "Cut", "", "[margin.size]", ""),
    ),
}
WRONG_RULES = {
    "no such column in a condition": ("stays, rule thin: there is no [sise]", Rule("thin", WEIGH, "[sise]<1", "")),
    "no such column in the words": ("stays, rule thin: there is no [sise]", Rule("thin", WEIGH, "1", "{[sise]}")),
    "no such column to lead to": ("stays, rule thin: there is no [sise]", Rule("thin", WEIGH, "1", "", "sise")),
    "no such form": ("stays, rule thin: a number is shown with", Rule("thin", WEIGH, "1", "{margin:2f}")),
}


@pytest.mark.parametrize("wrong", WRONG)
def test_a_wrong_name_is_refused_with_its_table_and_column(wrong):
    words, column = WRONG[wrong]
    with pytest.raises(WrongName) as refused:
        book(ropes(), stays(column), tangs(), makers()).check()
    assert str(refused.value).startswith(words)


@pytest.mark.parametrize("wrong", WRONG_RULES)
def test_a_rule_that_names_what_is_not_there_is_refused(wrong):
    words, rule = WRONG_RULES[wrong]
    with pytest.raises(WrongName) as refused:
        book(ropes(), stays(rules=(rule,)), tangs(), makers()).check()
    assert str(refused.value).startswith(words)


def test_a_sound_book_is_taken():
    book().check()


def test_the_cells_of_a_row():
    letters = {"name": "A", "length": "E"}
    assert in_row('IF([name]="[length]";[length])', letters, 7) == 'IF(A7="[length]";E7)'


def test_our_functions_by_their_stored_names():
    assert stored("RIG.TANG.BEVEL([angle];boat_extra)") == "ORG.LOFTSHEET.RIG.TANGBEVEL([angle];boat_extra)"


def test_a_rule_says_how_bad_where_what_and_what_to_do():
    thin = Rule("thin", DANGER, "[margin]<1", "margin {margin:2}", "margin", "take more")
    said = checks.complaint(thin, stays(), book())
    words = '"⟦danger stays.thin margin⟧danger: margin "&FIXED([margin];2;TRUE())&": take more"'
    assert said == f'IFERROR(IF([margin]<1;{words};"");"")'
    needed = Rule("none", FIX, '[length]=""', "type it", "length")
    assert '"⟦fix stays.none length⟧fix Length: type it"' in checks.complaint(needed, stays(), book())
