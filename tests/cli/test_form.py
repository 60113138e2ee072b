"""The printed form: one page, and a typed one is led to a record by messages alone."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from building import on_disk, plainly
from calling import Called, call
from witnessmark.exchange.decision_form import form_as_html, form_as_text, read_form, values
from witnessmark.exchange.decision_form.fields import SECTIONS
from witnessmark.exchange.decision_form.page import MOST_LINES, WIDTH

DAY = "2024-06-01"
FILE = "winch/2024-002-bush.yml"

TYPED = """\
ONE DECISION - The Museum of the Test Bench
Write after the colons, on as many lines as you need. Some may stay blank.

THE QUESTON
Machne: winsh               Part or parts: drum bush
Date: 03/04/2024   Writen by: Fiter
What was found: The bush is worn oval and the drum knocks
on every turn: most of all when it is cold
How known: measured
How presing: urgent
Measured: 1,35mm      Limit: 0,8 mm
What has to be decided: What should carry the drum now?
It should be able to: Lift half a tonne on open days
Wanted because: people come to see it work
Danger while working: The drum slips while it is lifted out
Danger afterwards: The drum tilts and the load drops
Grade at work today: 2-d  Grade afterwards today: c2

IF IT IS LEFT ALONE
What becomes of it: worn through
Can be taken back: 1
Afterwards then: 2C
How true, five numbers: 4 3 4 4 4
Why those numbers: It works but it knocks
Why not: The shaft would be cut in the end

OPTON 1
Kind: renew like for like
What we would do: A new bush to the old size
What comes off: bush
Kept where: stor a     Label: TB 0007
What goes in: tin bronze, turned by us
At work then: 2E    Afterwards then: 2D
How true: 4,4,4,4,4
Why those numbers: To the old size, scraped by hand
Way back: press it out
Hours: 40 - 60     Cost: 1.400

OPTION 2
Kind: put in rollers
What we would do: Roller bearings

OUR CHOICE
We choose: 1
Because: the bush was made to be renewed
We give up: the old bronze
Who disagreed: nobody
"""
"""Typed by somebody who never saw a record: slips in headings, labels, names and words, decimal
commas, a day that may be two, missing answers, and two answers on one line."""

MENDED = {
    "Date: 03/04/2024": "Date: 3 April 2024",
    "How presing: urgent": "How presing: act",
    "At work then: 2E": "Made safe by: a stand that carries the drum\nAt work then: 2E",
    "Cost: 1.400": "Cost: 1400",
    "Kind: put in rollers": "Kind: renew equivalent",
}
"""What the messages of the first try ask for, line by line."""


def mended(text: str = TYPED) -> str:
    for before, after in MENDED.items():
        assert before in text
        text = text.replace(before, after)
    return text


def take(root: Path, text: str) -> Called:
    form = root.parent / "form.txt"
    form.write_text(text, encoding="utf-8")
    return call("new", "--from-form", str(form), "--museum", str(root), "--as-of", DAY)


def record(root: Path) -> Any:
    return plainly((root / FILE).read_text(encoding="utf-8"))


def found(root: Path) -> list[Any]:
    called = call("check", str(root / FILE), "--format", "json").json["diagnostics"]
    return [one for one in called if one["file"].endswith(FILE)]


@pytest.fixture(scope="module")
def taken(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small museum with the record that the mended form makes; tests here only look."""
    root = on_disk(tmp_path_factory.mktemp("form"))
    called = take(root, mended())
    assert 0 == called.code, called.out + called.err
    return root


def test_the_form_prints_on_one_page_of_a4_as_text() -> None:
    lines = form_as_text("The Museum of the Test Bench", given={}).splitlines()
    # A4 is 297 mm high (ISO 216); at 6 lines to the inch, less half an inch above and below, 64
    # lines have room, and 78 signs at 10 to the inch are narrower than its 210 mm.
    assert int((297 - 2 * 12.7) / 25.4 * 6) >= MOST_LINES >= len(lines)
    assert WIDTH >= max(map(len, lines))
    assert 210 - 2 * 5 >= WIDTH / 10 * 25.4 - 1


def test_the_form_prints_on_one_page_of_a4_from_a_browser() -> None:
    weasyprint = pytest.importorskip("weasyprint", reason="no printer of pages is installed")
    page = form_as_html("A museum with a rather long name on the dune coast", given={})
    assert 1 == len(weasyprint.HTML(string=page).render().pages)


def test_every_field_of_the_text_stands_on_the_page_for_the_browser() -> None:
    page = form_as_html("A", given={})
    assert [] == [f.label for s in SECTIONS for f in s.fields if f"<dt>{f.label}" not in page]


def test_a_name_with_signs_in_it_cannot_change_the_page() -> None:
    assert "<b>" not in form_as_html('"><b>', given={"machine": '"><b>'})


def test_the_form_is_written_for_a_machine_and_never_over_one_that_is_there(
    tmp_path: Path,
) -> None:
    root = on_disk(tmp_path)
    words = ("new", "--form", "--machine", "winch", "--museum", str(root), "--out", "sheet")
    assert 0 == call(*words, cwd=tmp_path).code
    assert "Machine: The winch" in (tmp_path / "sheet.txt").read_text(encoding="utf-8")
    assert (1, True) == (
        (again := call(*words, cwd=tmp_path)).code,
        "is there already" in again.err,
    )


def test_an_empty_form_asks_for_what_it_needs_and_writes_nothing(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    called = take(root, form_as_text("The Museum of the Test Bench", given={}))
    assert (1, False) == (called.code, (root / FILE).exists())
    assert "Machine is not filled in" in called.out


def test_each_thing_to_put_right_says_line_what_why_and_remedy(tmp_path: Path) -> None:
    called = take(on_disk(tmp_path), TYPED)
    blocks = [block for block in called.out.split("\n\n") if "to put right:" in block]
    assert 1 == called.code
    assert len(MENDED) == len(blocks), called.out
    lines = TYPED.splitlines()
    for block in blocks:
        number = re.match(r"line (\d+), ", block)
        assert number
        assert f"{int(number[1]):>5} | {' '.join(lines[int(number[1]) - 1].split())}" in block
        assert "\n  why  " in block
        assert "\n  fix  " in block


def test_what_stands_in_the_way_is_all_told_at_once(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    told = " ".join(take(root, TYPED).out.split())
    for words in (
        "03/04/2024 may be 2024-04-03 or 2024-03-04",
        '"urgent" is no grade of a finding',
        "2E is grave if it happens",
        "1.400 may be 1400 or 1.4",
        '"put in rollers" is no kind of option',
    ):
        assert words in told
    assert not (root / FILE).exists()


def test_a_form_typed_with_slips_becomes_a_draft_without_errors(taken: Path) -> None:
    assert {"note"} == {one["level"] for one in found(taken)}


def test_names_and_figures_are_read_as_they_were_meant(taken: Path) -> None:
    read = record(taken)
    assert {
        "about": ["drum/bush"], "opened": "2024-04-03", "proposed_by": "fitter",
        "findings": ["f-002"], "question": "What should carry the drum now?",
    }.items() <= read.items()  # fmt: skip
    assert ["2D", "2C"] == [hazard["before"] for hazard in read["hazards"]]
    assert ("renew", "none raised") == (read["choice"]["option"], read["choice"]["dissent"])
    renew = read["options"][1]
    assert {"label": "TB-0007", "place": "store-a", "fate": "stored"}.items() <= (
        renew["steps"][0].items()
    )
    assert {"hours": [40, 60], "cost": [1400, 1400]} == renew["effort"]


def test_the_finding_is_added_with_points_for_commas_and_the_lines_joined(taken: Path) -> None:
    log = plainly((taken / "winch" / "findings.yml").read_text(encoding="utf-8"))["findings"]
    assert {
        "id": "f-002", "date": "2024-04-03", "by": "fitter", "part": "drum/bush",
        "basis": "measured", "grade": "act", "measurement": "1.35 mm", "limit": "0.8 mm",
        "what": "The bush is worn oval and the drum knocks on every turn: most of all when it "
        "is cold",
    } == log[-1]  # fmt: skip


def test_what_was_left_blank_is_asked_for_by_check_until_the_record_is_sound(
    tmp_path: Path,
) -> None:
    """Only what a message asks for is written, at the line it names, until none is left."""
    root = on_disk(tmp_path)
    assert 0 == take(root, mended()).code
    path = root / FILE
    written = {
        "by": "curator", "date": DAY, "after": "2D", "likely": "3", "because": "It shows",
        "setting": "In its shed", "use": "Lifts as built", "spirit": "Much as it was",
        "would_change_our_mind": "Bronze that cannot be had",
    }  # fmt: skip
    lines = path.read_text(encoding="utf-8").splitlines()
    for one in found(root):
        if one["code"] == "WM073":
            name = one["field"].rpartition(".")[2]
            lines[one["line"] - 1] = f"{lines[one['line'] - 1].rstrip()} {written[name]}"
    text = "\n".join(lines) + "\n"
    for field, value in {
        "state": "for-review",
        "interests": "none declared",
        "losses": "none",
    }.items():
        text = re.sub(rf"^{field}:.*$", f"{field}: {value}", text, flags=re.MULTILINE)
    path.write_text(text, encoding="utf-8")
    assert [] == [one for one in found(root) if one["level"] == "error"]


def test_a_machine_that_cannot_be_found_is_told_with_those_there_are(tmp_path: Path) -> None:
    told = take(on_disk(tmp_path), mended().replace("winsh ", "crane ")).out
    assert 'there is no machine "crane"' in told
    assert "The sister winch; The winch" in told


def test_an_answer_given_twice_is_not_chosen_between(tmp_path: Path) -> None:
    text = mended().replace("We give up:", "We choose: 2\nWe give up:")
    called = take(on_disk(tmp_path), text)
    assert (1, True) == (called.code, "answered twice, first on line" in called.out)


def test_a_line_that_belongs_to_nothing_is_not_lost(tmp_path: Path) -> None:
    text = mended().replace("OUR CHOICE\n", "OUR CHOICE\nsomething stray\n")
    called = take(on_disk(tmp_path), text)
    assert (1, True) == (called.code, '"something stray" belongs to no field' in called.out)


def test_a_day_to_come_is_told(tmp_path: Path) -> None:
    called = take(on_disk(tmp_path), mended().replace("3 April 2024", "2 June 2024"))
    assert (1, True) == (called.code, "has not come yet" in called.out)


def test_the_second_option_is_meant_by_two_though_the_first_was_left_blank(
    tmp_path: Path,
) -> None:
    root = on_disk(tmp_path)
    text = mended()
    text = text[: text.index("OPTON 1")] + text[text.index("OPTION 2") :]
    assert 0 == take(root, text.replace("We choose: 1", "We choose: option 2")).code
    assert "equivalent" == record(root)["choice"]["option"]


def test_a_label_that_cannot_be_tied_on_is_told_at_its_line(tmp_path: Path) -> None:
    called = take(on_disk(tmp_path), mended().replace("TB 0007", "TB/7 new"))
    assert (1, True) == (called.code, '"TB/7-new" cannot stand on a label' in called.out)


def test_dissent_is_kept_for_somebody_to_answer_and_not_taken_as_none(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    take(root, mended().replace("disagreed: nobody", "disagreed: the foreman, for the noise"))
    text = (root / FILE).read_text(encoding="utf-8")
    assert "# Somebody disagreed: " in text
    assert record(root)["choice"]["dissent"] is None


def test_a_file_that_is_no_text_is_told(tmp_path: Path) -> None:
    form = tmp_path / "form.txt"
    form.write_bytes(b"Machine: \xff\xfe")
    called = call("new", "--from-form", str(form), "--museum", str(on_disk(tmp_path)))
    assert (2, True) == (called.code, "UTF-8" in called.err)


def test_a_form_printed_with_underlines_is_read_as_blank() -> None:
    read = read_form(form_as_text("A", given={}))
    assert ({}, []) == (
        {key: one for key, one in read.answers.items() if one.text}, read.told,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("2024-02-29", "2024-02-29"), ("11.2.2024", "2024-02-11"), ("11. 2. 2024", "2024-02-11"),
        ("3rd March 2024", "2024-03-03"), ("13/2/2024", "2024-02-13"), ("2/13/2024", "2024-02-13"),
        ("5/5/2024", "2024-05-05"), ("1 sept 2024", "2024-09-01"), ("2024/3/1", "2024-03-01"),
    ],
)  # fmt: skip
def test_a_day_is_read_as_people_write_it(written: str, meant: str) -> None:
    assert meant == values.day(written).isoformat()


@pytest.mark.parametrize(
    "written", ["30.2.2024", "2/3/2024", "soon", "13/13/2024", "1 smarch 2024", "2024"]
)
def test_a_day_that_is_none_or_two_is_never_guessed(written: str) -> None:
    with pytest.raises(values.UnclearError):
        values.day(written)


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("0,74 mm", "0.74 mm"), ("0.74mm", "0.74 mm"), ("0,74 +- 0,01 mm", "0.74 ± 0.01 mm"),
        ("0.74 +/- 0.01 mm", "0.74 ± 0.01 mm"), ("31 kN", "31 kN"),
    ],
)  # fmt: skip
def test_a_figure_with_a_comma_is_one_with_a_point(written: str, meant: str) -> None:
    assert meant == values.quantity(written)


@pytest.mark.parametrize(
    "written", ["1.234 mm", "1,234 mm", "0.74", "much", "3 furlong", "1,2,3 mm"]
)
def test_a_figure_that_may_mean_two_things_or_none_is_never_guessed(written: str) -> None:
    with pytest.raises(values.UnclearError):
        values.quantity(written)


@pytest.mark.parametrize("written", ["5 3 4 4 4", "4 3 4 4", "3.5 3 4 4 4", "good", "4 3 4 4 4 4"])
def test_levels_off_the_scale_or_too_few_are_told(written: str) -> None:
    with pytest.raises(values.UnclearError):
        values.levels(written, count=5)


@pytest.mark.parametrize("written", ["4 3 4 4 4", "4,3,4,4,4", "4; 3; 4; 4; 4", "4, 3, 4, 4, 4"])
def test_levels_are_read_whatever_stands_between_them(written: str) -> None:
    assert ("4", "3", "4", "4", "4") == values.levels(written, count=5)


@given(text=st.text(max_size=400))
def test_no_text_stops_the_reader(text: str) -> None:
    read = read_form(text)
    assert all(0 < one.line <= len(read.lines) for one in read.told)
