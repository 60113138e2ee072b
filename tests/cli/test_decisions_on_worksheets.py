"""Four demo decisions rest on a worksheet: change one input, and all that hangs on it follows.

Each is tried on the demo museum as it is on disk and with one input of one record other: the
scores, what is set aside, the data of its page and the rules.
"""

from __future__ import annotations

import shutil
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from calling import DEMO, Record, call
from witnessmark.exchange.weighing_json import case_as_json
from witnessmark.model.library import Folder, Library, assemble
from witnessmark.repository.disk import read_museum
from witnessmark.rules.check import check
from witnessmark.rules.rulebook_check import load_shipped
from witnessmark.weighing.case import work_out


@dataclass(frozen=True)
class Rests:
    """A decision, one input of one of its worksheets as it stands and otherwise, and an option."""

    decision: str
    file: str
    sheet: str
    stands: str
    otherwise: str
    verdicts: tuple[str, str]
    option: str
    safety: tuple[str, str]


BUSH = Rests(
    "2024-003",
    "quay-crane/2024-003-slewing-bushes.yml",
    "clearance-upper",
    "bore: 180.88 ± 0.02 mm",
    "bore: 180.40 ± 0.02 mm",
    ("beyond", "within"),
    "half-load",
    ("1", "2"),
)
TOW = Rests(
    "2025-004",
    "snow-plough/2025-004-tiled-hall.yml",
    "tow",
    "friction: 0.45 ± 0.10",
    "friction: 0.15 ± 0.05",  # ice in place of wet gravel
    ("within", "beyond"),
    "trailer",
    ("2", "1"),
)
GRINDER = Rests(
    "2025-002",
    "motor-roller/2025-002-failed-bolts.yml",
    "grinding-two",
    "5.5 ± 1.0 m/s2 for 40 min",
    "5.5 ± 1.0 m/s2 for 3 h",
    ("within", "beyond"),
    "grind-failed",
    ("2", "1"),
)
STRUT = Rests(
    "2024-001",
    "crash-tender/2024-001-gas-strut.yml",
    "charge",
    "pressure: 58.0 ± 0.5 bar",
    "pressure: 64.6 bar",
    ("near", "beyond"),
    "recharge",
    ("2", "1"),
)
ALL = [BUSH, TOW, GRINDER, STRUT]
BY_DECISION = pytest.mark.parametrize("rests", ALL, ids=lambda rests: rests.decision)
SET_ASIDE = [TOW, GRINDER, STRUT]  # the floor of the museum's policy is 2


@cache  # the demo museum is read once for all tests here
def demo() -> Folder:
    return read_museum(DEMO)


@cache  # each museum with another input is asked several things
def museum(rests: Rests | None = None) -> Library:
    """The demo museum, with one input of one record other where a record is named."""
    if rests is None:
        return assemble(demo())
    written = demo().files[rests.file].decode()
    assert 1 == written.count(rests.stands)
    other = written.replace(rests.stands, rests.otherwise).encode()
    return assemble(replace(demo(), files={**demo().files, rests.file: other}))


def weighed(rests: Rests, *, changed: bool) -> Any:
    """What `weigh` tells of the decision, which is what its page shows."""
    library = museum(rests if changed else None)
    entry = library.by_id[rests.decision]
    assert entry.value is not None
    return case_as_json(work_out(entry.value, entry.machine, library))


def option(rests: Rests, *, changed: bool) -> Any:
    return weighed(rests, changed=changed)["options"][rests.option]


@cache
def codes(rests: Rests, *, changed: bool) -> dict[str, list[str]]:
    """The messages about a record by their codes."""
    library = museum(rests if changed else None)
    found: dict[str, list[str]] = {}
    for row in check(
        library, rulebook=load_shipped(), under=f"{demo().name}/{rests.file}"
    ).diagnostics:
        found.setdefault(row.code, []).append(row.message)
    return found


@BY_DECISION
def test_the_verdict_is_pinned_in_the_record(rests: Rests) -> None:
    text = demo().files[rests.file].decode()
    pinned = text[text.index("\nreckoned:") :]
    assert f"{rests.sheet}: {rests.verdicts[0]}" in pinned


@BY_DECISION
def test_the_safety_of_an_option_follows_the_verdict(rests: Rests) -> None:
    scores = [option(rests, changed=changed)["scores"]["safety"] for changed in (False, True)]
    assert rests.safety == tuple(score["likely"] for score in scores)


@BY_DECISION
def test_the_facts_under_a_capped_score_name_the_sheet(rests: Rests) -> None:
    score = option(rests, changed=rests.verdicts[1] == "beyond")["scores"]["safety"]
    named = [f for f in score["facts"] if f"By the worksheet {rests.sheet}, " in f]
    assert any("is beyond its limit" in fact for fact in named)


@BY_DECISION
def test_the_value_of_an_option_follows_the_verdict(rests: Rests) -> None:
    assert option(rests, changed=False)["value"] != option(rests, changed=True)["value"]


@pytest.mark.parametrize("rests", SET_ASIDE, ids=lambda rests: rests.decision)
def test_an_option_that_wins_loses_by_its_sheet_alone(rests: Rests) -> None:
    assert [rests.option] == weighed(rests, changed=False)["winner"]
    after = weighed(rests, changed=True)
    assert rests.option not in after["winner"]
    assert "below the floor" in " ".join(after["options"][rests.option]["set_aside"])


@BY_DECISION
def test_the_agreement_and_its_pinned_verdict_no_longer_hold(rests: Rests) -> None:
    found = codes(rests, changed=True)
    before, after = rests.verdicts
    expected = f'Worksheet "{rests.sheet}" was {before} when it was agreed and is {after} now.'
    assert expected in found["WM082"]
    assert "WM080" in found


@pytest.mark.parametrize("rests", [TOW, GRINDER], ids=lambda rests: rests.decision)
def test_a_choice_whose_sheet_is_beyond_cannot_stand(rests: Rests) -> None:
    assert "WM085" in codes(rests, changed=True)


@BY_DECISION
def test_the_record_as_it_is_has_none_of_these_findings(rests: Rests) -> None:
    assert not {"WM070", "WM080", "WM082", "WM085"} & codes(rests, changed=False).keys()


def test_the_command_line_tells_the_same(tmp_path: Path) -> None:
    copy = tmp_path / "decisions"
    shutil.copytree(DEMO, copy)
    Record(copy / TOW.file).change(TOW.stands, TOW.otherwise)
    told = call("weigh", TOW.decision, "--museum", str(copy), "--format", "json").json
    assert weighed(TOW, changed=True)["options"] == told["options"]


def test_the_real_gas_alone_puts_the_charge_past_its_limit() -> None:
    # At 64.6 bar on the gauge and 15 degC the ideal law keeps to the plate's 72 bar at 45 degC:
    # (64.6 + 1.01325) x 318.15 / 288.15 - 1.01325 = 71.4. Real nitrogen does not.
    words = (STRUT.otherwise.replace(": ", "="), "pressure_kind=gauge", "temperature=15 degC")
    limit = ("new_temperature=45 degC", "allowed=72 bar")
    told = call("worksheet", "run", "gas-charge", *words, *limit, "--format", "json").json
    allowed = 72 + 1.01325
    assert told["results"]["ideal"]["value"] < allowed < told["results"]["real"]["value"]
    assert "beyond" == told["verdict"]


def test_a_plough_on_tiles_is_set_aside_by_the_floor_it_would_press() -> None:
    drives = Rests(
        TOW.decision,
        TOW.file,
        "on-tiles",
        "contact_length: 2600 ± 50 mm, allowed: 40 kPa}\n    bears_on: [tracks/track-shoes]\n",
        "contact_length: 2600 ± 50 mm, allowed: 70 kPa}\n    bears_on: [tracks/track-shoes]\n",
        ("beyond", "within"),
        "drive",
        ("1", "2"),
    )
    assert "below the floor" in " ".join(option(drives, changed=False)["set_aside"])
    assert [] == option(drives, changed=True)["set_aside"]


# The sentences quote what the sheets give, so that a reader can find the one in the other.
@pytest.mark.parametrize(
    ("rests", "sheet", "result", "digits", "quoted"),
    [
        (TOW, "on-tiles", "nominal", 0, "presses 50 kPa where the floor report allows 40"),
        (TOW, "on-plates", "nominal", 0, "presses 16 kPa where the floor report allows 40"),
        (TOW, "tow", "pull", 0, "the tractor pulls 14 kN"),
        (TOW, "tow", "traction_limit", 0, "its tyres hold 24 kN"),
        (TOW, "slings", "leg_tension", 0, "A sling leg carries 68 kN"),
        (GRINDER, "grinding-two", "a8", 1, "1.6 m/s2 over the day"),
        (GRINDER, "grinding-eight", "a8", 1, "2.2 ± 0.5 m/s2 a day"),
        (STRUT, "charge", "real_gauge", 0, "Real nitrogen gives 65"),
        (STRUT, "left-strut", "real_gauge", 0, "the left one stands at 53 bar"),
    ],
)
def test_the_record_quotes_the_figures_of_its_sheets(
    rests: Rests, sheet: str, result: str, digits: int, quoted: str
) -> None:
    entry = museum().by_id[rests.decision]
    assert entry.value is not None
    case = work_out(entry.value, entry.machine, museum())
    (run,) = [one.run for one in case.sheets if one.used.id == sheet]
    assert run is not None
    assert f"{run.results[result].value:.{digits}f}" in quoted
    assert quoted in " ".join(demo().files[rests.file].decode().split())
