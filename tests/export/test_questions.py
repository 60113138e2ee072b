"""The guide's questions, asked as they stand there, and answered from the records themselves."""

from __future__ import annotations

import os
import re
from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import duckdb
import pytest
import yaml

from calling import DEMO, Record, call
from exported import PREFIXES, WEB, demo_graph, graph_of, guide

ENDED = {"done", "replaced"}
SHOWN = {"agreed", "under-way", *ENDED}


def queries(language: str) -> dict[str, str]:
    """The guide's queries of a language, each by its heading."""
    told: dict[str, str] = {}
    for piece in re.split(r"^### ", guide(), flags=re.MULTILINE)[1:]:
        heading, _, rest = piece.partition("\n")
        for found in re.findall(rf"^```{language}\n(.*?)^```", rest, re.MULTILINE | re.DOTALL):
            told[heading] = found
    return told


# Read with PyYAML alone: nothing of the program says what the records hold.
@cache
def records() -> tuple[tuple[str, str, dict[str, Any]], ...]:
    """Machine, id and data of each decision the public may see, in the order of ids."""
    read = [
        (path.parent.name, path.name[:8], yaml.safe_load(path.read_text(encoding="utf-8")))
        for path in DEMO.glob("*/20*-*.yml")
        if path.parent.name != "policy"
    ]
    shown = [r for r in read if r[2]["publish"] is True and r[2]["state"] in SHOWN]
    return tuple(sorted(shown, key=lambda row: row[1]))


def file(name: str) -> Any:
    return yaml.safe_load((DEMO / name).read_text(encoding="utf-8"))


@cache
def title(person: str) -> str:
    held = next(p for p in file("people.yml")["people"] if p["id"] == person)
    named = held.get("public_name")
    return named or f"the {held['title'][0].lower()}{held['title'][1:]}"


def part(machine: str, address: str) -> dict[str, Any]:
    above, _, name = address.partition("/")
    listed = file(f"{machine}/machine.yml")["assemblies"]
    assembly = next(a for a in listed if a["id"] == above)
    return dict(next(p for p in assembly["parts"] if p["id"] == name))


def machine_name(machine: str) -> str:
    return str(file(f"{machine}/machine.yml")["name"])


def taken_out() -> Iterator[tuple[str, str, str | None, str | None, str | None]]:
    """Machine, part, label, fate and machine it is in now, of each original taken out."""
    for machine, _, data in records():
        if data["state"] not in ENDED:
            continue
        for step in data["work"]["as_done"]:
            places = step.get("parts") or [step["part"]]
            labels = step.get("labels") or [step.get("label")] * len(places)
            if step["do"] == "remove":
                for place, label in zip(places, labels, strict=True):
                    assert part(machine, place)["origin"] != "museum-made"
                    yield (machine_name(machine), part(machine, place)["name"], label,
                           step["fate"], None)  # fmt: skip
            elif step["do"] == "fit-from-donor":
                giver, _, address = step["from"].partition("/")
                name = part(giver, address)["name"]
                yield machine_name(giver), name, None, None, machine_name(machine)


def departed() -> list[tuple[str, str]]:
    return [
        (name, " ".join(data["departs_from_ranking"].split()))
        for _, name, data in records()
        if data.get("departs_from_ranking")
    ]


def judged() -> list[tuple[str, str, int]]:
    """How many values each person judged, of those with a score."""
    counted: Counter[tuple[str, str]] = Counter()
    for _, name, data in records():
        for option in data["options"]:
            for value in option.get("judged", {}).values():
                counted[name, title(value.get("by") or data["judged_by"]["by"])] += 1
    return sorted((name, who, times) for (name, who), times in counted.items())


def followed() -> list[tuple[str, str, str]]:
    found = []
    for _, name, data in records():
        found += [(name, "follows", earlier) for earlier in data.get("follows", [])]
        found += [(name, "departs-from", one["decision"]) for one in data.get("departs_from", [])]
        found += [(name, "replaces", data["replaces"])] if data.get("replaces") else []
    return sorted(found)


def waived() -> list[tuple[str, str, str, str]]:
    return [
        (name, w["rule"], title(w["approver"]), str(w["until"]))
        for _, name, data in records()
        for w in data.get("waivers", [])
    ]


SQL, SPARQL = queries("sql"), queries("sparql")


def ask_tables(heading: str, tables: Path, form: str) -> list[tuple[Any, ...]]:
    here = Path.cwd()
    try:
        os.chdir(tables)
        return duckdb.execute(SQL[heading].replace(".csv'", f".{form}'")).fetchall()
    finally:
        os.chdir(here)


def ask_graph(heading: str, graph: Any = None) -> list[tuple[str | None, ...]]:
    """The answers as text, with a decision or rule as its id."""
    prefixes = re.search(r"^```sparql-prefixes\n(.*?)^```", guide(), re.MULTILINE | re.DOTALL)
    assert prefixes
    rows: Any = (graph or demo_graph()).query(prefixes.group(1) + SPARQL[heading])
    return [tuple(None if v is None else _short(str(v)) for v in row) for row in rows]


def _short(value: str) -> str:
    found = re.fullmatch(rf"{WEB}(?:d|rules)/([^/]+)/#(?:decision|rule)", value)
    return found.group(1) if found else value


def test_the_guide_asks_seven_questions_of_tables_and_five_of_the_graph() -> None:
    assert (7, 5) == (len(SQL), len(SPARQL))


def test_the_guides_prefixes_are_those_of_the_graph() -> None:
    assert all(line in guide() for line in PREFIXES.split("\n"))


def test_the_records_have_an_answer_to_every_question() -> None:
    answers = (list(taken_out()), departed(), judged(), followed(), waived())
    assert [] == [found for found in answers if not found]


@pytest.mark.parametrize("form", ["csv", "parquet", "jsonl"])
def test_tables_tell_which_originals_came_off(form: str, tables: Path) -> None:
    rows = ask_tables("Which originals came off which machine, and where can they be seen?",
                      tables, form)  # fmt: skip
    told = [(machine_name(r[0]), r[1], r[3], r[4], r[6]) for r in rows]
    assert sorted(taken_out(), key=str) == sorted(told, key=str)


@pytest.mark.parametrize("form", ["csv", "parquet", "jsonl"])
def test_tables_tell_which_decisions_departed_from_the_ranking(form: str, tables: Path) -> None:
    rows = ask_tables("Which decisions departed from the ranking?", tables, form)
    assert departed() == [(name, " ".join(why.split())) for name, _, why in rows]


@pytest.mark.parametrize("form", ["csv", "parquet", "jsonl"])
def test_tables_tell_whose_scores_they_are(form: str, tables: Path) -> None:
    assert judged() == sorted(ask_tables("Whose scores are they?", tables, form))


@pytest.mark.parametrize("form", ["csv", "parquet", "jsonl"])
def test_tables_tell_what_followed_what(form: str, tables: Path) -> None:
    assert followed() == ask_tables("What followed what?", tables, form)


@pytest.mark.parametrize("form", ["csv", "parquet", "jsonl"])
def test_tables_tell_which_rules_were_waived(form: str, tables: Path) -> None:
    rows = ask_tables("Which rules were waived?", tables, form)
    assert waived() == [(*row[:3], str(row[3])) for row in rows]


@pytest.mark.parametrize("form", ["csv", "parquet", "jsonl"])
def test_tables_tell_how_true_to_the_machine_the_choices_are(form: str, tables: Path) -> None:
    heading = "How true to the machine is what was chosen, by how it is kept?"
    # What was signed is in the record itself, under reckoned.
    levels: dict[str, list[float]] = {}
    for machine, _, data in records():
        kept = [
            k
            for k in file(f"{machine}/machine.yml")["kept"]
            if str(k["from"]) <= str(data["opened"])
        ]
        signed = data["reckoned"]["options"][data["choice"]["option"]]["authenticity"][1]
        above, _, below = signed.partition("/")
        levels.setdefault(kept[-1]["as"], []).append(int(above) / int(below or 1))
    expected: dict[str, Any] = {
        k: (len(v), pytest.approx(sum(v) / len(v), abs=1e-5)) for k, v in levels.items()
    }
    rows = ask_tables(heading, tables, form)
    assert expected == {kept: (times, float(mean)) for kept, times, mean in rows}


@pytest.mark.parametrize("form", ["csv", "parquet", "jsonl"])
def test_tables_tell_where_more_was_done_than_planned(form: str, tables: Path) -> None:
    def places(steps: list[dict[str, Any]]) -> list[tuple[str, str]]:
        return [(p, s.get("do", "")) for s in steps for p in s.get("parts") or [s["part"]]]

    expected = []
    for _, name, data in records():
        if data["state"] not in ENDED:
            continue
        chosen = next(o for o in data["options"] if o["id"] == data["choice"]["option"])
        consequences = chosen.get("consequences", [])
        listed = consequences if isinstance(consequences, list) else []
        planned = {p for p, _ in places([*chosen.get("steps", []), *listed])}
        done = places(data["work"]["as_done"])
        expected += [(name, place, do) for place, do in done if place not in planned]
    rows = ask_tables("Where was more done to a part than planned?", tables, form)
    assert sorted(expected) == sorted(rows)


def test_the_graph_tells_which_originals_were_taken_out_and_where_they_can_be_seen() -> None:
    rows = ask_graph("Which originals were taken out of which machine, and where can they be seen?")
    told = [
        (machine, piece, label, fate, now_in) for machine, piece, label, fate, _, now_in in rows
    ]
    assert sorted(taken_out(), key=str) == sorted(told, key=str)


def test_the_graph_tells_where_a_piece_on_show_can_be_seen(demo: Path, tmp_path: Path) -> None:
    record = Record(demo / "quay-crane" / "2024-003-slewing-bushes.yml")
    text = record.path.read_text(encoding="utf-8")
    start = text.index("as_done:")
    changed = text[start:].replace("fate: stored", "fate: displayed", 1)
    record.path.write_text(text[:start] + changed, encoding="utf-8")
    out = tmp_path / "out"
    called = call("export", str(demo), "--format", "jsonld", "--out", str(out), "--as-of", "demo")
    assert 0 == called.code, called.out + called.err
    graph = graph_of({str(p): p.read_bytes() for p in out.rglob("*.jsonld")})
    rows = ask_graph(
        "Which originals were taken out of which machine, and where can they be seen?", graph
    )
    seen = {row[2]: row[4] for row in rows if row[4]}
    where = f"{file('museum.yml')['name']}, where visitors can see it"
    assert {"MQ-0112": where} == seen


def test_the_graph_tells_which_decisions_departed_from_the_ranking() -> None:
    rows = ask_graph("Which decisions departed from the ranking?")
    assert departed() == [(name, " ".join((why or "").split())) for name, _, why in rows]


def test_the_graph_tells_whose_scores_they_are() -> None:
    expected = [(name, who, str(times)) for name, who, times in judged()]
    assert expected == ask_graph("Whose scores are they?")


def test_the_graph_tells_what_followed_what() -> None:
    words = {"follows": "followed", "departs-from": "departed-from", "replaces": "replaces"}
    expected = sorted((name, words[how], earlier) for name, how, earlier in followed())
    assert expected == ask_graph("What followed what?")


def test_the_graph_tells_which_rules_were_waived() -> None:
    assert waived() == [row[:4] for row in ask_graph("Which rules were waived?")]
