"""Lists brought in: every row is accounted for, nothing is overwritten, nothing is guessed."""

from __future__ import annotations

import csv
import io
import re
import warnings
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from building import FINDINGS, MACHINE, folder
from calling import DEMO
from witnessmark.errors import RefusedError
from witnessmark.exchange.incoming import decisions, findings, parts
from witnessmark.exchange.incoming.column_map import map_of_headers, read_map
from witnessmark.exchange.incoming.examples import EXAMPLES
from witnessmark.exchange.incoming.table import MOST_ROWS, Table, read_table
from witnessmark.exchange.incoming.taking import Lay, Taken, take
from witnessmark.model.fields import ID_PATTERN, MOST_ID
from witnessmark.model.library import Folder, assemble
from witnessmark.model.machine import Part
from witnessmark.model.new_decision import slug
from witnessmark.repository.disk import read_museum
from witnessmark.rules.rulebook_check import load_shipped

LAYS: dict[str, tuple[tuple[str, ...], Lay]] = {
    "parts": (parts.FIELDS, parts.lay_part),
    "findings": (findings.FIELDS, findings.lay_finding),
    "decisions": (decisions.FIELDS, decisions.lay_decision),
}
PART = "machine,assembly,name,origin,made_to,count\n"
FOUND = "machine,date,by,part,basis,what,grade\n"
OLD = "machine,opened,title,question\n"


def table(text: str | bytes, *, separator: str | None = None) -> Table:
    raw = text.encode() if isinstance(text, str) else text
    return read_table(raw, file="list.csv", separator=separator)


def taken(kind: str, text: str, *, museum: Folder | None = None, column_map: str = "") -> Taken:
    fields, lay = LAYS[kind]
    rows = table(text)
    found = (
        read_map(column_map.encode(), file="map.yml", fields=fields)
        if column_map
        else map_of_headers(rows.headers, fields=fields, file="list.csv")
    )
    museum = museum or folder()
    return take(museum, rows, found, lay=lay, source="list.csv", rulebook=load_shipped())


def reasons(found: Taken) -> list[str]:
    return [row.reason for row in found.rows]


def test_the_example_lists_are_sound_csv_to_another_reader(tmp_path: Path) -> None:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # frictionless warns of its own dependencies
        from frictionless import Dialect
        from frictionless.formats import CsvControl
        from frictionless.resources import TableResource

        for kind, example in EXAMPLES.items():
            (tmp_path / f"{kind}.csv").write_text(example.csv, encoding="utf-8")
            ours = table(example.csv)
            dialect = Dialect(controls=[CsvControl(delimiter=ours.separator)])
            read = TableResource(path=f"{kind}.csv", basepath=str(tmp_path), dialect=dialect)
            assert read.validate().valid, kind
            theirs = [
                {name: cell for name, cell in row.to_dict().items() if cell is not None}
                for row in read.read_rows()
            ]
            assert [len(row.cells) for row in ours.rows] == [len(row) for row in theirs]
            assert list(ours.headers) == read.header.labels


@pytest.mark.parametrize("kind", list(LAYS))
def test_every_row_of_an_example_is_taken_in_the_demo_museum(kind: str) -> None:
    example = EXAMPLES[kind]
    found = taken(kind, example.csv, museum=read_museum(DEMO), column_map=example.map)
    assert [""] * len(found.rows) == reasons(found)


CELLS = st.text(st.characters(codec="utf-8", exclude_characters="\0\r"))


@given(st.lists(st.lists(CELLS, min_size=3, max_size=3), max_size=4))
def test_every_row_another_writer_wrote_is_counted(rows: list[list[str]]) -> None:
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows([["a", "b", "c"], *rows])
    found = table(out.getvalue(), separator=",")
    assert list(range(2, 2 + len(rows))) == [row.number for row in found.rows]


@pytest.mark.parametrize(
    ("raw", "words"),
    [
        ("name\nBüchse\n".encode("latin-1"), "is not UTF-8: see byte \\xfc on line 2"),
        ("name\nx\n".encode("utf-16"), "is not saved as UTF-8"),
        (b"", "is empty"),
        (b"a\tb\nc\td\n", "has tabs"),
        (b"a;b,c\n1;2,3\n", "may have ; or ,"),
        (b'a,b\n"1,2\n', "row 2"),
        (b"a,a\n1,2\n", 'two columns called "a"'),
        (b"a\n" * (MOST_ROWS + 2), f"at most {MOST_ROWS}"),
        (b"a" * 1_000_001, "at most 1,000,000"),
    ],
)
def test_a_file_that_is_no_plain_list_is_refused_with_a_remedy(raw: bytes, words: str) -> None:
    with pytest.raises(RefusedError) as refusal:
        table(raw)
    assert words in refusal.value.message
    assert refusal.value.remedy


@pytest.mark.parametrize(
    ("text", "expected"),
    [("a;b\n1,5;2\n", ";"), ("a,b\n1;5,2\n", ","), ("a\n1\n", ","), ("\ufeffa;b\n1;2\n", ";")],
)
def test_the_separator_is_the_one_by_which_rows_are_even(text: str, expected: str) -> None:
    found = table(text)
    assert (expected, "a") == (found.separator, found.headers[0])


def test_empty_and_ragged_rows_are_named_by_their_number() -> None:
    found = taken("parts", PART + ",,,,,\nwinch,drum\nwinch,drum,Key,as-built,last,1\n")
    assert [2, 3, 4] == [row.number for row in found.rows]
    assert ["The row is empty.", "It has 2 cells and the header has 6.", ""] == reasons(found)


def test_a_part_joins_its_assembly_and_nothing_else_is_touched() -> None:
    found = taken("parts", PART + "winch,Drum,Key no. 2,as-built,last,2\n")
    text = folder().files[MACHINE].decode()
    assert (
        text.replace(
            "  - id: frame\n",
            "      - id: key-no-2\n        name: Key no. 2\n        origin: as-built\n"
            "        made_to: last\n        count: 2\n  - id: frame\n",
        )
        == found.texts[MACHINE]
    )


def test_a_new_assembly_and_a_new_machine_are_begun() -> None:
    row = "Key,as-built,last,1\n"
    found = taken("parts", f"{PART}winch,Jib,{row}hoist,Jib,{row}hoist,Jib,Pin,as-built,last,1\n")
    assert [MACHINE, "hoist/machine.yml"] == sorted(found.texts, reverse=True)
    library = assemble(Folder("m", {n: t.encode() for n, t in found.texts.items()}))
    shaped = library.machine_files["hoist"]
    assert {"as_of", "name", "what", "kept", "significance"} == {
        fault.field for fault in shaped.diagnostics
    }
    new = library.machines["winch"]
    assert ["jib/key"] == [name for name, group, _ in new.parts() if group.id == "jib"]


LEFT_OUT = [
    ("parts", PART + "winch,drum,Bush,as-built,last,1\n", "drum/bush is in"),
    ("parts", PART + "winch,drum,Key,orig,last,1\n", '"orig" is not a word'),
    ("parts", PART + "winch,drum,Key,as-built,last,two\n", "`count`"),
    ("parts", PART + "winch,drum,,as-built,last,1\n", "needs `machine`, `assembly` and `name`"),
    ("parts", PART + "The winch,drum,Key,as-built,last,1\n", "a machine's folder"),
    ("findings", FOUND + "winch,3/4/2024,fitter,,seen,It drips,watch\n", "2024-03-04 or"),
    ("findings", FOUND + "winch,2024-04-03,fitter,drum/bsh,seen,It drips,watch\n", "WM030"),
    ("findings", FOUND + "winch,2024-04-03,nobody,,seen,It drips,watch\n", "WM032"),
    ("findings", FOUND + "hoist,2024-04-03,fitter,,seen,It drips,watch\n", 'no machine "hoist"'),
    (
        "findings",
        FOUND + "winch,2024-01-10,fitter,drum/bush,seen,The bush is worn past its limit,act\n",
        "f-001 says the same already",
    ),
    ("decisions", OLD + "winch,1998,Why we painted it,What colour?\n", "is not a day"),
    ("decisions", OLD + "winch,,Why we painted it,What colour?\n", "needs a `title` and the day"),
    (
        "decisions", OLD + "winch,2024-02-11,Why we made a new bush for the drum,Q?\n",
        "2024-001 has that title",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "text", "words"), LEFT_OUT)
def test_a_row_that_cannot_be_taken_says_why_and_changes_nothing(
    kind: str, text: str, words: str
) -> None:
    found = taken(kind, text)
    assert words in reasons(found)[0]
    assert {} == dict(found.texts)


def test_one_bad_row_keeps_no_other_back() -> None:
    good = "winch,2024-04-03,fitter,,seen,It drips,watch\n"
    bad = "winch,2024-04-03,fitter,drum/bsh,seen,It leaks,watch\n"
    found = taken("findings", FOUND + bad + good)
    assert [False, True] == [row.placed is not None for row in found.rows]
    assert 1 == found.texts[FINDINGS].count("id: f-002")
    assert "It leaks" not in found.texts[FINDINGS]


def test_an_old_decision_becomes_a_draft_that_names_its_blanks_and_where_it_came_from() -> None:
    found = taken("decisions", OLD + "winch,3 May 1998,Why we painted it,What colour?\n")
    (row,) = found.rows
    assert row.placed is not None
    assert ("aim", "about", "proposed_by") == row.placed.blanks
    text = found.texts["winch/1998-001-why-we-painted-it.yml"]
    assert "state: draft\n" in text
    assert "  Brought in from list.csv, row 2.\n" in text
    assert "No policy of this museum was valid on that day" in text


def test_numbers_go_on_after_those_that_are_taken() -> None:
    rows = "winch,2024-05-01,One,Q?\nwinch,2024-06-01,Two,Q?\n"
    names = sorted(taken("decisions", OLD + rows).texts)
    assert ["winch/2024-002-one.yml", "winch/2024-003-two.yml"] == names


def test_nothing_joins_a_group_that_an_agreement_rests_on() -> None:
    rows = "quay-crane,slewing-gear,Key,as-built,last,1\nquay-crane,new-gear,Key,as-built,last,1\n"
    found = taken("parts", PART + rows, museum=read_museum(DEMO))
    assert [False, True] == [row.placed is not None for row in found.rows]
    assert "An agreement rests on this group" in reasons(found)[0]


def test_the_lists_own_words_are_read_by_the_map() -> None:
    column_map = (
        "columns: {Bit: name, Was: origin, Heft: mass}\n"
        "always: {machine: winch, assembly: drum, made_to: last}\n"
        "words: {origin: {FIRST: as-built}}\n"
    )
    text = taken("parts", "Bit;Was;Heft\nKey;first;1,5 kg\n", column_map=column_map).texts[MACHINE]
    assert "origin: as-built\n        made_to: last\n        mass: 1.5 kg\n" in text


@pytest.mark.parametrize(
    ("column_map", "words"),
    [
        ("columns: {Bit: nmae}\n", 'no field "nmae"'),
        ("colums: {Bit: name}\n", 'no field called "colums"'),
        ("columns: {Bit: name}\ndates: sunny\n", '"sunny" is not a word'),
    ],
)
def test_a_fault_in_the_map_is_told_with_its_place(column_map: str, words: str) -> None:
    with pytest.raises(RefusedError) as refusal:
        read_map(column_map.encode(), file="map.yml", fields=parts.FIELDS)
    assert words in refusal.value.message


def test_a_strange_header_without_a_map_is_refused() -> None:
    with pytest.raises(RefusedError, match="none of our fields"):
        map_of_headers(["name", "Heft"], fields=parts.FIELDS, file="list.csv")


@given(st.text())
def test_an_id_made_from_a_name_is_written_in_the_agreed_form_or_empty(text: str) -> None:
    made = slug(text, most=MOST_ID)
    assert not made or (re.fullmatch(ID_PATTERN, made) and len(made) <= 64)


def test_every_field_of_a_part_but_the_search_for_others_may_be_brought_in() -> None:
    assert {"sought"} == set(Part.model_fields) - set(parts.FIELDS)
