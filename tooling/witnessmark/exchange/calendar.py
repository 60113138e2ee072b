r"""What is due as a calendar that any calendar program reads.

Source: RFC 5545 (2009): 3.1 (content lines end in CRLF and are folded at 75 octets), 3.3.11 (what
is escaped in a text), 3.6.1 and 3.6.2 (VEVENT, VTODO), 3.8.4.7 (UID), 3.8.7.2 (DTSTAMP). Telephones
show an event and mostly no to-do, so each thing stands as both. Without METHOD, DTSTAMP is the day
the record was last written, so the same museum gives the same bytes.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from urllib.parse import urlsplit

from witnessmark.exchange.escapes import one_line
from witnessmark.model.museum import Museum
from witnessmark.rules.due_kinds import Due

MOST_OCTETS = 75
PROGRAM = "-//Witnessmark//What is due//EN"


def render_calendar(found: Sequence[Due], museum: Museum | None) -> str:
    """The calendar's text: for each thing an event that lasts its day, and a to-do."""
    name = museum.name if museum else "A museum"
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        f"PRODID:{PROGRAM}",
        "CALSCALE:GREGORIAN",
        f"X-WR-CALNAME:{_text(name)}",
    ]
    for one in found:
        lines += [*_event(one, museum), *_to_do(one, museum)]
    return "".join(f"{_folded(line)}\r\n" for line in [*lines, "END:VCALENDAR"])


def _event(one: Due, museum: Museum | None) -> Iterator[str]:
    yield "BEGIN:VEVENT"
    yield f"UID:{_uid(one, 'day', museum)}"
    yield from _told(one, museum)
    yield f"DTSTART;VALUE=DATE:{_day(one.day)}"
    yield f"DTEND;VALUE=DATE:{_day(one.day + timedelta(days=1))}"
    yield "TRANSP:TRANSPARENT"
    yield "END:VEVENT"


def _to_do(one: Due, museum: Museum | None) -> Iterator[str]:
    yield "BEGIN:VTODO"
    yield f"UID:{_uid(one, 'task', museum)}"
    yield from _told(one, museum)
    yield f"DUE;VALUE=DATE:{_day(one.day)}"
    yield "STATUS:NEEDS-ACTION"
    yield f"RELATED-TO;RELTYPE=SIBLING:{_uid(one, 'day', museum)}"
    yield "END:VTODO"


def _told(one: Due, museum: Museum | None) -> Iterator[str]:
    yield f"DTSTAMP:{_day(one.written)}T000000Z"
    yield f"SUMMARY:{_text(f'{one.kind.value}: {one.name}')}"
    yield f"DESCRIPTION:{_text(f'{one.says} ({one.file})')}"
    yield f"CATEGORIES:{_text(one.kind.value)}"
    web = museum.web if museum else None
    if web and one.decision and web.startswith(("https://", "http://")):
        # A page of a record that is not published is simply not there.
        yield f"URL:{one_line(web).rstrip('/')}/d/{one.decision}/"


def _uid(one: Due, use: str, museum: Museum | None) -> str:
    """The same for the same promise whenever it is asked: a moved day moves the entry."""
    return f"{one.kind.value}-{one.name.replace('/', '-')}-{use}@{_house(museum)}"


def _house(museum: Museum | None) -> str:
    """What tells this museum's entries from another's: its web host, else its name."""
    host = urlsplit(museum.web).hostname if museum and museum.web else None
    plain = re.sub(r"[^a-z0-9.-]+", "-", (host or (museum.name if museum else "")).lower())
    return plain.strip("-.") or "museum"


def _day(day: date) -> str:
    return day.strftime("%Y%m%d")


def _text(text: str) -> str:
    r"""A text as 3.3.11 asks: backslash, semicolon, comma and line end escaped.

    >>> _text("a; b, c")
    'a\\; b\\, c'
    """
    flat = one_line(text).replace("\\", "\\\\")
    return flat.replace(";", "\\;").replace(",", "\\,")


def _folded(line: str) -> str:
    """A content line folded so that none is longer than 75 octets, no character cut in two."""
    rows, row, room = [], "", MOST_OCTETS
    for character in line:
        size = len(character.encode())
        if size > room:
            rows.append(row)
            row, room = " ", MOST_OCTETS - 1
        row += character
        room -= size
    return "\r\n".join([*rows, row])
