"""What Lighthouse says of four kinds of page in both skins: the budgets of the visitor.

Lighthouse (github.com/GoogleChrome/lighthouse, Apache-2.0) is fetched by npx at a fixed version;
where that cannot be, one line says so.
"""

from __future__ import annotations

import json
import os
import subprocess
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from bench.line import Line
from in_chromium import SKINS, build_themed, found_chromium, served
from rendered_site import demo
from witnessmark.repository.site import write_site

VERSION = "12.2.3"
PAGES = {
    "home": "",
    "decision": "d/2024-003/",
    "machine": "m/quay-crane/",
    "rule": "rules/removed-part-is-kept/",
}
WANTED = {"accessibility": 100, "best-practices": 100, "seo": 100}
SHIFT = 0.02
FLAGS = "--headless=new --no-sandbox --disable-gpu"


def lighthouse_lines() -> Iterator[Line]:
    """The least of each score over the four pages of a skin, and the greatest shift."""
    if not _is_there():
        yield Line(f"Lighthouse {VERSION}: npx or Chromium is missing, not measured", 0, None, None)
        return
    for skin in SKINS:
        with tempfile.TemporaryDirectory() as folder:
            site = Path(folder) / "site"
            if skin == "plain":
                write_site(demo(), site)
            else:
                build_themed(site)
            with served(site) as address:
                told = {name: _told(f"{address}/{path}") for name, path in PAGES.items()}
        yield from _lines(skin, told)


def _lines(skin: str, told: dict[str, dict[str, Any]]) -> Iterator[Line]:
    for category, wanted in WANTED.items():
        scores = {name: one["categories"][category]["score"] * 100 for name, one in told.items()}
        worst = min(scores, key=lambda name: scores[name])
        what = f"Lighthouse {category}, {skin}, worst of 4 ({worst})"
        yield Line(what, 100 - scores[worst], None, 100 - wanted, "missing of 100")
    shifts = [one["audits"]["cumulative-layout-shift"]["numericValue"] for one in told.values()]
    yield Line(f"layout shift, {skin}, largest of 4", max(shifts), None, SHIFT, "CLS")


def _told(address: str) -> dict[str, Any]:
    command = ["npx", "--yes", f"lighthouse@{VERSION}", address, "--output=json", "--quiet"]
    command += [f"--only-categories={','.join(WANTED)},performance", f"--chrome-flags={FLAGS}"]
    env = {**os.environ, "CHROME_PATH": str(found_chromium())}
    done = subprocess.run(command, capture_output=True, text=True, check=False, env=env)
    if done.returncode:
        raise SystemExit(f"Lighthouse could not measure {address}: {done.stderr.strip()}")
    told: dict[str, Any] = json.loads(done.stdout)
    return told


def _is_there() -> bool:
    command = ["npx", "--yes", f"lighthouse@{VERSION}", "--version"]
    try:
        done = subprocess.run(command, capture_output=True, text=True, check=False)
    except OSError:
        return False
    return done.returncode == 0 and found_chromium() is not None
