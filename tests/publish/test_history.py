"""How a decision changed, on its page: from real repositories, in words, and nothing private."""

from __future__ import annotations

import shutil
from collections.abc import Mapping
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

import canary_museum as canary
from building import BASE, DECISION, GONE, changed
from calling import call
from keeping import READY, Kept, kept_demo, kept_museum
from rendered_site import AS_OF, Markup, pages, site_of
from witnessmark.model.library import assemble
from witnessmark.publish import Skin
from witnessmark.publish.themed import themed_site
from witnessmark.repository.disk import read_museum
from witnessmark.repository.past import read_past

UTC = ZoneInfo("Etc/UTC")
PAGE = "d/2024-001/index.html"
HEADING = "How this decision changed"
ROOT = Path(__file__).parents[2]


def signed(role: str, by: str) -> dict[str, object]:
    return {"role": role, "by": by, "date": "2024-03-02", "seal": "wm1:a", "words": "wm1w:a"}


OPEN: Mapping[str, object] = {
    **READY,
    "state": "agreed",
    "publish": True,
    "agreed": [signed("collections", "curator"), signed("engineering", "engineer")],
}


def file(kept: Kept, changes: Mapping[str, object], *, day: str) -> None:
    """Write the decision anew and commit it, by somebody whose name must not be told."""
    (kept.museum / DECISION).write_text(changed(BASE[DECISION], changes), encoding="utf-8")
    kept.commit("A secret message", who='A <b>"Fitter"</b>', day=f"{day}T10:00:00+00:00")


def public_from_the_start(where: Path) -> Kept:
    return kept_museum(where / "work", changes={DECISION: OPEN})


def page_of(museum: Path, skin: Skin = "plain") -> str:
    past = read_past(museum, zone=UTC)
    site = site_of(assemble(read_museum(museum)), skin=skin, versions=past.versions)
    return str(site[PAGE])


def told(page: str) -> list[tuple[str, str]]:
    """Day and sentences of each entry, in the order of the page."""
    start = page.index('id="history"')
    section = page[start : page.index("</section>", start)]
    found = []
    for entry in section.split("<li>")[1:]:
        day = entry.split('datetime="')[1].split('"')[0]
        found.append((day, entry.split("<span>")[1].split("</span>")[0]))
    return found


def test_versions_are_told_in_words_the_latest_first(tmp_path: Path) -> None:
    kept = public_from_the_start(tmp_path)
    file(kept, {**OPEN, "options.1.judged.form.likely": 2}, day="2024-06-01")
    file(kept, {**OPEN, "options.1.answers.lifting.after": "2D"}, day="2024-07-01")
    title = "A new bush to the old size"
    risk = "The risk left went from 2E to 2D for &#34;The drum slips while it is lifted out&#34;"
    expected = [
        ("2024-07-01", f"Form went from 2 to 4 for: {title}. {risk} under: {title}."),
        ("2024-06-01", f"Form went from 4 to 2 for: {title}."),
        ("2024-05-01", "Written down, as agreed."),
    ]
    assert expected == told(page_of(kept.museum))


def test_the_entries_stand_in_a_list_that_opens(tmp_path: Path) -> None:
    page = page_of(public_from_the_start(tmp_path).museum)
    section = page[page.index('id="history"') :]
    assert section.index("<details>") < section.index("<ol") < section.index("</details>")


def test_drafts_are_not_told(tmp_path: Path) -> None:
    kept = kept_museum(tmp_path / "work", changes={DECISION: {"publish": True}})
    file(kept, {"publish": True, "options.1.judged.form.likely": 1}, day="2024-06-01")
    file(kept, OPEN, day="2024-07-01")
    expected = [("2024-07-01", "Became public, in the state: agreed.")]
    assert expected == told(page_of(kept.museum))


@pytest.mark.parametrize("publish", [False, {"withheld": "The owner asked us to wait."}])
def test_what_changed_while_a_record_was_not_shown_is_not_told(
    tmp_path: Path, publish: object
) -> None:
    kept = public_from_the_start(tmp_path)
    file(kept, {**OPEN, "publish": publish, "options.1.title": "A hidden idea"}, day="2024-06-01")
    file(kept, OPEN, day="2024-07-01")
    page = page_of(kept.museum)
    assert [("2024-07-01", "Became public, in the state: agreed.")] == told(page)
    assert "hidden idea" not in page


def test_an_option_that_is_gone_is_not_quoted(tmp_path: Path) -> None:
    kept = public_from_the_start(tmp_path)
    file(kept, {**OPEN, "options.2.title": "A dropped idea"}, day="2024-06-01")
    file(kept, {**OPEN, "options.2": GONE}, day="2024-07-01")
    page = page_of(kept.museum)
    assert "An option was taken out: an option that was dropped later." in page
    assert "dropped idea" not in page


def test_a_title_is_quoted_as_it_stands_today_and_not_as_last_filed(tmp_path: Path) -> None:
    kept = public_from_the_start(tmp_path)
    filed = {**OPEN, "options.1.title": "A slip of the pen", "options.1.judged.form.likely": 2}
    file(kept, filed, day="2024-06-01")
    kept.change(DECISION, "A slip of the pen", "A new bush")
    page = page_of(kept.museum)
    assert ("Form went from 4 to 2 for: A new bush." in page, "of the pen" in page) == (True, False)


def test_no_name_address_or_message_of_git_is_told(tmp_path: Path) -> None:
    kept = public_from_the_start(tmp_path)
    file(kept, {**OPEN, "options.1.judged.form.likely": 2}, day="2024-06-01")
    page = page_of(kept.museum)
    told_of = [word for word in ("Fitter&", "fitter@", "secret message", "<b>") if word in page]
    assert (True, []) == ("Form went" in page, told_of)


PRIVATE_CHANGES: Mapping[str, Mapping[str, object]] = {
    "a note": {"note": "Ring the giver"},
    "a store place": {"options.1.steps.0.place": "store-b"},
    "a note on a step": {"options.1.steps.0.note": "Mind the lamp"},
    "a source": {"sources": [{"what": "A letter in a drawer"}]},
    "somebody's interest": {"interests": [{"who": "A", "what": "B", "answer": "C"}]},
    "a picture that is not public": {"photos": [{"file": "photos/a.svg", "alt": "A sketch"}]},
    "hours and money": {"options.1.effort": {"hours": [7, 8], "cost": [91, 92]}},
    "what the owner wrote": {"consent": {"by": "The owner", "date": "2024-01-02", "text": "Yes"}},
    "who judged": {"judged_by": {"by": "fitter", "date": "2024-02-20"}},
}


@pytest.mark.parametrize("name", PRIVATE_CHANGES)
def test_a_change_of_private_fields_is_not_even_counted(tmp_path: Path, name: str) -> None:
    kept = public_from_the_start(tmp_path)
    file(kept, OPEN, day="2024-06-01")
    before = told(page_of(kept.museum))
    file(kept, {**OPEN, **PRIVATE_CHANGES[name]}, day="2024-07-01")
    assert before == told(page_of(kept.museum))


def test_a_picture_that_becomes_public_is_told(tmp_path: Path) -> None:
    kept = public_from_the_start(tmp_path)
    file(kept, OPEN, day="2024-06-01")
    shown = {"file": "photos/a.svg", "alt": "A sketch", "public": True}
    file(kept, {**OPEN, "photos": [shown]}, day="2024-07-01")
    assert ("2024-07-01", "One picture changed.") == told(page_of(kept.museum))[0]


def test_a_version_with_faults_is_passed_over_and_counted(tmp_path: Path) -> None:
    kept = public_from_the_start(tmp_path)
    (kept.museum / DECISION).write_text("id: [\n", encoding="utf-8")
    kept.commit(day="2024-06-01T10:00:00+00:00")
    file(kept, {**OPEN, "look_again": {"date": "2031-01-01"}}, day="2024-07-01")
    page = page_of(kept.museum)
    assert "2024-06-01" not in [day for day, _ in told(page)]
    assert "One version cannot be read today and is passed over." in page


def test_what_is_not_filed_yet_is_said(tmp_path: Path) -> None:
    kept = public_from_the_start(tmp_path)
    edited = "newer than the last version filed"
    assert edited not in page_of(kept.museum)
    kept.change(DECISION, "Why we made", "Why we then made")
    assert edited in page_of(kept.museum)


def test_a_move_is_no_version(tmp_path: Path) -> None:
    kept = public_from_the_start(tmp_path)
    kept.git("mv", f"museum/{DECISION}", "museum/winch/2024-001-renamed.yml")
    kept.commit(day="2024-06-01T10:00:00+00:00")
    assert [("2024-05-01", "Written down, as agreed.")] == told(page_of(kept.museum))


def test_a_shallow_clone_says_that_nothing_can_be_told(tmp_path: Path) -> None:
    kept = public_from_the_start(tmp_path)
    file(kept, {**OPEN, "options.1.judged.form.likely": 2}, day="2024-06-01")
    kept.git("clone", "-q", "--depth", "1", f"file://{kept.top}", str(tmp_path / "shallow"))
    page = page_of(tmp_path / "shallow" / "museum")
    assert "a copy of the records without their older versions" in page
    assert [] == told(page)


def test_outside_git_there_is_no_such_section(tmp_path: Path) -> None:
    kept = public_from_the_start(tmp_path)
    shutil.rmtree(kept.top / ".git")
    assert HEADING not in page_of(kept.museum)


@pytest.mark.parametrize("skin", ["plain", "themed"])
def test_no_text_of_an_older_version_reaches_the_site(skin: Skin) -> None:
    site = site_of(canary.library(), skin=skin, versions=canary.versions())
    old = canary.old_token("")[:-1]
    assert "passages were worded anew" in str(site["d/2024-003/index.html"])
    assert [] == [path for path, text in site.items() if old in str(text)]


@pytest.mark.parametrize("skin", ["plain", "themed"])
def test_a_hostile_title_is_shown_as_typed(tmp_path: Path, skin: Skin) -> None:
    hostile = '"><b>{{ 7*7 }}</b>'
    kept = kept_museum(tmp_path / "work", changes={DECISION: {**OPEN, "options.1.title": hostile}})
    again = {**OPEN, "options.1.title": hostile, "options.1.judged.form.likely": 2}
    file(kept, again, day="2024-06-01")
    page = page_of(kept.museum, skin)
    assert "for: &#34;&gt;&lt;b&gt;{{ 7*7 }}&lt;/b&gt;." in page
    assert "b" not in {tag for tag, _ in Markup(page).elements}


def test_the_pages_for_a_theme_tell_the_same(tmp_path: Path) -> None:
    kept = public_from_the_start(tmp_path)
    versions = read_past(kept.museum, zone=UTC).versions
    found, _ = themed_site(kept.museum, as_of=AS_OF.isoformat(), versions=versions)
    (page,) = [str(page.body) for page in found if page.path == PAGE]
    assert [("2024-05-01", "Written down, as agreed.")] == told(page)


@pytest.mark.parametrize("skin", ["plain", "themed"])
def test_two_clones_publish_the_same_bytes_with_the_history(tmp_path: Path, skin: str) -> None:
    kept = kept_demo(tmp_path / "work")
    for name in ("mkdocs.yml", "site_src"):
        copy = shutil.copytree if (ROOT / name).is_dir() else shutil.copy
        copy(ROOT / name, kept.top / name)
    kept.commit()
    sites = []
    for name in ("one", "two"):
        clone = tmp_path / name
        kept.git("clone", "-q", f"file://{kept.top}", str(clone))
        done = call("publish", "--as-of", "demo", "--skin", skin, "--out", "made", cwd=clone)
        assert 0 == done.code, done.err
        sites.append({p.relative_to(clone): p.read_bytes() for p in clone.glob("made/**/*.html")})
    page = sites[0][Path("made/d/2024-003/index.html")].decode()
    assert (True, True) == (sites[0] == sites[1], HEADING in page)


def test_a_museum_that_was_never_committed_has_no_history(tmp_path: Path) -> None:
    kept = public_from_the_start(tmp_path)
    shutil.rmtree(kept.top / ".git")
    kept.git("init", "-q", "-b", "main")
    assert HEADING not in page_of(kept.museum)


def test_every_page_closes_what_it_opens(tmp_path: Path) -> None:
    kept = public_from_the_start(tmp_path)
    file(kept, {**OPEN, "options.1.judged.form.likely": 2}, day="2024-06-01")
    versions = read_past(kept.museum, zone=UTC).versions
    site = site_of(assemble(read_museum(kept.museum)), versions=versions)
    crossed = {path: Markup(text).crossed for path, text in pages(site).items()}
    assert {} == {path: tags for path, tags in crossed.items() if tags}
