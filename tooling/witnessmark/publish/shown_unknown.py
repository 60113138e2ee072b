"""What a decision leaves unknown, said from its own facts."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.model.words import Origin
from witnessmark.publish.shown_names import Names
from witnessmark.publish.shown_options import letters_of
from witnessmark.scoring.score import Score, Withheld, one_decimal
from witnessmark.weighing.case import Case

WIDE = 2  # a judged range of two whole steps or more; our own judgement


def still_unknown(case: Case, names: Names) -> Iterator[str]:
    """Parts of unknown origin or make, sheets that cannot tell, scores missing or far apart."""
    yield from _parts(case, names)
    for sheet in case.sheets:
        if sheet.run is None:
            yield f"The worksheet {sheet.used.id} gives no result."
        elif sheet.run.verdict and sheet.run.verdict.word == "cannot-tell":
            yield f"The worksheet {sheet.used.id} cannot tell: the limit lies within the doubt."
    letters = letters_of(case.decision)
    for name, scores in case.scores.items():
        for criterion, score in scores.criteria.items():
            if isinstance(score, Withheld):
                yield f"The {criterion.value} of option {letters[name]} is not scored."
        for aspect, row in scores.authenticity.aspects.items():
            if row.how != "judged" or not isinstance(row.score, Score):
                continue
            low, likely, high = row.score.low, row.score.likely, row.score.high
            if high - low >= WIDE:
                yield (
                    f"Option {letters[name]}, {aspect.value}: judged {one_decimal(likely)}, but it"
                    f" may be anything from {one_decimal(low)} to {one_decimal(high)}."
                )


def _parts(case: Case, names: Names) -> Iterator[str]:
    places = case.ground.places if case.ground else {}
    for address in case.decision.about:
        for pieces in places.get(address, ()):
            name = names.part(case.machine_id, address)
            if pieces.origin is Origin.UNKNOWN:
                yield f"{name}: nobody knows where it comes from; it is counted as original."
            if pieces.can_be_made == "unknown":
                yield f"{name}: nobody has found out whether one could still be made."
