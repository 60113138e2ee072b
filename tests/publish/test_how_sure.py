"""The section that says how sure a result is: its sentences, in order, in the letters of the page.

The figures themselves are checked in tests/weighing. Where a number stands here it was worked out
by hand, as the comment beside it shows.
"""

from __future__ import annotations

import re
from fractions import Fraction
from html import unescape

import pytest

from rendered_site import DEMO, demo, pages
from witnessmark.model.library import assemble
from witnessmark.publish.shown_flips import each_flip, each_weight
from witnessmark.publish.shown_options import letters_of
from witnessmark.publish.shown_weighing import public_weighing
from witnessmark.repository.disk import read_museum
from witnessmark.weighing import Option, Range, Weighing, Weighting, Weights, weigh
from witnessmark.weighing.case import work_out
from witnessmark.weighing.sentences import account_of

F = Fraction
OURS: Weights = (F(7, 20), F(2, 5), F(1, 4))


def weighed(weights: Weights = OURS, **scores: tuple[int, int, int]) -> Weighing:
    options = [
        Option(name, (Range.certain(F(a)), Range.certain(F(s)), Range.certain(F(r))))
        for name, (a, s, r) in scores.items()
    ]
    return weigh(options, weighting=Weighting(weights=weights))


def test_each_weight_is_said_to_move_as_far_as_the_result_stays() -> None:
    # Safer leads where safety counts for more than authenticity. Authenticity x leaves safety
    # 8/13 of the rest: x = 8/13 (1 - x) at 8/21, about 38%. Safety x leaves authenticity 7/12 of
    # the rest: x = 7/19, about 37%. Reversibility leaves the two in their proportion.
    found = weighed(truer=(4, 0, 0), safer=(0, 4, 0))
    assert [
        "Authenticity, now 35%: the result stays while it counts for at most about 38%.",
        "Safety, now 40%: the result stays while it counts for at least about 37%.",
        "Reversibility, now a quarter: whatever it counts for, the result stays.",
    ] == list(each_weight(found, weights=OURS))


def test_a_result_that_no_weight_ends_is_said_once() -> None:
    found = weighed(better=(3, 3, 3), worse=(2, 2, 2))
    said = list(each_weight(found, weights=OURS))
    assert ["Whatever any one of the three counts for, the result stays."] == said


def test_a_tie_is_said_to_end_with_any_change() -> None:
    # The two are level only where safety and authenticity count the same.
    even = (F(2, 5), F(2, 5), F(1, 5))
    said = list(each_weight(weighed(even, truer=(4, 0, 0), safer=(0, 4, 0)), weights=even))
    assert ["Authenticity, now 40%: any change of it ends the tie."] == said[:1]


def test_nothing_is_said_of_weights_where_one_option_is_left() -> None:
    assert [] == list(each_weight(weighed(only=(1, 1, 1)), weights=OURS))


def test_every_single_score_that_would_do_it_is_listed() -> None:
    # Worth 1.4 and 1.6. A step of authenticity is worth 0.35, of safety 0.40, of reversibility
    # 0.25, all above 0.2: truer leads if any of its three rises, safer not if its one score falls.
    found = weighed(truer=(3, 0, 0), safer=(0, 3, 0))
    names = {"truer": "option A", "safer": "option B"}
    assert {
        "If the authenticity of option A were 4 instead of 3, it would lead.",
        "If the safety of option A were 1 instead of 0, it would lead.",
        "If the reversibility of option A were 1 instead of 0, it would lead.",
        "If the safety of option B were 2 instead of 3, it would no longer lead.",
    } == set(each_flip(found, names=names))


def test_the_page_leads_with_the_plain_sentences_of_the_weighing() -> None:
    library = assemble(read_museum(DEMO))
    for path, text in pages(demo()).items():
        if 'id="weighing"' not in text:
            continue
        entry = library.by_id[path.split("/")[1]]
        assert entry.value
        case = work_out(entry.value, entry.machine, library)
        assert case.weighing
        letters = letters_of(entry.value)
        said = account_of(
            case.weighing, names={name: f"option {letter}" for name, letter in letters.items()}
        )
        part = unescape(text.split('<h2 id="weighing">')[1].split("</section>")[0])
        places = [part.index(sentence) for sentence in said.lead]
        assert places == sorted(places), path
        assert places[0] < min(part.index("<table"), part.index("<h3>")), path


def test_sentences_on_the_options_behind_stand_in_the_order_of_their_letters() -> None:
    for path, text in pages(demo()).items():
        if 'id="weighing"' in text:
            part = text.split('<h2 id="weighing">')[1].split("<h3>What would change")[0]
            named = re.findall(r"<li>[^<]*?[Oo]ption ([A-Z])\b", part)
            assert (path, sorted(named)) == (path, named)


def test_no_id_of_an_option_stands_in_a_sentence() -> None:
    library = assemble(read_museum(DEMO))
    for entry in library.decisions:
        assert entry.value
        found = public_weighing(work_out(entry.value, entry.machine, library))
        assert found
        said = " ".join((*found.lead, *found.flips, *found.doubt, *found.steps, *found.others))
        names = [o.id for o in entry.value.options if "-" in o.id]
        assert [] == [name for name in names if name in said], entry.id


@pytest.mark.parametrize("name", ["question", "answer"])
def test_how_the_weights_were_asked_for_is_shown_as_the_policy_has_it(name: str) -> None:
    library = assemble(read_museum(DEMO))
    newest = max(library.policies.values(), key=lambda policy: policy.valid_from)
    page = unescape(pages(demo())["how-we-score/index.html"])
    assert newest.elicited
    assert [] == [e.when for e in newest.elicited if getattr(e, name) not in page]


def test_what_chances_take_for_granted_is_said_in_plain_words() -> None:
    page = pages(demo())["how-we-score/index.html"]
    assert "each score's doubt to have nothing to do with the others'" in unescape(page)
