"""Old viscosity scales against a published table, and where they must not be read."""

from __future__ import annotations

import pytest
from chemicals.viscosity import viscosity_scales

from witnessmark.worksheets import SheetRefuses, find_sheet, run

SHEET = find_sheet("old-viscosity")
# The Hydraulic Institute's table as the library ships it: seconds, then mm2/s.
TABLES = {
    "ssu": viscosity_scales["saybolt universal"],
    "redwood-1": viscosity_scales["redwood standard"],
    "redwood-2": viscosity_scales["redwood admiralty"],
}
STARTS = {"ssu": 32, "redwood-1": 34, "redwood-2": 23}
ROWS = [
    pytest.param(scale, seconds, viscosity, id=f"{scale} {seconds}")
    for scale, table in TABLES.items()
    for seconds, viscosity in zip(*table, strict=True)
    if seconds > STARTS[scale]
]


def figures(scale: str, *, seconds: object) -> dict[str, float]:
    results = run(SHEET, {"scale": scale, "seconds": f"{seconds} s"}).results
    return {name: float(result.value) for name, result in results.items()}


@pytest.mark.parametrize(("scale", "seconds", "viscosity"), ROWS)
def test_the_published_table_lies_within_the_stated_range(
    scale: str, seconds: float, viscosity: float
) -> None:
    reached = figures(scale, seconds=seconds)
    assert reached["least"] <= viscosity <= reached["most"]


# ASTM D2161 (seen in a public copy): above 75 cSt, 4.632 SUS to the cSt at 100 degF, 4.664 at 210.
@pytest.mark.parametrize("seconds", [500, 1000, 5000])
def test_long_saybolt_times_are_those_of_the_standard_to_three_in_a_hundred(seconds: int) -> None:
    ours = figures("ssu", seconds=seconds)["viscosity"]
    assert seconds / 4.632 == pytest.approx(ours, rel=0.03)


@pytest.mark.parametrize(("scale", "joint"), [("ssu", 100), ("redwood-1", 100), ("redwood-2", 90)])
def test_two_rules_meet_where_they_change(scale: str, joint: int) -> None:
    under, over = (figures(scale, seconds=t)["viscosity"] for t in (joint, joint + 0.001))
    assert under == pytest.approx(over, rel=1e-3)


# By hand, on both sides of the joint and at it: up to and including.
@pytest.mark.parametrize(
    ("scale", "seconds", "viscosity"),
    [
        ("ssu", 100, 0.226 * 100 - 1.95),
        ("ssu", 101, 0.220 * 101 - 135 / 101),
        ("redwood-1", 100, 0.260 * 100 - 1.79),
        ("redwood-1", 101, 0.247 * 101 - 50 / 101),
        ("redwood-2", 90, 2.458 * 90 - 100 / 90),
        ("redwood-2", 91, 2.447 * 91),
    ],
)
def test_each_rule_holds_up_to_and_including_its_last_second(
    scale: str, seconds: int, viscosity: float
) -> None:
    assert viscosity == pytest.approx(figures(scale, seconds=seconds)["viscosity"], rel=1e-9)


@pytest.mark.parametrize(("scale", "start"), sorted(STARTS.items()))
def test_before_the_scale_starts_there_is_no_figure(scale: str, start: int) -> None:
    with pytest.raises(SheetRefuses, match="no longer holds") as caught:
        run(SHEET, {"scale": scale, "seconds": f"{start} s"})
    assert ["seconds"] == [fault.name for fault in caught.value.faults]


@pytest.mark.parametrize(
    ("words", "scale", "seconds", "said"),
    [
        ("rule is loose", "ssu", 35, True),
        ("rule is loose", "ssu", 60, False),
        ("exact ISO grade", "redwood-1", 75, True),
        ("exact ISO grade", "ssu", 75, False),
        ("without their temperature", "ssu", 75, True),
    ],
)
def test_what_seconds_do_not_tell_is_said(
    *, words: str, scale: str, seconds: int, said: bool
) -> None:
    cautions = run(SHEET, {"scale": scale, "seconds": f"{seconds} s"}).cautions
    assert said is any(words in text for text in cautions)
