"""Every verb as a person calls it: what it prints, its exit code, and no traceback ever."""

from __future__ import annotations

import json
import shutil
from fractions import Fraction
from pathlib import Path

import pytest

from calling import Record, call
from witnessmark.cli.verbs import VERBS

MATRICES = {
    # Worked by hand and confirmed there with general-purpose geometry libraries; shapely agrees in
    # tests/weighing. Options are authenticity, safety, reversibility.
    "S1": ({"a": [4, 1, 1], "b": [0, 3, 3]}, {"a": "4/9", "b": "5/9"}),
    "S2": ({"a": [4, 0, 0], "b": [0, 4, 0], "c": [0, 0, 4]}, dict.fromkeys("abc", "1/3")),
    "S3": (
        {"a": [4, 0, 0], "b": [0, 4, 0], "c": [0, 0, 4], "m": [2, 2, 2]},
        dict.fromkeys("abcm", "1/4"),
    ),
    "S4": (
        {"a": [4, 0, 0], "b": [0, 4, 0], "c": [0, 0, 4], "m": [1, 1, 1]},
        {**dict.fromkeys("abc", "1/3"), "m": "0"},
    ),
    "S5": (
        {
            "keep": [4, 1, 4],
            "rebush": [3, 3, 3],
            "rolling": [1, 4, 1],
            "sleeve": [2, 3, 3],
            "nothing": [4, 0, 4],
        },
        {"keep": "5/9", "rebush": "1/3", "rolling": "1/9", "sleeve": "0", "nothing": "0"},
    ),
}


def test_help_names_every_verb() -> None:
    told = call("--help").out
    assert [verb for verb in VERBS if f"  {verb} " not in told] == []


@pytest.mark.parametrize("verb", list(VERBS))
def test_every_verb_has_help_with_an_example(verb: str) -> None:
    called = call(verb, "--help")
    assert 0 == called.code
    assert "Example" in called.out


@pytest.mark.parametrize("name", list(MATRICES))
def test_bare_numbers_are_weighed_exactly(name: str, tmp_path: Path) -> None:
    options, shares = MATRICES[name]
    file = tmp_path / "m.json"
    file.write_text(json.dumps({"options": options}), encoding="utf-8")
    told = call("weigh", "--matrix", str(file)).json
    assert shares == {name: row["share_all"] for name, row in told["options"].items()}


def test_the_share_of_the_policys_ranges_is_exact(tmp_path: Path) -> None:
    matrix = {
        "options": {
            "rebush": [3, 3, 2], "rolling": [1, 4, 1], "shim": [3, 2, 3], "keep": [4, 1, 3],
        },
        "weights": {"authenticity": "7/20", "safety": 0.4, "reversibility": "0.25"},
        "ranges": {
            "authenticity": ["1/5", "1/2"], "safety": ["0.3", "0.6"], "reversibility": [0.1, 0.4],
        },
    }  # fmt: skip
    file = tmp_path / "m.json"
    file.write_text(json.dumps(matrix), encoding="utf-8")
    told = call("weigh", "--matrix", str(file)).json
    shares = {name: row["share_policy"] for name, row in told["options"].items()}
    expected = {"rebush": "100/117", "keep": "11/117", "shim": "2/39", "rolling": "0"}
    assert expected == shares
    assert ["rebush"] == told["winner"]


def test_a_matrix_that_cannot_be_read_is_refused_in_plain_words(tmp_path: Path) -> None:
    file = tmp_path / "m.json"
    file.write_text('{"options": {"a": [5, 1, 1]}}', encoding="utf-8")
    called = call("weigh", "--matrix", str(file))
    assert 2 == called.code
    assert "fix" in called.err


def test_weigh_prints_aspects_scores_facts_and_verdict(demo: Path) -> None:
    told = call("weigh", "2024-003", "--museum", str(demo)).out
    wanted = [
        "aspects",
        "material",
        "set aside",
        "Rebush leads",
        "Verdict: holds",
        "left as evidence",
    ]
    assert [words for words in wanted if words not in told] == []


def test_weigh_as_json_holds_what_the_contract_names(demo: Path) -> None:
    told = call("weigh", "2024-003", "--museum", str(demo), "--format", "json").json
    rebush = told["options"]["rebush"]
    assert {"form", "material", "use", "technique", "setting", "spirit"} == set(rebush["aspects"])
    assert {"low", "likely", "high", "facts"} == set(rebush["scores"]["authenticity"])
    assert [] == rebush["set_aside"]
    assert told["options"]["leave"]["if_lifted"]


def test_one_fact_changed_moves_the_score_as_the_table_says(demo: Path, bushes: Record) -> None:
    def material() -> Fraction:
        told = call("weigh", "2024-003", "--museum", str(demo), "--format", "json").json
        return Fraction(told["options"]["rebush"]["aspects"]["material"]["likely"])

    before = material()
    text = bushes.path.read_text(encoding="utf-8")
    head, rebush = text.split("  - id: rebush\n", 1)
    changed = rebush.replace("fate: stored", "fate: lost", 1)
    bushes.path.write_text(f"{head}  - id: rebush\n{changed}", encoding="utf-8")
    # Two bushes made to wear of nine parts, both renewed alike: kept 3/4 each; lost, though the
    # type can still be made, 1/2 each. material = 4 (3/4 worst + 1/4 mean).
    parts = 9
    assert 4 * (Fraction(9, 16) + (parts - 2 + Fraction(6, 4)) / (4 * parts)) == before
    assert 4 * (Fraction(3, 8) + (parts - 2 + 1) / Fraction(4 * parts)) == material()
    found = call("check", str(demo), "--format", "json").json["diagnostics"]
    assert "WM080" in {row["code"] for row in found}


def test_an_unknown_decision_is_told_with_the_nearest() -> None:
    called = call("weigh", "2024-033")
    assert (2, True) == (called.code, "Did you mean" in called.err)


def test_a_worksheet_is_run_and_told_as_the_contract_names() -> None:
    words = ("bore=65.74 mm", "journal=65 mm", "limit=0.5 mm", "--format", "json")
    told = call("worksheet", "run", "bearing-clearance", *words).json
    assert {"sheet", "results", "verdict", "cautions", "source"} <= set(told)
    assert "beyond" == told["verdict"]
    assert 0.74 == pytest.approx(told["results"]["clearance"]["value"], abs=1e-12)


def test_a_worksheet_that_must_refuse_gives_no_result() -> None:
    called = call("worksheet", "run", "bearing-clearance", "bore=65", "journal=65 mm")
    assert (1, "") == (called.code, called.out)
    assert "fix" in called.err


def test_no_museum_is_an_exit_of_two(tmp_path: Path) -> None:
    called = call("check", str(tmp_path))
    assert (2, True) == (called.code, "No museum.yml" in called.err)


def test_a_machines_folder_counts_its_own_records(demo: Path) -> None:
    told = call("check", str(demo / "quay-crane"), "--format", "json").json
    assert len(list((demo / "quay-crane").glob("[0-9]*.yml"))) == told["records"]


@pytest.mark.parametrize("code", ["WM012", "wm003", "WM160", "removed-part-is-kept"])
def test_every_kind_of_code_is_explained(code: str) -> None:
    called = call("explain", code)
    assert (0, True) == (called.code, "To mend it" in called.out)


def test_an_unknown_code_is_told_with_the_nearest() -> None:
    called = call("explain", "removed-part-is-kep")
    assert (2, True) == (called.code, "removed-part-is-kept" in called.err)


def _for_review(bushes: Record) -> None:
    """The record as before anybody agreed."""
    text = bushes.path.read_text(encoding="utf-8")
    kept = text.split("agreed:\n")[0].replace("state: done", "state: for-review")
    bushes.path.write_text(kept, encoding="utf-8")


def test_two_people_sign_and_the_state_becomes_agreed(demo: Path, bushes: Record) -> None:
    _for_review(bushes)
    first = ("sign", "2024-003", "--museum", str(demo), "--date", "2024-03-02")
    assert 0 == call(*first, "--by", "curator", "--role", "collections").code
    third = call(*first, "--by", "workshop-engineer", "--role", "engineering")
    assert "the state is for-review" in third.out
    last = call(*first, "--by", "safety-officer", "--role", "safety")
    assert "the state is agreed" in last.out
    bushes.change("state: agreed", "state: done")
    assert 0 == call("check", str(demo)).code


@pytest.mark.parametrize(
    ("words", "reason"),
    [
        (("--by", "curator", "--role", "engineering"), "does not hold the role"),
        (("--by", "nobody", "--role", "collections"), "not in people.yml"),
        (("--by", "former-engineer", "--role", "engineering"), "does not hold the role"),
    ],
)
def test_a_signature_is_refused_with_the_reason(
    demo: Path, bushes: Record, words: tuple[str, ...], reason: str
) -> None:
    _for_review(bushes)
    before = bushes.path.read_bytes()
    called = call("sign", "2024-003", "--museum", str(demo), "--date", "2024-03-02", *words)
    assert (1, True) == (called.code, reason in called.err)
    assert before == bushes.path.read_bytes()


def test_one_person_cannot_sign_twice(demo: Path, bushes: Record) -> None:
    _for_review(bushes)
    words = ("sign", "2024-003", "--museum", str(demo), "--date", "2024-03-02", "--by", "curator")
    assert 0 == call(*words, "--role", "collections").code
    again = call(*words, "--role", "collections")
    assert (1, True) == (again.code, "has signed this record already" in again.err)


def test_a_record_that_breaks_a_must_is_not_signed(demo: Path, bushes: Record) -> None:
    _for_review(bushes)
    bushes.change("fate: stored, labels: [MQ-0112]", "fate: stored")
    words = ("--by", "curator", "--role", "collections", "--date", "2024-03-02")
    called = call("sign", "2024-003", "--museum", str(demo), *words)
    assert (1, True) == (called.code, "WM132" in called.err)


def test_a_judgement_changed_after_agreement_voids_the_seal(demo: Path, bushes: Record) -> None:
    bushes.change("before: 2C", "before: 2D")
    found = call("check", str(demo), "--format", "json").json["diagnostics"]
    assert {"WM080", "WM082"} >= {row["code"] for row in found} >= {"WM080"}


def test_words_changed_after_agreement_are_a_warning(demo: Path, bushes: Record) -> None:
    bushes.change("title: Leave the bushes as they are", "title: Leave both bushes as they are")
    found = call("check", str(demo), "--format", "json").json["diagnostics"]
    assert {("WM081", "warning")} == {(row["code"], row["level"]) for row in found}


def test_the_same_records_published_on_two_days_give_the_same_bytes(
    demo: Path, tmp_path: Path
) -> None:
    def published(name: str, *, epoch: str) -> dict[str, bytes]:
        import os
        import subprocess
        import sys

        out = tmp_path / name
        words = ("publish", str(demo), "--as-of", "demo", "--skin", "plain", "--out", str(out))
        subprocess.run(
            [sys.executable, "-m", "witnessmark", *words],
            env={**os.environ, "SOURCE_DATE_EPOCH": epoch, "TZ": "Pacific/Kiritimati"},
            check=True,
            capture_output=True,
        )
        return {str(p.relative_to(out)): p.read_bytes() for p in out.rglob("*") if p.is_file()}

    assert published("one", epoch="1700000000") == published("two", epoch="1800000000")


def test_a_themed_site_goes_where_the_words_say_from_wherever_it_is_asked(
    demo: Path, tmp_path: Path
) -> None:
    # mkdocs reads a relative folder from where its own file lies.
    root = Path(__file__).parents[2]
    house, elsewhere = tmp_path / "house", tmp_path / "elsewhere"
    elsewhere.mkdir()
    shutil.copytree(root / "site_src", house / "site_src")
    shutil.copy(root / "mkdocs.yml", house)
    shutil.move(demo, house / "decisions")
    words = ("publish", str(house / "decisions"), "--as-of", "demo", "--out", "made")
    called = call(*words, cwd=elsewhere)
    made = (elsewhere / "made" / "index.html").is_file()
    assert (0, True, ["made"]) == (called.code, made, [p.name for p in elsewhere.iterdir()])
    assert {"site_src", "mkdocs.yml", "decisions"} == {p.name for p in house.iterdir()}


def test_a_folder_that_is_not_ours_is_not_replaced(demo: Path, tmp_path: Path) -> None:
    precious = tmp_path / "papers"
    precious.mkdir()
    (precious / "will.txt").write_text("mine", encoding="utf-8")
    called = call(
        "publish", str(demo), "--skin", "plain", "--as-of", "demo", "--out", str(precious)
    )
    assert (1, True) == (called.code, (precious / "will.txt").is_file())


def test_a_terminal_is_never_steered_by_a_record(demo: Path, bushes: Record) -> None:
    bushes.change("opened: 2024-02-11", 'opened: "\\e[2J"')
    assert "\x1b" not in call("check", str(demo)).out
