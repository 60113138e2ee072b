"""The feed of what changed, for programs that watch many sites.

Source: RFC 4287 (2005), The Atom Syndication Format: 4.1.1 and 4.1.2 (what a feed and an entry
hold), 4.2.6 (ids never change); RFC 4151 (2005): tag URIs, which name a thing by an authority and
a day on which it held that name, so they outlive the address.
"""

from __future__ import annotations

import xml.etree.ElementTree as ET
from datetime import date
from urllib.parse import urlsplit

from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.public_decision import PublicDecision
from witnessmark.publish.shown_changes import changes, last_changed

ATOM = "http://www.w3.org/2005/Atom"
MOST_ENTRIES = 50


def render_feed(museum: PublicMuseum, web: str) -> bytes:
    """The feed: one entry a decision, the one that changed last first; `web` ends with a slash."""
    ET.register_namespace("", ATOM)
    newest = sorted(museum.decisions, key=lambda d: (last_changed(d), d.id), reverse=True)
    feed = ET.Element(_name("feed"), {"{http://www.w3.org/XML/1998/namespace}lang": "en"})
    _add(feed, "title", f"{museum.name}: what changed")
    _add(feed, "id", web)
    _add(feed, "updated", _moment(last_changed(newest[0]) if newest else museum.as_of))
    _link(feed, web + "feed.xml", rel="self")
    _link(feed, web + "changes/", rel="alternate")
    _add(ET.SubElement(feed, _name("author")), "name", museum.name)
    for decision in newest[:MOST_ENTRIES]:
        _entry(feed, decision, web)
    ET.indent(feed, space="")
    found: bytes = ET.tostring(feed, encoding="utf-8", xml_declaration=True)
    return found + b"\n"


def _entry(feed: ET.Element, decision: PublicDecision, web: str) -> None:
    entry = ET.SubElement(feed, _name("entry"))
    _add(entry, "title", decision.title)
    _add(entry, "id", tag_of(decision, web))
    _add(entry, "published", _moment(decision.settled))
    _add(entry, "updated", _moment(last_changed(decision)))
    _link(entry, f"{web}d/{decision.id}/", rel="alternate")
    told = [f"{one.day.isoformat()}: {one.what}" for one in changes([decision])]
    _add(entry, "summary", f"{decision.machine_name}. {' '.join(told)} {decision.gives_up}")


def tag_of(decision: PublicDecision, web: str) -> str:
    """The name of a decision for ever.

    The day is the one on which the question was written down, when the museum held its address.
    """
    host = urlsplit(web).hostname or "localhost"
    return f"tag:{host},{decision.opened.isoformat()}:d/{decision.id}"


def _name(word: str) -> str:
    return f"{{{ATOM}}}{word}"


def _add(parent: ET.Element, word: str, text: str) -> None:
    ET.SubElement(parent, _name(word)).text = " ".join(text.split())


def _link(parent: ET.Element, address: str, *, rel: str) -> None:
    ET.SubElement(parent, _name("link"), {"rel": rel, "href": address})


def _moment(day: date) -> str:
    """A day as the moment a feed asks for; the records keep days, so midnight in UTC."""
    return f"{day.isoformat()}T00:00:00Z"
