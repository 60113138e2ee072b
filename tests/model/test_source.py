from __future__ import annotations

import re
from decimal import Decimal
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.errors import WitnessmarkError
from witnessmark.model import nodes
from witnessmark.model.diagnostics import Level, Place
from witnessmark.model.source import Document, read
from witnessmark.model.source_codes import SOURCE_CODES

Found = list[tuple[str, int, int]]


def reading(text: str | bytes) -> Document:
    return read("quay-crane/machine.yml", text if isinstance(text, bytes) else text.encode())


def found(text: str | bytes) -> Found:
    return [(p.code, p.line, p.column) for p in reading(text).problems]


def nested(levels: int) -> str:
    return "a: " + "[" * levels + "]" * levels + "\n"


BOMB = 'a: &a ["x"]\n' + "".join(
    f"{name}: &{name} [{', '.join([f'*{last}'] * 9)}]\n"
    for last, name in zip("abcdefgh", "bcdefghi", strict=True)
)

SLIPS: list[tuple[str, str | bytes, Found]] = [
    ("an empty file", "", [("WM008", 1, 1)]),
    ("comments only", "# nothing\n# yet\n", [("WM008", 1, 1)]),
    ("a document marker only", "---\n", [("WM008", 1, 1)]),
    ("a list at the top", "- a\n- b\n", [("WM009", 1, 1)]),
    ("a word at the top", "\nbushes\n", [("WM009", 2, 1)]),
    ("a second document", "a: 1\n---\nb: 2\n", [("WM010", 2, 1)]),
    ("text after the end mark", "a: 1\n...\nb: 2\n", [("WM010", 3, 1)]),
    ("a field twice", "a: 1\nb: 2\na: 3\n", [("WM005", 3, 1)]),
    ("a field twice further in", "a:\n  - b: 1\n    b: 2\n", [("WM005", 3, 5)]),
    ("one name in two spellings of Unicode", "é: 1\ne\u0301: 2\n", [("WM005", 2, 1)]),
    ("a number as a name", "a: x\n1: x\n", [("WM011", 2, 1)]),
    ("true as a name", "true: x\n", [("WM011", 1, 1)]),
    ("null as a name", "null: x\n", [("WM011", 1, 1)]),
    ("on as a name", "a: {on: x}\n", [("WM011", 1, 5)]),
    ("a list as a name", "? [a]\n: b\n", [("WM011", 1, 3)]),
    ("no name at all", "a: 1\n: b\n", [("WM011", 2, 1)]),
    ("a tab that sets in", "a:\n\tb: 1\n\tc: 2\n", [("WM018", 2, 1)]),
    ("a tab after spaces", "a:\n  - b: 1\n  \tc: 2\n", [("WM018", 3, 3)]),
    ("an invisible space that sets in", "a: x\n\u00a0\u00a0b: 1\n", [("WM019", 2, 1)]),
    ("a colon in prose", "a: 1\nwhy: Rebush: keep the shell\n", [("WM004", 2, 12)]),
    ("two colons in one text", "why: Rebush: keep: all\n", [("WM004", 1, 12)]),
    ("a colon at the end of a line", "why: We saw this:\n  a crack\n", [("WM004", 1, 17)]),
    ("a colon in a later line of prose", "why: We saw\n  then this: a crack\n", [("WM004", 2, 12)]),
    ("a colon in prose in braces", "a: {why: Rebush: keep, b: 1}\n", [("WM004", 1, 16)]),
    ("a hash in prose", "why: fit bearing #2 first\n", [("WM003", 1, 18)]),
    ("a hash and a space in prose", "why: fit bearing # 2 first\n", [("WM003", 1, 18)]),
    ("a hash after one word", "part: bearing #2\n", [("WM003", 1, 15)]),
    ("a hash inside braces", "a:\n  - {why: fit #2 first, b: 1}\n  - c\n", [("WM003", 2, 15)]),
    ("a hash within lines of prose", "why: fit\n  bearing #2\n  first\nb: c\n", [("WM003", 2, 11)]),
    ("a name starting with @", "by: @fitter\n", [("WM017", 1, 5)]),
    ("a text starting with *", "a: 1\nwhy: *very* worn\n", [("WM017", 2, 6)]),
    ("a word starting with *", "a: *x\n", [("WM017", 1, 4)]),
    ("a text starting with %", "a: %5\n", [("WM017", 1, 4)]),
    ("a text starting with a backtick", "a: `x` bolt\n", [("WM017", 1, 4)]),
    ("a text starting with &", "a: & sons\n", [("WM017", 1, 4)]),
    ("a text starting with >", "a: > 5 mm\n", [("WM017", 1, 4)]),
    ("a text starting with a dash", "a: - 5 mm\n", [("WM017", 1, 4)]),
    ("NO", "score: NO\n", [("WM006", 1, 8)]),
    ("yes", "score: yes\n", [("WM006", 1, 8)]),
    ("on", "score: on\n", [("WM006", 1, 8)]),
    ("n", "score: [n]\n", [("WM006", 1, 9)]),
    ("not a number", "a: .nan\n", [("WM029", 1, 4)]),
    ("no end", "a: -.INF\n", [("WM029", 1, 4)]),
    ("a number beyond every reader", "a: 1e999\n", [("WM029", 1, 4)]),
    ("an exponent of 5,000 digits", f"a: 1e{'9' * 5000}\n", [("WM029", 1, 4)]),
    ("5,000 digits", f"a: {'7' * 5000}\n", [("WM029", 1, 4)]),
    ("latin-1", "a: 1\nb: c\xe9\n".encode("latin-1"), [("WM022", 2, 5)]),
    ("UTF-16 with its mark", "a: b\n".encode("utf-16"), [("WM022", 1, 1)]),
    ("UTF-16 without its mark", "a: b\n".encode("utf-16-be"), [("WM022", 1, 1)]),
    ("a byte order mark inside", "a: b\ufeffc\n", [("WM026", 1, 5)]),
    ("NUL", "a: b\0c\n", [("WM024", 1, 5)]),
    ("the bell", "a: b\n\nb: \x07\n", [("WM024", 3, 4)]),
    ("a screen command", "a: \x1b[2J\n", [("WM024", 1, 4)]),
    ("a hidden NUL by its escape", 'a: "\\0"\n', [("WM024", 1, 4)]),
    ("turned reading", "by: x\u202ey\n", [("WM025", 1, 6)]),
    ("turned reading by its escape", 'a: "\\u202e"\n', [("WM025", 1, 4)]),
    ("a zero-width space", "a: z\u200bw\n", [("WM026", 1, 5)]),
    ("a private-use character", "a: \ue03a\n", [("WM026", 1, 4)]),
    ("a tag that runs code", "a: 1\nb: !!python/object:os.system x\n", [("WM016", 2, 4)]),
    ("any tag", "a: !foo 1\n", [("WM016", 1, 4)]),
    ("a tag on a group", "a: !!map {x: 1}\n", [("WM016", 1, 4)]),
    ("a bomb of aliases", BOMB, [("WM013", 1, 4), ("WM014", 2, 8)]),
    ("a list within itself", "a: &a [*a]\n", [("WM013", 1, 4), ("WM014", 1, 8)]),
    ("a merge key", "a: &b {x: 1}\nc:\n  <<: *b\n", [("WM013", 1, 4), ("WM015", 3, 3)]),
    ("33 levels", nested(32), [("WM028", 1, 35)]),
    ("900 levels", nested(900), [("WM028", 1, 35)]),
    ("40,000 list levels on one line", "- " * 40_000 + "a\n", [("WM028", 1, 65)]),
    ("20,001 values", f"a: [{'1,' * 20_000}]\n", [("WM023", 1, 39_999)]),
    ("a file of 3 MB", "a: " + "x" * 3_000_000, [("WM027", 1, 1)]),
    (
        "an unfinished merge",
        "a: 1\n<<<<<<< HEAD\nb: 1\n=======\nb: 2\n>>>>>>> x\n",
        [("WM020", 2, 1)],
    ),
    ("a bracket left open", "a: [1, 2\nb: 3\n", [("WM021", 1, 4)]),
    ("a brace left open", "a:\n  b: {x: 1, y: 2\n  c: 3\n", [("WM021", 2, 6)]),
    ("a quote left open", "a: 'x\nb: 2\n", [("WM021", 1, 4)]),
    ("a quote closed by the next one", 'a: "x\nb: "y"\n', [("WM021", 1, 4)]),
    ("text after a closing quote", "a: 'it's here'\n", [("WM021", 1, 4)]),
    ("text after a closing bracket", "a: [x] y\n", [("WM021", 1, 4)]),
    ("a name without a value", "{a, b: 1}\n", [("WM007", 1, 2)]),
    ("commas in prose in braces", "a: {why: worn, cracked, loose}\n", [("WM007", 1, 16)]),
    ("a field set in too far", "a: 1\n  b: 2\n", [("WM002", 2, 3)]),
    ("a field set in between", "a:\n  b: 1\n c: 2\n", [("WM002", 3, 2)]),
    ("a line that is no field", "a: 1\nand more\nb: 2\n", [("WM001", 2, 1)]),
    ("no space after a colon", "a:\n  b:1\n  c: 2\n", [("WM001", 2, 3)]),
    ("no space after a dash", "a: 1\n-b\n", [("WM001", 2, 1)]),
    ("a backslash that means nothing", 'a: "C:\\x"\n', [("WM001", 1, 7)]),
    ("a lone carriage return", "a: 1\rb: 2\r", [("WM024", 1, 5)]),
]


@pytest.mark.parametrize(("text", "expected"), [s[1:] for s in SLIPS], ids=[s[0] for s in SLIPS])
def test_every_slip_is_reported_once_at_its_own_place(text: str | bytes, expected: Found) -> None:
    assert expected == found(text)


@pytest.mark.parametrize("text", [s[1] for s in SLIPS], ids=[s[0] for s in SLIPS])
def test_every_message_is_whole_and_safe_to_print(text: str | bytes) -> None:
    said = [part for p in reading(text).problems for part in (p.message, p.why, p.fix)]
    assert not [s for s in said if not s or not s.replace("\n", "").isprintable()]


def test_every_code_but_the_reserved_one_is_met_by_a_slip() -> None:
    assert set(SOURCE_CODES) == {code for _, _, places in SLIPS for code, _, _ in places}


@pytest.mark.parametrize("code", SOURCE_CODES)
def test_codes_stay_in_their_own_range(code: str) -> None:
    assert re.fullmatch(r"WM0[0-2]\d", code)
    assert code not in ("WM000", "WM012")


READ_ON: list[tuple[str, str | bytes, object]] = [
    ("prose with a colon", "why: a: b: c\nb: 1\n", {"why": "a: b: c", "b": 1}),
    ("prose in braces", "a: {w: b: c, d: 1}\n", {"a": {"w": "b: c", "d": 1}}),
    ("a starting sign", "by: @x\nb: `y\nc: 1\n", {"by": "@x", "b": "`y", "c": 1}),
    ("a quote", "a: 'it's\nb: 2\n", {"a": "'it's", "b": 2}),
    ("a bracket", "a: [1, 2\nb: 2\n", {"a": "[1, 2", "b": 2}),
    ("a backslash", 'a: "C:\\x"\nb: 1\n', {"a": "C:\\x", "b": 1}),
    ("tabs", "a:\n\tb: 1\n\tc: 2\n", {"a": {"b": 1, "c": 2}}),
    ("the first of two", "a: 1\na: 2\nb: 3\n", {"a": 1, "b": 3}),
    ("the first document", "a: 1\n---\nb: 2\n", {"a": 1}),
    ("one side of a merge", "<<<<<<< a\nb: 1\n=======\nb: 2\n>>>>>>> x\nc: 3\n", {"b": 1, "c": 3}),
    ("tags", "a: !!python/object:os.system x\nb: !x {c: 1}\n", {"a": "x", "b": {"c": 1}}),
    ("anchors", "a: &x {b: 1}\nc: *x\n", {"a": {"b": 1}, "c": "*x"}),
    ("a bad byte", b"a: c\xe9\nb: 1\n", {"a": "c\ufffd", "b": 1}),
    ("a bad escape command", "a: \x1b[2J\nb: 1\n", {"a": "\ufffd[2J", "b": 1}),
    ("a line that is no field", "a: 1\nand more\nb: 2\n", {"a": 1, "b": 2}),
    ("names without values", "a: {w: worn, cracked, x: 1}\n", {"a": {"w": "worn", "x": 1}}),
    ("yes", "a: yes\nb: 1\n", {"a": "yes", "b": 1}),
    ("a long number", f"a: {'9' * 19}\n", {"a": "9" * 19}),
]


@pytest.mark.parametrize(
    ("text", "expected"), [r[1:] for r in READ_ON], ids=[r[0] for r in READ_ON]
)
def test_reading_goes_on_after(text: str | bytes, expected: object) -> None:
    assert expected == reading(text).data


def test_twenty_causes_in_one_file_are_all_reported() -> None:
    text = "".join(f"w{n}: Rebush: keep\n" for n in range(10, 30))
    expected = [("WM004", line, 12) for line in range(1, 21)]
    assert expected == found(text)


def test_a_line_without_a_colon_does_not_hide_the_ones_below() -> None:
    text = "a:\n  b:1\n  c: 2\n  d: @e\n"
    expected = {"a": {"c": 2, "d": "@e"}}
    assert expected == reading(text).data


def test_what_follows_from_a_field_set_in_too_far_is_not_reported_again() -> None:
    text = "a:\n  - id: b\n     kind: c\n    title: d\n    steps: {e: f}\n    note: @g\n"
    expected = [("WM002", 3, 6), ("WM017", 6, 11)]
    assert expected == found(text)


FINE: list[tuple[str, str | bytes, object]] = [
    ("octal", "a: 012\n", {"a": "012"}),
    ("base 60", "a: 1:30\n", {"a": "1:30"}),
    ("a clock", "a: 12:30\n", {"a": "12:30"}),
    ("underscores", "a: 1_000\n", {"a": "1_000"}),
    ("a date", "a: 2024-01-02\n", {"a": "2024-01-02"}),
    ("an exponent", "a: 1e3\n", {"a": Decimal(1000)}),
    ("18 digits", f"a: {'9' * 18}\n", {"a": 10**18 - 1}),
    ("carriage returns and no last newline", "a: b\r\nc: d", {"a": "b", "c": "d"}),
    ("a byte order mark at the start", b"\xef\xbb\xbfa: b\n", {"a": "b"}),
    ("composed letters", "a: e\u0301\n", {"a": "\u00e9"}),
    ("composed letters after a figure", "a: 3 cafe\u0301s\n", {"a": "3 caf\u00e9s"}),
    ("a remark after one word", "a: b # c\n", {"a": "b"}),
    ("a remark after a quantity", "a: 65.02 ± 0.01 mm # c\n", {"a": "65.02 ± 0.01 mm"}),
    ("a remark set off by spaces", "a: none raised   # or a list\n", {"a": "none raised"}),
    ("a remark after a bracket", "a: [b, c] # d e\n", {"a": ["b", "c"]}),
    ("a hash within a word", "a: b#c d\n", {"a": "b#c d"}),
    ("a hash in quotes", "a: 'b #c'\n", {"a": "b #c"}),
    ("signs in a block", "a: |\n  x #2: y\n\n  @b & *c* !d\n", {"a": "x #2: y\n\n@b & *c* !d\n"}),
    (
        "signs in folded prose",
        "a: >-\n  *Very* worn: see\n  & read\n",
        {"a": "*Very* worn: see & read"},
    ),
    ("quoted yes", "a: 'yes'\nb: \"no\"\n", {"a": "yes", "b": "no"}),
    ("quoted numbers as names", "'1': a\n", {"1": "a"}),
    ("no value", "a:\nb: ~\n", {"a": None, "b": None}),
    ("a document marker", "---\na: 1\n", {"a": 1}),
    ("32 levels", nested(31), None),
]


@pytest.mark.parametrize("text", [f[1] for f in FINE], ids=[f[0] for f in FINE])
def test_nothing_is_reported_for(text: str | bytes) -> None:
    assert not found(text)


@pytest.mark.parametrize(
    ("text", "expected"), [f[1:] for f in FINE[:-1]], ids=[f[0] for f in FINE[:-1]]
)
def test_value_is_read_as_written_for(text: str | bytes, expected: object) -> None:
    assert expected == reading(text).data


def test_a_decimal_keeps_its_digits() -> None:
    expected = "{'a': Decimal('1.50')}"
    assert expected == repr(reading("a: 1.50\n").data)


# Source: YAML 1.2.2 (2021-10-01), example 10.9 "Core Tag Resolution". The words that this reader
# leaves as text on purpose (octal, hexadecimal, a bare point, a plus) are marked.
CORE = """\
A null: null
Also a null: # Empty
Not a null: ""
Booleans: [ true, True, false, FALSE ]
Integers: [ 0, 0o7, 0x3A, -19 ]
Floats: [
  0., -0.0, .5, +12e03, -2E+05 ]
Also floats: [
  .inf, -.Inf, +.INF, .NAN ]
"""


def test_core_schema_example_is_read_as_the_specification_says_or_kept_as_text() -> None:
    expected = {
        "A null": None,
        "Also a null": None,
        "Not a null": "",
        "Booleans": [True, True, False, False],
        "Integers": [0, "0o7", "0x3A", -19],  # 7 and 58 there
        "Floats": ["0.", Decimal("-0.0"), ".5", "+12e03", Decimal(-200_000)],  # 0, 0.5, 12000 there
        "Also floats": [".inf", "-.Inf", "+.INF", ".NAN"],
    }
    assert expected == reading(CORE).data


def test_what_is_no_number_in_the_core_schema_example_is_reported() -> None:
    expected = [("WM029", 9, 3), ("WM029", 9, 9), ("WM029", 9, 16), ("WM029", 9, 23)]
    assert expected == found(CORE)


RECORD = """\
id: 2024-003
options:
  - id: leave
    steps:
      - {do: remove, part: upper-bush}
title: Ein Stück
"""


@pytest.mark.parametrize(
    ("path", "expected"),
    [
        ((), (1, 1)),
        (("id",), (1, 5)),
        (("options", 0, "id"), (3, 9)),
        (("options", 0, "steps", 0, "part"), (5, 28)),
        (("options", 0, "steps", 0, "fate"), (5, 9)),
        (("options", 7), (3, 3)),
        (("options", 0, "id", "deeper"), (3, 9)),
        (("nowhere",), (1, 1)),
    ],
)
def test_place_is_the_deepest_that_exists(path: Any, expected: tuple[int, int]) -> None:
    assert Place(*expected) == reading(RECORD).place(path)


def test_place_of_a_name_is_its_own_start() -> None:
    assert Place(5, 22) == reading(RECORD).place(("options", 0, "steps", 0, "part"), key=True)


def test_span_ends_where_the_value_ends() -> None:
    assert (Place(6, 8), Place(6, 17)) == reading(RECORD).span(("title",))


def test_place_in_a_mended_file_is_the_place_in_the_written_one() -> None:
    text = "why: Rebush: keep\na: {b: c: d, e: 1}\n"
    assert Place(2, 17) == reading(text).place(("a", "e"))


def test_place_in_an_unreadable_file_is_its_start() -> None:
    assert Place(1, 1) == reading("- a\n").place(("id",))


def test_text_is_kept_as_written() -> None:
    expected = "a: @b\r\nc: d"
    assert expected == reading("a: @b\r\nc: d").text


def test_a_problem_names_its_field() -> None:
    expected = "options[0].judged"
    assert expected == reading("options:\n  - judged: yes\n").problems[0].field


def test_a_colon_in_prose_comes_with_the_lines_to_write() -> None:
    fix = reading("  why: Rebush: keep the shell\n").problems[0].fix
    expected = "why: >-\n  Rebush: keep the shell"
    assert expected == fix


def test_a_field_written_twice_names_both_lines() -> None:
    said = reading("a: 1\nb: 2\na: 3\n").problems[0].message
    expected = '"a" is written twice, on lines 1 and 3'
    assert expected == said


def test_the_same_cause_on_more_lines_is_one_message_that_names_them() -> None:
    problems = reading("a: !x 1\nb: !y 2\nc: !z 3\n").problems
    expected = ["(also on lines 2, 3)"]
    assert expected == [p.message[-20:] for p in problems]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("a: \x1b[2J\n", "\\x1b (ESC)"),
        ("a: \u202e\n", "U+202E RIGHT-TO-LEFT OVERRIDE"),
        ("a: \u200b\n", "U+200B ZERO WIDTH SPACE"),
        ("a:\n\tb: 1\n", "\u2192b: 1"),
        ("\u00a0a: 1\n", "U+00A0 NO-BREAK SPACE"),
    ],
)
def test_what_cannot_be_seen_is_written_out(text: str, words: str) -> None:
    assert words in reading(text).problems[0].message


def test_a_zero_width_character_in_text_is_a_warning_and_stays_for_the_id_check_to_see() -> None:
    document = reading("a: z\u200bw\n")
    expected = ([Level.WARNING], {"a": "z\u200bw"})
    assert expected == (
        [p.level for p in document.problems],
        document.data,
    )


def test_the_size_limit_is_the_callers() -> None:
    expected = ["WM027"]
    assert expected == [p.code for p in read("f.yml", b"a: bcd\n", limit=6).problems]


def test_a_yaml_reader_without_libyaml_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(yaml, "__with_libyaml__", False)
    with pytest.raises(WitnessmarkError, match="libyaml"):
        read("f.yml", b"a: 1\n")


# -- laws, against PyYAML's own readers -------------------------------------------------------

YAMLISH = st.text(
    alphabet="ab1e:.-+~ #'\"\\\n\t\r[]{},&*!?>|%@`<=\u00e9\u00a0\ufeff\0y", max_size=60
)


def lines_of_fields(values: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    lines = st.lists(values, min_size=1, max_size=6)
    return lines.map(lambda vs: "".join(f"k{n}: {v}\n" for n, v in enumerate(vs)))


def base_reading(text: str) -> object:
    """What PyYAML's Python reader says; libyaml's where that one refuses a tab libyaml allows."""
    try:
        return yaml.load(text, yaml.BaseLoader)  # noqa: S506
    except yaml.YAMLError:
        return yaml.load(text, yaml.CBaseLoader)  # noqa: S506


def agrees(ours: object, theirs: object) -> bool:
    """True when our value says what BaseLoader, which leaves every word as text, has read."""
    if isinstance(ours, dict) and isinstance(theirs, dict):
        return list(ours) == list(theirs) and all(agrees(ours[k], theirs[k]) for k in ours)
    if isinstance(ours, list) and isinstance(theirs, list):
        return len(ours) == len(theirs) and all(map(agrees, ours, theirs))
    if not isinstance(theirs, str):
        return False
    if isinstance(ours, bool):
        return str(ours).lower() == theirs.lower()
    if ours is None:
        return theirs.lower() in ("", "~", "null")
    if isinstance(ours, Decimal):
        return Decimal(theirs).as_tuple() == ours.as_tuple()
    return str(ours) == theirs or (ours, theirs) == (0, "-0")


@given(st.one_of(st.binary(max_size=80), YAMLISH.map(str.encode)))
def test_no_bytes_at_all_make_reading_raise(raw: bytes) -> None:
    document = read("f.yml", raw)
    assert document.problems or isinstance(document.data, dict)


@given(lines_of_fields(YAMLISH))
def test_every_place_lies_in_the_file(text: str) -> None:
    lines = re.split(r"\r\n|\r|\n", text)
    for _, line, column in found(text):
        assert 1 <= line <= len(lines)
        assert 1 <= column <= len(lines[line - 1]) + 2


@given(lines_of_fields(st.one_of(YAMLISH, st.from_regex(r"[-+]?[0-9._e:]{1,8}", fullmatch=True))))
def test_a_file_without_problems_says_what_pyyaml_reads_in_it(text: str) -> None:
    document = reading(text)
    assert document.problems or agrees(document.data, base_reading(text))


TEXTS = st.text(alphabet="abcé XYZ:#,-'\"&*!?[]{}%@`|>\n", min_size=6, max_size=90)
WORDS = st.text(alphabet="abcdefgh-é", min_size=6, max_size=12).filter(lambda w: w[0] != "-")
VALUES = st.recursive(
    st.one_of(TEXTS, WORDS, st.integers(-(10**17), 10**17), st.booleans(), st.none()),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(WORDS, inner, max_size=3),
    max_leaves=8,
)


@given(values=st.dictionaries(WORDS, VALUES, min_size=1, max_size=4), flow=st.booleans())
def test_what_pyyaml_writes_is_read_back_without_a_problem(
    *, values: dict[str, Any], flow: bool
) -> None:
    text = yaml.dump(values, Dumper=PlainDumper, allow_unicode=True, default_flow_style=flow)
    document = reading(text)
    assert ((), values) == (document.problems, document.data)


class PlainDumper(yaml.SafeDumper):
    def ignore_aliases(self, data: Any) -> bool:  # noqa: ARG002
        return True


@given(lines_of_fields(YAMLISH))
def test_the_quick_way_is_taken_only_where_there_is_nothing_to_refuse(text: str) -> None:
    seen = nodes.walk(text)
    assert nodes.wants_walk(text) or not (seen.anchors or seen.aliases or seen.tags)


def test_a_hundred_thousand_open_brackets_are_refused_by_their_depth() -> None:
    expected = ["WM028"]
    assert expected == [p.code for p in reading("a: " + "[" * 100_000).problems]


def test_a_hostile_file_of_the_largest_size_is_answered() -> None:
    text = "a: [" + "b #c\n" * 40_000
    assert reading(text).problems
