"""Pictures of every kind of page to be looked at by a person: `make pictures`.

Each is a whole page, cut into columns where it is long, on a phone and on a desk, in light and in
dark; index.html shows them all.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

from PIL import Image
from playwright.sync_api import Browser, Page

sys.path.insert(0, str(Path(__file__).parent))

from in_chromium import build_themed, opened_browser, served
from page_kinds import kind_of, one_of_each
from rendered_site import ROOT, demo, pages
from witnessmark.publish.pages import Skin
from witnessmark.repository.site import write_site

COLUMN = {390: 1700, 1280: 2000}
MOST_COLUMNS = 9
GAP = 24


def main() -> None:
    """Write the pictures."""
    parser = argparse.ArgumentParser(prog="make pictures")
    parser.add_argument("--out", type=Path, default=ROOT / "pictures")
    parser.add_argument("--skin", choices=["plain", "themed"], action="append")
    parser.add_argument("--only", help="pages whose address holds this")
    wanted = parser.parse_args()
    wanted.out.mkdir(parents=True, exist_ok=True)
    skins: list[Skin] = wanted.skin or ["plain", "themed"]
    with opened_browser() as browser:
        names = [
            name for skin in skins for name in _skin(browser, skin, wanted.out, wanted.only or "")
        ]
    rows = "".join(
        f'<figure><img src="{name}" loading="lazy" alt=""><figcaption>{name}</figcaption></figure>'
        for name in names
    )
    page = f"<!doctype html><meta charset=utf-8><title>Pictures</title>{rows}"
    (wanted.out / "index.html").write_text(page, encoding="utf-8")
    print(f"{len(names)} pictures in {wanted.out}; open index.html in it.")


def _skin(browser: Browser, skin: Skin, out: Path, only: str) -> Iterator[str]:
    site = out / f"site-{skin}"
    if skin == "plain":
        write_site(demo(), site)
    else:
        build_themed(site)
    with served(site) as address:
        for width in COLUMN:
            page = browser.new_page(viewport={"width": width, "height": 900})
            for path in one_of_each(pages(demo(skin))):
                if only in path:
                    page.goto(f"{address}/{path.removesuffix('index.html')}")
                    yield from _schemes(page, f"{skin}-{width}", path, out, width)
            page.close()


def _schemes(page: Page, start: str, path: str, out: Path, width: int) -> Iterator[str]:
    page.evaluate("document.querySelectorAll('img').forEach(i => i.loading = 'eager')")
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        name = f"{start}-{scheme}-{kind_of(path)}-{path.split('/')[-2:][0]}.png"
        picture = Image.open(BytesIO(page.screenshot(full_page=True)))
        in_columns(picture, COLUMN[width]).save(out / name)
        yield name


def in_columns(picture: Image.Image, high: int) -> Image.Image:
    """A long picture cut into columns side by side; what is beyond the last is left out."""
    count = min(MOST_COLUMNS, -(-picture.height // high))
    sheet = Image.new("RGB", (count * (picture.width + GAP), min(high, picture.height)), "#888")
    for place in range(count):
        top = place * high
        part = picture.crop((0, top, picture.width, min(top + high, picture.height)))
        sheet.paste(part, (place * (picture.width + GAP), 0))
    return sheet


if __name__ == "__main__":
    main()
