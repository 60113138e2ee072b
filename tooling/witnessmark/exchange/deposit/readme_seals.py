"""How seals are checked by hand, with the very lines to be typed for one of them."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.exchange.deposit.kit import Agreed, Kit
from witnessmark.exchange.deposit.seals import (
    JUDGEMENTS,
    LIST,
    WORDS,
    judgement_name,
    statement_name,
)
from witnessmark.exchange.deposit.telling import SHELL, text_of
from witnessmark.model.statement import ALLOWED_SIGNERS, NAMESPACE


def seal_lines(kit: Kit) -> Iterator[str]:
    """What a seal is, how one is checked, and what it is worth."""
    yield from text_of("seals_sealed" if kit.is_sealed else "seals_public")
    yield ""
    judged = [agreed for agreed in kit.agreed if agreed.judgement is not None]
    if kit.is_sealed and judged:
        yield from _by_hand(judged[0])
        yield from _signatures(kit)
    elif not kit.is_sealed:
        yield from _alike(kit)
    yield from text_of("seal_worth")


def _alike(kit: Kit) -> Iterator[str]:
    if kit.agreed:
        one = kit.agreed[0]
        yield from (f"The three places of the first, for decision {one.decision}:", "")
        yield f"{SHELL}grep 'wm1:' data/records/{one.file}"
        yield f"{SHELL}grep '^{one.decision} ' data/seals/{LIST}"
        yield f"{SHELL}grep 'wm1:' data/site/d/{one.decision}/index.html"
        yield ""
    # Nothing to type yet: the file named here comes from elsewhere.
    yield from ("The sum of a judgement that you are shown:", "")
    yield from ("      sha256sum NUMBER.judgement.json", "")


def _by_hand(agreed: Agreed) -> Iterator[str]:
    judgement, record = f"data/seals/{judgement_name(agreed)}", f"data/records/{agreed.file}"
    yield from (f"One by hand, decision {agreed.decision}. The sum of the text:", "")
    yield f"{SHELL}sha256sum {judgement}"
    yield from ("", "The seals in the record, which must show the same digits after wm1:", "")
    yield f"{SHELL}grep 'wm1:' {record}"
    yield from ("", "Both at once; it prints the agreements that the text fits, or nothing:", "")
    yield f'{SHELL}grep "wm1:$(sha256sum {judgement} | cut -c1-64)" {record}'
    yield from ("", "Then read the text beside the record. All of them against their records:", "")
    yield f"{SHELL}(cd data/seals && sha256sum --quiet -c {JUDGEMENTS})"
    yield from ("", "And the words, where a difference is a warning and voids nothing:", "")
    yield f"{SHELL}(cd data/seals && sha256sum --quiet -c {WORDS}) || echo 'words were changed'"
    yield ""


def _signatures(kit: Kit) -> Iterator[str]:
    signed = [agreed for agreed in kit.agreed if agreed.signature and agreed.statement]
    if not signed:
        yield from ("No agreement here has a signature made with a key, so each of them is",)
        yield from ('"recorded as agreed by", never "signed by".', "")
        return
    one = signed[0]
    yield from ("Some agreements have a signature made with a key beside them. OpenSSH checks",)
    yield from (f"it against the museum's list of keys; here {one.decision}, {one.role}:", "")
    yield (
        f"{SHELL}ssh-keygen -Y verify -f data/records/{ALLOWED_SIGNERS} -I {one.by} "
        f"-n {NAMESPACE} -O verify-time={one.day:%Y%m%d}120000Z "
        f"-s data/records/{one.signature} < data/seals/{statement_name(one)}"
    )
    yield ""
