"""The guides for people without git and for setting up editors tell nothing that is not so."""

from __future__ import annotations

import re

import pytest

from calling import DEMO, call
from witnessmark.cli.guides import guide
from witnessmark.cli.verbs import VERBS

GUIDES = ("editors", "without-git")


@pytest.mark.parametrize("name", GUIDES)
def test_every_verb_a_guide_names_exists(name: str) -> None:
    # Only what stands in code is a command; "witnessmark" in running text is the program.
    named = set(re.findall(r"(?:`|^)witnessmark ([a-z]+)", guide(name), flags=re.MULTILINE))
    assert named
    assert set() == named - set(VERBS)


@pytest.mark.parametrize("name", GUIDES)
def test_every_option_a_guide_names_exists(name: str) -> None:
    commands = re.findall(r"(?:`|^)witnessmark ([^`\n]+)", guide(name), flags=re.MULTILINE)
    for command in commands:
        verb, *words = command.split()
        help_text = call(verb, "--help").out
        assert [] == [word for word in words if word.startswith("--") and word not in help_text]


def test_every_schema_the_guide_to_editors_names_lies_in_the_museum() -> None:
    named = set(re.findall(r"[a-z]+(?:\.draft-07)?\.schema\.json", guide("editors")))
    there = {path.name for path in (DEMO / "schema").iterdir()}
    assert set() == named - there
    assert {name for name in there if "draft" not in name} <= named


def test_the_patterns_for_editors_match_each_file_of_the_demo_museum_once() -> None:
    patterns = re.findall(r"`(decisions/[^`]*\.yml)` \|$", guide("editors"), flags=re.MULTILINE)
    files = [path for path in DEMO.rglob("*.yml") if "schema" not in path.parts]
    for path in files:
        below = path.relative_to(DEMO.parent)
        assert 1 == sum(below.match(pattern) for pattern in patterns), below


def test_the_guide_without_git_explains_each_word_of_hosts_that_it_uses() -> None:
    text = guide("without-git")
    table = text[text.index("| --- |") : text.index("## Read")]
    for word in ("commit", "branch", "pull request", "merge", "checks"):
        assert word in table
        assert word in text.partition("## Read")[2]
