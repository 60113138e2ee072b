"""Earlier decisions like one, as text for a terminal and as JSON for other programs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from witnessmark.exchange.text_table import folded
from witnessmark.model.decision import Decision
from witnessmark.model.library import DecisionFile, Library
from witnessmark.weighing.precedents import FEATURES, Precedent
from witnessmark.weighing.verdict import in_a_hundred


def similar_as_json(
    decision: Decision, found: Sequence[Precedent], library: Library
) -> dict[str, object]:
    """Give the features with their weights, and each precedent with what was chosen and why alike.

    `likeness` and `coverage` are exact, from 0 to 1; `terms` gives each compared feature's own.
    """
    return {
        "decision": decision.id,
        "features": {feature.name: str(feature.weight) for feature in FEATURES},
        "precedents": [_row(precedent, library.by_id[precedent.decision]) for precedent in found],
    }


def _row(precedent: Precedent, entry: DecisionFile) -> dict[str, object]:
    likeness, earlier = precedent.likeness, entry.value
    if earlier is None:
        raise TypeError("a precedent can be read")
    chosen, choice = earlier.chosen, earlier.choice
    return {
        "decision": earlier.id,
        "machine": entry.machine,
        "title": earlier.title,
        "state": earlier.state.value,
        "likeness": str(likeness.similarity),
        "coverage": str(likeness.coverage),
        "terms": {name: str(term) for name, term in likeness.terms.items()},
        "chosen": {"option": chosen.id, "kind": chosen.kind.value, "title": chosen.title}
        if chosen
        else None,
        "because": choice.because if choice else None,
    }


def render_similar(decision: Decision, found: Sequence[Precedent], library: Library) -> str:
    """Give each precedent with its likeness, how much was compared, the choice, and why alike."""
    lines = [f"{decision.id}  {decision.title}", ""]
    if not found:
        lines.append("No earlier decision of this museum was agreed, so there is no precedent.")
        return "\n".join(lines)
    for precedent in found:
        lines += [*_block(precedent, library.by_id[precedent.decision], decision), ""]
    weights = ", ".join(f"{feature.name} {feature.weight}" for feature in FEATURES)
    lines += folded(
        f"Likeness is the weighted mean over what both decisions have: {weights}. The last three"
        " are the scores of the option chosen. Like cases need not be decided alike; say why not."
    )
    return "\n".join(lines)


def _block(precedent: Precedent, entry: DecisionFile, asked: Decision) -> Iterator[str]:
    likeness, earlier = precedent.likeness, entry.value
    if earlier is None:
        raise TypeError("a precedent can be read")
    alike = in_a_hundred(likeness.similarity or Fraction(0))
    compared = in_a_hundred(likeness.coverage)
    yield f"{earlier.id}  {alike} alike; {compared} of the features could be compared"
    named = _named(earlier.id, asked)
    yield from folded(
        f"{entry.machine}, {earlier.state.value}{named}: {earlier.title}", indent="  "
    )
    if earlier.chosen:
        chosen = earlier.chosen
        yield from folded(
            f"chosen  {chosen.id} ({chosen.kind.value}): {chosen.title}", indent="  ", rest=" " * 10
        )
    if earlier.choice:
        yield from folded(f"because {earlier.choice.because}", indent="  ", rest=" " * 10)
    terms = sorted(likeness.terms.items(), key=lambda term: -term[1])
    shown = ", ".join(f"{name} {_hundredths(term)}" for name, term in terms)
    yield from folded(f"alike   {shown}", indent="  ", rest=" " * 10)


def _named(earlier: str, asked: Decision) -> str:
    if earlier in {departs.decision for departs in asked.departs_from}:
        return ", departed from"
    if earlier in asked.follows:
        return ", followed"
    return ", which this one replaces" if earlier == asked.replaces else ""


def _hundredths(term: Fraction) -> str:
    return in_a_hundred(term).removesuffix(" in 100")
