"""Reviews and agreements as a person would try them: real repositories, real calls."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from building import BASE, DECISION, changed, plainly, written
from calling import Called, call
from keeping import Kept, kept_demo, kept_museum

FIRST_BLOCK = 25
HALL = "snow-plough/2025-004-tiled-hall.yml"


def review(kept: Kept, *words: str) -> Called:
    return call("review", *words, "--museum", str(kept.museum), cwd=kept.top)


def sign(kept: Kept, person: str, role: str, *more: str, day: str = "2024-03-02") -> Called:
    words = ("--by", person, "--role", role, "--date", day, "--museum", str(kept.museum))
    return call("sign", "2024-001", *words, *more)


def verify(kept: Kept, *more: str) -> Called:
    return call("verify", "2024-001", "--museum", str(kept.museum), *more)


@pytest.fixture
def kept(tmp_path: Path) -> Kept:
    """The small museum with its decision governed by a hazard at 2D, agreed by two, on main."""
    found = kept_museum(
        tmp_path / "work", changes={DECISION: {"options.1.answers.drops.after": "2D"}}
    )
    assert 0 == sign(found, "curator", "collections").code
    assert 0 == sign(found, "engineer", "engineering").code
    found.commit("agreed")
    return found


def test_a_governing_hazard_from_2d_to_2c_leads_with_the_flip_and_the_void_seal(
    kept: Kept,
) -> None:
    kept.branch("topic")
    kept.change(DECISION, "after: 2D", "after: 2C")
    kept.commit()
    called = review(kept, "main", "HEAD")
    first = called.out.split("\n## ")[1].splitlines()
    points = [line for line in first if line[:1].isdigit()]
    assert 1 == called.code
    assert "RANKING FLIPS" in points[0]
    assert "SEAL VOID" in points[1]
    assert "safety of rebush 2 to 1 (hazard drops 2D to 2C" in points[0]
    assert "Flips back if safety of rebush is 2 or more" in points[0]
    assert FIRST_BLOCK >= len(first)


def test_the_same_in_the_demo_with_the_leading_option_of_an_agreed_decision(
    tmp_path: Path,
) -> None:
    kept = kept_demo(tmp_path / "work")
    kept.branch("topic")
    text = (kept.museum / HALL).read_text(encoding="utf-8")
    head, trailer = text.split("  - id: trailer\n")
    worse = trailer.replace("after: 2E", "after: 2C", 1)
    assert trailer != worse
    (kept.museum / HALL).write_text(f"{head}  - id: trailer\n{worse}", encoding="utf-8")
    kept.commit()
    called = review(kept, "main", "HEAD")
    points = [line for line in called.out.splitlines() if line[:1].isdigit()]
    assert 1 == called.code
    assert ["RANKING FLIPS", "SEAL VOID"] == [line.split("**")[1] for line in points[:2]]
    assert "safety of trailer 2 to 1" in points[0]


def test_a_whole_file_in_another_layout_is_no_change_in_meaning(kept: Kept) -> None:
    path = kept.museum / DECISION
    path.write_text(written(plainly(path.read_text(encoding="utf-8"))), encoding="utf-8")
    kept.commit()
    called = review(kept, "HEAD~1", "HEAD")
    assert (0, True) == (called.code, "No change in meaning" in called.out)


def test_every_file_of_the_demo_in_another_layout_is_no_change_in_meaning(tmp_path: Path) -> None:
    kept = kept_demo(tmp_path / "work")
    for path in sorted(kept.museum.rglob("*.yml")):
        path.write_text(written(plainly(path.read_text(encoding="utf-8"))), encoding="utf-8")
    called = review(kept)
    assert (0, True) == (called.code, "No change in meaning" in called.out)


def test_two_roles_sign_and_both_are_recorded(kept: Kept) -> None:
    called = verify(kept)
    assert (0, 2) == (called.code, called.out.count("Recorded as agreed by"))
    assert "Signed by" not in called.out


def test_one_character_of_a_reason_is_a_warning_and_the_seal_holds(kept: Kept) -> None:
    kept.change(DECISION, "It turns but it knocks", "It turns but it knocks!")
    called = verify(kept)
    assert (0, 2) == (called.code, called.out.count("The seal holds. Sentences were changed"))
    found = call("check", str(kept.museum), "--format", "json").json["diagnostics"]
    assert {("WM081", "warning")} == {(d["code"], d["level"]) for d in found} - _before(kept)
    assert 0 == review(kept).code


def _before(kept: Kept) -> set[tuple[str, str]]:
    """What a check of the small museum finds anyhow."""
    kept.git("stash", "-q")
    found = call("check", str(kept.museum), "--format", "json").json["diagnostics"]
    kept.git("stash", "pop", "-q")
    return {(d["code"], d["level"]) for d in found}


def test_a_changed_level_voids_the_seal(kept: Kept) -> None:
    kept.change(DECISION, "likely: 3", "likely: 2")
    called = verify(kept)
    assert (1, 2) == (called.code, called.out.count("The seal is void"))


def test_an_agreement_copied_to_another_record_is_refused(kept: Kept) -> None:
    text = (kept.museum / DECISION).read_text(encoding="utf-8")
    copied = text.replace("id: 2024-001\n", "id: 2024-002\n", 1)
    (kept.museum / "winch" / "2024-002-copy.yml").write_text(copied, encoding="utf-8")
    called = call("verify", "2024-002", "--museum", str(kept.museum))
    assert (1, 2) == (called.code, called.out.count("The seal is that of 2024-001"))
    assert "it was copied" in review(kept).out
    codes = {
        d["code"] for d in call("check", str(kept.museum), "--format", "json").json["diagnostics"]
    }
    assert "WM080" in codes


def test_the_proposer_alone_is_refused(tmp_path: Path) -> None:
    kept = kept_museum(tmp_path / "work", changes={DECISION: {"proposed_by": "engineer"}})
    called = sign(kept, "engineer", "engineering")
    assert (1, True) == (called.code, "nobody else has agreed to it yet" in called.err)


def _key(where: Path, name: str) -> Path:
    key = where / name
    words = ["ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-C", "", "-f", str(key)]
    subprocess.run(words, check=True, capture_output=True)
    return key


def _allow(kept: Kept, **keys: Path) -> None:
    lines = [
        f'{person} namespaces="witnessmark" {key.with_suffix(".pub").read_text(encoding="utf-8")}'
        for person, key in keys.items()
    ]
    (kept.museum / "allowed_signers").write_text("".join(lines), encoding="utf-8")


@pytest.fixture
def signed(tmp_path: Path) -> Kept:
    """On main the list of keys; on a branch a record signed by two with their keys."""
    kept = kept_museum(tmp_path / "work")
    keys = {name: _key(tmp_path, name) for name in ("curator", "engineer")}
    _allow(kept, **keys)
    kept.commit("keys")
    kept.branch("topic")
    for person, role in {"curator": "collections", "engineer": "engineering"}.items():
        called = sign(kept, person, role, "--key", str(keys[person]))
        assert 0 == called.code, called.err
    kept.commit("signed")
    return kept


def test_a_detached_signature_verifies_and_only_then_is_it_called_signed(signed: Kept) -> None:
    called = verify(signed, "--base", "main")
    assert (0, 2) == (called.code, called.out.count("Signed by"))


def test_a_squash_merge_loses_nothing_that_a_detached_signature_needs(signed: Kept) -> None:
    signed.git("checkout", "-q", "main")
    signed.git("merge", "-q", "--squash", "topic")
    signed.commit("squashed")
    assert "N" == signed.git("log", "-1", "--format=%G?")
    assert (0, 2) == (verify(signed).code, verify(signed).out.count("Signed by"))


def test_a_list_of_keys_swapped_in_the_same_branch_is_caught(signed: Kept, tmp_path: Path) -> None:
    forged = _key(tmp_path, "forged")
    _allow(signed, curator=forged, engineer=forged)
    signatures = signed.museum / "winch" / "signatures"
    shutil.rmtree(signatures)
    text = (signed.museum / DECISION).read_text(encoding="utf-8").split("agreed:\n")[0]
    other = text.replace("state: agreed", "state: for-review")
    (signed.museum / DECISION).write_text(other, encoding="utf-8")
    for person, role in {"curator": "collections", "engineer": "engineering"}.items():
        assert 0 == sign(signed, person, role, "--key", str(forged)).code
    signed.commit("forged")
    assert 0 == verify(signed).code
    assert 1 == verify(signed, "--base", "main").code
    called = review(signed, "main", "HEAD")
    assert (1, 2) == (called.code, called.out.count("The signature file does not fit") // 2)
    assert "LIST OF KEYS CHANGED" in called.out


def test_a_signature_of_another_person_or_another_record_does_not_fit(signed: Kept) -> None:
    there = signed.museum / "winch" / "signatures"
    shutil.copy(there / "2024-001-collections.sig", there / "2024-001-engineering.sig")
    called = verify(signed)
    assert (1, 1) == (called.code, called.out.count("does not fit"))


def test_a_changed_date_of_agreement_breaks_its_signature(signed: Kept) -> None:
    signed.change(DECISION, "by: curator, date: 2024-03-02", "by: curator, date: 2024-03-01")
    assert "does not fit" in verify(signed).out


def test_a_key_is_held_against_the_day_of_agreement(signed: Kept) -> None:
    path = signed.museum / "allowed_signers"
    ended = path.read_text(encoding="utf-8").replace(
        'namespaces="witnessmark"', 'namespaces="witnessmark",valid-before="20240201"'
    )
    path.write_text(ended, encoding="utf-8")
    assert (1, 2) == (verify(signed).code, verify(signed).out.count("does not fit"))


def test_without_a_list_of_keys_no_signature_is_believed(signed: Kept) -> None:
    (signed.museum / "allowed_signers").unlink()
    called = verify(signed)
    assert (1, 0) == (called.code, called.out.count("Signed by"))
    assert "no allowed_signers file" in called.out


def test_signatures_and_keys_are_no_fault_of_the_folder(signed: Kept) -> None:
    found = call("check", str(signed.museum), "--format", "json").json["diagnostics"]
    assert [] == [d for d in found if "signatures" in d["file"] or "allowed" in d["file"]]


def test_a_key_that_is_not_there_is_refused_and_nothing_is_written(tmp_path: Path) -> None:
    kept = kept_museum(tmp_path / "work")
    before = (kept.museum / DECISION).read_bytes()
    called = sign(kept, "curator", "collections", "--key", str(tmp_path / "none"))
    assert (1, before) == (called.code, (kept.museum / DECISION).read_bytes())


def test_a_museum_outside_git_can_be_checked_but_not_reviewed(tmp_path: Path) -> None:
    from building import on_disk

    museum = on_disk(tmp_path)
    called = call("review", "--museum", str(museum))
    assert (2, True) == (called.code, "no git repository" in called.err)


def test_a_hostile_author_name_is_nowhere_in_a_review(kept: Kept) -> None:
    name = "<script>alert(1)</script> @everyone\t::error::"
    kept.branch("topic")
    kept.change(DECISION, "It turns but it knocks", "It turns and knocks")
    kept.commit("\n::stop-commands::x", who=name)
    for form in ("md", "json", "html"):
        told = review(kept, "main", "HEAD", "--format", form).out
        assert [] == [word for word in ("alert(1)", "everyone", "stop-commands") if word in told]


def test_what_base_and_head_hold_alike_stays_alike_after_a_rename_of_the_museums_files(
    kept: Kept,
) -> None:
    kept.git("mv", f"museum/{DECISION}", "museum/winch/2024-001-other.yml")
    kept.commit()
    assert "No change in meaning" in review(kept, "HEAD~1", "HEAD").out


def test_a_new_record_that_is_clean_asks_for_no_person(kept: Kept) -> None:
    later = changed(
        BASE[DECISION], {"id": "2024-002", "state": "draft", "options.1.steps.0.label": "TB-0002"}
    )
    (kept.museum / "winch" / "2024-002-x.yml").write_text(later, encoding="utf-8")
    called = review(kept)
    assert (0, True) == (called.code, "First review" in called.out)
