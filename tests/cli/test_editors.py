"""What an editor offers while a record is written, by the schema that its first line names."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from building import on_disk
from calling import call
from editing import SERVER, Editor, opened, server_folder

FOLDER = server_folder()
editors = pytest.mark.skipif(
    FOLDER is None,
    reason=f"npm's yaml-language-server is not installed; set {SERVER} to its folder",
)


@pytest.fixture(scope="module")
def draft(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A draft as `new` writes it, beside the schemas as `schema` writes them."""
    root = on_disk(tmp_path_factory.mktemp("editors"))
    assert 0 == call("schema", "--museum", str(root)).code
    words = ("--machine", "winch", "--part", "drum/bush", "--question", "What now?")
    assert 0 == call("new", "--museum", str(root), "--as-of", "2024-06-01", *words).code
    return root / "winch" / "2024-002-bush.yml"


def place(text: str, words: str) -> dict[str, int]:
    """Line and sign (from 0) just behind some words."""
    before = text[: text.index(words) + len(words)]
    return {"line": before.count("\n"), "character": len(before.rpartition("\n")[2])}


def offered(editor: Editor, uri: str, where: dict[str, int]) -> dict[str, Any]:
    found = editor.ask("textDocument/completion", textDocument={"uri": uri}, position=where)
    members = found["items"] if isinstance(found, dict) else found
    return {one["label"]: one for one in members}


def shown(editor: Editor, uri: str, where: dict[str, int]) -> str:
    found = editor.ask("textDocument/hover", textDocument={"uri": uri}, position=where)
    return json.dumps(found)


@editors
def test_the_kinds_of_option_are_offered_each_with_its_meaning(draft: Path) -> None:
    assert FOLDER
    text = draft.read_text(encoding="utf-8").replace("kind: leave-as-found", "kind: ", 1)
    with opened(FOLDER, draft, text) as (editor, uri):
        kinds = offered(editor, uri, place(text, "- id: leave\n    kind: "))
    assert {"leave-as-found", "renew-like-for-like", "service"} <= set(kinds)
    assert "Mend the part that is there" in json.dumps(kinds["repair"])


@editors
def test_a_field_says_what_it_means_who_fills_it_and_who_may_see_it(draft: Path) -> None:
    assert FOLDER
    text = draft.read_text(encoding="utf-8")
    with opened(FOLDER, draft, text) as (editor, uri):
        told = shown(editor, uri, place(text, "\n    befor"))
    assert "Public" in told
    assert "Severity 1 to 4 and probability A to F" in told


@editors
def test_the_fields_that_may_stand_in_a_step_are_offered(draft: Path) -> None:
    assert FOLDER
    text = draft.read_text(encoding="utf-8").replace("        care:\n", "        \n", 1)
    with opened(FOLDER, draft, text) as (editor, uri):
        fields = offered(editor, uri, place(text, "        place:\n        "))
    assert {"care", "count", "note"} <= set(fields)


@editors
def test_a_slip_in_a_field_is_pointed_out_and_a_sound_draft_only_for_its_blanks(
    draft: Path,
) -> None:
    assert FOLDER
    text = draft.read_text(encoding="utf-8")
    with opened(FOLDER, draft, text.replace("\nchoice:", "\nchioce:", 1)) as (editor, uri):
        faults = editor.faults(uri)
    assert any("chioce" in fault for fault in faults)
    with opened(FOLDER, draft, text) as (editor, uri):
        faults = editor.faults(uri)
    assert not any("not allowed" in fault for fault in faults)
