"""README-FIRST.txt leaves no field, no closed word, no worksheet and no table unexplained."""

from __future__ import annotations

from fractions import Fraction

import pytest

from depositing import Made
from witnessmark.exchange.deposit.readme_fields import field_lines, word_lines
from witnessmark.exchange.deposit.readme_tables import TABLES
from witnessmark.exchange.deposit.readme_worksheets import worksheet_lines
from witnessmark.model.field_notes import NOTES
from witnessmark.model.words import CLOSED_WORDS
from witnessmark.worksheets import built_names


def flat(text: str) -> str:
    return " ".join(text.split())


def test_every_note_on_a_field_is_in_it() -> None:
    told = flat("\n".join(field_lines()))
    assert [] == [name for name, note in NOTES.items() if flat(note) not in told]


def test_every_closed_word_is_in_it_with_its_meaning() -> None:
    told = flat("\n".join(word_lines()))
    words = [word for words in CLOSED_WORDS for word in words]
    assert [] == [w for w in words if flat(f"{w.value}: {w.definition}") not in told]


def test_every_worksheet_is_in_it() -> None:
    told = "\n".join(worksheet_lines())
    assert [] == [name for name in built_names() if f"\n{name}: " not in told]


@pytest.mark.parametrize("name", ["public", "sealed"])
def test_no_table_is_left_to_be_filled_in(name: str, request: pytest.FixtureRequest) -> None:
    deposit: Made = request.getfixturevalue(name)
    text = deposit.text("README-FIRST.txt")
    assert [] == [line for line in text.splitlines() if line.startswith("@")]


def test_no_line_is_wider_than_a_page_of_print(public: Made) -> None:
    # Lines to be typed and formulas stand as they are; 100 columns is what we print in.
    lines = public.text("README-FIRST.txt").splitlines()
    assert [] == [x for x in lines if len(x) > 100 and not x.startswith("    ")]


def test_the_risk_table_is_that_of_the_standard() -> None:
    # MIL-STD-882E (2012), Table III, read in public transcriptions that agree on every cell.
    rows = {line[0]: line.split()[2:] for line in list(TABLES["risk"]())[1:6]}
    wanted = {
        "A": "High High Serious Medium",
        "B": "High High Serious Medium",
        "C": "High Serious Medium Low",
        "D": "Serious Medium Medium Low",
        "E": "Medium Medium Medium Low",
    }
    assert {letter: cells.split() for letter, cells in wanted.items()} == rows


def test_its_formula_for_metal_gives_the_published_check_values() -> None:
    # The check values of the design, section 3: a made-to-wear bush renewed alike and kept is 3
    # alone and 51/16 beside three untouched places; worked here from the text's own numbers.
    table = {" ".join(row.split()[:-2]): row.split()[-2:] for row in TABLES["fabric"]()}
    share = Fraction(table["taken out and kept, replaced alike"][1])
    worst = Fraction(3, 4)
    level = [4 * (worst * share + (1 - worst) * mean) for mean in (share, (share + 3) / 4)]
    assert [Fraction(3), Fraction(51, 16)] == level


def test_the_same_text_lies_beside_and_within_the_payload(public: Made) -> None:
    assert public.text("README-FIRST.txt") == public.text("data/README-FIRST.txt")
