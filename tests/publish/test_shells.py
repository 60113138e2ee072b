"""What may run and what may be copied: content policies, drawings, and the themed site."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config

import canary_museum as canary
from rendered_site import Markup, demo, pages
from witnessmark.publish.policy_of_scripts import content_policy
from witnessmark.repository.drawings import is_plain_drawing

ROOT = Path(__file__).parents[2]
POLICY = (
    "default-src 'none'; connect-src 'self'; style-src 'self'; img-src 'self'; "
    "base-uri 'none'; form-action 'none'"
)


def test_the_plain_shell_lets_nothing_run() -> None:
    for text in pages(demo()).values():
        metas = [given for tag, given in Markup(text).elements if tag == "meta"]
        found = [given["content"] for given in metas if "http-equiv" in given]
        assert [POLICY] == found


def test_a_script_is_let_in_by_its_sum() -> None:
    # The example of Content Security Policy Level 3 (W3C), 8.3, as it is quoted everywhere; the
    # sum was compared with openssl.
    policy = content_policy("<script>alert('Hello, world.');</script>")
    assert "'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='" in policy


@pytest.mark.parametrize(
    "markup",
    ['<script src="a.js"></script>', '<script type="application/json">{}</script>', "<p>x</p>"],
)
def test_what_is_no_script_of_the_page_needs_no_sum(markup: str) -> None:
    assert "sha256" not in content_policy(markup)


HEAD = '<svg xmlns="http://www.w3.org/2000/svg"'


@pytest.mark.parametrize(
    "drawing",
    [
        f'{HEAD} onload="x()"/>',
        f"{HEAD}><script>x()</script></svg>",
        f"{HEAD}><style>*{{}}</style></svg>",
        f'{HEAD}><a href="https://example.org"/></svg>',
        f'{HEAD}><use href="other.svg#a"/></svg>',
        f'{HEAD}><rect fill="url(https://example.org/x)"/></svg>',
        f'{HEAD}><rect style="fill:red"/></svg>',
        f"{HEAD}><foreignObject/></svg>",
        f'<!DOCTYPE svg [<!ENTITY a "b">]>{HEAD}/>',
        "<html/>",
        "GIF89a",
        "",
    ],
)
def test_a_drawing_with_more_than_shapes_is_not_copied(drawing: str) -> None:
    assert not is_plain_drawing(drawing.encode())


def test_a_drawing_of_shapes_is_copied() -> None:
    assert is_plain_drawing(canary.SVG)


def test_every_sketch_of_the_demo_is_a_plain_drawing() -> None:
    sketches = sorted((ROOT / "decisions").rglob("*.svg"))
    assert sketches
    assert [] == [path.name for path in sketches if not is_plain_drawing(path.read_bytes())]


@pytest.fixture(scope="module")
def themed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    target = tmp_path_factory.mktemp("themed") / "site"
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("NO_MKDOCS_2_WARNING", "1")
        config = load_config(str(ROOT / "mkdocs.yml"), site_dir=str(target), strict=True)
        config.plugins.run_event("startup", command="build", dirty=False)
        build(config)
    return target


@pytest.mark.filterwarnings("ignore::DeprecationWarning")
def test_the_themed_site_builds_strictly_and_holds_nothing_but_its_own(themed: Path) -> None:
    ours = set(demo("themed")) | {"404.html", "sitemap.xml", "sitemap.xml.gz", "theme.css"}
    ours |= {"search/search_index.json", "mark.svg"}
    found = {path.relative_to(themed).as_posix() for path in themed.rglob("*") if path.is_file()}
    strange = {path for path in found - ours if not path.startswith("assets/")}
    assert (set(), set()) == (strange, ours - found)
    assert not [path for path in found if path.endswith((".yml", ".yaml", ".md", ".py"))]


@pytest.mark.filterwarnings("ignore::DeprecationWarning")
def test_the_themed_site_asks_nobody_else_for_anything(themed: Path) -> None:
    for path in themed.rglob("*.html"):
        for tag, given in Markup(path.read_text(encoding="utf-8")).elements:
            loads = given.get("src", "") + (given.get("href", "") if tag == "link" else "")
            if given.get("rel") != "canonical":
                assert (path.name, not re.match("https?:", loads)) == (path.name, True)


@pytest.mark.filterwarnings("ignore::DeprecationWarning")
def test_a_themed_page_is_the_same_page(themed: Path) -> None:
    body = str(demo("themed")["how-we-score/index.html"]).strip()
    assert body in (themed / "how-we-score" / "index.html").read_text(encoding="utf-8")
