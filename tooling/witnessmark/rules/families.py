"""The families of the rule book: what each is about, and the codes it may use."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Family:
    """Rules that answer the same worry; `codes` are the numbers after WM, never used twice."""

    id: str
    title: str
    introduction: str
    codes: range

    def holds(self, code: str) -> bool:
        """True when a code such as WM104 lies in the family's range."""
        number = code.removeprefix("WM")
        return number.isdecimal() and int(number) in self.codes


FAMILIES: tuple[Family, ...] = (
    Family(
        "significance-and-evidence",
        "Significance and evidence",
        "Before anybody takes up a spanner, the record says why the machine matters and what was "
        "found on it. What the work will destroy is named and recorded while it can still be seen. "
        "A judgement carries a reason, a name and a date, so that a successor can argue with it.",
        range(101, 110),
    ),
    Family(
        "options",
        "Options",
        "A decision is a choice between things that could really have been done. Leaving alone and "
        "standing still are always among them, and each road not taken says why.",
        range(110, 120),
    ),
    Family(
        "least-intervention",
        "Least intervention",
        "As much as necessary and as little as possible. These rules ask whether the metal has to "
        "be touched at all, whether it could be mended, and whether the next generation could "
        "still take it back.",
        range(120, 130),
    ),
    Family(
        "what-comes-off",
        "What comes off",
        "A part that was taken off is evidence for ever, if anybody can find it. So it is kept, "
        "labelled and made safe to keep, and the marks of its working life go with it.",
        range(130, 140),
    ),
    Family(
        "what-goes-on",
        "What goes on",
        "A good new part looks like the old one, and that is its danger. These rules keep the "
        "machine honest about what is new, what it was copied from, and why it differs where it "
        "does.",
        range(140, 150),
    ),
    Family(
        "hazards",
        "Hazards",
        "Nobody is hurt for the sake of a machine. What could hurt somebody is named and answered "
        "under every option, and an unknown that can kill stops the work until somebody competent "
        "has looked. These rules state no law; they ask who read it.",
        range(150, 160),
    ),
    Family(
        "people-and-agreement",
        "People and agreement",
        "Two people in different roles agree before the work starts, and nobody agrees with "
        "himself. Who disagreed is written down, and so is the answer.",
        range(160, 170),
    ),
    Family(
        "stock-and-donors",
        "Stock, donors and givers",
        "Old stock and sister machines look like spares and are collections. These rules count "
        "what is left, ask what the giver asked for, and look at the machine that gives as closely "
        "as at the one that gets.",
        range(170, 180),
    ),
    Family(
        "lubricants-and-finishes",
        "Lubricants and finishes",
        "Oil, grease, paint and wax are easily put on and hard to get out again. What goes in is "
        "what the maker meant, or the record says why it is not and what becomes of the old.",
        range(180, 185),
    ),
    Family(
        "running-and-standing",
        "Running and standing",
        "Running a machine shows what nothing else can and wears away what nobody can make again. "
        "So the museum decides it anew from time to time, for a reason and within limits.",
        range(185, 190),
    ),
    Family(
        "record-and-publish",
        "Record, publish, look again",
        "A decision that nobody can read teaches nobody. It is published or says why not, it is "
        "looked at again, and a changed mind is a new record beside the old one.",
        range(190, 200),
    ),
)

BY_ID: Mapping[str, Family] = {family.id: family for family in FAMILIES}
