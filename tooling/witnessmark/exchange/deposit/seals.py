"""The seals of a deposit: a list for people, and where it is sealed the texts they are sums of."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.exchange.deposit.kit import Agreed, Kit

LIST = "seals.txt"
JUDGEMENTS = "judgements.sha256"
WORDS = "words.sha256"
_SCHEME = "wm1:"
_WORDS_SCHEME = "wm1w:"


def seal_files(kit: Kit) -> dict[str, bytes]:
    """The files of seals/ by name."""
    return {LIST: _list(kit), **dict(_texts(kit)), **dict(_sums(kit))}


def _list(kit: Kit) -> bytes:
    head = (
        "Every agreement in this deposit: decision, role, day, who, seal.\n"
        "A seal is wm1: and the SHA-256 sum of the judgement, in the form that RFC 8785 gives it.\n"
        "README-FIRST.txt says how to check one.\n\n"
    )
    lines = (f"{a.decision}  {a.role}  {a.day}  {a.by}  {a.seal}\n" for a in kit.agreed)
    return (head + "".join(lines)).encode()


def judgement_name(agreed: Agreed) -> str:
    """The file of the text under a seal."""
    return f"{agreed.decision}.judgement.json"


def statement_name(agreed: Agreed) -> str:
    """The file of what a detached signature signs."""
    return f"{agreed.decision}-{agreed.role}.statement.json"


def _words_name(agreed: Agreed) -> str:
    return f"{agreed.decision}.words.json"


def _texts(kit: Kit) -> Iterator[tuple[str, bytes]]:
    for agreed in kit.agreed:
        if agreed.judgement is not None:
            yield judgement_name(agreed), agreed.judgement
        if agreed.words is not None:
            yield _words_name(agreed), agreed.words
        if agreed.statement is not None:
            yield statement_name(agreed), agreed.statement


def _sums(kit: Kit) -> Iterator[tuple[str, bytes]]:
    """Lists that `sha256sum -c` reads: the sum as the record holds it, beside the text's name."""
    judged = {
        f"{a.seal.removeprefix(_SCHEME)}  {judgement_name(a)}\n"
        for a in kit.agreed
        if a.judgement is not None and a.seal.startswith(_SCHEME)
    }
    said = {
        f"{a.words_seal.removeprefix(_WORDS_SCHEME)}  {_words_name(a)}\n"
        for a in kit.agreed
        if a.words is not None and a.words_seal and a.words_seal.startswith(_WORDS_SCHEME)
    }
    for name, lines in ((JUDGEMENTS, judged), (WORDS, said)):
        if lines:
            yield name, "".join(sorted(lines)).encode()
