"""The verbs about many weighings: how alike people judge, what is alike, and another policy."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from calling import Record, call

# Krippendorff, Computing Krippendorff's Alpha-Reliability, 2011: four observers, twelve units. The
# alphas as its text (nominal .743) and general-purpose libraries print them.
OBSERVERS = """\
1 2 3 3 2 1 4 1 2 * * *
1 2 3 3 2 2 4 1 2 5 * 3
* 3 3 3 2 3 4 2 2 5 1 *
1 2 3 3 2 4 4 1 2 5 1 *
"""


def table(where: Path, scores: str, *, decisions: bool = False) -> str:
    file = where / "scores.csv"
    with file.open("w", encoding="utf-8", newline="") as opened:
        writer = csv.writer(opened)
        writer.writerow(["unit", "rater", "score", *(["decision"] if decisions else [])])
        for rater, row in enumerate(scores.splitlines()):
            for unit, score in enumerate(row.split()):
                if score != "*":
                    home = [f"d{unit // 2}"] if decisions else []
                    writer.writerow([f"u{unit:02}", f"r{rater}", score, *home])
    return str(file)


def test_a_table_of_scores_gives_the_figures_of_the_contract(tmp_path: Path) -> None:
    told = call("agreement", "--table", table(tmp_path, OBSERVERS)).json
    alpha = {"nominal": "113/152", "ordinal": "108577/133160", "interval": "951/1120"}
    assert (alpha, None, 40, False) == (told["alpha"], told["kappa"], told["n"], told["clustered"])
    assert ["alpha", "kappa", "n", "interval", "clustered"] == list(told)


def test_two_raters_have_kappa_as_well(tmp_path: Path) -> None:
    # Cells of the table [[0,4,1],[0,8,0],[0,1,5]]: .4842 and .4701 as a statistics package prints.
    first = "0 0 0 0 0 1 1 1 1 1 1 1 1 2 2 2 2 2 2"
    second = "1 1 1 1 2 1 1 1 1 1 1 1 1 1 2 2 2 2 2"
    file = table(tmp_path, f"{first}\n{second}\n", decisions=True)
    told = call("agreement", "--table", file, "--format", "json").json
    found = (told["kappa"]["none"], told["kappa"]["linear"], told["clustered"])
    assert ("107/221", "118/251", True) == found


def test_a_table_where_nobody_differs_leaves_agreement_undefined(tmp_path: Path) -> None:
    told = call("agreement", "--table", table(tmp_path, "3 3 3\n3 3 3\n")).json
    assert {"nominal": None, "ordinal": None, "interval": None} == told["alpha"]


def test_a_table_reads_well_too(tmp_path: Path) -> None:
    told = call("agreement", "--table", table(tmp_path, OBSERVERS), "--format", "text").out
    assert "levels as an order          0.82" in told


def test_a_table_that_cannot_be_read_is_refused_in_plain_words(tmp_path: Path) -> None:
    file = tmp_path / "scores.csv"
    file.write_text("unit,rater,score\nu1,r1,good\n", encoding="utf-8")
    called = call("agreement", "--table", str(file))
    assert 2 == called.code
    assert "scores.csv, line 2" in called.err
    missing = call("agreement", "--table", str(tmp_path / "none.csv"))
    assert (2, True) == (missing.code, "cannot be read" in missing.err)


def test_the_museums_own_second_judgements_are_enough_to_say(demo: Path) -> None:
    told = call("agreement", "--museum", str(demo), "--format", "json").json
    assert told["decisions"] >= 10
    assert [] == told["cautions"]
    assert told["clustered"]
    assert told["differing"]
    assert "too few" not in call("agreement", "--museum", str(demo)).out.casefold()


def test_a_museum_without_second_judgements_says_so(demo: Path) -> None:
    for record in demo.glob("*/2*.yml"):
        record.unlink()
    called = call("agreement", "--museum", str(demo))
    assert (0, True) == (called.code, "Nobody has judged" in called.out)


def test_precedents_come_with_likeness_coverage_choice_and_why(demo: Path) -> None:
    told = call("similar", "2025-002", "--museum", str(demo), "--format", "json").json
    first = told["precedents"][0]
    assert ("2022-001", "slow", "restrict-use") == (
        first["decision"],
        first["chosen"]["option"],
        first["chosen"]["kind"],
    )
    assert "1" == first["coverage"]
    assert "1" == first["terms"]["part"]
    likenesses = [float(_number(one["likeness"])) for one in told["precedents"]]
    assert sorted(likenesses, reverse=True) == likenesses


def _number(text: str) -> float:
    over, _, under = text.partition("/")
    return int(over) / int(under or 1)


def test_precedents_read_well(demo: Path) -> None:
    told = call("similar", "2025-002", "--museum", str(demo), "--most", "1").out
    wanted = ["in 100 alike", "could be compared", "chosen  slow", "because", "alike   "]
    assert [] == [words for words in wanted if words not in told]
    assert "2024-003" not in told


def test_the_first_decision_of_a_museum_has_no_precedent(demo: Path) -> None:
    assert "no precedent" in call("similar", "2022-001", "--museum", str(demo)).out


def test_an_unknown_decision_is_refused_with_the_one_meant(demo: Path) -> None:
    called = call("similar", "2024-030", "--museum", str(demo))
    assert (2, True) == (called.code, "2024-003" in called.err)


def test_a_replay_under_its_own_policy_changes_nothing(demo: Path) -> None:
    told = call("replay", "--policy", "2022-01", "--museum", str(demo), "--format", "json").json
    under_it = [one for one in told["decisions"] if one["decision"] < "2025"]
    assert under_it
    assert [] == [one for one in under_it if one["changed"]]


def test_a_replay_names_every_decision_that_would_change(demo: Path) -> None:
    policy = Record(demo / "policy" / "2025-01.yml")
    # Scores and floors change with a policy, not only weights.
    policy.change("  running: {safety: 2}", "  running: {safety: 3}")
    told = call("replay", "--policy", "2025-01", "--museum", str(demo), "--format", "json").json
    changed = [one for one in told["decisions"] if one["changed"]]
    assert changed
    assert len(changed) == told["changed"]
    assert [] == [one for one in told["decisions"] if one["changed"] != (one["then"] != one["now"])]
    text = call("replay", "--policy", "2025-01", "--museum", str(demo)).out
    assert text.startswith(f"Under policy 2025-01, {len(changed)} of ")


def test_only_what_was_agreed_is_replayed(demo: Path) -> None:
    told = call("replay", "--policy", "2022-01", "--museum", str(demo), "--format", "json").json
    names = {one["decision"] for one in told["decisions"]}
    # A replaced decision was agreed once; withdrawn, under review and draft ones never were.
    assert "2022-001" in names
    assert names.isdisjoint({"2025-003", "2026-001", "2026-004"})


def test_an_unknown_policy_is_refused_with_those_there_are(demo: Path) -> None:
    called = call("replay", "--policy", "2030-01", "--museum", str(demo))
    assert (2, True) == (called.code, "2022-01, 2025-01" in called.err)


WIDEST = 92
DECISIONS = ["2022-001", "2023-002", "2024-001", "2024-003", "2026-001", "2026-004"]


@pytest.mark.parametrize("decision", DECISIONS)
def test_weighing_fits_a_terminal_and_leads_with_the_sentences(demo: Path, decision: str) -> None:
    told = call("weigh", decision, "--museum", str(demo)).out
    assert [] == [line for line in told.splitlines() if len(line) > WIDEST]
    said = call("weigh", decision, "--museum", str(demo), "--format", "json").json["sentences"]
    words = " ".join(told.split())
    places = [words.index(sentence) for part in said.values() for sentence in part]
    assert sorted(places) == places
    assert places[-1] < words.index("aspects ")


def test_weighing_briefly_gives_the_sentences_and_the_table_alone(demo: Path) -> None:
    told = call("weigh", "2024-003", "--brief", "--museum", str(demo)).out
    wanted = ["Rebush leads at our weights", "Verdict: holds", "option ", "standing"]
    assert [] == [words for words in wanted if words not in told]
    assert [] == [words for words in ("aspects", "undo level", "steps between") if words in told]


def test_weighing_tells_what_would_change_the_result(demo: Path) -> None:
    told = call("weigh", "2026-001", "--museum", str(demo)).out
    wanted = [
        "The result stays while one weight alone",
        "The smallest changes of one score",
        "Who leads if the steps between levels are worth something else",
        "By its worst score alone",
        "would pass",
        "Were stop not set aside, stop would lead.",
    ]
    assert [] == [words for words in wanted if words not in told]


def test_a_choice_against_the_ranking_says_why(demo: Path) -> None:
    told = call("weigh", "2024-001", "--museum", str(demo)).out
    assert "lock was chosen all the same: Recharging scores best" in told


def test_weighing_as_json_holds_the_tests_of_the_levels(demo: Path) -> None:
    told = call("weigh", "2026-001", "--museum", str(demo), "--format", "json").json
    assert ["even", "top-heavy", "bottom-heavy", "squares"] == [s["steps"] for s in told["stress"]]
    even, *_ = told["stress"]
    assert (told["winner"], False) == (even["winner"], even["changes"])
    assert {"winner", "rival", "holds", "level", "winner_reaches", "rival_reaches"} == set(
        told["order_tests"][0]
    )
    assert set(told["best_worst"]) <= set(told["options"])
    assert told["sentences"]["lead"]
