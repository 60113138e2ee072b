"""Pages of old parts, old stock, what is due and what changed, against the records themselves."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from typing import Any

import yaml
from icalendar import Calendar

import canary_museum as canary
from building import changed, done, museum
from rendered_site import AS_OF, DEMO, demo, pages, site_of
from witnessmark.exchange.calendar import render_calendar
from witnessmark.model.library import assemble
from witnessmark.publish import publicly_due
from witnessmark.repository.disk import read_museum

WEB = "https://marramquay.example/"
ATOM = "{http://www.w3.org/2005/Atom}"
OUT = "- {do: remove, part: drum/bush, fate: stored, label: X-1, place: store-a}"
FIT = "- {do: fit-old-stock, part: drum/bush, like: same, from: bushes, count: 1}"
MAP = "{http://www.sitemaps.org/schemas/sitemap/0.9}"


def records() -> Iterator[dict[str, Any]]:
    """The demo's decisions as plain data, read without our own reader."""
    for path in sorted(DEMO.glob("*/20??-???-*.yml")):
        yield yaml.safe_load(path.read_text(encoding="utf-8"))


def ended() -> Iterator[dict[str, Any]]:
    for record in records():
        if (record.get("work") or {}).get("ended") and record["publish"] is True:
            yield record


def page(name: str) -> str:
    return str(demo()[f"{name}/index.html"])


def parsed(name: str) -> ET.Element:
    content = demo()[name]
    assert isinstance(content, bytes)
    return ET.fromstring(content)  # noqa: S314  our own bytes


def days_of(text: str) -> list[str]:
    return re.findall(r'<time datetime="([0-9-]+)"', text)


def test_every_label_that_a_done_decision_gave_stands_on_the_page_of_old_parts() -> None:
    given = {
        label
        for record in ended()
        for step in record["work"]["as_done"]
        if step["do"] == "remove"
        for label in step.get("labels", [step["label"]] if "label" in step else [])
    }
    assert given
    assert given <= set(re.findall(r"<strong>([A-Z]+-[0-9]+[a-z]?)</strong>", page("parts")))


def test_the_page_of_old_parts_leads_to_the_decision_of_each() -> None:
    linked = set(re.findall(r"d/([0-9-]+)/index.html#old-parts", page("parts")))
    took_out = {r["id"] for r in ended() if any(s["do"] == "remove" for s in r["work"]["as_done"])}
    assert took_out <= linked


def test_what_is_left_of_a_lot_is_what_was_counted_less_what_done_work_took() -> None:
    fitted = done("2023-001", steps=f"{OUT}\n{FIT}")
    drawn = museum(also={"winch/2023-001-bush.yml": changed(fitted, {"publish": True})})
    text = str(site_of(drawn)["stock/index.html"])
    assert re.search(r"Drum bushes, never fitted\.</strong>\s+2 left of 3 counted", text)
    assert "1 used by" in text


def test_nothing_of_a_giver_or_of_a_condition_stands_on_the_page_of_old_stock() -> None:
    stores = yaml.safe_load((DEMO / "stores.yml").read_text(encoding="utf-8"))
    private = [lot[name] for lot in stores["lots"] for name in ("from", "note") if name in lot]
    assert private
    assert [] == [text for text in private if text in page("stock")]


def test_what_is_overdue_stands_before_what_is_ahead_and_each_in_the_order_of_its_days() -> None:
    late, ahead = page("due").split('<h2 id="ahead">')
    late_days = days_of(late.partition('<h2 id="overdue">')[2])
    ahead_days = days_of(ahead.partition("</article>")[0])
    assert late_days
    assert ahead_days
    assert (sorted(late_days), sorted(ahead_days)) == (late_days, ahead_days)
    assert max(late_days) < AS_OF.isoformat() <= min(ahead_days)


def test_the_public_calendar_holds_an_event_for_each_line_of_the_page() -> None:
    library = assemble(read_museum(DEMO))
    text = render_calendar(publicly_due(library, as_of=AS_OF), library.museum.value)
    events = Calendar.from_ical(text).walk("VEVENT")
    on_page = page("due").partition('<h2 id="overdue">')[2].partition("</article>")[0]
    assert len(days_of(on_page)) == len(events)


def test_every_dissent_of_a_public_record_stands_word_for_word() -> None:
    said = [
        " ".join(one["what"].split())
        for record in records()
        if record["publish"] is True and record["state"] not in {"withdrawn", "draft"}
        for one in record["choice"]["dissent"]
        if isinstance(record["choice"]["dissent"], list)
    ]
    shown = " ".join(page("disagreements").split())
    assert said
    assert [] == [text for text in said if text not in shown.replace("&#39;", "'")]


def test_the_newest_change_stands_first() -> None:
    shown = days_of(page("changes").partition("<h2")[2].partition("</article>")[0])
    assert shown == sorted(shown, reverse=True)


def test_every_public_decision_is_found_by_its_machine_its_parts_and_its_materials() -> None:
    index = page("a-z")
    for record in records():
        if f"d/{record['id']}/index.html" in demo() and record["publish"] is True:
            assert index.count(f"d/{record['id']}/index.html") >= 1 + len(record["about"][:1])


def test_the_feed_has_what_the_standard_asks_of_each_entry() -> None:
    # RFC 4287, 4.1.1 and 4.1.2: id, title and updated in feed and entry; an author above them.
    feed = parsed("feed.xml")
    entries = feed.findall(f"{ATOM}entry")
    needed = ("id", "title", "updated")
    assert entries
    assert feed.find(f"{ATOM}author/{ATOM}name") is not None
    for one in (feed, *entries):
        assert [] == [name for name in needed if not one.findtext(f"{ATOM}{name}")]


def test_an_entry_of_the_feed_is_named_by_a_tag_that_holds_no_title() -> None:
    # RFC 4151: tag:authority,date:specific
    feed = parsed("feed.xml")
    names = [entry.findtext(f"{ATOM}id") or "" for entry in feed.findall(f"{ATOM}entry")]
    pattern = r"tag:marramquay\.example,\d{4}-\d\d-\d\d:d/\d{4}-\d{3}"
    assert len(set(names)) == len(names)
    assert [] == [name for name in names if not re.fullmatch(pattern, name)]


def test_the_site_map_lists_every_page_but_the_one_for_lost_links() -> None:
    listed = {
        f"{str(place.text).removeprefix(WEB)}index.html"
        for place in parsed("sitemap.xml").iter(f"{MAP}loc")
    }
    assert set(pages(demo())) - {"404.html"} == listed


def test_a_museum_without_a_web_address_gets_no_files_that_need_one() -> None:
    lines = canary.MUSEUM.splitlines(keepends=True)
    text = "".join(line for line in lines if not line.startswith("web:"))
    site = site_of(canary.library_with("museum.yml", text))
    assert not {"feed.xml", "sitemap.xml", "robots.txt"} & set(site)
    assert not [path for path, one in pages(site).items() if "feed.xml" in one]


def test_a_machine_says_whether_it_runs_and_that_this_is_no_certificate() -> None:
    for path, text in pages(demo()).items():
        if path.startswith("m/"):
            assert "Does it run today?" in text
            assert "never a certificate" in text
