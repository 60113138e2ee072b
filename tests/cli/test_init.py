"""The verb `init`: a new museum that is sound and can be shown from the first minute."""

from __future__ import annotations

import re
import subprocess
from datetime import date
from pathlib import Path

import pytest
import yaml

from calling import DEMO, Called, call
from talking import talk
from witnessmark.exchange.new_museum import HOSTS, NewMuseum, museum_files
from witnessmark.exchange.schema import schema_files
from witnessmark.repository.disk import find_museum

ROOT = DEMO.parent
DAY = "2026-03-02"
NAME = 'The "Mill: Lane" & <b>Steam</b> # Museum'


def begin(where: Path, *words: str, name: str = NAME) -> Called:
    return call("init", str(where), "--name", name, "--as-of", DAY, *words)


@pytest.fixture(scope="module")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A museum just begun; tests here only look at it."""
    where = tmp_path_factory.mktemp("new") / "museum"
    called = begin(where)
    assert 0 == called.code, called.err
    return where


def files_of(host: str = "github") -> dict[str, str]:
    given = NewMuseum(
        name="A", place="", time_zone="Etc/UTC", currency="EUR", host=host, day=date(2026, 3, 2)
    )
    return museum_files(given)


def test_a_new_museum_checks_clean(begun: Path) -> None:
    called = call("check", cwd=begun)
    assert (0, "0 records read: nothing found.\n") == (called.code, called.out)


def test_nothing_is_due_in_a_new_museum(begun: Path) -> None:
    assert (0, "") == ((called := call("due", "--as-of", DAY, cwd=begun)).code, called.err)
    assert 0 == call("check", "--due", "--as-of", DAY, cwd=begun).code


def test_a_new_museum_is_published_at_once_in_both_skins(begun: Path) -> None:
    for skin in ("plain", "themed"):
        called = call("publish", "--skin", skin, "--out", f"out-{skin}", cwd=begun)
        assert 0 == called.code, called.err
        home = (begun / f"out-{skin}" / "index.html").read_text(encoding="utf-8")
        assert "<b>Steam</b>" not in home
        assert "&lt;b&gt;Steam&lt;/b&gt;" in home


def test_the_name_is_read_as_it_was_given(begun: Path) -> None:
    read = yaml.safe_load((begun / "decisions" / "museum.yml").read_text(encoding="utf-8"))
    assert NAME == read["name"]


def test_its_policy_begins_on_the_day_given_and_four_roles_wait_for_people(begun: Path) -> None:
    policy = yaml.safe_load((begun / "decisions/policy/2026-03.yml").read_text(encoding="utf-8"))
    people = yaml.safe_load((begun / "decisions/people.yml").read_text(encoding="utf-8"))["people"]
    assert date(2026, 3, 2) == policy["valid_from"]
    roles = ["collections", "engineering", "workshop", "governing"]
    assert roles == [person["roles"][0]["role"] for person in people]


def test_every_group_of_figures_of_its_policy_has_a_word_on_what_it_does() -> None:
    lines = files_of()["decisions/policy/2026-03.yml"].splitlines()
    groups = [number for number, line in enumerate(lines) if re.match(r"[a-z_]+:$", line)]
    assert ["weights:", "ranges:", "floors:", "verdict:", "waivers:"] == [lines[g] for g in groups]
    assert all(lines[number - 1].startswith("#") for number in groups)


def test_its_schemas_are_those_the_program_writes() -> None:
    found = {
        path.removeprefix("decisions/schema/"): text
        for path, text in files_of().items()
        if path.startswith("decisions/schema/")
    }
    assert schema_files() == found


@pytest.mark.parametrize(
    "name", ["index.md", "theme.css", "overrides/main.html", "overrides/404.html"]
)
def test_its_site_is_laid_out_as_the_demo_museum_is(name: str) -> None:
    assert (ROOT / "site_src" / name).read_text(encoding="utf-8") == files_of()[f"site_src/{name}"]


def test_its_mkdocs_file_says_what_the_demo_museum_says_but_for_its_names() -> None:
    new, demo = (
        yaml.safe_load(text)
        for text in (files_of()["mkdocs.yml"], (ROOT / "mkdocs.yml").read_text(encoding="utf-8"))
    )
    names = {"site_name", "site_description", "site_url"}
    assert {k: v for k, v in demo.items() if k not in names} == {
        k: v for k, v in new.items() if k not in names
    }


@pytest.mark.parametrize("host", HOSTS)
def test_the_workflow_files_lie_where_their_host_looks_for_them(host: str) -> None:
    found = files_of(host)
    assert set(HOSTS[host].values()) < set(found)
    assert not any("# Copy " in found[path] for path in HOSTS[host].values())


def test_the_readme_for_the_museum_has_no_word_of_the_versioning_tool() -> None:
    words = set(re.findall(r"[a-z]+", files_of()["README.md"].replace("without-git", "").lower()))
    assert set() == words & {"git", "commit", "branch", "merge", "push", "pull", "repository"}


def test_every_verb_the_readme_names_exists() -> None:
    named = set(re.findall(r"`witnessmark ([a-z]+)", files_of()["README.md"]))
    assert {"check", "new", "finding", "weigh", "sign", "publish", "serve", "explain"} == named
    assert all(0 == call(verb, "--help").code for verb in named)


def test_a_folder_with_something_in_it_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("Dear curator", encoding="utf-8")
    called = begin(tmp_path)
    assert (1, ["letter.txt"]) == (called.code, [path.name for path in tmp_path.iterdir()])
    assert "letter.txt" in called.err


def test_a_file_in_the_way_is_told_so(tmp_path: Path) -> None:
    (tmp_path / "museum").write_text("", encoding="utf-8")
    called = begin(tmp_path / "museum")
    assert (1, True) == (called.code, "is a file" in called.err)


def test_an_empty_folder_under_version_control_may_be_used(tmp_path: Path) -> None:
    subprocess.run(["git", "init", "-q", str(tmp_path)], check=True)
    assert 0 == begin(tmp_path).code
    assert tmp_path / "decisions" == find_museum(tmp_path / "decisions")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--time-zone", "Europe/Atlantis"), "Europe/Paris"),
        (("--currency", "Euro"), "three letters"),
        (("--as-of", "demo"), "YYYY-MM-DD"),
    ],
)
def test_an_answer_that_cannot_stand_is_told_and_nothing_written(
    tmp_path: Path, words: tuple[str, str], told: str
) -> None:
    called = begin(tmp_path / "museum", *words)
    assert (2, True, False) == (called.code, told in called.err, (tmp_path / "museum").exists())


def test_a_blank_or_unprintable_name_is_refused_and_nothing_written(tmp_path: Path) -> None:
    for name in ("  ", "a\u202eb"):
        called = begin(tmp_path / "museum", name=name)
        assert (1, False) == (called.code, (tmp_path / "museum").exists())


def test_without_a_name_and_a_terminal_the_flag_is_named(tmp_path: Path) -> None:
    called = call("init", str(tmp_path / "museum"))
    assert (2, True) == (called.code, "--name" in called.err)


def test_at_the_terminal_it_asks_and_asks_again_where_an_answer_cannot_stand(
    tmp_path: Path,
) -> None:
    answers = ["", "Mill Lane", "By the weir", "Paris", "Europe/Paris", "", "gitlub", "gitlab"]
    called = talk("init", str(tmp_path / "m"), "--as-of", DAY, answers=answers)
    assert 0 == called.code, called.out + called.err
    text = (tmp_path / "m" / "decisions" / "museum.yml").read_text(encoding="utf-8")
    assert {"name": "Mill Lane", "place": "By the weir", "time_zone": "Europe/Paris"}.items() <= (
        yaml.safe_load(text).items()
    )
    told = "Use one of: github, gitlab, other." in called.out
    assert (True, True) == (told, (tmp_path / "m" / ".gitlab-ci.yml").is_file())
