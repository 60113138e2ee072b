"""Agreements, successors, policies and stock that do not hold together, each told in its own words.

The cases are those of this project's own table of bad input, 56 to 60.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from building import DECISION, POLICY, STORES, changed, done
from calling import call_here
from keeping import keep
from sound_museum import TEXTS, signed, sound

RECORD = TEXTS[DECISION]
OTHER_SEAL = "wm1:" + "0" * 64


def said(museum: Path) -> dict[str, str]:
    """What a check says, the first of each code."""
    found: list[dict[str, Any]] = call_here("check", str(museum), "--format", "json").json[
        "diagnostics"
    ]
    return {one["code"]: one["message"] for one in reversed(found) if one["level"] == "error"}


def altered(museum: Path, before: str, after: str) -> Path:
    path = museum / DECISION
    text = path.read_text(encoding="utf-8")
    assert before in text, before
    path.write_text(text.replace(before, after, 1), encoding="utf-8")
    return museum


def seal_of(museum: Path) -> str:
    text = (museum / DECISION).read_text(encoding="utf-8")
    return text[text.index("wm1:") :][:68]


def test_56_a_seal_that_does_not_fit_is_told(tmp_path: Path) -> None:
    museum = signed(tmp_path)
    altered(museum, seal_of(museum), OTHER_SEAL)
    assert "no longer the one that curator on 2024-03-02 agreed to" in said(museum)["WM080"]


def test_56_a_seal_that_is_no_seal_is_told_otherwise(tmp_path: Path) -> None:
    museum = signed(tmp_path)
    altered(museum, seal_of(museum), "wm1:yes")
    assert "The seal is not 64 digits after wm1:." == said(museum)["WM083"]


def test_56_a_seal_of_another_record_does_not_fit(tmp_path: Path) -> None:
    other = seal_of(signed(tmp_path / "one", changes={DECISION: {"hazards.0.before": "2D"}}))
    museum = signed(tmp_path / "two")
    altered(museum, seal_of(museum), other)
    assert "no longer the one" in said(museum)["WM080"]


def test_56_a_person_whom_nobody_knows_is_told_otherwise(tmp_path: Path) -> None:
    museum = altered(signed(tmp_path), "by: curator, date: 2024-03-02", "by: ann, date: 2024-03-02")
    assert '"ann" is not in the register of people.' == said(museum)["WM032"]


def test_56_a_day_that_has_not_come_does_not_verify(tmp_path: Path) -> None:
    museum = signed(tmp_path)
    called = call_here("verify", "--museum", str(museum), "--as-of", "2024-03-01")
    assert (1, 2) == (called.code, called.out.count("2024-03-02 lies after 2024-03-01."))


def test_57_a_list_of_keys_changed_in_the_branch_stands_in_the_review(tmp_path: Path) -> None:
    kept = keep(sound(tmp_path / "work"))
    (kept.museum / "allowed_signers").write_text("curator ssh-ed25519 AAAA\n", encoding="utf-8")
    kept.commit()
    kept.branch("topic")
    (kept.museum / "allowed_signers").write_text("curator ssh-ed25519 BBBB\n", encoding="utf-8")
    kept.commit()
    called = call_here("review", "main", "topic", "--museum", str(kept.museum))
    assert (1, True) == (called.code, "LIST OF KEYS CHANGED" in called.out)


def replaced(name: str, *, by: str, replaces: str = "") -> str:
    text = RECORD.replace("2024-001", name, 1).replace("TB-0001", f"TB-{name[-1]}")
    text = text.replace("state: for-review", "state: replaced") + f"replaced_by: {by}\n"
    return text + (f"replaces: {replaces}\n" if replaces else "")


def test_58_a_record_that_replaces_itself_is_told_once(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    (museum / DECISION).write_text(replaced("2024-001", by="2024-001"), encoding="utf-8")
    found = said(museum)
    assert ("A record cannot point to itself.", False) == (found["WM035"], "WM057" in found)


def test_58_a_circle_is_told_with_its_chain(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    (museum / DECISION).unlink()
    for here, after, before in ("123", "231", "312"):
        text = replaced(f"2024-00{here}", by=f"2024-00{after}", replaces=f"2024-00{before}")
        (museum / "winch" / f"2024-00{here}-x.yml").write_text(text, encoding="utf-8")
    assert "in a circle: 2024-001, 2024-002, 2024-003, 2024-001." in said(museum)["WM057"]


def test_58_a_successor_that_is_missing_is_told(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    (museum / DECISION).write_text(replaced("2024-001", by="2024-009"), encoding="utf-8")
    assert 'There is no decision "2024-009".' in said(museum)["WM035"]


def test_58_two_successors_are_told_with_both(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    (museum / DECISION).write_text(replaced("2024-001", by="2024-002"), encoding="utf-8")
    for number in "23":
        text = RECORD.replace("2024-001", f"2024-00{number}", 1).replace("TB-0001", f"TB-{number}")
        path = museum / "winch" / f"2024-00{number}-x.yml"
        path.write_text(f"{text}replaces: 2024-001\n", encoding="utf-8")
    expected = "2024-001 says that 2024-002 takes its place, and so does 2024-003."
    assert expected == said(museum)["WM057"]


@pytest.mark.parametrize(
    ("before", "after", "code", "words"),
    [
        ("reversibility: 0.25", "reversibility: 0.24", "WM093", "add up to 99/100, not to 1"),
        ("authenticity: 0.35", "authenticity: -0.35", "WM093", "-7/20, below 0"),
        ("authenticity: 0.35", 'authenticity: "0,35"', "WM074", '"0,35" is of another kind'),
    ],
)
def test_59_weights_that_cannot_be_are_told_once(
    before: str, after: str, code: str, words: str, tmp_path: Path
) -> None:
    museum = sound(tmp_path)
    text = (museum / POLICY).read_text(encoding="utf-8")
    (museum / POLICY).write_text(text.replace(before, after, 1), encoding="utf-8")
    found = {code: message for code, message in said(museum).items() if code in {"WM093", "WM074"}}
    assert {code: True} == {one: words in message for one, message in found.items()}


def test_59_a_policy_that_is_not_there_is_told(tmp_path: Path) -> None:
    museum = sound(tmp_path, changes={DECISION: {"policy": "1999-01"}})
    assert 'There is no policy "1999-01".' in said(museum)["WM033"]


FITTING = """
- {do: remove, part: drum/bush, fate: stored, label: TB-9, place: store-a}
- {do: fit-old-stock, part: drum/bush, like: same, count: 1, from: bushes}
"""


def test_60_a_spare_used_twice_is_told_with_both_records(tmp_path: Path) -> None:
    steps = [
        {"do": "remove", "part": "drum/bush", "fate": "stored", "label": "TB-1",
         "place": "store-a", "care": "Oiled"},
        {"do": "fit-old-stock", "part": "drum/bush", "like": "same", "count": 1, "from": "bushes"},
    ]  # fmt: skip
    museum = sound(tmp_path, changes={DECISION: {"options.1.steps": steps}})
    stores = changed(TEXTS[STORES], {"lots.0.count": 1})
    (museum / STORES).write_text(stores, encoding="utf-8")
    earlier = done("2023-001", steps=FITTING, ended="2023-06-30")
    (museum / "winch" / "2023-001-x.yml").write_text(earlier, encoding="utf-8")
    found = "2024-001 draws 1 from bushes, but 0 are left for it: 2023-001 took 1 on 2023-06-30."
    assert found == said(museum)["WM087"]


def test_60_more_than_there_ever_was_is_told(tmp_path: Path) -> None:
    steps = [
        {"do": "remove", "part": "drum/bush", "fate": "stored", "label": "TB-1",
         "place": "store-a", "care": "Oiled"},
        {"do": "fit-old-stock", "part": "drum/bush", "like": "same", "count": 9, "from": "bushes"},
    ]  # fmt: skip
    museum = sound(tmp_path, changes={DECISION: {"options.1.steps": steps}})
    assert "2024-001 draws 9 from bushes, but 3 are left for it." == said(museum)["WM087"]
