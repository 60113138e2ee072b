"""The guides that `explain` prints, and that what they tell a museum to write is what is read."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest

from calling import call
from witnessmark.cli.guides import guide, guides

WEIGHTS = guide("weights")
POINTS = r"points +authenticity (\S+) +safety (\S+) +reversibility (\S+) +sum (\S+)"


def entry() -> str:
    """The entry that the guide tells a museum to write, ready to stand under elicited."""
    found = re.search(r"^```yaml\nelicited:\n(.*?)^```$", WEIGHTS, re.MULTILINE | re.DOTALL)
    assert found
    return found.group(1)


def codes_with(demo: Path, entry: str) -> list[str]:
    """The codes found in the demo's second policy with this entry, before anything is decided."""
    for record in demo.glob("*/[0-9]*-[0-9]*-*.yml"):
        record.unlink()
    policy = demo / "policy" / "2025-01.yml"
    text = policy.read_text(encoding="utf-8")
    assert 1 == text.count("\nelicited:\n")
    policy.write_text(text.replace("\nelicited:\n", f"\nelicited:\n{entry}"), encoding="utf-8")
    found = call("check", str(policy), "--format", "json").json["diagnostics"]
    return [each["code"] for each in found]


@pytest.mark.parametrize("name", guides())
def test_a_guide_is_printed_whole_by_its_name(name: str) -> None:
    called = call("explain", name)
    assert (0, guide(name)) == (called.code, called.out.rstrip("\n"))


@pytest.mark.parametrize("name", guides())
def test_a_guide_is_listed_with_its_title(name: str) -> None:
    listed = call("explain").out.partition("\nGuides\n")[2].splitlines()
    assert f"  {name}  {guide(name).splitlines()[0].removeprefix('# ')}" in listed


def test_a_slip_in_the_name_of_a_guide_is_met_with_the_name() -> None:
    called = call("explain", "weigths")
    assert (2, True) == (called.code, "weights" in called.err)


def test_the_weights_it_prints_are_the_points_as_shares_of_their_sum() -> None:
    # Swing weights: Riabacke, Danielson and Ekenberg, 2012, table 2.
    given, weights = (
        [Fraction(figure) for figure in re.search(pattern, WEIGHTS).groups()]  # type: ignore[union-attr]
        for pattern in (POINTS, POINTS.replace("points", "weights"))
    )
    *points, whole = given
    assert sum(points) == whole
    assert [round(float(point / whole), 3) for point in points] == [float(w) for w in weights[:3]]


def test_the_trade_it_asks_for_weighs_the_same_on_both_sides() -> None:
    trade = re.search(r"since (\d+) x (\d+) = (\d+) x (\d+)", WEIGHTS)
    assert trade
    steps, points, other_steps, other_points = map(int, trade.groups())
    assert (80, 100) == (points, other_points)
    assert steps * points == other_steps * other_points


def test_the_entry_it_shows_is_read_and_nothing_is_found(demo: Path) -> None:
    assert [] == codes_with(demo, entry())


def test_the_entry_without_a_first_at_100_is_found_as_it_says(demo: Path) -> None:
    assert ["WM097"] == codes_with(demo, entry().replace("safety: 100", "safety: 90"))


def test_it_names_its_source_and_says_that_it_was_seen() -> None:
    told = WEIGHTS.replace("\n", " ")
    assert re.search(r"Riabacke, Danielson and Ekenberg.*2012, table 2 \(seen\)", told)
