"""What each level from 4 to 0 means on each criterion and aspect, in this tool's own words.

Source: our own judgement throughout; the aspects are those of the Nara Document on Authenticity,
1994, paragraph 13, and reversibility follows E.C.C.O. Professional Guidelines II, 2003, article 9.
"""

from __future__ import annotations

from collections.abc import Mapping

from witnessmark.model.words import Aspect

Anchors = tuple[str, str, str, str, str]
"""What the levels 0, 1, 2, 3 and 4 mean."""

ASPECT_ANCHORS: Mapping[Aspect, Anchors] = {
    Aspect.FORM: (
        "Misleading: the shape is invented, or copied from another machine.",
        "A feature that marks this machine is altered or hidden.",
        "A change that can be seen and told apart; the whole still reads rightly.",
        "A change that is hidden, or within what the maker allowed.",
        "Layout, sizes and visible shape are as they were.",
    ),
    Aspect.MATERIAL: (
        "The last known original is destroyed or used up.",
        "Much original material is lost or altered for good.",
        "Some original material is out of the machine, kept and recorded.",
        "Only parts made to be renewed are changed, in like material.",
        "No original material leaves or is altered.",
    ),
    Aspect.USE: (
        "Its own work is made impossible for good.",
        "It only moves, or its work is imitated.",
        "It works, but something is done or driven in another way.",
        "It works as designed, with small limits of speed or hours.",
        "It does its own work in its own way.",
    ),
    Aspect.TECHNIQUE: (
        "The traces of how it was made are destroyed without a record.",
        "The method is foreign to the machine, and the old knowledge fades.",
        "A modern method gives the same result; the old way is written down.",
        "Mostly the old way, with one modern step that is explained.",
        "Done by the trade's own methods, and the skill is passed on.",
    ),
    Aspect.SETTING: (
        "The place it belongs to is destroyed or falsified.",
        "Out of its context.",
        "Partly lost, but written down.",
        "Moved or altered a little; one can still read how things belonged together.",
        "In its place, with its connections.",
    ),
    Aspect.SPIRIT: (
        "Shown as something it never was.",
        "Over-restored or lifeless; the marks of use are gone.",
        "Muted, and visitors are told so.",
        "A slight change that only its crew would notice.",
        "Sound, smell, pace and signs of work are as before.",
    ),
}

UNDO_ANCHORS: Anchors = (
    "Cannot be undone, and the original or a later treatment is lost.",
    "Cannot be undone; the original survives, altered and recorded.",
    "Shape and working can be got back, but a little original material or surface is gone.",
    "Undone by workshop work; all original material survives unaltered.",
    "Undone with ordinary tools, without a trace.",
)

_RISK_WORDS = {
    0: "A high risk is left. Such an option can never be chosen.",
    1: "A serious risk is left.",
    2: "A medium risk is left.",
    3: "A low risk is left.",
    4: "Every hazard has been removed, or somebody signed that there is none.",
}

SAFETY_ANCHORS: Anchors = (
    _RISK_WORDS[0],
    _RISK_WORDS[1],
    _RISK_WORDS[2],
    _RISK_WORDS[3],
    _RISK_WORDS[4],
)


RISK_MEANS: Mapping[int, str] = {
    0: "High is the gravest of four levels: people could be killed or maimed, and it is likely.",
    1: (
        "Serious is the second of four levels from the top: a death is unlikely but possible, or a "
        "lesser injury is likely."
    ),
    2: (
        "Medium is the third of four levels from the top: a grave injury is unlikely, though not "
        "ruled out, or a lesser one may happen now and then."
    ),
    3: "Low is the least of four levels: at worst an injury without a lost working day.",
    4: "",
}
"""What each level of risk left means for a visitor, by the cells it stands for.

Source: MIL-STD-882E, 2012, Tables I to III, as in `scoring.matrix882`; the wording is ours.
"""


def nearest_anchor(anchors: Anchors, level: float) -> str:
    """The words of the level just at or under a score, so that nothing is made to look better.

    >>> nearest_anchor(UNDO_ANCHORS, 1.9)
    'Cannot be undone; the original survives, altered and recorded.'
    """
    return anchors[int(level)]
