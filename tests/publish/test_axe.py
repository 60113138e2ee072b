"""Every kind of page, in both skins, by axe-core: WCAG 2.2 A and AA and its best practices.

Structure does not change with colours, so those rules run once, on a phone and with all opened; the
rules that look at colours run in light, in the dark and in forced colours.
"""

from __future__ import annotations

from importlib.resources import files
from typing import Any

import pytest
from playwright.sync_api import Page

from in_chromium import Looked, open_all

pytestmark = [pytest.mark.browser, pytest.mark.filterwarnings("ignore::DeprecationWarning")]
AXE = (files("axe_playwright_python") / "axe.min.js").read_text(encoding="utf-8")
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
COLOURS = ("color-contrast", "link-in-text-block")
RUN = """
how => axe.run(document, how).then(r => r.violations.map(v => [v.id, v.nodes[0].html]))
"""
# Two texts whose elements, up to the root, have the same names and classes have the same colours
# on the same ground, so axe is shown one of each; `seen` holds those that it has been shown.
ALIKE = """
([how, seen]) => {
  const name = e => e.localName + '.' + [...e.classList].sort().join('.');
  const lineage = e => {
    let said = '';
    for (let a = e; a; a = a.parentElement) said += name(a) + (a.closest('a') ? '!' : '') + ' ';
    return said;
  };
  const known = new Set(seen), fresh = [], shown = [];
  for (const e of document.body.querySelectorAll('*')) {
    if (![...e.childNodes].some(n => n.nodeType === 3 && n.textContent.trim())) continue;
    const said = lineage(e);
    if (known.has(said) || !e.checkVisibility()) continue;
    known.add(said); fresh.push(said); shown.push(e);
  }
  if (!shown.length) return [fresh, []];
  return axe.run({include: shown}, how).then(
    r => [fresh, r.violations.map(v => [v.id, v.nodes[0].html])]);
}
"""
STRUCTURE = {
    "runOnly": {"type": "tag", "values": TAGS},
    "rules": {name: {"enabled": False} for name in COLOURS},
    "resultTypes": ["violations"],
}
OF_COLOUR = {"runOnly": {"type": "rule", "values": list(COLOURS)}, "resultTypes": ["violations"]}
MODES: dict[str, dict[str, Any]] = {
    "phone, light": {},
    "desk, dark": {"width": 1280, "color_scheme": "dark"},
    "forced colours": {"forced_colors": "active"},
    "forced colours, dark": {"forced_colors": "active", "color_scheme": "dark"},
}


def ready(page: Page) -> Page:
    open_all(page)
    page.evaluate(AXE)
    return page


@pytest.mark.parametrize("half", [0, 1])
def test_axe_finds_nothing_in_the_structure(site: Looked, half: int) -> None:
    said = {path: ready(site.at(path)).evaluate(RUN, STRUCTURE) for path in site.paths[half::2]}
    assert {} == {path: faults for path, faults in said.items() if faults}


@pytest.mark.parametrize("mode", sorted(MODES))
def test_axe_finds_nothing_in_the_colours(site: Looked, mode: str) -> None:
    seen: list[str] = []
    said = {}
    for path in site.paths:
        page = ready(site.at(path, **MODES[mode]))
        fresh, said[path] = page.evaluate(ALIKE, [OF_COLOUR, seen])
        seen += fresh
    assert len(seen) > len(site.paths)
    assert {} == {path: faults for path, faults in said.items() if faults}


def test_axe_does_complain_of_a_page_with_a_fault(site: Looked) -> None:
    page = ready(site.at("about/index.html"))
    page.evaluate("document.querySelector('h1').style.color = '#ddd'")
    page.evaluate("document.querySelector('h1').style.background = '#fff'")
    _, said = page.evaluate(ALIKE, [OF_COLOUR, []])
    assert ["color-contrast"] == [name for name, _ in said]
