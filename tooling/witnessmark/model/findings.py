"""findings.yml: the dated log of what was found on a machine."""

from __future__ import annotations

from typing import Literal

from witnessmark.model.fields import (
    Address,
    Day,
    FindingId,
    Flag,
    Prose,
    Quantity,
    Text,
    Written,
)
from witnessmark.model.words import Basis, Grade


class PutOff(Written):
    """Why an answer waits, and until when."""

    until: Day
    because: Prose


class Finding(Written):
    """One thing that was found.

    `limit`: the value at which it may not go on, and `limit_from` who or what set it. `cause`: why
    it came to this, or that nobody knows. `told_by`: who knew it, where `by` only wrote it down.
    """

    id: FindingId
    date: Day
    by: Text
    part: Address | None = None
    basis: Basis
    told_by: Text | None = None
    what: Prose
    grade: Grade
    measurement: Quantity | None = None
    instrument: Text | None = None
    limit: Quantity | None = None
    limit_from: Text | None = None
    cause: Prose | None = None
    photo: Text | None = None
    put_off: PutOff | None = None
    answers: tuple[FindingId, ...] = ()
    public: Flag = False


class Findings(Written):
    """The log of one machine, oldest first."""

    witnessmark: Literal[1]
    findings: tuple[Finding, ...] = ()
