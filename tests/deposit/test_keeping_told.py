"""The page and the guide on keeping say what is so."""

from __future__ import annotations

import re

import pytest

from calling import call
from canary_museum import MUSEUM, library_with
from rendered_site import demo, pages, site_of
from witnessmark.cli.guides import guide

PAGE = "how-this-is-kept/index.html"
GUIDE = guide("keeping")


def test_the_front_page_and_the_page_about_the_record_lead_to_it() -> None:
    site = pages(demo())
    for path in ("index.html", "about/index.html"):
        assert "how-this-is-kept/index.html" in site[path], path


def test_it_says_what_git_keeps_and_what_a_seal_does_not_prove() -> None:
    page = pages(demo())[PAGE]
    wanted = ("kept for ever", "taken back", "claimed, not proven", "It does not show who typed it")
    assert [True] * 4 == [words in page for words in wanted]


def test_the_terms_are_a_link_only_where_they_are_an_address() -> None:
    address = 'href="https://creativecommons.org/licenses/by/4.0/"'
    assert address in pages(demo())[PAGE]
    words = MUSEUM.replace("$museum_licence", "javascript:ask us")
    page = pages(site_of(library_with("museum.yml", words)))[PAGE]
    assert ("javascript:ask us" in page, 'href="javascript' in page) == (True, False)


def test_without_terms_nothing_is_said_of_them() -> None:
    silent = MUSEUM.replace("licence: $museum_licence\n", "")
    assert "What you may do with it" not in pages(site_of(library_with("museum.yml", silent)))[PAGE]


@pytest.mark.parametrize("option", sorted(set(re.findall(r"--[a-z]+", GUIDE))))
def test_every_option_that_the_guide_names_is_there(option: str) -> None:
    assert option in call("deposit", "--help").out


def test_the_guide_names_its_sources_and_says_that_they_were_seen() -> None:
    assert re.search(r"AIC, Commentaries .* 27 and 28 \(seen\)", GUIDE)


def test_what_the_guide_says_of_exit_codes_is_what_help_says() -> None:
    told = " ".join(call("deposit", "--help").out.split())
    assert "1 the records have errors, or a decision is gone or a seal no longer matches" in told
