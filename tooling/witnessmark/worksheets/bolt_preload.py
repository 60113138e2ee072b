"""How hard a bolt may be drawn up, and the torque that does it, more or less.

Torque is a poor measure of preload: most of it goes into friction. The sheet gives the spread with
the figure. Historic bolts carry no class; what is not known of them is not guessed here.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, NamedTuple

from witnessmark.model.thread import Thread
from witnessmark.worksheets.declare import (
    Caution,
    Example,
    Figures,
    Gives,
    Input,
    Number,
    Printed,
    Sheet,
    Source,
    Standing,
    ThreadName,
)
from witnessmark.worksheets.property_classes import PropertyClass, property_classes
from witnessmark.worksheets.property_classes import sources as class_sources
from witnessmark.worksheets.screw_threads import screw
from witnessmark.worksheets.screw_threads import sources as thread_sources

_MM, _MM2, _MPA = 1e-3, 1e-6, 10**6
# Three quarters of the proof load where the joint is to come apart again. From memory of several
# machine design texts.
_USUAL_FRACTION = Fraction(3, 4)
# Preload at one torque spreads by about 30 % either way with a torque wrench (from memory).
_SPREAD = Fraction(3, 10)


class Preload(NamedTuple):
    """The areas, the proof load, the preload at the fraction wanted, and the torque for it."""

    stress_area: Annotated[Number, Gives(unit="mm2", meaning="tensile stress area of the thread")]
    core_area: Annotated[Number, Gives(unit="mm2", meaning="area at the root of the thread")]
    proof_load: Annotated[
        Number, Gives(unit="kN", meaning="load at the proof stress, on the stress area")
    ]
    preload: Annotated[
        Number, Gives(unit="kN", meaning="preload at the fraction of the proof load")
    ]
    torque: Annotated[Number, Gives(unit="N m", meaning="torque for that preload, in the mean")]
    preload_low: Annotated[
        Number, Gives(unit="kN", meaning="what that torque may give at least, 30 % under")
    ]
    preload_high: Annotated[
        Number, Gives(unit="kN", meaning="what that torque may give at most, 30 % over")
    ]
    core_proof_load: Annotated[
        Number, Gives(unit="kN", meaning="proof load on the core area, as old practice had it")
    ]
    area_from: Annotated[
        str, Gives(unit="", meaning="whether the stress area is printed or reckoned")
    ]


def bolt_preload(
    *,
    thread: Annotated[Thread, ThreadName(meaning="thread of the bolt")],
    proof_stress: Annotated[
        Number | PropertyClass,
        Input(
            unit="MPa",
            meaning="proof stress, or the class on the head",
            above="0",
            low="100",
            high="1200",
            rows=property_classes(),
        ),
    ],
    nut_factor: Annotated[
        Number,
        Input(unit="1", meaning="nut factor K of the joint", above="0", low="0.1", high="0.35"),
    ],
    fraction: Annotated[
        Number,
        Input(
            unit="1",
            meaning="share of the proof load wanted, 0.75 if left out",
            above="0",
            high="0.9",
            refuse_high="1",
        ),
    ] = _USUAL_FRACTION,
) -> Preload:
    """Give the proof load, preload and tightening torque of a bolt."""
    size = screw(thread)
    if isinstance(proof_stress, PropertyClass):
        strength = proof_stress.at(size.diameter, name="proof_stress")
        proof_stress = strength.proof * _MPA
    proof_load = proof_stress * size.stress_area * _MM2
    preload = fraction * proof_load
    return Preload(
        stress_area=size.stress_area * _MM2,
        core_area=size.core_area * _MM2,
        proof_load=proof_load,
        preload=preload,
        torque=nut_factor * size.diameter * _MM * preload,
        preload_low=(1 - _SPREAD) * preload,
        preload_high=(1 + _SPREAD) * preload,
        core_proof_load=proof_stress * size.core_area * _MM2,
        area_from="printed by the standard" if size.printed else "reckoned by formula",
    )


def _thread(figures: Figures) -> Thread:
    thread = figures.value("thread")
    if isinstance(thread, Thread):
        return thread
    raise TypeError("the sheet was run without a thread")


def _is_unlisted(figures: Figures) -> bool:
    return not screw(_thread(figures)).listed


def _is_whitworth(figures: Figures) -> bool:
    return screw(_thread(figures)).is_whitworth


def _is_class_on_inch(figures: Figures) -> bool:
    is_class = isinstance(figures.value("proof_stress"), PropertyClass)
    return is_class and not screw(_thread(figures)).is_metric


def _may_pass_proof(figures: Figures) -> bool:
    return figures.number("preload_high") > figures.number("proof_load")


_WENTZELL = Source(
    author="Wentzell",
    title="Machine Design",
    year="edition not seen",
    clause="example 6.1",
    standing=Standing.SEEN,
    note="Read as a public worked copy with its output, not in the book.",
)
_JINDAL = Source(
    author="Jindal",
    title="Machine Design",
    year="edition not seen",
    clause="examples 9-1 and 9-6",
    standing=Standing.SEEN,
    note="Read as a public worked copy with its output, not in the book.",
)
_PAGE = Source(
    author="a public bolt calculator page",
    title="M12 of class 8.8",
    year="year not seen",
    clause="worked example",
    standing=Standing.SEEN,
)

SHEET = Sheet(
    id="bolt-preload",
    title="Preload and tightening torque of a bolt",
    tells="What a bolt bears, how far it may be drawn up, and the torque for it with its spread.",
    equation=bolt_preload,
    formula=(
        "stress_area as the standard prints it, else pi/4 * stress_diameter^2",
        "stress_diameter = d - 0.9382 p metric, d - 0.9743 p unified, d - 0.960491 p Whitworth",
        "core: d - 1.226869 p for metric, d - 1.299038 p for unified, d - 1.280654 p for Whitworth",
        "proof_load = proof_stress * stress_area",
        "preload = fraction * proof_load",
        "torque = nut_factor * d * preload",
    ),
    sources=(*class_sources(), *thread_sources()),
    cautions=(
        Caution(
            text=(
                "At this torque a well oiled bolt may pass its proof load. Take a lower fraction, "
                "or measure the stretch in place of the torque."
            ),
            when=_may_pass_proof,
        ),
        Caution(
            text=(
                "This size and pitch stand in no table here: the area is by formula. Check the "
                "pitch with a gauge."
            ),
            when=_is_unlisted,
        ),
        Caution(
            text=(
                "Old British practice reckoned Whitworth bolts on the core area: core_proof_load "
                "is that, and the lower. No standard's table of Whitworth stress areas was found."
            ),
            when=_is_whitworth,
        ),
        Caution(
            text=(
                "The classes of ISO 898-1 belong to ISO metric bolts. On an inch thread the proof "
                "stress is an estimate."
            ),
            when=_is_class_on_inch,
        ),
        Caution(
            text=(
                "An unmarked historic bolt has no class: take 4.6, or test its hardness and call "
                "the result an estimate. Hardness tells tensile strength, never proof stress."
            )
        ),
        Caution(
            text=(
                "Nut factor, from memory: 0.20 plain and dry, 0.15 to 0.18 oiled, less with "
                "molybdenum grease: there a dry torque over-tightens by a third or more."
            )
        ),
        Caution(
            text=(
                "A torque for tightening says nothing of the torque to undo. Look for cracks, "
                "stretch and wasted shanks before an old bolt is used again."
            )
        ),
    ),
    examples=(
        Example(
            title="3/4 UNC at 85 % of 85 000 psi, K 0.2",
            given={
                "thread": "3/4-10 UNC",
                "proof_stress": "85000 psi",
                "nut_factor": "0.2",
                "fraction": "0.85",
            },
            printed={
                "stress_area": Printed(value="0.334 in2", ours="0.334 in2", tolerance="0.0005 in2"),
                "torque": Printed(
                    value="3619.7 in lbf", ours="3619.7 in lbf", tolerance="0.05 in lbf"
                ),
            },
            source=_WENTZELL,
        ),
        Example(
            title="Stress area of M16 coarse",
            given={"thread": "M16x2", "proof_stress": "8.8", "nut_factor": "0.2"},
            printed={
                "stress_area": Printed(value="156.7 mm2", ours="157 mm2", tolerance="0.5 mm2")
            },
            source=_JINDAL,
            note="The book gives the formula's figure; the standard rounds it to 157.",
        ),
        Example(
            title="Stress area of M16 fine",
            given={"thread": "M16x1.5", "proof_stress": "8.8", "nut_factor": "0.2"},
            printed={
                "stress_area": Printed(value="167.2 mm2", ours="167 mm2", tolerance="0.5 mm2")
            },
            source=_JINDAL,
            note="The book gives the formula's figure; the standard rounds it to 167.",
        ),
        Example(
            title="Proof load of M12 of class 8.8",
            given={"thread": "M12", "proof_stress": "8.8", "nut_factor": "0.2"},
            printed={"proof_load": Printed(value="48894 N", ours="48894 N", tolerance="0.5 N")},
            source=_PAGE,
        ),
        Example(
            title="M20 drawn up to 120 kN, K 0.18",
            given={
                "thread": "M20",
                "proof_stress": "600 MPa",
                "nut_factor": "0.18",
                "fraction": "0.81632653",
            },
            printed={
                "preload": Printed(value="120 kN", ours="120.00 kN", tolerance="0.005 kN"),
                "torque": Printed(value="432 N m", ours="432.00 N m", tolerance="0.05 N m"),
            },
            source=_JINDAL,
            note=(
                "The worked copy prints 489.0 MPa on 245 mm2 and a share of the proof stress of "
                "0.000, both by whole-number division: they are 489.8 MPa and 0.816."
            ),
        ),
    ),
)
