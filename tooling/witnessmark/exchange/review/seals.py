"""Agreements on both sides of a review: seals voided, words changed, signatures that do not fit."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.exchange.agreements import Agreement, agreement_words
from witnessmark.exchange.review.sides import Side
from witnessmark.weighing.changes.change import Change, Kind, Weight

_SHOWN_DIGITS = 12
"""Enough of a seal to tell two apart by eye; the whole stands in the record."""


def seal_changes(
    record: str, base: Side, head: Side, *, is_changed: bool = True
) -> Iterator[Change]:
    """What became of a record's agreements; one void all along is told where the record changed."""
    before = {a.who: a for a in base.agreements(record)} if record in base.records else {}
    after = head.agreements(record)
    void = [a for a in after if a.seal_holds is False]
    fresh = [a for a in void if not _was_void(before.get(a.who), a)]
    if fresh:
        yield _void(record, fresh, before)
    for agreement in void:
        if is_changed and agreement not in fresh:
            says = f"The seal of {agreement.who} was void before and is void still."
            yield Change.of(Kind.AGREEMENT, record, "agreed", says)
    for agreement in after:
        yield from _signed(record, before.get(agreement.who), agreement)


def _was_void(before: Agreement | None, after: Agreement) -> bool:
    if before is None or before.seal_holds is not False:
        return False
    return before.signature.seal == after.signature.seal


def _void(record: str, fresh: list[Agreement], before: dict[str, Agreement]) -> Change:
    who = ", ".join(f"{a.who} on {a.signature.date}" for a in fresh)
    signed, now = short(fresh[0].signature.seal), short(fresh[0].seal_now or "")
    copied = fresh[0].copied_from
    says = f"Agreed by {who} over the judgement {signed}; it is {now} now."
    if copied:
        says = f"The agreement of {who} bears the seal of {copied}: it was copied."
    elif not any(a.who in before for a in fresh):
        says = f"The agreement of {who} was never over this judgement ({signed}; it is {now})."
    return Change.of(Kind.SEAL_VOID, record, "agreed", says, before=signed, after=now)


def short(seal: str) -> str:
    """The first digits of a seal."""
    return seal.partition(":")[2][:_SHOWN_DIGITS] or seal


def _signed(record: str, before: Agreement | None, after: Agreement) -> Iterator[Change]:
    field = f"agreed.{after.who}"
    if after.signed is not None and not after.signed.fits:
        was = before.signed if before else None
        weight = Weight.LOOK if was and not was.fits else Weight.PERSON
        says = " ".join(agreement_words(after))
        yield Change.of(Kind.SIGNATURE_BAD, record, field, says, weight=weight)
    elif after.signed is None and before and before.signed:
        says = f"The signature file of {after.who} is gone; the agreement is only recorded now."
        yield Change.of(Kind.AGREEMENT_REMOVED, record, field, says)
    elif before is None and after.seal_holds:
        yield Change.of(Kind.AGREEMENT, record, field, " ".join(agreement_words(after)))
    if after.seal_holds and after.words_hold is False and (before is None or before.words_hold):
        says = f"Sentences were changed since {after.who} agreed; the seal holds."
        yield Change.of(Kind.AGREEMENT, record, f"{field}.words", says)
