"""The page of one decision, in the order in which a visitor asks."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.model.words import Criterion
from witnessmark.publish.figures.fabric import fabric_figure
from witnessmark.publish.figures.figure import Figure
from witnessmark.publish.figures.scales import scales_figure
from witnessmark.publish.figures.ternary import ternary_figure
from witnessmark.publish.figures.weighing_table import PLAINLY, weighing_table
from witnessmark.publish.linked_page import decision_facts
from witnessmark.publish.public import PublicMuseum, PublicWithheld
from witnessmark.publish.public_decision import PublicDecision, PublicScore
from witnessmark.publish.public_json import decision_json_path
from witnessmark.publish.shown_alike import (
    MOST_ON_A_CARD,
    figures_of,
    hazards_of,
    only_judge,
    reasons_of,
    stays_under,
)
from witnessmark.publish.shown_methods import by_method
from witnessmark.publish.shown_steps import is_as_planned
from witnessmark.publish.views import Section, View
from witnessmark.weighing.words import Standing

_FRAMED = "The framed letter is what we chose."
_MOST_DRAWN = 8  # beyond this the drawing would be longer than the table


def decision_view(decision: PublicDecision, museum: PublicMuseum) -> View:
    """One decision."""
    figures = _figures(decision)
    known = {rule.id: rule for rule in museum.rules}
    return View(
        path=f"d/{decision.id}/index.html",
        title=decision.title,
        description=_description(decision),
        lead="decision/lead.html",
        sections=tuple(_sections(decision, figures)),
        values={
            "d": decision,
            "figures": figures,
            "known_rules": known,
            "judge": only_judge(decision),
            "reasons": tuple(reasons_of(decision)) if "aspects" in figures else (),
            "hazards": tuple(hazards_of(decision)),
            "reckoned": [(word, list(figures_of(decision, word))) for word in Criterion],
            "all_stay": _all_stay(decision),
            "most_on_a_card": MOST_ON_A_CARD,
            "stays": tuple(stays_under(decision)),
            "methods": tuple(by_method(decision.sheets)),
            "is_as_planned": is_as_planned(decision),
            "standings": _standings(decision),
            "allowed_back": _allowed_back(decision),
            "weighing_table": weighing_table(decision.weighing) if decision.weighing else None,
        },
        has_contents=True,
        data_file=decision_json_path(decision.id),
        facts=decision_facts(decision, museum, museum.web_root) if museum.web_root else None,
    )


def withheld_view(withheld: PublicWithheld) -> View:
    """The page in place of a record that is not shown."""
    return View(
        path=f"d/{withheld.id}/index.html",
        title=f"Decision {withheld.id} is not shown",
        description=f"Why decision {withheld.id} is not shown.",
        lead="decision/withheld.html",
        values={"withheld": withheld},
    )


def _description(decision: PublicDecision) -> str:
    """The trade-off, short enough for a list of search results."""
    first = decision.gives_up.split("\n\n")[0]
    return f"What we gave up: {first}"[:300]


def _figures(decision: PublicDecision) -> dict[str, Figure]:
    """The drawings of a decision by name; those with nothing to draw are left out."""
    figures: dict[str, Figure] = {}
    few = 0 < len(decision.options) <= _MOST_DRAWN
    if few and all(option.aspects for option in decision.options):
        figures["aspects"] = _aspects(decision)
        figures["criteria"] = _criteria(decision)
    weighing = decision.weighing
    drawn = ternary_figure(weighing, name=f"d-{decision.id}-map") if weighing else None
    if drawn:
        figures["map"] = drawn
    fabric = (
        None
        if _all_stay(decision)
        else fabric_figure(decision.options, name=f"d-{decision.id}-fabric")
    )
    if few and fabric:
        figures["fabric"] = fabric
    return figures


def _standings(decision: PublicDecision) -> list[tuple[Standing, str]]:
    """How options stand in the weighing of this decision, each with its plain words."""
    found = {row.standing for row in decision.weighing.rows} if decision.weighing else set()
    return [(word, PLAINLY[word]) for word in Standing if word in found]


def _all_stay(decision: PublicDecision) -> int:
    """The original pieces in question where every option leaves them all; else none is counted."""
    found = {option.pieces for option in decision.options}
    pieces = found.pop() if len(found) == 1 else None
    return pieces.stay if pieces and pieces.as_they_are == pieces.in_all else 0


def _allowed_back(decision: PublicDecision) -> tuple[str, ...]:
    """What setting options aside costs; said once where no exclusion changes anything."""
    said = decision.weighing.aside if decision.weighing else ()
    if said and all(text.endswith("allowed back, it would not lead.") for text in said):
        which = "it were" if len(said) == 1 else "any one of them were"
        return (f"If {which} weighed after all, it would still not lead.",)
    return said


def _aspects(decision: PublicDecision) -> Figure:
    rows = [
        (
            row.aspect.value.capitalize(),
            [(option.letter, option.aspects[place].score) for option in decision.options],
        )
        for place, row in enumerate(decision.options[0].aspects)
    ]
    return scales_figure(
        rows,
        name=f"d-{decision.id}-aspects",
        title="Six aspects of authenticity, each option",
        finding=(
            f"Each tick is what we think likely; a pale band is how far off we may be. {_FRAMED}"
        ),
        chosen=decision.chosen.letter if decision.chosen else None,
    )


def _criteria(decision: PublicDecision) -> Figure:
    rows = [
        (word.value.capitalize(), [(o.letter, _score(o.score(word))) for o in decision.options])
        for word in Criterion
    ]
    return scales_figure(
        rows,
        name=f"d-{decision.id}-criteria",
        title="The three scores, each option",
        finding=_finding_of_scores(decision),
        chosen=decision.chosen.letter if decision.chosen else None,
    )


def _score(score: PublicScore | None) -> PublicScore:
    return score or PublicScore(withheld=("This option has no scores.",))


def _finding_of_scores(decision: PublicDecision) -> str:
    """Which score decides where one does; who leads is said with how sure that is."""
    if decision.weighing is None:
        return "The options could not be weighed."
    return f"{decision.weighing.decides} {_FRAMED}" if decision.weighing.decides else _FRAMED


def _sections(decision: PublicDecision, figures: dict[str, Figure]) -> Iterator[Section]:
    for name, title, is_there in (
        ("question", "The question", True),
        ("choices", "The choices we had", True),
        ("nothing-done", "If nothing were done", bool(decision.nothing_done)),
        ("doubts", "Doubts and dissent", True),
        ("outcome", "Did it work?", True),
        ("old-parts", "Where the old parts are", True),
        ("pictures", "Pictures", bool(decision.pictures)),
        ("aspects", "Six ways to look at it", "aspects" in figures),
        ("scores", "The three scores", bool(decision.options)),
        ("metal", "Original material", True),
        ("set-aside", "What we set aside, and why", bool(decision.set_aside)),
        ("weighing", "How sure is the result?", decision.weighing is not None),
        ("change-our-mind", "What would change our mind", True),
        ("unknown", "What we still do not know", True),
        ("worksheets", "What we worked out", bool(decision.sheets)),
        ("met-before", "Have we met this before?", True),
        ("rules", "Our rules, checked", True),
        ("timeline", "When it happened", True),
        ("agreed", "Who agreed", True),
        ("history", "How this decision changed", decision.history is not None),
        ("cite", "How to cite this page", True),
    ):
        if is_there:
            yield Section(id=name, title=title, template=f"decision/{name}.html")
