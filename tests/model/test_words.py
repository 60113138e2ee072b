"""The closed words: each list is the contract's, and every word says what it means."""

from __future__ import annotations

import pytest

from witnessmark.model.words import CLOSED_WORDS, Fate, Word

# The lists of the project's own contract, in its order.
LISTS = {
    "Kept": "running on-display reserve",
    "Origin": "as-built in-service museum-made unknown",
    "MadeTo": "last wear be-used-up",
    "Basis": "seen measured inferred told",
    "Grade": "note watch act stop",
    "Purpose": "undecided collection spares teaching pass-on",
    "State": "draft for-review agreed under-way done withdrawn replaced",
    "Kind": "leave-as-found stop-running restrict-use conserve-in-place repair renew-like-for-like"
    " renew-equivalent modify fit-old-stock fit-from-donor service undo",
    "Do": "clean adjust lubricate change-lubricant dismantle remove refit exchange fit-new"
    " fit-old-stock fit-from-donor sleeve hone machine grind drill weld build-up heat coat seal"
    " charge add mark lock-out move",
    "Fate": "stored displayed study lost",
    "Like": "same unlike",
    "Phase": "doing-the-work afterwards",
    "Order": "eliminate redesign device warning procedure",
    "Aspect": "form material use technique setting spirit",
    "Criterion": "authenticity safety reversibility",
    "Role": "collections engineering safety governing conservation workshop objector"
    " volunteer-lead",
    "RuledOutBy": "law owner rule",
}
ALL_WORDS = [word for words in CLOSED_WORDS for word in words]


@pytest.mark.parametrize("words", [w for w in CLOSED_WORDS if w.__name__ in LISTS])
def test_each_closed_list_is_the_contract_s(words: type[Word]) -> None:
    assert LISTS[words.__name__].split() == [word.value for word in words]


def test_every_list_of_the_contract_is_there() -> None:
    assert set(LISTS) <= {words.__name__ for words in CLOSED_WORDS}


@pytest.mark.parametrize("word", ALL_WORDS, ids=lambda w: f"{type(w).__name__}-{w.value}")
def test_every_word_says_what_it_means_in_a_sentence(word: Word) -> None:
    assert word.definition.endswith(".")
    assert word.definition[0].isupper()


@pytest.mark.parametrize("words", CLOSED_WORDS, ids=lambda w: w.__name__)
def test_no_two_words_of_a_list_mean_the_same(words: type[Word]) -> None:
    assert len(words) == len({word.definition for word in words})


def test_only_what_is_lost_is_not_kept() -> None:
    assert [Fate.LOST] == [fate for fate in Fate if not fate.is_kept]
