"""How each agreement stands: whether its seal holds, and whether a signature vouches for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from witnessmark.model.decision import Signature
from witnessmark.model.library import DecisionFile, Library
from witnessmark.model.statement import ALLOWED_SIGNERS, signature_path, statement_of
from witnessmark.repository.signatures import Verified, verify_statement
from witnessmark.weighing.case import Case
from witnessmark.weighing.seals import seals_of

NO_KEYS = f"there is no {ALLOWED_SIGNERS} file to hold it against."


@dataclass(frozen=True)
class Agreement:
    """One agreement with what can be said of it.

    `seal_holds` and `words_hold` are None while the seal cannot be reckoned. `signed` is None
    where no signature file lies beside the record. `copied_from` names another record that bears
    the same seal, which can only have been copied.
    """

    record: str
    file: str
    index: int
    signature: Signature
    seal_now: str | None
    seal_holds: bool | None
    words_hold: bool | None
    signed: Verified | None
    holds_role: bool
    copied_from: str | None = None

    @property
    def is_sound(self) -> bool:
        """True when nothing speaks against it; changed words are only a warning."""
        signed = self.signed is None or self.signed.fits
        return bool(self.seal_holds) and signed and self.holds_role

    @property
    def who(self) -> str:
        """The person and the role, as a reader names an agreement."""
        return f"{self.signature.by} ({self.signature.role.value})"


def agreements_of(
    entry: DecisionFile,
    case: Case,
    library: Library,
    *,
    further: Mapping[str, bytes],
    allowed: bytes | None,
) -> Iterator[Agreement]:
    """Every agreement of a record, in the order written."""
    seals = _seals(entry, case, library) if case.decision.agreed else None
    for index, signature in enumerate(case.decision.agreed):
        seal_holds = None if seals is None else signature.seal == seals[0]
        person = library.people.get(signature.by)
        yield Agreement(
            record=entry.id,
            file=entry.file,
            index=index,
            signature=signature,
            seal_now=seals[0] if seals else None,
            seal_holds=seal_holds,
            words_hold=None if seals is None else signature.words == seals[1],
            signed=_signed(entry, signature, further, allowed),
            holds_role=bool(person and person.holds(signature.role, on=signature.date)),
            copied_from=None if seal_holds is not False else _bearer(entry, signature, library),
        )


def _seals(entry: DecisionFile, case: Case, library: Library) -> tuple[str, str] | None:
    record = entry.shaped.document.data
    if not isinstance(record, dict) or not entry.shaped.whole:
        return None
    return seals_of(case, library, record)


def _signed(
    entry: DecisionFile, signature: Signature, further: Mapping[str, bytes], allowed: bytes | None
) -> Verified | None:
    armoured = further.get(signature_path(entry.machine, entry.id, signature.role.value))
    if armoured is None:
        return None
    if allowed is None:
        return Verified(fits=False, why=NO_KEYS)
    return verify_statement(
        statement_of(entry.id, signature),
        signature=armoured,
        allowed=allowed,
        person=signature.by,
        on=signature.date,
    )


def _bearer(entry: DecisionFile, signature: Signature, library: Library) -> str | None:
    """Another record whose agreement bears the same seal."""
    bearers = (
        other.id
        for other in library.decisions
        if other.id != entry.id and other.value
        for theirs in other.value.agreed
        if theirs.seal == signature.seal
    )
    return next(bearers, None)


def agreement_words(agreement: Agreement) -> Iterator[str]:
    """What can be said of an agreement, in sentences; signed only where a signature verifies."""
    signature = agreement.signature
    verb = "Signed by" if agreement.signed and agreement.signed.fits else "Recorded as agreed by"
    yield f"{verb} {agreement.who} on {signature.date}."
    if agreement.seal_holds is None:
        yield "The seal cannot be reckoned while the record, its machine or its policy has faults."
    elif agreement.seal_holds:
        yield "The seal holds."
    elif agreement.copied_from:
        yield f"The seal is that of {agreement.copied_from}: an agreement cannot be copied."
    else:
        yield "The seal is void: the judgement is no longer the one that was agreed to."
    if agreement.seal_holds and agreement.words_hold is False:
        yield "Sentences were changed since; the judgement was not."
    if not agreement.holds_role:
        yield f"{signature.by} did not hold the role {signature.role.value} on that day."
    if agreement.signed and not agreement.signed.fits:
        yield f"The signature file does not fit: {agreement.signed.why}"
