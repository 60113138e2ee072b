"""The budgets of the site: plain and themed against bare mkdocs copying the same HTML; its bytes.

Bare mkdocs gets the plain site's files as they are, its own theme, and no plugin.
"""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

from bench.line import WITNESSMARK, Line, timed

REPOSITORY = Path(__file__).parents[2]
PLAIN, THEMED = 2.5, 8.0
PAGE_KB, DECISION_KB = 25.0, 150.0
DAY = "2026-09-15"


def site_lines(museum: Path) -> Iterator[Line]:
    """Every line of one museum; each build is timed once, since it is long.

    The plain skin is built first, with nothing remembered; then again after one edit. The themed
    one finds the museum checked and its pictures made.
    """
    count = len(list(museum.glob("*/[0-9][0-9][0-9][0-9]-[0-9][0-9][0-9]-*.yml")))
    place = museum.parent
    shutil.copytree(REPOSITORY / "site_src", place / "site_src")
    shutil.copy(REPOSITORY / "mkdocs.yml", place / "mkdocs.yml")
    plain = _published(museum, place / "plain", "plain")
    bare = _bare(place, place / "plain")
    yield Line(f"plain site of {count} / bare mkdocs copying it", plain, bare, PLAIN)
    before = _files(place / "plain")
    record = next(museum.glob("*/20??-???-*.yml"))
    text = record.read_text(encoding="utf-8")
    record.write_text(text.replace("title: ", "title: Now ", 1), encoding="utf-8")
    again = _published(museum, place / "plain", "plain")
    written = len(_files(place / "plain").items() - before.items())
    record.write_text(text, encoding="utf-8")
    yield Line(f"plain site of {count} again, after one edit / bare mkdocs", again, bare, None)
    yield Line(f"files written of {len(before)} after one edit of a title", written, None, None, "")
    themed = _published(museum, place / "themed", "themed")
    yield Line(f"themed site of {count} / bare mkdocs copying it", themed, bare, THEMED)
    yield from _bytes(place / "plain", "plain")
    yield from _bytes(place / "themed", "themed")
    for folder in ("plain", "themed", "bare"):
        shutil.rmtree(place / folder, ignore_errors=True)


def _files(site: Path) -> dict[str, int]:
    """The number of each file on the disk, by its path: a file that stayed keeps it."""
    return {str(path): path.stat().st_ino for path in site.rglob("*") if path.is_file()}


def _published(museum: Path, out: Path, skin: str) -> float:
    words = ["publish", str(museum), "--as-of", DAY, "--skin", skin, "--out", str(out)]
    took = timed([*WITNESSMARK, *words], 1)
    if not (out / "index.html").is_file():
        raise SystemExit(f"the {skin} site was not published")
    return took


def _bare(place: Path, site: Path) -> float:
    """Bare mkdocs over the same files."""
    bare = place / "bare"
    shutil.copytree(site, bare / "docs")
    (bare / "docs" / "index.html").rename(bare / "docs" / "home.html")
    (bare / "docs" / "index.md").write_text("# Bare\n", encoding="utf-8")
    config = "site_name: Bare\nplugins: []\ntheme: mkdocs\n"
    (bare / "mkdocs.yml").write_text(config, encoding="utf-8")
    words = ["build", "-q", "-f", str(bare / "mkdocs.yml"), "-d", str(bare / "out")]
    return timed([sys.executable, "-m", "mkdocs", *words], 1)


def _bytes(site: Path, skin: str) -> Iterator[Line]:
    pages = [path.stat().st_size / 1024 for path in site.rglob("*.html")]
    mean = sum(pages) / len(pages)
    yield Line(f"mean page, {skin}", mean, None, PAGE_KB if skin == "plain" else None, "KB")
    decisions = [p.stat().st_size / 1024 for p in site.glob("d/*/index.html")]
    if skin == "plain":
        styles = sum(path.stat().st_size for path in site.rglob("*.css")) / 1024
        what = "largest decision page with styles, without photos"
        yield Line(what, max(decisions) + styles, None, DECISION_KB, "KB")
