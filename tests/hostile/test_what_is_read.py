"""Strange bytes, strange YAML and strange values: each is told at its line, and nothing else moves.

The cases are those of this project's own table of bad input, 1 to 31 and 62; each is put into the
one decision of a sound museum, so that whatever a check says comes from the case.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any, NamedTuple

import pytest

from building import DECISION, FINDINGS, MACHINE, PEOPLE
from calling import call_here
from sound_museum import TEXTS, sound

RECORD = TEXTS[DECISION]
WHY = "The shaft would be cut in the end."
BOMB = 'x: &a ["x"]\n' + "".join(
    f"{name}: &{name} [{', '.join([f'*{last}'] * 9)}]\n"
    for last, name in zip("abcdefgh", "bcdefghi", strict=True)
)
MAPPED = "low: 3\n      likely: 4\n      high: 4"


class Case(NamedTuple):
    """What a file is made to hold, and what must be said of it: code, line, words of the message
    and words of the remedy."""

    name: str
    text: str | bytes
    code: str
    line: int
    says: str
    fix: str
    file: str = DECISION


def put(before: str, after: str) -> str:
    assert before in RECORD, before
    return RECORD.replace(before, after, 1)


def line_of(words: str) -> int:
    assert words in RECORD, words
    return RECORD[: RECORD.index(words)].count("\n") + 1


LAST = RECORD.count("\n") + 1
SCORE = line_of("likely: 3")
PROSE = line_of("Scraped")
MOST_SCORE = "from 0 to 4"

TOLD: list[Case] = [
    Case("1 an empty file", "", "WM008", 1, "no record yet", "witnessmark new"),
    Case("1 only comments", "# a\n# b\n", "WM008", 1, "no record yet", "witnessmark new"),
    Case("2 a list at the top", "- id: 1\n", "WM009", 1, 'starts with "- id', "first field"),
    Case("2 a word at the top", "bushes\n", "WM009", 1, 'starts with "bushes"', "first field"),
    Case("3 two documents", RECORD + "---\na: 1\n", "WM010", LAST, "second record", "Move"),
    Case("4 a field twice", RECORD + "title: x\n", "WM005", LAST, f"lines 3 and {LAST}", "Keep"),
    Case("5 a number as a name", RECORD + "1: x\n", "WM011", LAST, '"1"', "quotes"),
    Case("5 true as a name", RECORD + "true: x\n", "WM011", LAST, '"true"', "quotes"),
    Case("5 null as a name", RECORD + "null: x\n", "WM011", LAST, '"null"', "quotes"),
    Case("5 a list as a name", RECORD + "? [a]\n: x\n", "WM011", LAST, "group", "quotes"),
    Case("6 a tab that sets in", put("  what: Lift", "\twhat: Lift"), "WM018", 6, "→", "spaces"),
    Case("7 a hard space", put("  what: L", "\u00a0\u00a0what: L"), "WM019", 6, "invisible", "Del"),
    Case("8 a colon in prose", put(WHY, "a: b"), "WM004", line_of(WHY), "colon after", ">-"),
    Case("9 a hash in prose", put(WHY, "Bush #2 is worn"), "WM003", line_of(WHY), "lost", ">-"),
    *(
        Case(f"10 {sign} at the start", put("proposed_by: f", f"proposed_by: {sign}f"), "WM017",
             line_of("proposed_by"), f"starts with {sign}", "quotes")
        for sign in ("@", "*", "%", "`")
    ),
    *(
        Case(f"11 {word} as a score", put("likely: 3", f"likely: {word}"), "WM006", SCORE,
             f'"{word}"', MOST_SCORE)
        for word in ("NO", "yes", "on")
    ),
    Case("12 a comma in a score", put("likely: 3", "likely: 3,5"), "WM074", SCORE, "3,5",
         MOST_SCORE),
    Case("12 a comma in a weight", TEXTS["policy/2023-04.yml"].replace("0.35", '"0,35"', 1),
         "WM074", 4, "0,35", "Write 0.35", "policy/2023-04.yml"),
    *(
        Case(f"13 {word}", put("likely: 3", f"likely: {word}"), "WM029", SCORE, word, MOST_SCORE)
        for word in (".nan", ".inf", "-.INF", "1e999")
    ),
    Case("14 a score of 9", put("likely: 3", "likely: 9"), "WM077", SCORE, "scale of 0 to 4",
         "0, the worst"),
    Case("14 low above high", put(MAPPED, "low: 4\n      likely: 3\n      high: 2"), "WM079",
         line_of(MAPPED), "do not rise", "rising order"),
    Case("14 likely outside", put(MAPPED, "low: 3\n      likely: 2\n      high: 4"), "WM079",
         line_of(MAPPED), "do not rise", "rising order"),
    *(
        Case(f"16 the day {day}", put("opened: '2024-02-11'", f"opened: {day}"), "WM076",
             line_of("opened:"), day, "YYYY-MM-DD")
        for day in ("1912-02-30", "2026-13-01", "31/12/2026")
    ),
    Case("17 a year where a day is wanted", put("opened: '2024-02-11'", "opened: c. 1912"),
         "WM076", line_of("opened:"), "c. 1912", "YYYY-MM-DD"),
    Case("18 latin-1", RECORD.encode().replace(b"Scraped", b"Scr\xe9ped"), "WM022", PROSE,
         "not UTF-8", "Save it again"),
    Case("19 UTF-16", RECORD.encode("utf-16"), "WM022", 1, "UTF-16", "UTF-8"),
    Case("19 a byte order mark inside", put("Scraped", "Scr\ufeffaped"), "WM026", PROSE, "U+FEFF",
         "Delete"),
    Case("21 NUL", put("Scraped", "Scr\0aped"), "WM024", PROSE, r"\x00 (NUL)", "Delete"),
    Case("21 the bell", put("Scraped", "Scr\x07aped"), "WM024", PROSE, r"\x07 (BEL)", "Delete"),
    Case("21 a screen command", put("Scraped", "Scr\x1b[2J"), "WM024", PROSE, r"\x1b", "Delete"),
    Case("22 turned reading in prose", put("Scraped", "Scr\u202eaped"), "WM025", PROSE, "U+202E",
         "Delete"),
    Case("22 turned reading in a name", TEXTS[PEOPLE].replace("Fitter", "Fit\u202eter", 1), "WM025",
         7, "U+202E", "Delete", PEOPLE),
    Case("23 zero width in an id", put("id: rebush", "id: re\u200bbush"), "WM078",
         line_of("id: rebush"), r"re\u200bbush", "small letters"),
    Case("24 Cyrillic in an option's id", put("id: rebush", "id: r\u0435bush"), "WM078",
         line_of("id: rebush"), "agreed form", "small letters"),
    Case("24 Cyrillic in a person's id", TEXTS[PEOPLE].replace("id: fitter", "id: fitt\u0435r"),
         "WM078", 7, "agreed form", "small letters", PEOPLE),
    Case("25 one name in two spellings", RECORD + "é: 1\ne\u0301: 2\n", "WM005", LAST + 1,
         f"lines {LAST} and {LAST + 1}", "Keep"),
    Case("26 a tag that would run", RECORD + "x: !!python/object/apply:os.system [x]\n", "WM016",
         LAST, "tags (!) are not used", "Take the tag out"),
    Case("26 any tag", RECORD + "x: !y z\n", "WM016", LAST, "tags (!)", "Take the tag out"),
    Case("27 a bomb of aliases", RECORD + BOMB, "WM013", LAST, "anchors (&) are not used", "Take"),
    Case("27 its references", RECORD + BOMB, "WM014", LAST + 1, "references", "Write the values"),
    Case("28 a list within itself", RECORD + "x: &a [*a]\n", "WM013", LAST, "anchors", "Take"),
    Case("29 900 levels", RECORD + f"x: {'[' * 900}{']' * 900}\n", "WM028", LAST, "levels",
         "brackets"),
    Case("29 100,000 levels", RECORD + f"x: {'[' * 100_000}\n", "WM028", LAST, "levels",
         "brackets"),
    Case("30 a text of 3 MB", "title: " + "x" * 3_000_000, "WM090", 1, "at most 256 KB", "Split"),
    Case("31 5,000 digits", put("likely: 3", "likely: " + "7" * 5000), "WM029", SCORE,
         "longer or larger", MOST_SCORE),
    Case("62 an unfinished merge", RECORD + "<<<<<<< a\nnote: x\n=======\nnote: y\n>>>>>>> b\n",
         "WM020", LAST, "unfinished merge", "Keep the lines that hold"),
]  # fmt: skip


def written(where: Path, file: str, text: str | bytes) -> Path:
    museum = sound(where)
    (museum / file).write_bytes(text if isinstance(text, bytes) else text.encode())
    return museum


def told(museum: Path) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = call_here("check", str(museum), "--format", "json").json[
        "diagnostics"
    ]
    return found


@pytest.mark.parametrize("case", TOLD, ids=[case.name for case in TOLD])
def test_bad_input_is_told_with_its_line_a_reason_and_a_remedy(case: Case, tmp_path: Path) -> None:
    museum = written(tmp_path, case.file, case.text)
    called = call_here("check", str(museum), "--format", "json")
    [found] = [d for d in called.json["diagnostics"] if d["code"] == case.code][:1] or [{}]
    assert {"exit": 1, "level": "error", "file": f"museum/{case.file}", "line": case.line} == {
        "exit": called.code,
        **{name: found.get(name) for name in ("level", "file", "line")},
    }
    assert (True, True) == (case.says in found["message"], case.fix in found["fix"]), found


@pytest.mark.parametrize("case", TOLD, ids=[case.name for case in TOLD])
def test_a_museum_with_bad_input_is_not_published(case: Case, tmp_path: Path) -> None:
    museum = written(tmp_path, case.file, case.text)
    called = call_here("publish", str(museum), "--skin", "plain", "--out", str(tmp_path / "site"))
    assert (1, False) == (called.code, (tmp_path / "site").exists())


WARNED: list[Case] = [
    Case("23 zero width in a word", put("Scraped", "Scr\u200baped"), "WM026", PROSE, "U+200B",
         "Delete"),
    Case("24 a name of two alphabets", TEXTS[PEOPLE].replace("Fitter", "Fitt\u0435r", 1), "WM047",
         7, "mixes two alphabets: U+0435", "one keyboard", PEOPLE),
]  # fmt: skip


@pytest.mark.parametrize("case", WARNED, ids=[case.name for case in WARNED])
def test_what_may_be_a_slip_is_warned_of(case: Case, tmp_path: Path) -> None:
    found = told(written(tmp_path, case.file, case.text))
    expected = [(case.code, "warning", case.line)]
    assert expected == [(d["code"], d["level"], d["line"]) for d in found if d["level"] != "note"]
    assert case.says in found[0]["message"]


FINE: list[tuple[str, str, str | bytes]] = [
    ("15 a clock time as a number", DECISION, put("drawing: TB-D-1", "drawing: 12:30")),
    ("15 leading noughts", DECISION, put("drawing: TB-D-1", "drawing: 010")),
    ("15 a line under the digits", DECISION, put("drawing: TB-D-1", "drawing: 1_000")),
    ("17 about a year, in words", MACHINE, TEXTS[MACHINE] + "built: c. 1912\n"),
    ("19 a byte order mark at the start", DECISION, b"\xef\xbb\xbf" + RECORD.encode()),
    ("20 carriage returns, no last line end", DECISION, RECORD.replace("\n", "\r\n").rstrip()),
    ("25 an accent of its own", DECISION, put("Scraped", "Scrape\u0301d")),
]


@pytest.mark.parametrize("case", FINE, ids=[case[0] for case in FINE])
def test_what_is_only_unusual_is_read(case: tuple[str, str, str | bytes], tmp_path: Path) -> None:
    called = call_here("check", str(written(tmp_path, *case[1:])))
    assert (0, "1 record read") == (called.code, called.out.splitlines()[-1][:13])


@pytest.mark.parametrize("value", ["12:30", "010", "1_000"])
def test_15_a_part_number_is_published_as_it_is_written(value: str, tmp_path: Path) -> None:
    from sound_museum import signed

    text = {DECISION: {"options.1.steps.1.drawing": value}}
    museum = signed(tmp_path, changes=text)
    call_here("publish", str(museum), "--skin", "plain", "--out", str(tmp_path / "site"))
    page = (tmp_path / "site" / "d" / "2024-001" / "index.html").read_text(encoding="utf-8")
    assert value in page


def test_21_what_is_printed_steers_no_terminal(tmp_path: Path) -> None:
    called = call_here("check", str(written(tmp_path, DECISION, put("Scraped", "Scr\x1b[2J"))))
    assert (False, True) == ("\x1b" in called.out, r"\x1b" in called.out)


def test_21_a_hidden_sign_by_its_escape_is_written_out_in_every_message(tmp_path: Path) -> None:
    text = TEXTS[FINDINGS].replace("0.74 mm", '"\\0\\e[2J"')
    found = told(written(tmp_path, FINDINGS, text))
    assert [] == [one["message"] for one in found if {"\0", "\x1b"} & set(one["message"])]
    assert ["WM071"] == [one["code"] for one in found if r"\x00\x1b[2J" in one["message"]]


def test_30_a_file_of_50_mb_is_refused_without_being_read(tmp_path: Path) -> None:
    import tracemalloc

    museum = sound(tmp_path)
    with (museum / DECISION).open("r+b") as file:
        file.truncate(50 * 2**20)
    tracemalloc.start()
    found = told(museum)
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert ("WM090", True) == (found[0]["code"], most < 30 * 2**20)
