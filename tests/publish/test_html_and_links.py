"""Both skins by two programs of others: the Nu Html Checker (W3C) and the link checker lychee."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from in_chromium import Looked
from rendered_site import ROOT

pytestmark = [pytest.mark.browser, pytest.mark.filterwarnings("ignore::DeprecationWarning")]
PACKAGE = ROOT / ".venv" / "html-checker" / "node_modules" / "vnu-jar"
OF_THE_THEME = re.compile("“autocomplete” is only allowed|The value of the “for” attribute")
"""The theme's own two slips, on switches nobody sees; our pages stand in the plain skin too."""


def checker() -> Path:
    """The checker's jar, which `.ci/html-checker` fetches where Node and Java are there."""
    jar = Path(os.environ.get("VNU_JAR", PACKAGE / "build" / "dist" / "vnu.jar"))
    java, npm = shutil.which("java"), shutil.which("npm")
    if java and jar.is_file():
        return jar
    if os.environ.get("CI") and java and npm:
        pytest.fail("The Nu Html Checker could not be fetched; run .ci/html-checker")
    pytest.skip("The Nu Html Checker needs Java, and .ci/html-checker run once with npm")


def complaints(folder: Path) -> list[str]:
    command = ["java", "-jar", str(checker()), "--errors-only", "--skip-non-html", str(folder)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    return done.stderr.splitlines()


def test_the_markup_keeps_the_standard(site: Looked) -> None:
    said = complaints(site.folder)
    if site.skin == "themed":
        said = [line for line in said if not OF_THE_THEME.search(line)]
    assert [] == said[:20]


def test_the_checker_does_complain_of_a_page_with_a_fault(tmp_path: Path) -> None:
    head = '<!doctype html><html lang="en"><title>A</title>'
    (tmp_path / "a.html").write_text(f"{head}<ul><p>no</p></ul>", encoding="utf-8")
    assert 1 == len(complaints(tmp_path))


def lychee(folder: Path) -> subprocess.CompletedProcess[str]:
    """Every link within the site, and every fragment; nothing outside is asked for."""
    program = Path(sys.executable).parent / "lychee"
    files = [str(path) for path in sorted(folder.rglob("*.html"))]
    command = [str(program), "--offline", "--include-fragments", "--no-progress"]
    command += ["--index-files", "index.html", "--format", "compact"]
    command += ["--root-dir", str(folder), *files]
    return subprocess.run(command, capture_output=True, text=True, check=False)


def test_every_link_and_fragment_leads_somewhere(site: Looked) -> None:
    done = lychee(site.folder)
    assert (0, "") == (done.returncode, "" if done.returncode == 0 else done.stdout[-2000:])


@pytest.mark.parametrize("link", ["gone.html", "#gone", "b.html#gone"])
def test_the_link_checker_does_complain_of_a_broken_link(tmp_path: Path, link: str) -> None:
    (tmp_path / "b.html").write_text("<p id=here>b</p>", encoding="utf-8")
    (tmp_path / "a.html").write_text(f'<a href="{link}">a</a>', encoding="utf-8")
    assert 0 != lychee(tmp_path).returncode
