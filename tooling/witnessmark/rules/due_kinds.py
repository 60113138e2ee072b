"""One thing that is due, and the kinds there are."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from witnessmark.model.remains import Path
from witnessmark.model.words import Word


class DueKind(Word):
    """Why something is due."""

    STOP = "stop", "A finding holds a machine until it is answered."
    RUNS_OUT = "runs-out", "A decision was made for a time that ends."
    ACCEPTED_RISK = "accepted-risk", "A risk was accepted for a time that ends."
    WAIVER = "waiver", "A rule rests for a time that ends."
    RATIFY = "ratify", "Emergency work waits to be agreed afterwards."
    LOOK_AGAIN = "look-again", "A decision is to be looked at again."
    PUT_OFF = "put-off", "The answer to a finding was put off until a day."
    MEASURE = "measure", "A figure that is being watched is old."
    KEPT = "kept", "The way a machine is kept is to be looked at again."
    POLICY = "policy", "The policy is to be looked at again."
    NO_HOLDER = "no-holder", "Nobody holds a role that agreement needs."
    TERM = "term", "Somebody whose term ended is still named in a record that is open."
    UNDECIDED = "undecided", "A lot of old stock waits for a decision what it is for."


@dataclass(frozen=True, kw_only=True)
class Due:
    """Something to come back to by a day.

    `name` tells it from every other of its kind for as long as the record stands; `written` is the
    day of the record it comes from; `path` is its place in `file`.
    """

    kind: DueKind
    day: date
    name: str
    says: str
    file: str
    path: Path
    written: date
    machine: str | None = None
    decision: str | None = None
