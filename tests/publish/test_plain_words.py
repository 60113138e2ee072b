"""What a visitor without training reads on a decision's page: no code without words, once said."""

from __future__ import annotations

import re
from dataclasses import replace
from html import unescape

import pytest

from rendered_site import DEMO, demo, site_of
from witnessmark.model.library import assemble
from witnessmark.publish.figures.weighing_table import PLAINLY
from witnessmark.publish.shown_steps import counted
from witnessmark.repository.disk import read_museum
from witnessmark.scoring.matrix882 import PROBABILITY, SEVERITY, cell_in_full
from witnessmark.weighing.words import Standing

HARMLESS = "becomes: crushed\n        undo: 4"
DECISIONS = sorted(path for path in demo() if re.fullmatch(r"d/[0-9-]+/index\.html", path))


def words_of(path: str) -> str:
    """The words of a page, without its drawings."""
    text = re.sub(r"<svg.*?</svg>|<head>.*?</head>", " ", str(demo()[path]), flags=re.DOTALL)
    return plain(text)


def plain(markup: str) -> str:
    """The words of some markup."""
    spaced = " ".join(unescape(re.sub(r"<[^>]+>", " ", markup)).split())
    return re.sub(r" ([,.;:])", r"\1", spaced)


def section(path: str, name: str) -> str:
    """The markup of one section."""
    return str(demo()[path]).split(f'<section aria-labelledby="{name}">')[1].split("<h2")[1]


def folds(text: str) -> int:
    return text.count("<summary>")


def crane(name: str = "") -> str:
    page = "d/2024-003/index.html"
    return section(page, name) if name else words_of(page)


def pads() -> str:
    return words_of("d/2024-005/index.html")


@pytest.mark.parametrize("path", DECISIONS)
def test_no_cell_of_the_risk_matrix_stands_without_words(path: str) -> None:
    # MIL-STD-882E (2012), Tables I and II: severities 1 to 4, probabilities A to F.
    cells = re.findall(r".(?<![-\w])[1-4][A-F]\b.", words_of(path))
    assert [] == [cell for cell in cells if not re.fullmatch(r"\(..\)", cell)]


@pytest.mark.parametrize("severity", SEVERITY)
@pytest.mark.parametrize("probability", "ABCDE")
def test_a_cell_in_full_says_what_could_happen_how_likely_and_the_code(
    severity: int, probability: str
) -> None:
    cell = f"{severity}{probability}"
    harm, likely = SEVERITY[severity][1], PROBABILITY[probability][1]
    assert cell_in_full(cell).endswith(f" risk: {harm}; {likely} ({cell})")


def test_a_level_of_risk_is_explained_once_where_it_first_stands() -> None:
    page = crane()
    assert 1 == page.count("Medium is the third of four levels")
    first = page.index("A medium risk is left.")
    assert page[first:].startswith("A medium risk is left. Medium is the third of four levels")


@pytest.mark.parametrize("path", DECISIONS)
def test_where_a_level_of_risk_is_first_named_no_machine_is_certified_as_safe(path: str) -> None:
    page = words_of(path)
    said = "this page never certifies a machine as safe"
    assert (" risk is left." in page) <= (page.count(said) == 1)


def test_a_danger_that_an_option_does_not_bring_is_said_so() -> None:
    assert "Left: no such danger: nothing is lifted." in crane()
    assert "Left: not there" not in crane()


def test_a_hardness_scale_is_explained_at_its_first_use() -> None:
    page = str(demo()["d/2024-005/index.html"])
    assert '#trade-shore-a">Shore A</a>' in page
    assert 'id="trade-shore-a"' in demo()["glossary/index.html"]


def test_how_an_option_stands_is_said_in_plain_words_before_its_term() -> None:
    page = crane()
    assert "Could only tie (in our terms: touching). At some weights" in page
    assert set(PLAINLY) == set(Standing)


def test_a_seal_is_explained_before_it_is_shown_and_shown_once() -> None:
    page = crane()
    assert page.index("a short code is worked out from all of it") < page.index("wm1:")
    assert 1 == page.count("wm1:")


def test_the_map_of_weights_says_in_its_caption_how_to_read_it_and_what_it_shows() -> None:
    caption = re.findall(
        r"<figcaption>(.*?)</figcaption>", section("d/2024-005/index.html", "weighing")
    )[0]
    assert caption.startswith("Of all the weights there are, 91 in 100 favour option E")
    assert "Each point of the triangle is one way to weigh the three scores" in caption


@pytest.mark.parametrize("path", sorted(demo()))
def test_what_is_original_is_not_called_metal(path: str) -> None:
    if path.endswith(".html"):
        assert "riginal metal" not in str(demo()[path])


def test_a_result_that_holds_at_every_weighting_says_why_it_is_not_firm() -> None:
    expected = (
        "The result holds but is not firm: other weights would not end its lead, but one score set"
        " one step differently would."
    )
    assert expected in crane()


@pytest.mark.parametrize(
    ("parts", "count", "expected"),
    [
        (["Track shoes"], 12, "12 track shoes"),
        (["Track shoes"], 1, "1 of the track shoes"),
        (["Track shoes"], None, "track shoes"),
        (["Brake lining"], 2, "2 of the brake lining"),
        (["Bush housings in the frame"], 2, "2 bush housings in the frame"),
        (["Wear ring", "Pin"], 2, "2 each of wear ring and pin"),
    ],
)
def test_some_of_a_part_are_counted_as_people_count(
    parts: list[str], count: int | None, expected: str
) -> None:
    assert expected == counted(parts, count)


def test_a_consequence_of_several_pieces_is_a_sentence() -> None:
    assert "12 track shoes become worn by the road." in pads()
    assert "Slewing post becomes scored." in crane()
    assert " of Track shoes" not in pads()


def test_a_demonstration_says_which_day_it_is_set_on() -> None:
    expected = "shown as on 15 September 2026, the day on which this demonstration is set."
    assert expected in crane()


def test_a_look_that_was_taken_is_told_with_both_days() -> None:
    expected = (
        "Second look Done on 11 October 2025; it was due on 1 October 2025, or after 8 h running."
        " No further look at this decision is planned."
    )
    assert expected in pads()
    assert "1 October 2025 A second look was due." in pads()
    assert "We look again." not in pads()


def test_a_look_that_is_still_to_come_is_told_beside_the_last_one() -> None:
    expected = "Due on 1 March 2027, or after 200 h running. Last looked at on 20 October 2025."
    assert expected in crane()
    assert "1 March 2027 We look again. (to come)" in crane()


def test_worn_parts_that_came_off_are_told_from_old_stock_that_was_never_fitted() -> None:
    page = pads()
    assert "off the machine, as it had used them: Rubber track pads, 12 pieces" in page
    assert "Old stock that never was on the machine: rubber track pads" in page
    assert "12 are still in store, not on show; ask to see them." in page


@pytest.mark.parametrize("path", DECISIONS)
def test_a_section_has_one_line_to_open_at_most(path: str) -> None:
    parts = str(demo()[path]).split('<h2 id="')[1:]
    assert [] == [part.partition('"')[0] for part in parts if folds(part) > 1]


def test_an_answer_that_all_options_share_is_said_once() -> None:
    assert 1 == crane("aspects").count("Stays on its rails.")
    assert "<strong>All six</strong>: 4, unaffected. Stays on its rails." in crane("aspects")


def test_one_judge_of_all_levels_is_named_once() -> None:
    assert 1 == crane("aspects").count("the curator of machines")


def test_a_reckoned_level_shows_both_terms_it_is_made_of() -> None:
    # By hand: nine places, the worst (the post, made to last, altered for good) keeps 1/4; the
    # bush keeps 1/2; the mean is (7 + 1/4 + 1/2) / 9 = 86 %.
    expected = "4 x (3/4 x worst 25 % + 1/4 x mean 86 % over 9 parts) = 1.6."
    assert expected in crane("aspects")


def test_every_hazard_is_named_once_in_the_scores() -> None:
    hazard = "The frame tilts on the worn bush, the pinion rides up in the rack"
    assert 1 == crane("scores").count(hazard)


def test_only_looks_still_to_come_or_overdue_are_coming_up_on_the_front_page() -> None:
    ahead = section("index.html", "ahead")
    assert (0, 1) == (ahead.count("d/2024-005/"), ahead.count("overdue"))


def test_a_day_for_which_a_look_was_promised_is_no_change() -> None:
    assert "A second look was due." not in words_of("changes/index.html")
    assert "We looked again." in words_of("changes/index.html")


def test_machines_without_a_picture_stand_behind_those_with_one() -> None:
    rows = section("index.html", "machines").split("<li>")[1:]
    pictured = ["<img" in row for row in rows]
    assert sorted(pictured, reverse=True) == pictured


def test_where_every_option_keeps_all_pieces_a_sentence_says_so_and_nothing_is_drawn() -> None:
    # In the demo one of 42 pieces is crushed if nothing is done; here that leaves no trace.
    museum = read_museum(DEMO)
    file = next(name for name in museum.files if "2024-001" in name)
    text = museum.files[file].decode().replace("becomes: crushed\n        undo: 1", HARMLESS)
    files = {**museum.files, file: text.encode()}
    page = str(site_of(assemble(replace(museum, files=files)))["d/2024-001/index.html"])
    part = page.split('<h2 id="metal">')[1].split("<h2", maxsplit=1)[0]
    assert "Under every option all 42 original pieces stay in the machine." in part
    assert "<svg" not in part


def test_a_piece_that_stays_but_is_altered_is_counted_as_such() -> None:
    # By hand from the records: rollers bore two housings, ring the post and take two bushes out.
    assert "13 as they are, 3 altered, 2 kept, 0 lost" in section("d/2024-003/index.html", "metal")
    assert "41 as they are, 1 altered" in section("d/2024-001/index.html", "metal")


def test_cards_count_pieces_as_the_figure_does() -> None:
    choices = words_of("d/2024-003/index.html")
    assert "13 of 18 original pieces, just as they are." in choices
    assert "All 18 original pieces, just as they are." in choices


def test_what_happens_to_all_of_several_pieces_says_how_many() -> None:
    assert "Bush housings in the turning frame: both altered for good" in crane("choices")
    assert "Rubber track pads: all 84 taken out and kept, replaced by another kind" in pads()


def test_using_up_old_stock_is_not_called_altering_the_original() -> None:
    choices = section("d/2024-005/index.html", "choices")
    fit_old_stock = choices.split("Fit the last twelve unused pads")[1].split("</section>")[0]
    assert "Cannot be undone: the last of the old stock would be used up" in fit_old_stock
    assert "the original survives, altered" not in fit_old_stock


def test_the_one_score_that_decides_between_two_options_is_named() -> None:
    expected = (
        "Between option E and option D, reversibility decides: option D is ahead on authenticity"
        " (4 against 3.8) and level on safety, but has 1 on reversibility against 3."
    )
    assert 1 == pads().count(expected)


def test_no_score_is_said_to_decide_where_the_leader_is_ahead_on_two() -> None:
    assert " decides: " not in crane()


def test_a_term_that_is_the_plain_word_is_not_explained_by_itself() -> None:
    assert "(in our terms: set aside)" not in crane()
    assert "Set aside. It was ruled out before weighing" in crane()


@pytest.mark.parametrize("path", [path for path in DECISIONS if 'id="why"' in str(demo()[path])])
def test_the_reason_for_the_choice_is_told_once(path: str) -> None:
    lead = str(demo()[path]).split('id="why"')[1].split("</div>", maxsplit=1)[0]
    reasons = [plain(found) for found in re.findall(r"<p>(.*?)</p>", lead, re.DOTALL)]
    assert reasons
    assert [] == [said for said in reasons if words_of(path).count(said) != 1]


def test_why_nothing_was_not_left_as_it_was_is_told_once() -> None:
    assert 1 == crane().count("0.90 mm is half as much again as the drawing allows.")


def test_who_leads_is_told_once() -> None:
    assert 1 == pads().count("Option E leads at our weights and for every weighting")


def test_a_part_is_named_once_among_those_that_stay() -> None:
    stays = plain(crane("choices").split("What stays as it is</h3>")[1])
    assert 1 == stays.count("hrust washer on the crown of the post")
    assert "All but F: Bush housings" in stays


def test_steps_done_exactly_as_planned_are_listed_once() -> None:
    assert "The steps were those of option E" in words_of("d/2024-003/index.html")
    assert 1 == crane().count("punched on the lower end face")


def test_steps_done_otherwise_than_planned_are_listed_again() -> None:
    assert "66 Shore A as delivered" in section("d/2024-005/index.html", "outcome")


def test_uses_of_one_worksheet_share_a_title_a_caution_and_a_table() -> None:
    part = crane("worksheets")
    assert 1 == part.count("Running clearance of a plain bearing")
    assert 1 == part.count("<table")
    assert "Upper slewing bush, for option E" in part


def test_two_uses_of_a_worksheet_on_the_same_parts_are_told_apart() -> None:
    part = plain(section("d/2025-006/index.html", "worksheets"))
    assert ("(left pin)" in part, "(right pin)" in part) == (True, True)


def test_a_reason_that_stands_in_the_plan_need_not_be_repeated_with_the_work() -> None:
    assert "The steps were those of option C" in words_of("d/2023-002/index.html")


def test_old_parts_and_the_outcome_stand_before_the_scores() -> None:
    ids = re.findall(r'<h2 id="([a-z-]+)"', str(demo()["d/2024-003/index.html"]))
    wanted = ["choices", "outcome", "old-parts", "aspects", "scores", "weighing", "rules"]
    assert wanted == [name for name in ids if name in wanted]


def test_a_reason_that_is_not_shown_does_not_repeat_what_the_machine_does() -> None:
    page = words_of("m/quay-crane/index.html")
    assert 1 == page.count("Something holds it until it is answered.")


def test_how_we_score_says_what_each_level_of_risk_means() -> None:
    page = words_of("how-we-score/index.html")
    assert "A medium risk is left. Medium is the third of four levels" in page
    assert "Could only tie (touching)" in page


def test_whether_a_machine_runs_is_told_with_days_as_people_write_them() -> None:
    page = words_of("m/sister-dragline/index.html")
    assert "It has been kept reserve since 1 April 2010." in page
    assert "The record behind this is not shown." not in page
