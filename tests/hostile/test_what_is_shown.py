"""Texts that would like to be more than text: shown as typed wherever they come out.

The cases are those of this project's own table of bad input, 43 to 55 and 64.
"""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Iterator
from dataclasses import fields
from html import unescape
from pathlib import Path
from typing import NamedTuple
from xml.etree import ElementTree as ET

import pytest
from icalendar import Calendar
from jinja2 import UndefinedError

from building import DECISION, MACHINE
from calling import call_here
from keeping import keep
from rendered_site import Markup
from sound_museum import TEXTS, signed, sound
from witnessmark.publish.environment import environment
from witnessmark.publish.public_decision import PublicDecision

RECORD = TEXTS[DECISION]
TAGS = [
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "<iframe src=//evil.example></iframe>",
    "<style>*{display:none}</style>",
    "<svg onload=alert(1)></svg>",
]
TEMPLATES = ["{{ 7*7 }}", "{% include 'x' %}", "${{ github.token }}"]
TITLES = ["</script><b>x", "<!-- x", "a\u2028b", "a ]]> b & < c"]
SCHEMES = ["javascript:alert(1)", "data:text/html,x", "vbscript:x", "java\\tscript:alert(1)"]


SCRIPT = re.compile(r'<script type="application/ld\+json">(.*?)</script>', re.DOTALL)


class Told(NamedTuple):
    """What came out of a museum: its title, its site by path, and its decisions as a table."""

    title: str
    site: dict[str, str]
    table: str


def texts_in(whole: object) -> Iterator[str]:
    if isinstance(whole, str):
        yield whole
    elif isinstance(whole, dict):
        for value in whole.values():
            yield from texts_in(value)
    elif isinstance(whole, list):
        for value in whole:
            yield from texts_in(value)


def published(museum: Path) -> dict[str, str]:
    """Every page of the plain site, by its path."""
    site = museum.parent / "site"
    called = call_here("publish", str(museum), "--skin", "plain", "--out", str(site))
    assert 0 == called.code, called.out + called.err
    texts = (path for path in sorted(site.rglob("*")) if path.is_file() and path.suffix != ".png")
    return {path.relative_to(site).as_posix(): path.read_text(encoding="utf-8") for path in texts}


def page_of(museum: Path) -> str:
    return published(museum)["d/2024-001/index.html"]


def quoted(text: str) -> str:
    return '"' + text.replace('"', '\\"') + '"'


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The page of a record into whose prose every hostile text was written."""
    everything = " ".join([*TAGS, *TEMPLATES])
    changes = {DECISION: {"options.0.why_not": everything, "choice.because": everything}}
    return page_of(signed(tmp_path_factory.mktemp("hostile"), changes=changes))


@pytest.mark.parametrize("text", TAGS)
def test_43_markup_in_prose_is_shown_as_typed(text: str, page: str) -> None:
    assert text in unescape(page)
    assert [] == [
        t for t, given in Markup(page).elements if "onerror" in given or "onload" in given
    ]
    assert {"script", "iframe", "style"}.isdisjoint({tag for tag, _ in Markup(page).elements})


@pytest.mark.parametrize("scheme", SCHEMES)
def test_44_a_link_that_could_run_is_text_and_is_warned_of(scheme: str, tmp_path: Path) -> None:
    text = f'"see [x]({scheme}) here"'
    museum = signed(tmp_path)
    record = museum / DECISION
    read = record.read_text(encoding="utf-8")
    why = "why_not: The shaft would be cut in the end."
    assert why in read
    record.write_text(read.replace(why, f"why_not: {text}"), encoding="utf-8")
    found = call_here("check", str(museum), "--format", "json").json["diagnostics"]
    assert [("WM048", "warning")] == [
        (one["code"], one["level"]) for one in found if one["code"] == "WM048"
    ]
    links = [given.get("href", "") for tag, given in Markup(page_of(museum)).elements if tag == "a"]
    assert [] == [link for link in links if scheme[:4] in (link or "")]


@pytest.mark.parametrize("text", TEMPLATES)
def test_45_a_template_in_prose_is_literal_text(text: str, page: str) -> None:
    assert text in unescape(page)


def test_46_a_remote_picture_is_refused(tmp_path: Path) -> None:
    text = "![x](https://tracker.example/x.png)"
    museum = sound(tmp_path, changes={DECISION: {"options.0.why_not": text}})
    called = call_here("check", str(museum), "--format", "json")
    assert [("WM048", "error")] == [
        (one["code"], one["level"]) for one in called.json["diagnostics"] if one["code"] == "WM048"
    ]


@pytest.mark.parametrize("title", [TITLES[0], TITLES[1], TITLES[3]])
@pytest.mark.parametrize("form", ["json", "sarif", "gitlab"])
def test_47_a_title_comes_back_equal_from_every_json(title: str, form: str, tmp_path: Path) -> None:
    museum = sound(tmp_path, changes={DECISION: {"state": title}})
    called = call_here("check", str(museum), "--format", form)
    assert title in json.dumps(json.loads(called.out), ensure_ascii=False)


def test_47_a_line_separator_is_an_error_in_a_title(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    text = RECORD.replace("title: Why", "title: W\u2028hy", 1)
    (museum / DECISION).write_text(text, encoding="utf-8")
    assert "U+2028" in call_here("check", str(museum)).out


@pytest.fixture(scope="module", params=[TITLES[0], TITLES[1], TITLES[3], "=1+1 @x -y"])
def told(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Told:
    """A published museum whose decision has a hostile title, and its export as tables."""
    title: str = request.param
    web = {"museum.yml": {"web": "https://quay.example/"}, DECISION: {"title": title}}
    museum = signed(tmp_path_factory.mktemp("titled"), changes=web)
    out = museum.parent / "export"
    called = call_here("export", str(museum), "--out", str(out), "--as-of", "2026-01-01")
    assert 0 == called.code, called.err
    return Told(title, published(museum), (out / "decisions.csv").read_text(encoding="utf-8"))


@pytest.mark.parametrize("file", ["decision.json", "decision.jsonld"])
def test_47_a_title_comes_back_equal_from_the_data_of_its_page(file: str, told: Told) -> None:
    whole = json.loads(told.site[f"d/2024-001/{file}"])
    assert told.title in list(texts_in(whole))


def test_47_a_title_comes_back_equal_from_what_the_page_says_to_programs(told: Told) -> None:
    scripts = SCRIPT.findall(told.site["d/2024-001/index.html"])
    assert [told.title] == [json.loads(unescape(text))["headline"] for text in scripts]


def test_48_the_feed_is_well_formed_and_has_the_title(told: Told) -> None:
    feed = ET.fromstring(told.site["feed.xml"])  # noqa: S314  our own text
    titles = [title.text or "" for title in feed.iter("{http://www.w3.org/2005/Atom}title")]
    assert [] != [title for title in titles if told.title in title]


def test_50_a_title_is_no_formula_in_a_table(told: Told) -> None:
    [row] = csv.DictReader(io.StringIO(told.table))
    guarded = f"'{told.title}" if told.title[0] in "=+-@" else told.title
    assert guarded == row["title"]


def test_48_every_xml_report_stays_well_formed(tmp_path: Path) -> None:
    museum = sound(tmp_path, changes={DECISION: {"state": "a ]]> b & < \x01"}})
    called = call_here("check", str(museum), "--format", "junit")
    assert "testsuites" == ET.fromstring(called.out).tag  # noqa: S314  our own text


def test_49_a_title_makes_one_event_of_the_calendar_only(tmp_path: Path) -> None:
    title = "Bush; worn, out\\nEND:VEVENT\\nBEGIN:VEVENT\\nSUMMARY:x"
    museum = signed(tmp_path)
    text = (museum / DECISION).read_text(encoding="utf-8")
    old = "title: Why we made a new bush for the drum"
    assert old in text
    (museum / DECISION).write_text(text.replace(old, f'title: "{title}"'), encoding="utf-8")
    called = call_here("due", "--museum", str(museum), "--as-of", "2027-02-01", "--format", "ics")
    events = Calendar.from_ical(called.out).walk("VEVENT")
    assert [] == [event for event in events if str(event["SUMMARY"]) == "x"]
    assert called.out.count("\r\nBEGIN:VEVENT") == len(events) > 0


@pytest.mark.parametrize(
    "text", ["::error::x", "x\n::stop-commands::y", "50 %0A::warning::z", "a\r\n::set-output::b"]
)
def test_51_a_text_is_no_command_to_the_machine_that_builds(text: str, tmp_path: Path) -> None:
    museum = sound(tmp_path, changes={DECISION: {"state": text}})
    called = call_here("check", str(museum), "--format", "github")
    commands = [line.split(" ")[0] for line in called.out.splitlines() if line.startswith("::")]
    assert {"::error", "::notice"} >= set(commands)
    assert called.out.count("\n::") + 1 == len(commands) == len(called.out.splitlines())


def test_52_a_review_mentions_nobody_and_keeps_its_tables(tmp_path: Path) -> None:
    kept = keep(sound(tmp_path / "work"))
    kept.branch("topic")
    title = "Ask @team, see #123 ```x``` <details> | a | b |"
    kept.change(DECISION, "title: Why we made a new bush for the drum", f"title: '{title}'")
    kept.change(DECISION, "likely: 3", "likely: 0")
    kept.commit()
    called = call_here("review", "main", "topic", "--museum", str(kept.museum), "--format", "md")
    assert ("@team" in called.out, "#123" in called.out, "<details> |" in called.out) == (
        (False,) * 3
    )
    assert "team" in called.out


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("Ring 01263 712345 on weekdays", "a telephone number"),
        ("Ring +44 1263 712345", "a telephone number"),
        ("Write to j.bloggs@example.org", "an e-mail address"),
        ("It lies at NR25 6QW", "a postcode"),
    ],
)
def test_53_a_private_contact_in_public_prose_is_warned_of(
    text: str, kind: str, tmp_path: Path
) -> None:
    museum = sound(tmp_path, changes={DECISION: {"options.0.why_not": text, "publish": True}})
    found = call_here("check", str(museum), "--format", "json").json["diagnostics"]
    said = [(one["level"], kind in one["message"]) for one in found if one["code"] == "WM049"]
    assert [("warning", True)] == said


@pytest.mark.parametrize(
    "text",
    ["65.02 ± 0.01 mm of 120 mm", "Lot 0123 of 2024-02-11", "Drawing M8 6H", "0.35 and 900-1400"],
)
def test_53_figures_and_dates_are_no_contacts(text: str, tmp_path: Path) -> None:
    museum = sound(tmp_path, changes={DECISION: {"options.0.why_not": text, "publish": True}})
    assert 0 == call_here("check", str(museum)).code


def test_53_a_contact_in_a_private_field_is_not_warned_of(tmp_path: Path) -> None:
    note = {"note": "Ring 01263 712345", "publish": True}
    museum = sound(tmp_path, changes={DECISION: note, MACHINE: {"note": "a.b@example.org"}})
    found = call_here("check", str(museum), "--format", "json").json["diagnostics"]
    assert [] == [one for one in found if one["code"] == "WM049"]


@pytest.mark.parametrize("field", ["note", "consent", "interests", "heard"])
def test_54_a_template_cannot_reach_a_private_field(field: str) -> None:
    assert field not in {one.name for one in fields(PublicDecision)}
    blank = object.__new__(PublicDecision)
    with pytest.raises(UndefinedError, match=field):
        environment().from_string(f"{{{{ d.{field} }}}}").render(d=blank)


def test_55_a_record_that_becomes_public_stands_at_the_top_of_the_review(tmp_path: Path) -> None:
    kept = keep(signed(tmp_path / "work", changes={DECISION: {"publish": False}}))
    kept.branch("topic")
    kept.change(DECISION, "publish: false", "publish: true")
    kept.commit()
    called = call_here("review", "main", "topic", "--museum", str(kept.museum), "--format", "md")
    assert 1 == called.code
    assert "public" in called.out[:1200].lower()


AUTHOR = "Eve Hostile <script>alert(9)</script>"


def test_64_no_name_and_no_address_of_git_is_ever_published(tmp_path: Path) -> None:
    kept = keep(signed(tmp_path / "work"))
    text = (kept.museum / DECISION).read_text(encoding="utf-8")
    (kept.museum / DECISION).write_text(f"{text}thanks: [Everybody]\n", encoding="utf-8")
    kept.commit("by <b>Eve Hostile</b>", who=AUTHOR)
    site = "".join(published(kept.museum).values())
    review = call_here("review", "HEAD~1", "HEAD", "--museum", str(kept.museum), "--format", "json")
    checked = call_here("check", str(kept.museum), "--format", "json")
    for words in ("Eve Hostile", "alert(9)", "fitter@example.org", "A Fitter"):
        assert [] == [out[:80] for out in (site, review.out, checked.out) if words in out]
