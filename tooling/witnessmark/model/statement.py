"""What a detached signature signs: one agreement, in a form that never varies."""

from __future__ import annotations

import rfc8785

from witnessmark.model.decision import Signature

NAMESPACE = "witnessmark"
"""The purpose named to `ssh-keygen -Y`, so that a signature made for something else never fits."""

STATEMENT = "witnessmark-agreement/1"
SIGNATURES = "signatures"
ALLOWED_SIGNERS = "allowed_signers"


def statement_of(decision: str, signature: Signature) -> bytes:
    """The RFC 8785 bytes of an agreement: which record, who, as what, when, over which seals."""
    return rfc8785.dumps(
        {
            "statement": STATEMENT,
            "id": decision,
            "role": signature.role.value,
            "by": signature.by,
            "date": signature.date.isoformat(),
            "seal": signature.seal,
            "words": signature.words,
        }
    )


def signature_path(machine: str, decision: str, role: str) -> str:
    """Where the detached signature of an agreement lies, below the museum folder.

    >>> signature_path("quay-crane", "2024-003", "safety")
    'quay-crane/signatures/2024-003-safety.sig'
    """
    return f"{machine}/{SIGNATURES}/{decision}-{role}.sig"
