"""The schemas say what the models say: to editors, to other programs, and in the demo museum."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from collections.abc import Iterator
from copy import deepcopy
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import jsonschema  # type: ignore[import-untyped]
import pytest
from pydantic import BaseModel, ValidationError

from building import BASE, changed, on_disk, plainly, written
from calling import DEMO, call
from witnessmark.exchange.schema import KINDS, as_draft_07, schema_files, schema_of
from witnessmark.model.files import DECISION_FILE, MACHINE_FILE, POLICY_FILE

MODELINE = re.compile(r"# yaml-language-server: \$schema=(\S+)\n")


def kind_of(path: str) -> str:
    """Which kind of file lies at a path below the museum folder."""
    if found := MACHINE_FILE.fullmatch(path):
        return found["kind"]
    if POLICY_FILE.fullmatch(path):
        return "policy"
    return "decision" if DECISION_FILE.fullmatch(path) else path.removesuffix(".yml")


RECORDS = sorted(path.relative_to(DEMO).as_posix() for path in DEMO.rglob("*.yml"))


def pieces(schema: Any) -> Iterator[dict[str, Any]]:
    """Every object within a schema, itself first."""
    if isinstance(schema, dict):
        yield schema
        for inner in schema.values():
            yield from pieces(inner)
    elif isinstance(schema, list):
        for inner in schema:
            yield from pieces(inner)


def schema_properties(kind: str) -> list[tuple[str, dict[str, Any]]]:
    """Every property of a schema with its name."""
    return [
        (name, inner)
        for piece in pieces({k: v for k, v in schema_of(kind).items() if k != "defaultSnippets"})
        if isinstance(piece.get("properties"), dict) and "additionalProperties" in piece
        for name, inner in piece["properties"].items()
    ]


def test_the_schemas_of_the_demo_museum_are_those_of_the_code() -> None:
    committed = {p.name: p.read_text(encoding="utf-8") for p in (DEMO / "schema").iterdir()}
    assert schema_files() == committed


def test_the_verb_writes_every_schema_twice_alike(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    assert 0 == call("schema", "--museum", str(root)).code
    first = {path.name: path.read_bytes() for path in (root / "schema").iterdir()}
    assert 0 == call("schema", "--museum", str(root)).code
    assert first == {path.name: path.read_bytes() for path in (root / "schema").iterdir()}
    assert {f"{kind}.schema.json" for kind in KINDS} <= set(first)


def test_a_folder_that_is_no_museum_is_told_so(tmp_path: Path) -> None:
    called = call("schema", "--museum", str(tmp_path))
    assert (2, True) == (called.code, "museum.yml" in called.err)


@pytest.mark.parametrize("kind", KINDS)
def test_each_schema_keeps_its_dialect(kind: str) -> None:
    jsonschema.Draft202012Validator.check_schema(schema_of(kind))
    jsonschema.Draft7Validator.check_schema(as_draft_07(schema_of(kind)))


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_stands_beside_a_reference_in_the_older_dialect(kind: str) -> None:
    beside = [p for p in pieces(as_draft_07(schema_of(kind))) if "$ref" in p and len(p) > 1]
    assert [] == beside


@pytest.mark.parametrize("kind", KINDS)
def test_every_property_says_what_it_means_under_a_title_for_people(kind: str) -> None:
    found = schema_properties(kind)
    assert len(found) >= 10
    for name, piece in found:
        assert len(piece["description"]) >= 20, name
        assert piece["description"].startswith(("Public. ", "Private. ")), name
        assert piece["title"][0].isupper(), name
        assert "_" not in piece["title"], name


@pytest.mark.parametrize("kind", KINDS)
def test_every_closed_list_stands_in_place_with_the_meaning_of_each_word(kind: str) -> None:
    schema = {k: v for k, v in schema_of(kind).items() if k != "defaultSnippets"}
    for piece in pieces(schema):
        if isinstance(piece.get("enum"), list) and set(piece) != {"enum"}:
            assert len(piece["enum"]) == len(piece["enumDescriptions"])
            assert len(piece["enum"]) == len(piece["markdownEnumDescriptions"])
            assert all(len(meaning) >= 10 for meaning in piece["enumDescriptions"])


@pytest.mark.parametrize("kind", KINDS)
def test_no_property_offers_null(kind: str) -> None:
    kinds = [piece.get("type") for piece in pieces(schema_of(kind))]
    assert [] == [found for found in kinds if found == "null" or "null" in (found or [])]


@pytest.mark.parametrize("path", RECORDS)
def test_each_file_of_the_demo_museum_names_its_schema_by_a_path_beside_it(path: str) -> None:
    found = MODELINE.match((DEMO / path).read_text(encoding="utf-8"))
    assert found is not None
    assert (
        DEMO / "schema" / f"{kind_of(path)}.schema.json"
        == (DEMO / path).parent.joinpath(found[1]).resolve()
    )


def check_jsonschema(schema: Path, *files: Path) -> tuple[int, dict[str, list[str]]]:
    """The exit code of check-jsonschema, and what it says of each file."""
    command = [sys.executable, "-m", "check_jsonschema", "--output-format", "json"]
    command += ["--verbose", "--schemafile", str(schema), *map(str, files)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    told: dict[str, list[str]] = {}
    for error in json.loads(done.stdout)["errors"]:
        told.setdefault(Path(error["filename"]).name, []).append(error["message"])
    return done.returncode, told


@pytest.mark.parametrize("dialect", ["", ".draft-07"])
@pytest.mark.parametrize("kind", KINDS)
def test_another_program_finds_every_demo_record_in_order(kind: str, dialect: str) -> None:
    files = [DEMO / path for path in RECORDS if kind_of(path) == kind]
    assert files
    schema = DEMO / "schema" / f"{kind}{dialect}.schema.json"
    assert (0, {}) == check_jsonschema(schema, *files)


FAULTS: dict[str, dict[str, object]] = {
    "unknown-field": {"saftey": 3},
    "unknown-word": {"options.1.kind": "renew"},
    "unknown-field-deep-down": {"options.1.steps.0.fait": "stored"},
    "not-a-level": {"options.1.judged.form.likely": 5},
    "level-as-text": {"options.1.judged.form.likely": "four"},
    "risk-not-read": {"options.1.answers.drops.after": "2G"},
    "answer-says-two-things": {"options.1.answers.drops.none": "Not there"},
    "not-a-day": {"opened": "11/02/2024"},
    "not-an-address": {"about": ["drum"]},
    "not-an-id": {"options.1.id": "Re bush"},
    "blank-text": {"title": " "},
    "yes-for-true": {"options.1.temporary": "yes"},
    "a-word-for-a-list": {"about": "drum/bush"},
    "empty-about": {"about": []},
    "step-without-part": {"options.1.steps.1": {"do": "fit-new", "like": "same"}},
    "fit-without-like": {"options.1.steps.1": {"do": "fit-new", "part": "drum/bush"}},
    "stock-from-nowhere": {
        "options.1.steps.1": {"do": "fit-old-stock", "part": "drum/bush", "like": "same"}
    },
    "other-form": {"witnessmark": 2},
    "unknown-aspect": {"options.1.judged.smell": {"likely": 3, "because": "It smells of oil"}},
    "loss-not-recorded": {"losses": [{"what": "The marks", "recorded_by": []}]},
    "undo-too-high": {"options.1.steps.0.undo": 7},
}


@pytest.fixture(scope="module")
def refused(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[str]]:
    """What check-jsonschema says of each faulted record, and of the sound one."""
    folder = tmp_path_factory.mktemp("faulted")
    schema = folder / "decision.schema.json"
    schema.write_text(schema_files()["decision.schema.json"], encoding="utf-8")
    sound = BASE["winch/2024-001-drum-bush.yml"]
    texts = {"sound": sound} | {name: changed(sound, fault) for name, fault in FAULTS.items()}
    files = []
    for name, text in texts.items():
        files.append(folder / f"{name}.yml")
        files[-1].write_text(text, encoding="utf-8")
    return check_jsonschema(schema, *files)[1]


@pytest.mark.parametrize("name", FAULTS)
def test_another_program_refuses_what_our_check_refuses(
    name: str, refused: dict[str, list[str]]
) -> None:
    data = plainly(changed(BASE["winch/2024-001-drum-bush.yml"], FAULTS[name]))
    with pytest.raises(ValidationError):
        KINDS["decision"][0].model_validate(data)
    assert f"{name}.yml" in refused


def test_another_program_refuses_no_sound_record(refused: dict[str, list[str]]) -> None:
    assert "sound.yml" not in refused


def as_json(value: Any) -> Any:
    """Plain data as a JSON reader would hold it."""
    if isinstance(value, dict):
        return {key: as_json(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [as_json(inner) for inner in value]
    if isinstance(value, Decimal):
        return float(value)
    return value.isoformat() if isinstance(value, date) else value


def places(value: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """Every path in plain data, that of the whole left out."""
    pairs = value.items() if isinstance(value, dict) else enumerate(value)
    for key, inner in pairs:
        yield (*path, key)
        if isinstance(inner, dict | list):
            yield from places(inner, (*path, key))


def with_change(value: Any, path: tuple[str | int, ...], change: str) -> Any:
    """The data with one place gone, or with something else in it."""
    changed_data = deepcopy(value)
    here = changed_data
    for step in path[:-1]:
        here = here[step]
    if change == "gone":
        del here[path[-1]]
    else:
        here[path[-1]] = {"number": -7, "list": [[]], "flag": True, "field": {"zz": 1}}[change]
    return changed_data


def agree(model: type[BaseModel], validator: Any, data: Any) -> bool:
    """True when our reader and the schema think the same of some data."""
    try:
        model.model_validate(data)
    except ValidationError:
        return not validator.is_valid(as_json(data))
    return bool(validator.is_valid(as_json(data)))


APART = frozenset({(("witnessmark",), "flag"), (("time_zone",), "number")})
"""Known differences: the reader takes `true` for 1, and it alone knows the names of time zones."""


@pytest.mark.parametrize("change", ["gone", "number", "list", "flag", "field"])
@pytest.mark.parametrize("kind", KINDS)
def test_schema_and_reader_agree_on_every_record_with_one_thing_other(
    kind: str, change: str
) -> None:
    path = next(path for path in RECORDS if kind_of(path) == kind)
    data = plainly((DEMO / path).read_text(encoding="utf-8"))
    validator = jsonschema.Draft202012Validator(schema_of(kind))
    model = KINDS[kind][0]
    apart = [
        (place, change)
        for place in places(data)
        if not agree(model, validator, with_change(data, place, change))
    ]
    assert set() == set(apart) - APART


def test_snippets_name_only_fields_that_there_are() -> None:
    for kind in ("decision", "findings"):
        schema = schema_of(kind)
        for snippet in schema["defaultSnippets"]:
            text = re.sub(r"\$\{[0-9]+:([^}]*)\}", r"\1", json.dumps(snippet["body"]))
            assert jsonschema.Draft202012Validator(schema).is_valid(json.loads(text))


def test_the_test_of_agreement_sees_a_schema_that_is_too_lax() -> None:
    lax = jsonschema.Draft202012Validator({"type": "object"})
    data = {**as_json(plainly(BASE["people.yml"])), "zz": 1}
    assert not agree(KINDS["people"][0], lax, data)
    assert written({"zz": 1})
