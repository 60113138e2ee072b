"""Advice on plain language: what earns a note, what does not, and that a note never counts."""

from __future__ import annotations

import pytest

from building import DECISION, FINDINGS, museum
from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.library import Library
from witnessmark.rules.plain_language import advice, advise, sentences
from witnessmark.rules.workshop_words import unexplained

# Three sentences a paragraph: style.ons.gov.uk; 30 words a sentence: our own, from memory of 25.
AT_THE_LIMIT = " ".join(["word"] * 30) + "."
OVER = " ".join(["word"] * 31) + "."


def codes(text: str) -> list[str]:
    return [note.code for note in advise(text)]


def notes(library: Library) -> list[Diagnostic]:
    return list(advice(library))


@pytest.mark.parametrize(("text", "expected"), [(AT_THE_LIMIT, []), (OVER, ["WM051"])])
def test_a_sentence_of_more_than_thirty_words_is_noted(text: str, expected: list[str]) -> None:
    assert expected == codes(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("One. Two. Three.", []),
        ("One. Two. Three. Four.", ["WM058"]),
        ("One. Two. Three.\nFour.", []),
        ("It is 0.74 mm. See no. 3 and e.g. No. 4. So be it. ", []),
    ],
)
def test_a_paragraph_of_more_than_three_sentences_is_noted(text: str, expected: list[str]) -> None:
    assert expected == codes(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("It will likely hold.", ["WM059"]),
        ("It is UNLIKELY to crack.", ["WM059"]),
        ("It will likely hold (about 7 in 10).", []),
        ("It will probably hold in nine of ten years.", []),
        ("It will probably hold. We tried 9 of 10.", ["WM059"]),
        ("The likeliness of the paint is striking.", []),
    ],
)
def test_a_likelihood_without_a_number_in_its_sentence_is_noted(
    text: str, expected: list[str]
) -> None:
    assert expected == codes(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("The journals are scored.", ["journal"]),
        ("The journal, the part of the shaft that turns in a bush, is scored.", []),
        ("A shim (a thin sheet) lies there.", []),
        ("The bush is worn.", []),
    ],
)
def test_a_workshop_word_is_noted_until_it_is_explained(text: str, expected: list[str]) -> None:
    assert expected == list(unexplained(text))


def test_no_word_of_a_text_is_lost_between_its_sentences() -> None:
    text = 'He said "Stop!" Then it was 3.5 mm, no. 4. Was it? It was.'
    assert text.split() == " ".join(sentences(text)).split()


def test_advice_is_a_note_at_the_text_it_is_about() -> None:
    (note,) = notes(museum(changes={DECISION: {"options.0.why_not": OVER}}))
    assert ("note", False, "options[0].why_not") == (note.level.value, note.counts, note.field)


@pytest.mark.parametrize("state", ["agreed", "under-way", "done", "withdrawn", "replaced"])
def test_a_record_whose_words_are_settled_gets_no_advice(state: str) -> None:
    assert [] == notes(museum(changes={DECISION: {"options.0.why_not": OVER, "state": state}}))


def test_what_the_public_never_reads_gets_no_advice() -> None:
    heard = [{"by": "fitter", "role": "workshop", "what": OVER}]
    assert [] == notes(museum(changes={DECISION: {"note": OVER, "heard": heard}}))


def test_a_public_finding_is_advised_on_until_something_was_agreed_on_it() -> None:
    public = {FINDINGS: {"findings.0.public": True, "findings.0.what": OVER}}
    assert ["findings[0].what"] == [note.field for note in notes(museum(changes=public))]
    signed = [
        {"role": "collections", "by": "curator", "date": "2024-03-01", "seal": "-", "words": "-"}
    ]
    agreed = {DECISION: {"state": "agreed", "agreed": signed}}
    assert [] == notes(museum(changes={**public, **agreed}))
