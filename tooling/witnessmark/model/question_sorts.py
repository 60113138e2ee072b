"""Sorts of question a workshop meets, with the hazards each brings and what is usually weighed.

The hazards are common practice in workshops, no source; they are a start that a competent person
goes through, and none of them is graded here.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from witnessmark.model.words import Kind, Phase


@dataclass(frozen=True)
class Foreseen:
    """A hazard that is usual for a sort of question, not yet graded."""

    id: str
    what: str
    when: Phase
    who: tuple[str, ...]
    before: str = ""


@dataclass(frozen=True, kw_only=True)
class Sort:
    """One sort of question: what it asks, the words that give it away, and what it brings."""

    asks: str
    words: str
    hazards: tuple[Foreseen, ...]
    kinds: tuple[Kind, ...]
    sheets: tuple[str, ...] = ()


def _at_work(name: str, what: str) -> Foreseen:
    return Foreseen(name, what, Phase.DOING_THE_WORK, ("fitters",))


def _later(name: str, what: str) -> Foreseen:
    return Foreseen(name, what, Phase.AFTERWARDS, ("crew", "public"))


_LIFT = _at_work("lifting", "A part or the machine slips or drops while it is lifted or jacked")
_MOVES = _at_work("moves", "The machine moves or starts while somebody works on it")
_FAILS = _later("fails", "The part fails or comes loose while the machine works")


SORTS: Final = MappingProxyType(
    {
        "worn-part": Sort(
            asks="A bush, bearing, pin, shaft, gear, pad or lining is worn: what should carry on?",
            words=(
                "bush bushes bearing bearings journal pin pins shaft worn wear gear gears pad pads "
                "lining guide guides slack play knock knocks packing seal"
            ),
            hazards=(
                _later("seizure", "The worn part seizes, breaks or lets go under load"),
                _LIFT,
            ),
            kinds=(Kind.RENEW_LIKE_FOR_LIKE, Kind.REPAIR),
            sheets=("bearing-clearance", "plain-bearing-duty", "wear-life"),
        ),
        "fastener": Sort(
            asks="A bolt, rivet, weld or lock is broken, loose or in the way: keep it or undo it?",
            words="bolt bolts nut nuts rivet rivets stud studs weld welds tack tacked split wire",
            hazards=(
                _later("comes-loose", "The joint comes loose or breaks in use"),
                _at_work("breaks-out", "A tool, spark or broken bolt flies off while it is undone"),
            ),
            kinds=(Kind.REPAIR, Kind.RENEW_LIKE_FOR_LIKE),
            sheets=("bolt-preload", "thread-engagement", "wasted-fastener", "tack-weld-break"),
        ),
        "lubricant": Sort(
            asks="Oil, grease or another fluid: which, how much, and what becomes of the old?",
            words="oil grease lubricant lubricate oiling fluid coolant nipple",
            hazards=(
                _later("runs-dry", "A bearing runs dry or hot because too little reaches it"),
                _at_work("caught", "A hand is caught or skin is harmed while it is oiled"),
            ),
            kinds=(Kind.SERVICE, Kind.UNDO),
            sheets=("oil-viscosity", "old-viscosity"),
        ),
        "pressure": Sort(
            asks="A strut, spring, accumulator, boiler or tyre holds energy: what now?",
            words=(
                "gas strut struts pressure spring springs accumulator boiler steam leak leaks "
                "charge tyre valve"
            ),
            hazards=(
                _later("lets-go", "What it holds up drops, or the pressure escapes, in use"),
                _at_work("stored-energy", "Pressure or spring force is let out over a fitter"),
            ),
            kinds=(Kind.SERVICE, Kind.MODIFY),
            sheets=("gas-charge", "stored-gas-energy", "coil-spring"),
        ),
        "surface": Sort(
            asks="Paint, plating, rust or a scratch: clean, coat or leave?",
            words="paint repaint plating rust corrosion coat coating surface varnish",
            hazards=(
                _later("weakened", "Corrosion under the surface weakens the part unseen"),
                _at_work("dust", "Dust, fume or solvent from the old or new coat is breathed in"),
            ),
            kinds=(Kind.CONSERVE_IN_PLACE, Kind.REPAIR),
            sheets=("galvanic-pair",),
        ),
        "old-stock": Sort(
            asks="Use up an unused old part, have one made, or keep it?",
            words="stock spare spares lot donor unused",
            hazards=(
                _later("aged", "The old part has aged on the shelf and fails in use"),
                _LIFT,
            ),
            kinds=(Kind.FIT_OLD_STOCK, Kind.RENEW_LIKE_FOR_LIKE),
        ),
        "moving": Sort(
            asks="Move the machine or a heavy part: over what, on what, or not at all?",
            words="move moving moved carry floor tow towing sling transport",
            hazards=(
                _at_work("runs-away", "The machine runs away, tips or crushes somebody on the way"),
                _later("settles", "The floor gives or the machine settles where it now stands"),
            ),
            kinds=(Kind.RESTRICT_USE, Kind.MODIFY),
            sheets=("ground-pressure", "tow-pull", "sling-legs"),
        ),
        "other": Sort(
            asks="Anything else.",
            words="",
            hazards=(_FAILS, _MOVES),
            kinds=(Kind.REPAIR, Kind.RENEW_LIKE_FOR_LIKE),
        ),
    }
)
"""Every sort by its name, in the order in which they are offered."""


def sort_of(texts: Sequence[str]) -> str:
    """The sort whose words stand most often in some texts; other where none does.

    >>> sort_of(["The ram guide bush is worn"])
    'worn-part'
    """
    said = re.findall(r"[a-z]+", " ".join(texts).lower())
    counts = {name: sum(map(sort.words.split().count, said)) for name, sort in SORTS.items()}
    best = max(counts, key=lambda name: counts[name])
    return best if counts[best] else "other"
