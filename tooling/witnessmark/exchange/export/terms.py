"""Our own terms in linked data: the words of the closed lists, and the few classes CRM lacks."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.exchange.export.nodes import Node, node, ref, word_term
from witnessmark.model.words import CLOSED_WORDS

CLASSES: tuple[tuple[str, str, str], ...] = (
    ("Machine", "crm:E22_Human-Made_Object", "A machine that a museum keeps."),
    ("Part", "crm:E22_Human-Made_Object", "A part as a place in its machine, whatever sits there."),
    ("Piece", "crm:E22_Human-Made_Object", "A piece that was fitted in the place of a part."),
    ("RemovedPiece", "crm:E22_Human-Made_Object", "A piece that came off a machine."),
    ("Finding", "crm:E14_Condition_Assessment", "Something found on a machine."),
    ("Decision", "crm:E65_Creation", "The act of deciding what to do about a machine."),
    ("Record", "crm:E31_Document", "The published record of a decision."),
    ("Option", "crm:E29_Design_or_Procedure", "One thing that could be done: a plan, no event."),
    ("Score", "crm:E13_Attribute_Assignment", "A level from 0 to 4 on one aspect or criterion."),
    ("Choice", "crm:E13_Attribute_Assignment", "That one option was chosen."),
    ("DepartureFromRanking", "crm:E33_Linguistic_Object", "Why what was chosen did not lead."),
    ("Dissent", "crm:E13_Attribute_Assignment", "That somebody thought otherwise."),
    ("Agreement", "crm:E13_Attribute_Assignment", "That somebody agreed, in a role."),
    ("Waiver", "crm:E13_Attribute_Assignment", "That a rule rests for a time, with a reason."),
    ("Explanation", "crm:E13_Attribute_Assignment", "That a rule is not followed, with a reason."),
    ("Precedent", "crm:E13_Attribute_Assignment", "What a decision makes of an earlier one."),
    ("Work", "crm:E11_Modification", "Work that was done and has ended."),
    ("Swap", "crm:E11_Modification", "One piece out and another in, at one place."),
    ("Outcome", "crm:E14_Condition_Assessment", "What was seen when somebody looked again."),
    ("Review", "crm:E29_Design_or_Procedure", "That somebody is to look again: a plan, no event."),
    ("Rule", "crm:E29_Design_or_Procedure", "A rule that decisions are held against."),
    ("Policy", "crm:E29_Design_or_Procedure", "A museum's dated weights, limits and rules."),
)
PROPERTIES: tuple[tuple[str, str], ...] = (
    ("address", "The address of a part within its machine, assembly/part."),
    ("count", "How many pieces."),
    ("due", "The day on which a plan is due."),
    ("exact", "A figure as an exact fraction."),
    ("standing", "How an option stands against the others over all weights."),
    ("until", "The last day on which something holds."),
    ("whyNot", "Why an option was not chosen."),
)
TYPES: tuple[tuple[str, str], ...] = (
    ("approved", "Agreed to."),
    ("approver", "The role of whoever agrees."),
    ("chosen", "Chosen among the options."),
    ("departed-from", "An earlier decision was departed from."),
    ("dissents", "Thought otherwise."),
    ("explained", "A rule is not followed, with a reason."),
    ("followed", "An earlier decision was followed."),
    ("scorer", "The role of whoever gives a score."),
    ("waived", "A rule rests for a time, with a reason."),
)


def term_nodes() -> Iterator[Node]:
    """Every term with what it means; the same for every museum."""
    for name, above, means in CLASSES:
        yield {
            **node(f"wm:{name}", "rdfs:Class", label=name),
            "rdfs:subClassOf": ref(above),
            "rdfs:comment": means,
        }
    for name, means in PROPERTIES:
        yield {**node(f"wm:{name}", "rdf:Property", label=name), "rdfs:comment": means}
    for name, means in TYPES:
        yield {**node(f"wm:{name}", "crm:E55_Type", label=name), "crm:P3_has_note": means}
    yield {
        **node("wm:level", "crm:E58_Measurement_Unit", label="level"),
        "crm:P3_has_note": "A level of the museum's scale, 0 to 4, 4 best.",
    }
    yield node("wm:program", "prov:SoftwareAgent", label="Witnessmark, from what was recorded")
    for words in CLOSED_WORDS:
        for word in words:
            yield {
                **node(word_term(word), "crm:E55_Type", label=word.value),
                "crm:P3_has_note": word.definition,
            }
