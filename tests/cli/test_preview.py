"""The preview: one page from the files as they lie on disk, drafts included, for this computer."""

from __future__ import annotations

import threading
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import pytest

from building import DECISION, MACHINE, on_disk
from calling import DEMO
from in_chromium import opened_browser
from rendered_site import demo as demo_site
from witnessmark.cli.preview import preview_server
from witnessmark.cli.preview_answers import Answers

DAY = date(2026, 9, 15)


@dataclass(frozen=True)
class Got:
    code: int
    text: str
    kind: str
    raw: bytes


@contextmanager
def previewed(folder: Path, *, is_public: bool = False) -> Iterator[str]:
    server = preview_server(Answers(folder, as_of=DAY, is_public=is_public), port=0)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}"
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


def got(address: str, path: str = "", *, host: str = "") -> Got:
    """What a real request brings."""
    headers = {"Host": host} if host else {}
    request = urllib.request.Request(f"{address}/{path}", headers=headers)  # noqa: S310  our own
    try:
        with urllib.request.urlopen(request) as answer:  # noqa: S310  our own
            raw, kind = answer.read(), answer.headers["Content-Type"]
            return Got(answer.status, raw.decode(errors="replace"), kind, raw)
    except urllib.error.HTTPError as fault:
        with fault:
            return Got(fault.code, fault.read().decode(), fault.headers["Content-Type"], b"")


def test_a_draft_without_a_choice_is_shown_with_its_state(tmp_path: Path) -> None:
    root = on_disk(tmp_path, changes={DECISION: {"state": "draft"}})
    text = (root / DECISION).read_text(encoding="utf-8")
    before, after = text.split("choice:\n")
    (root / DECISION).write_text(before + "losses:" + after.split("losses:")[1], encoding="utf-8")
    with previewed(root) as address:
        page = got(address, "d/2024-001/")
    assert (200, True) == (page.code, "its state is draft" in page.text)
    assert "Nothing was chosen" in page.text
    assert "A new bush to the old size" in page.text


@pytest.mark.parametrize("name", ["2024-003", "2024-005", "2026-006"])
def test_the_page_of_a_published_decision_is_the_page_of_the_site(name: str) -> None:
    with previewed(DEMO) as address:
        page = got(address, f"d/{name}/").text
    published = str(demo_site("themed")[f"d/{name}/index.html"])
    # The site may lead to its data, which a preview does not make.
    ours, theirs = (text.split('id="doubts"')[0] for text in (page, published))
    assert theirs.split("<h1>")[1] == ours.split("<h1>")[1]


def test_what_a_check_says_of_the_record_stands_on_its_page(tmp_path: Path) -> None:
    root = on_disk(tmp_path, changes={DECISION: {"options.1.steps.0.place": "store-x"}})
    with previewed(root) as address:
        page = got(address, "d/2024-001/").text
    assert "store-x" in page
    assert "WM039" in page


def test_a_record_that_cannot_be_read_says_why(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    (root / DECISION).write_text("id: [", encoding="utf-8")
    with previewed(root) as address:
        page = got(address, "d/2024-001/")
    assert (200, True) == (page.code, "What to do" in page.text)
    assert "Traceback" not in page.text


def test_a_saved_file_is_seen_at_once_and_changes_the_stamp(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    with previewed(root) as address:
        before = (got(address, "assets/preview-stamp").text, got(address, "d/2024-001/").text)
        text = (root / DECISION).read_text(encoding="utf-8")
        (root / DECISION).write_text(text.replace("Why we made", "Why they made"), encoding="utf-8")
        after = (got(address, "assets/preview-stamp").text, got(address, "d/2024-001/").text)
    assert before[0] != after[0]
    assert (False, True) == ("Why they made" in before[1], "Why they made" in after[1])


def test_the_list_names_every_record_and_who_sees_it(tmp_path: Path) -> None:
    with previewed(DEMO) as address:
        page = got(address).text
    assert len(list(DEMO.glob("*/20??-???-*.yml"))) == page.count('class="wm-title"')
    assert "its state is for-review" in page


def test_with_public_a_draft_is_not_shown(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    with previewed(root, is_public=True) as address:
        assert 404 == got(address, "d/2024-001/").code


def test_a_withheld_record_is_shown_here_and_only_the_reason_in_public(tmp_path: Path) -> None:
    root = on_disk(tmp_path, changes={DECISION: {"publish": {"withheld": "A claim is open"}}})
    with previewed(root) as address:
        page = got(address, "d/2024-001/").text
    assert ("is shown why this record is withheld" in page, "A new bush" in page) == (True, True)


def test_private_fields_stay_hidden_in_a_draft(tmp_path: Path) -> None:
    root = on_disk(tmp_path, changes={DECISION: {"note": "ztnoteq"}})
    people = root / "people.yml"
    text = people.read_text(encoding="utf-8").replace(
        "title: Curator", "title: Curator, name: ztname"
    )
    people.write_text(text, encoding="utf-8")
    with previewed(root) as address:
        page = got(address, "d/2024-001/").text
    assert [] == [word for word in ("ztnoteq", "ztname", "Store A") if word in page]


def test_text_of_a_record_is_shown_as_typed(tmp_path: Path) -> None:
    root = on_disk(tmp_path, changes={DECISION: {"title": '"><b>x</b>{{ 7*7 }}'}})
    with previewed(root) as address:
        pages = got(address, "d/2024-001/").text, got(address).text
    assert [False, False] == ["<b>x" in page for page in pages]
    assert all("{{ 7*7 }}" in page for page in pages)


@pytest.mark.parametrize("path", ["m/quay-crane/", "rules/", "how-we-score/index.html"])
def test_other_pages_are_those_of_the_site(path: str) -> None:
    with previewed(DEMO) as address:
        page = got(address, path).text
    file = f"{path}index.html" if path.endswith("/") else path
    heading = str(demo_site("themed")[file]).split("<h1>")[1].split("</h1>")[0]
    assert f"<h1>{heading}</h1>" in page


def test_pictures_are_made_ready_when_asked_for(tmp_path: Path) -> None:
    from publish.test_photos import CANARY, PHOTO, told

    root = on_disk(tmp_path, changes={MACHINE: {"photos": [PHOTO]}})
    (root / "winch" / "photos").mkdir()
    (root / "winch" / "photos" / "side.jpg").write_bytes(told("JPEG"))
    with previewed(root) as address:
        copy = got(address, "m/winch/photos/side-jpg-480.jpg")
        codes = [
            got(address, f"m/winch/photos/{name}").code for name in ("side.jpg", "side-jpg-7.jpg")
        ]
    assert (200, "image/jpeg", False) == (copy.code, copy.kind, CANARY.encode() in copy.raw)
    assert [404, 404] == codes


@pytest.mark.parametrize(
    "path", ["gone/", "d/1999-001/", "museum.yml", "../museum.yml", "%2e%2e/museum.yml", "d/x/"]
)
def test_what_is_not_there_is_said_to_be_not_there(path: str) -> None:
    with previewed(DEMO) as address:
        found = got(address, path)
    assert (404, True) == (found.code, "Nothing stands here" in found.text)


def test_a_page_elsewhere_cannot_read_drafts_by_a_name_that_leads_here() -> None:
    with previewed(DEMO) as address:
        codes = [got(address, host=host).code for host in ("evil.example", "127.0.0.1:1")]
    assert [403, 403] == codes


def test_a_museum_file_that_cannot_be_read_says_so(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    (root / "museum.yml").write_text("name: [", encoding="utf-8")
    with previewed(root) as address:
        page = got(address, "d/2024-001/")
    assert (500, True) == (page.code, "museum.yml cannot be read whole" in page.text)


@pytest.mark.browser
def test_the_browser_shows_a_saved_file_by_itself(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    with previewed(root) as address, opened_browser() as browser:
        page = browser.new_page()
        said: list[str] = []
        page.on("console", lambda message: said.append(message.text))
        page.goto(f"{address}/d/2024-001/")
        assert page.locator(".wm-preview").is_visible()
        text = (root / DECISION).read_text(encoding="utf-8")
        (root / DECISION).write_text(text.replace("Why we made", "Why they made"), encoding="utf-8")
        page.get_by_role("heading", level=1, name="Why they made").wait_for(timeout=15_000)
        assert [] == said
