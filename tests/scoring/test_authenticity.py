"""Authenticity: six aspects side by side, weighted by what carries this machine's significance.

Aspects: Nara Document on Authenticity (1994), paragraph 13. The weighting is the museum's own.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from fractions import Fraction

import pytest

from building import option
from witnessmark.model.machine import Significance
from witnessmark.model.options import JudgedBy
from witnessmark.model.words import Aspect
from witnessmark.scoring.authenticity import Authenticity, NotApplicable, reckon_authenticity
from witnessmark.scoring.score import Score, Scored, Withheld

F = Fraction
BLANK = "The aspect {} is not judged."
ALL_JUDGED = """\
judged:
  form: {likely: 3, because: A joint can be seen}
  use: {low: 1, likely: 2, high: 4, because: It turns slowly}
unaffected: {technique: By hand, setting: In its shed, spirit: As it was}
"""


def reckoned(
    text: str,
    *,
    carried_by: Mapping[str, object] | None = None,
    present: Mapping[str, int] | None = None,
    material: Scored | None = None,
    judged_by: JudgedBy | None = None,
) -> Authenticity:
    significance = Significance.model_validate(
        {
            "statement": "The last one",
            "state": "As in its last season",
            "carried_by": carried_by or {"material": 2, "form": 1, "use": 2, "technique": 1},
            "present": present or {},
        }
    )
    return reckon_authenticity(
        option(text),
        material=material or Score.exactly(F(7, 2)),
        significance=significance,
        judged_by=judged_by,
    )


def score(text: str, **given: object) -> Score:
    found = reckoned(text, **given).score  # type: ignore[arg-type]
    assert isinstance(found, Score), found
    return found


def test_the_score_is_the_mean_weighted_by_what_carries_the_significance() -> None:
    found = score(ALL_JUDGED)
    assert (2 * F(7, 2) + 3 + 2 * 2 + 4) / F(6) == found.likely


def test_low_and_high_are_the_means_of_lows_and_highs() -> None:
    found = score(ALL_JUDGED)
    assert (2 * F(7, 2) + 3 + 2 * 1 + 4) / F(6) == found.low
    assert (2 * F(7, 2) + 3 + 2 * 4 + 4) / F(6) == found.high


def test_low_and_high_default_to_likely() -> None:
    text = ALL_JUDGED.replace("low: 1, likely: 2, high: 4", "likely: 2")
    found = score(text)
    assert found.low == found.likely == found.high


def test_the_six_aspects_are_those_of_the_nara_document() -> None:
    expected = ["form", "material", "use", "technique", "setting", "spirit"]
    assert expected == [aspect.value for aspect in reckoned(ALL_JUDGED).aspects]


def test_an_aspect_that_carries_nothing_weighs_nothing_and_is_still_shown() -> None:
    judged = """\
judged:
  form: {likely: 3, because: A joint can be seen}
  use: {low: 1, likely: 2, high: 4, because: It turns slowly}
  spirit: {likely: 0, because: Lifeless}
unaffected: {technique: By hand, setting: In its shed}
"""
    found = reckoned(judged)
    assert found.score == reckoned(ALL_JUDGED).score
    assert F(0) == found.aspects[Aspect.SPIRIT].weight
    assert Score.exactly(0, "Lifeless") == found.aspects[Aspect.SPIRIT].score


def test_weights_may_be_fractions() -> None:
    found = score(ALL_JUDGED, carried_by={"form": "1/3", "use": "2/3"})
    assert F(3 + 2 * 2, 3) == found.likely


def test_unaffected_stands_at_the_machine_s_present_level() -> None:
    found = reckoned(ALL_JUDGED, present={"technique": 1})
    assert Score.exactly(1, "By hand") == found.aspects[Aspect.TECHNIQUE].score
    assert isinstance(found.score, Score)
    assert (2 * F(7, 2) + 3 + 2 * 2 + 1) / F(6) == found.score.likely


def test_unaffected_stands_at_4_where_no_present_level_is_given() -> None:
    assert Score.exactly(4, "By hand") == reckoned(ALL_JUDGED).aspects[Aspect.TECHNIQUE].score


def test_a_judged_aspect_is_not_moved_by_the_present_level() -> None:
    found = reckoned(ALL_JUDGED, present={"form": 0})
    assert Score.exactly(3, "A joint can be seen") == found.aspects[Aspect.FORM].score


def test_an_aspect_that_does_not_apply_is_left_out_of_the_mean() -> None:
    text = ALL_JUDGED.replace("technique: By hand, ", "") + "not_applicable: {technique: None ran}"
    found = reckoned(text)
    assert NotApplicable("None ran") == found.aspects[Aspect.TECHNIQUE].score
    assert isinstance(found.score, Score)
    assert (2 * F(7, 2) + 3 + 2 * 2) / F(5) == found.score.likely


def test_every_blank_aspect_is_named() -> None:
    expected = Withheld(tuple(BLANK.format(a) for a in ("form", "use", "technique", "setting")))
    assert expected == reckoned("unaffected: {spirit: As it was}").score


@pytest.mark.parametrize("aspect", ["technique", "setting", "spirit"])
def test_one_blank_aspect_withholds_the_score_even_where_it_carries_nothing(aspect: str) -> None:
    kept = {"technique": "By hand", "setting": "In its shed", "spirit": "As it was"}
    flow = ", ".join(f"{name}: {why}" for name, why in kept.items() if name != aspect)
    text = ALL_JUDGED[: ALL_JUDGED.index("unaffected")] + f"unaffected: {{{flow}}}"
    assert Withheld((BLANK.format(aspect),)) == reckoned(text).score


def test_a_withheld_material_withholds_the_score_with_its_reason() -> None:
    why = Withheld(("It is not said what becomes of a/bush.",))
    assert why == reckoned(ALL_JUDGED, material=why).score


def test_material_is_computed_and_what_is_typed_for_it_is_not_read() -> None:
    text = ALL_JUDGED.replace("judged:\n", "judged:\n  material: {likely: 0, because: Typed}\n")
    assert score(text) == score(ALL_JUDGED)
    assert "computed" == reckoned(text).aspects[Aspect.MATERIAL].how


def test_where_nothing_that_carries_the_significance_applies_the_score_is_withheld() -> None:
    text = """\
unaffected: {setting: In its shed, spirit: As it was, technique: By hand, form: As it was}
not_applicable: {use: It never ran}
"""
    expected = Withheld(("No aspect that carries the machine's significance applies here.",))
    assert expected == reckoned(text, carried_by={"use": 1}).score


def test_who_judged_and_when_is_once_a_record_or_by_value() -> None:
    once = JudgedBy.model_validate({"by": "curator", "date": "2024-02-20"})
    text = ALL_JUDGED.replace("seen}", "seen, by: fitter, date: 2024-03-01}")
    rows = reckoned(text, judged_by=once).aspects
    assert ("fitter", date(2024, 3, 1)) == (rows[Aspect.FORM].by, rows[Aspect.FORM].date)
    assert ("curator", date(2024, 2, 20)) == (rows[Aspect.USE].by, rows[Aspect.USE].date)
    assert (None, None) == (rows[Aspect.SETTING].by, rows[Aspect.SETTING].date)


def test_the_sum_is_printed() -> None:
    expected = ("(1 x form 3 + 2 x material 3.5 + 2 x use 2 + 1 x technique 4) / 6 = 3.",)
    assert expected == score(ALL_JUDGED).facts
