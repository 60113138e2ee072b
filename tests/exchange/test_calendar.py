"""The calendar of what is due, read back by another program."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import icalendar
import pytest

from building import museum
from calling import DEMO, call
from witnessmark.exchange.calendar import render_calendar
from witnessmark.model.library import assemble
from witnessmark.model.museum import Museum
from witnessmark.repository.disk import read_museum
from witnessmark.rules.due import due
from witnessmark.rules.due_kinds import Due, DueKind

WEB = Museum.model_validate(
    {"witnessmark": 1, "name": "A museum; of sorts", "web": "https://example.org/why/"}
)


def promise(**other: object) -> Due:
    given: dict[str, object] = {
        "kind": DueKind.LOOK_AGAIN, "day": date(2027, 3, 1), "name": "2024-003",
        "says": "Look again.", "file": "decisions/x.yml", "path": (),
        "written": date(2024, 3, 2), "machine": "crane", "decision": "2024-003",
    }  # fmt: skip
    return Due(**{**given, **other})  # type: ignore[arg-type]


def read(*found: Due, house: Museum | None = WEB) -> icalendar.Calendar:
    calendar = icalendar.Calendar.from_ical(render_calendar(found, house))
    assert isinstance(calendar, icalendar.Calendar)
    return calendar


def part(calendar: icalendar.Calendar, name: str) -> icalendar.cal.Component:
    return next(iter(calendar.walk(name)))


def test_each_thing_is_an_event_and_a_to_do() -> None:
    calendar = read(promise(), promise(name="2024-004"))
    assert (2, 2) == (len(list(calendar.walk("VEVENT"))), len(list(calendar.walk("VTODO"))))


def test_an_event_lasts_its_day() -> None:
    event = part(read(promise()), "VEVENT")
    assert (date(2027, 3, 1), date(2027, 3, 2)) == (
        event.decoded("DTSTART"),
        event.decoded("DTEND"),
    )


def test_a_to_do_is_due_on_its_day() -> None:
    assert date(2027, 3, 1) == part(read(promise()), "VTODO").decoded("DUE")


def test_the_stamp_is_the_day_of_the_record_and_not_of_the_printing() -> None:
    stamp = part(read(promise()), "VEVENT").decoded("DTSTAMP")
    assert datetime(2024, 3, 2, tzinfo=UTC) == stamp


HOSTILE = (
    "Oil; grease, or \\ both",
    "a\nEND:VEVENT\nBEGIN:VEVENT",
    "tab\there",
    "umlaut " + "\u00e4" * 90,
    "\U0001f69c" * 60,
    "x" * 75,
)


@pytest.mark.parametrize("text", HOSTILE)
def test_any_text_comes_back_as_one_entry(text: str) -> None:
    calendar = read(promise(says=text))
    flat = " ".join(text.replace("\t", " ").split("\n"))
    told = str(part(calendar, "VEVENT")["DESCRIPTION"])
    assert f"{flat} (decisions/x.yml)" == told
    assert 1 == len(list(calendar.walk("VEVENT")))


@pytest.mark.parametrize("text", HOSTILE)
def test_no_line_is_longer_than_75_octets(text: str) -> None:
    # RFC 5545, 3.1: "Lines of text SHOULD NOT be longer than 75 octets, excluding the line break."
    lines = render_calendar([promise(says=text)], WEB).encode().split(b"\r\n")
    assert [] == [line for line in lines if len(line) > 75]


def test_every_line_ends_in_carriage_return_and_line_feed() -> None:
    text = render_calendar([promise()], WEB)
    assert text.count("\n") == text.count("\r\n")
    assert text.endswith("END:VCALENDAR\r\n")


def test_a_day_that_moves_keeps_its_name() -> None:
    first = part(read(promise()), "VEVENT")
    moved = part(read(promise(day=date(2028, 3, 1))), "VEVENT")
    assert first["UID"] == moved["UID"]
    assert timedelta(366) == moved.decoded("DTSTART") - first.decoded("DTSTART")


def test_names_tell_every_entry_of_two_museums_apart() -> None:
    found = due(assemble(read_museum(DEMO)), on=date(2026, 9, 15), days=4000)
    other = Museum.model_validate({"witnessmark": 1, "name": "Another museum"})
    names = [
        str(c["UID"]) for m in (WEB, other) for c in read(*found, house=m).walk() if "UID" in c
    ]
    assert 4 * len(found) == len(set(names))


def test_an_entry_leads_to_the_decision_where_the_museum_has_an_address() -> None:
    assert "https://example.org/why/d/2024-003/" == str(part(read(promise()), "VEVENT")["URL"])


@pytest.mark.parametrize("house", [None, Museum.model_validate({"witnessmark": 1, "name": "M"})])
def test_an_entry_leads_nowhere_where_the_museum_has_none(house: Museum | None) -> None:
    assert "URL" not in part(read(promise(), house=house), "VEVENT")


def test_an_empty_calendar_can_be_read() -> None:
    assert [] == list(read().walk("VEVENT"))


def test_the_verb_prints_the_calendar_as_it_is() -> None:
    arguments = ("due", "--as-of", "demo", "--days", "400", "--museum", str(DEMO))
    listed = call(*arguments, "--format", "json").json["due"]
    calendar = icalendar.Calendar.from_ical(call(*arguments, "--format", "ics").out)
    days = sorted(event.decoded("DTSTART").isoformat() for event in calendar.walk("VEVENT"))
    assert [one["day"] for one in listed] == days


def test_a_museum_that_owes_nothing_says_so() -> None:
    assert () == due(museum(without=("winch/findings.yml",)), on=date(2024, 1, 1), days=0)
