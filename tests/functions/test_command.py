"""A function from the terminal: plain numbers out, or one line with the reason and exit code 2."""

import io
import subprocess
import sys
from pathlib import Path

import loftsheet
import pytest
from hypothesis import given
from hypothesis import strategies as st
from loftsheet import CALCS
from loftsheet.command import HOW_TO, call, main
from loftsheet.examples import EXAMPLES
from loftsheet.forms import NUMBER


def as_word(argument):
    """An argument as it is typed on a command line."""
    if argument is None:
        return ""
    if isinstance(argument, tuple):
        return "|".join(";".join(as_word(cell) for cell in row) for row in argument)
    return argument if isinstance(argument, str) else repr(argument)


@pytest.mark.parametrize("name", [name for name in CALCS if name not in ("RIG.REFUSAL", "RIG.WORKING")])
def test_each_function_gives_its_number_from_the_terminal(name):
    result = CALCS[name].call(*EXAMPLES[name])
    text, code = call([name, *map(as_word, EXAMPLES[name])])
    assert code == 0
    if isinstance(result, float):
        assert float(text) == result
    elif isinstance(result, str):
        assert text == result
    else:
        rows = [line.split("\t") for line in text.split("\n")]
        assert [len(row) for row in rows] == [len(row) for row in result]
        flat = [(cell, given) for row, line in zip(result, rows) for cell, given in zip(row, line)]
        assert all(given == cell if isinstance(cell, str) else float(given) == cell for cell, given in flat)


def test_a_whole_number_has_no_point_and_a_broken_one_all_its_digits():
    assert call(["RIG.BURY", "9"]) == ("648", 0)
    assert call(["RIG.BURY", "9.5", "45.5"]) == ("432.25", 0)
    assert call(["RIG.SPREADER.RISE", "0", "0"]) == ("0", 0)
    assert call(["RIG.MAST.FORE", "0", "2", "-0"]) == ("0", 0), "no minus before a zero"


def test_a_name_that_is_like_others_is_answered_with_five_of_them_and_a_strange_one_with_how_to():
    known = call(["RIG.TANG.WEIGHT", "9"])[0].split("close to it: ")[1].split(", ")
    assert len(known) == 5 and set(known) <= set(CALCS)
    assert call(["BERRY", "9"])[0].endswith(HOW_TO)


def test_names_in_any_case():
    assert call(["rig.bury", "9"]) == ("648", 0)


def test_words_with_units_and_left_out_arguments():
    assert call(["RIG.BURY", "1/2 in", "50"]) == ("635", 0)
    assert call(["RIG.BURY", "9", ""]) == ("648", 0)


@pytest.mark.parametrize("minus", ["-", "−"])
def test_a_word_that_starts_with_a_minus_is_a_value(minus):
    along, rake = 9_000.0, -2.0
    assert call(["RIG.MAST.FORE", "9000", f"{minus}2"]) == (repr(CALCS["RIG.MAST.FORE"].call(along, rake)), 0)


@pytest.mark.parametrize(
    "word, read",
    [
        ("9", 9.0),
        ("-9.5", -9.5),
        ("−9.5", -9.5),
        (".5", 0.5),
        ("1e3", 1000.0),
        ("", None),
        ("12,5", "12,5"),
        ("12 mm", "12 mm"),
        ("nan", "nan"),
        ("inf", "inf"),
        ("1_000", "1_000"),
        ("６", "６"),
        ("6;8|;10", ((6.0, 8.0), ("", 10.0))),
        ("6|8|10", ((6.0,), (8.0,), (10.0,))),
        ("6; 8", ((6.0, 8.0),)),
        ("a;b", "a;b"),
        ("a;1", "a;1"),
    ],
)
def test_how_a_word_is_read(word, read):
    assert NUMBER.from_word(word) == read


def test_a_text_argument_stays_a_text():
    assert call(["RIG.CHECK", "7", "6", "9", "", "mm"]) == ("7: 6 mm is 3 mm below 9 mm", 0)


@pytest.mark.parametrize(
    "words, parts",
    [
        (["RIG.BURY", "0"], ["got 0 mm", "must be above 0 and up to 100 mm"]),
        (["RIG.BURY"], ["rope", "missing"]),
        (["RIG.BURY", "9", "72", "1"], ["takes 2 arguments", "3 were given"]),
        (["RIG.BURY", "12,5"], ["12,5", "without a unit", "mm"]),
        (["RIG.BURY", "6;8"], ["range of cells"]),
        (["RIG.BURY", "1e400"], ["got inf mm"]),
        (["RIG.BURI", "9"], ["RIG.BURI", "RIG.BURY"]),
        (["xyzzy"], ["xyzzy", "RIG.BURY 8"]),
        ([], ["RIG.BURY 8"]),
        (["--working"], ["RIG.BURY 8"]),
        (["RIG.WORKING", "9"], ["where a cell is due"]),
        (["RIG.BURY", "9\n8"], ["9 8"]),
    ],
)
def test_bad_input_is_one_line_on_the_error_stream(words, parts, capsys):
    assert main(words) == 2
    out, error = capsys.readouterr()
    assert out == ""
    assert error.count("\n") == 1
    for part in parts:
        assert part in error


def test_a_stream_that_names_no_encoding(monkeypatch):
    stream = io.StringIO()
    monkeypatch.setattr(sys, "stdout", stream)
    assert main(["RIG.BURY", "9"]) == 0
    assert (stream.encoding, stream.getvalue()) == (None, "648\n")


def test_a_result_is_on_the_output_stream(capsys):
    assert main(["RIG.BURY", "9"]) == 0
    assert capsys.readouterr() == ("648\n", "")


@pytest.mark.parametrize("words", [["--working", "RIG.BURY", "9"], ["RIG.BURY", "--working", "9"]])
def test_the_working_on_demand(words):
    text, code = call(words)
    assert code == 0
    assert text.splitlines()[0] == CALCS["RIG.BURY"].usage()
    assert "Result: 648 mm" in text


def test_the_working_of_a_refused_call():
    text, code = call(["--working", "RIG.BURY", "0"])
    assert code == 2
    assert "Refused: " in text


@given(st.sampled_from(sorted(CALCS)), st.lists(st.text(max_size=12), max_size=5))
def test_no_words_make_it_fail(name, words):
    for flags in ([], ["--working"]):
        text, code = call([*flags, name, *words])
        assert text
        assert code in (0, 2)


def test_a_terminal_that_lacks_a_sign_gets_a_stand_in():
    code = "import sys; from loftsheet.command import main; sys.exit(main(sys.argv[1:]))"
    done = subprocess.run(
        [sys.executable, "-X", "utf8=0", "-c", code, "--working", "RIG.STAY.PULL", "0", "0", "9", "3", "1", "0"],
        cwd=Path(loftsheet.__file__).parent.parent,
        env={"PYTHONIOENCODING": "ascii", "PATH": ""},
        capture_output=True,
        timeout=60,
    )
    assert done.returncode == 0
    assert b"Traceback" not in done.stderr
    assert b"Result: " in done.stdout
