"""The seal of a decision in its museum: what voids it, what is only a warning, what is neither."""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from datetime import date
from typing import Any

import pytest

from building import (
    BASE,
    DECISION,
    FINDINGS,
    GONE,
    MACHINE,
    POLICY,
    STORES,
    case_in,
    changed,
    decision_in,
    done,
    museum,
    plainly,
    written,
)
from witnessmark.model.library import Library
from witnessmark.scoring.scores import ground_of
from witnessmark.weighing.seals import facts_of, reckoned_of, seals_of

# What the base leaves out and a seal has to cover: stock, waiver, accepted risk, a limit in time.
FULL = changed(
    BASE[DECISION],
    {
        "until": "2030-01-01",
        "waivers": [
            {"rule": "a-rule", "because": "Why", "approver": "trustee", "until": "2025-01-01"}
        ],
        "accepted_risk": {
            "by": "trustee",
            "role": "governing",
            "until": "2025-01-01",
            "because": "For a season",
            "option": "rebush",
        },
        "options.2.not_scored": "Nobody can say",
        "options.2.ruled_out": {"by": "rule", "because": "We run it", "ref": "rule 4"},
        "options.1.relies_on": ["clearance"],
        "options.1.answers.drops.controls": [{"order": "device", "what": "A ratchet"}],
        "options.1.steps.1.made_by": "The workshop",
        "options.1.steps.2": {
            "do": "fit-old-stock",
            "part": "drum/bush",
            "count": 1,
            "like": "same",
            "from": "bushes",
        },
        "options.2.not_applicable": {"spirit": "It has none"},
        "options.2.unaffected.spirit": GONE,
        "hazards.0.because": "It has happened",
        "choice.dissent": [{"who": "fitter", "what": "Oil is enough", "answer": "Not here"}],
        "losses": [{"what": "The old wear", "recorded_by": ["photograph"], "where": "Chest 4"}],
        "note": "A note",
    },
)


def library_of(text: str = FULL, **changes: Mapping[str, object]) -> Library:
    return museum(also={DECISION: text}, changes=changes)


def seals_in(library: Library) -> tuple[str, str]:
    entry = library.by_id["2024-001"]
    record: Any = entry.shaped.document.data
    assert entry.shaped.whole, entry.shaped.diagnostics
    found = seals_of(case_in(library), library, record)
    assert found is not None
    return found


AGREED = seals_in(library_of())


def seals(changes: Mapping[str, object], *, file: str = DECISION) -> tuple[str, str]:
    if file == DECISION:
        return seals_in(library_of(changed(FULL, changes)))
    return seals_in(museum(also={DECISION: FULL}, changes={file: changes}))


def test_a_seal_names_its_scheme_and_has_64_digits() -> None:
    judgement, words = AGREED
    assert ("wm1", "wm1w") == (judgement.partition(":")[0], words.partition(":")[0])
    assert 64 == len(judgement.partition(":")[2]) == len(words.partition(":")[2])
    assert judgement.partition(":")[2] != words.partition(":")[2]


SIGNED = {
    "role": "collections",
    "by": "curator",
    "date": "2024-03-02",
    "seal": "wm1:-",
    "words": "wm1w:-",
}
PHOTO = {"file": "photos/a.svg", "alt": "A bush", "caption": "Worn"}
WORK = {"started": "2024-04-01", "ended": "2024-05-01", "by": ["Fitter"], "departures": "none"}
NEITHER: dict[str, Mapping[str, object]] = {
    "state": {"state": "done"},
    "look_again": {"look_again.date": "2031-01-01"},
    "no look_again": {"look_again": GONE},
    "agreed": {"agreed": [SIGNED, SIGNED | {"role": "engineering", "by": "engineer"}]},
    "work": {"work": WORK},
    "photos": {"photos": [PHOTO]},
    "reckoned": {"reckoned": {"winner": ["rebush"]}},
    "outcome": {"outcome": {"date": "2025-01-01", "by": "curator", "what": "It turns"}},
    "publish": {"publish": True},
    "thanks": {"thanks": ["The old crew"]},
    "replaced_by": {"replaced_by": "2025-001"},
}


@pytest.mark.parametrize("case", NEITHER)
def test_what_happens_after_agreement_changes_neither_digest(case: str) -> None:
    assert AGREED == seals(NEITHER[case])


def test_comments_and_blank_lines_change_neither_digest() -> None:
    text = FULL.replace("\n", "   # as agreed\n", 1).replace("options:\n", "options:\n\n# ways\n")
    assert AGREED == seals_in(library_of(text))


def test_another_layout_of_the_same_record_changes_neither_digest() -> None:
    text = BASE[DECISION]
    assert text != changed(text, {})
    assert seals_in(library_of(text)) == seals_in(library_of(changed(text, {})))


def test_the_order_of_fields_changes_neither_digest() -> None:
    def turned(value: Any) -> Any:
        if isinstance(value, dict):
            return {name: turned(value[name]) for name in reversed(value)}
        return [turned(member) for member in value] if isinstance(value, list) else value

    text = written(turned(plainly(FULL)))
    assert FULL != text
    assert AGREED == seals_in(library_of(text))


def test_composed_and_decomposed_letters_seal_alike() -> None:
    # Unicode Standard Annex 15: NFC and NFD are two spellings of one text.
    composed = {"aim.what": "L\u00fcften", "title": "L\u00fcften", "hazards.0.who": ["F\u00fcrst"]}
    text = changed(FULL, composed)
    other = unicodedata.normalize("NFD", text)
    assert text != other
    assert seals_in(library_of(text)) == seals_in(library_of(other))
    assert AGREED != seals_in(library_of(text))


VOIDS: dict[str, tuple[str, Mapping[str, object]]] = {
    "id": (DECISION, {"id": "2024-009"}),
    "way of keeping": (MACHINE, {"kept.0.as": "on-display"}),
    "about": (DECISION, {"about": ["drum/bush", "drum/shaft"]}),
    "aim": (DECISION, {"aim.what": "Lift a tonne"}),
    "what was found": (FINDINGS, {"findings.0.what": "The bush is sound"}),
    "what was measured": (FINDINGS, {"findings.0.measurement": "0.75 mm"}),
    "when it was found": (FINDINGS, {"findings.0.date": "2024-01-11"}),
    "who found it": (FINDINGS, {"findings.0.by": "engineer"}),
    "how it is known": (FINDINGS, {"findings.0.basis": "told"}),
    "how it presses": (FINDINGS, {"findings.0.grade": "stop"}),
    "where it was found": (FINDINGS, {"findings.0.part": "drum/shaft"}),
    "what it was measured with": (FINDINGS, {"findings.0.instrument": "Micrometer"}),
    "findings relied on": (DECISION, {"findings": []}),
    "a hazard's id": (DECISION, {"hazards.0.id": "tilts"}),
    "a hazard's what": (DECISION, {"hazards.0.what": "The load sways"}),
    "a hazard's phase": (DECISION, {"hazards.0.when": "doing-the-work"}),
    "who is in danger": (DECISION, {"hazards.0.who": ["crew", "public"]}),
    "a hazard before": (DECISION, {"hazards.0.before": "1C"}),
    "no hazards": (DECISION, {"hazards": {"none": {"by": "curator", "because": "None"}}}),
    "an option's id": (DECISION, {"options.0.id": "leave-it"}),
    "an option's kind": (DECISION, {"options.0.kind": "restrict-use"}),
    "one option less": (DECISION, {"options.2": GONE}),
    "a step's verb": (DECISION, {"options.2.steps.0.do": "mark"}),
    "a step's part": (DECISION, {"options.2.steps.0.part": "drum/barrel"}),
    "a step's count": (DECISION, {"options.1.steps.2.count": 2}),
    "a step's fate": (DECISION, {"options.1.steps.0.fate": "lost"}),
    "a step's label": (DECISION, {"options.1.steps.0.label": "TB-0002"}),
    "a step's store": (DECISION, {"options.1.steps.0.place": "store-b"}),
    "a step's likeness": (DECISION, {"options.1.steps.1.like": "unlike"}),
    "a step's lot": (DECISION, {"options.1.steps.2.from": "others"}),
    "a step's material": (DECISION, {"options.1.steps.1.material": "brass"}),
    "a step's maker": (DECISION, {"options.1.steps.1.made_by": "A foundry"}),
    "a step's mark": (DECISION, {"options.1.steps.1.marked": "Nowhere"}),
    "a step's drawing": (DECISION, {"options.1.steps.1.drawing": "TB-D-1"}),
    "a step's undo": (DECISION, {"options.1.steps.1.undo": 4}),
    "one step more": (
        DECISION,
        {"options.1.steps.3": {"do": "lubricate", "part": "drum/bush"}},
    ),
    "a consequence's part": (DECISION, {"options.0.consequences.0.part": "drum/barrel"}),
    "what it becomes": (DECISION, {"options.0.consequences.0.becomes": "cracked"}),
    "a consequence's undo": (DECISION, {"options.0.consequences.0.undo": 2}),
    "a consequence's count": (DECISION, {"options.0.consequences.0.count": 1}),
    "no consequences": (DECISION, {"options.0.consequences": {"none": "Nothing moves"}}),
    "an answer": (DECISION, {"options.1.answers.drops.after": "2D"}),
    "an answer of none": (DECISION, {"options.0.answers.lifting": {"after": "1F"}}),
    "a control's order": (
        DECISION,
        {"options.1.answers.drops.controls.0.order": "procedure"},
    ),
    "relies_on": (DECISION, {"options.1.relies_on": []}),
    "a judged level": (DECISION, {"options.1.judged.form.likely": 3}),
    "a judged low": (DECISION, {"options.1.judged.form.low": 1}),
    "a judged high": (DECISION, {"options.2.judged.use.high": 2}),
    "who judged": (DECISION, {"judged_by.by": "engineer"}),
    "when it was judged": (DECISION, {"judged_by.date": "2024-02-21"}),
    "who judged one value": (DECISION, {"options.1.judged.form.by": "engineer"}),
    "aspects unaffected": (DECISION, {"options.0.unaffected.spirit": GONE}),
    "aspects that do not apply": (DECISION, {"options.2.not_applicable": GONE}),
    "ruled out": (DECISION, {"options.2.ruled_out": GONE}),
    "who rules it out": (DECISION, {"options.2.ruled_out.by": "law"}),
    "by which law": (DECISION, {"options.2.ruled_out.ref": "rule 5"}),
    "misses the aim": (DECISION, {"options.2.misses_aim": GONE}),
    "a worksheet": (DECISION, {"worksheets.0.sheet": "plain-bearing-duty"}),
    "what it was given": (DECISION, {"worksheets.0.given.limit": "0.8 mm"}),
    "what it bears on": (DECISION, {"worksheets.0.bears_on": []}),
    "a part's origin": (MACHINE, {"assemblies.0.parts.1.origin": "in-service"}),
    "what a part is made to": (MACHINE, {"assemblies.0.parts.1.made_to": "wear"}),
    "a part's count": (MACHINE, {"assemblies.0.parts.2.count": 23}),
    "last known": (MACHINE, {"assemblies.0.parts.3.last_known": False}),
    "can be made": (MACHINE, {"assemblies.0.parts.1.can_be_made": True}),
    "one part more in scope": (
        MACHINE,
        {
            "assemblies.0.parts.6": {
                "id": "pin",
                "name": "Pin",
                "origin": "as-built",
                "made_to": "last",
            }
        },
    ),
    "what carries the significance": (MACHINE, {"significance.carried_by.form": 2}),
    "how many a lot holds": (STORES, {"lots.0.count": 4}),
    "a lot's origin": (STORES, {"lots.0.origin": "unknown"}),
    "whether a lot can be made": (STORES, {"lots.0.can_be_made": True}),
    "the policy": (POLICY, {"floors.running.safety": 1}),
    "said not to be scored": (DECISION, {"options.0.not_scored": "Nobody can say"}),
    "the choice": (DECISION, {"choice.option": "leave"}),
    "a waiver's rule": (DECISION, {"waivers.0.rule": "another-rule"}),
    "a waiver's approver": (DECISION, {"waivers.0.approver": "curator"}),
    "a waiver's end": (DECISION, {"waivers.0.until": "2026-01-01"}),
    "no waiver": (DECISION, {"waivers": []}),
    "who accepts a risk": (DECISION, {"accepted_risk.by": "curator"}),
    "in which role": (DECISION, {"accepted_risk.role": "collections"}),
    "until when": (DECISION, {"accepted_risk.until": "2026-01-01"}),
    "for which option": (DECISION, {"accepted_risk.option": "leave"}),
    "no accepted risk": (DECISION, {"accepted_risk": GONE}),
    "until": (DECISION, {"until": "2031-01-01"}),
}


def judgement_after(case: str) -> str:
    file, changes = VOIDS[case]
    if case == "id":
        library = museum(also={"winch/2024-009-x.yml": changed(FULL, changes)}, without=(DECISION,))
        found = seals_of(case_in(library, "2024-009"), library, {})
        assert found is not None
        return found[0]
    return seals(changes, file=file)[0]


@pytest.mark.parametrize("case", VOIDS)
def test_whatever_belongs_to_the_judgement_voids_the_seal(case: str) -> None:
    assert AGREED[0] != judgement_after(case)


def test_another_machine_voids_the_seal() -> None:
    library = museum(
        also={"other/2024-001-x.yml": FULL, "other/machine.yml": BASE[MACHINE]},
        without=(DECISION,),
    )
    assert AGREED[0] != seals_in(library)[0]


def test_another_policy_file_of_the_same_words_voids_the_seal() -> None:
    text = changed(FULL, {"policy": "2023-05"})
    library = museum(also={DECISION: text, "policy/2023-05.yml": BASE[POLICY]})
    assert AGREED[0] != seals_in(library)[0]


SETS: dict[str, dict[str, list[str]]] = {
    "about": {"about": ["drum/shaft", "drum/bush"]},
    "who": {"hazards.0.who": ["public", "crew"]},
    "relies_on": {"options.1.relies_on": ["z", "clearance"]},
    "bears_on": {"worksheets.0.bears_on": ["drum/shaft", "drum/bush"]},
}


@pytest.mark.parametrize("case", SETS)
def test_the_order_of_a_set_changes_nothing(case: str) -> None:
    ((path, members),) = SETS[case].items()
    assert seals({path: members}) == seals({path: list(reversed(members))})


def test_the_order_of_options_hazards_and_waivers_changes_nothing() -> None:
    data = plainly(FULL)
    second = data["waivers"][0] | {"rule": "z-rule"}
    waivers = [second, *data["waivers"]]
    one = {"options": data["options"], "hazards": data["hazards"], "waivers": waivers}
    other = {name: list(reversed(members)) for name, members in one.items()}
    assert seals(one)[0] == seals(other)[0]


def test_the_order_of_steps_is_part_of_the_judgement() -> None:
    steps = plainly(FULL)["options"][1]["steps"]
    assert AGREED[0] != seals({"options.1.steps": list(reversed(steps))})[0]


WORDS: dict[str, Mapping[str, object]] = {
    "title": {"title": "Another title"},
    "question": {"question": "Another question?"},
    "why the aim": {"aim.because": "Another reason"},
    "an option's title": {"options.1.title": "Another title"},
    "why a level": {"options.1.judged.form.because": "Another reason"},
    "why an answer": {"options.1.answers.drops.because": "Another reason"},
    "why nothing is there": {"options.0.answers.lifting.none": "Another reason"},
    "what a control is": {"options.1.answers.drops.controls.0.what": "A pawl"},
    "why unaffected": {"options.0.unaffected.spirit": "Another reason"},
    "why not applicable": {"options.2.not_applicable.spirit": "Another reason"},
    "why a consequence": {"options.0.consequences.0.because": "Another reason"},
    "why not": {"options.0.why_not": "Another reason"},
    "way back": {"options.1.way_back": "Another way"},
    "why it misses": {"options.2.misses_aim": "Another reason"},
    "why not scored": {"options.2.not_scored": "Another reason"},
    "why ruled out": {"options.2.ruled_out.because": "Another reason"},
    "why chosen": {"choice.because": "Another reason"},
    "gives up": {"choice.gives_up": "Something else"},
    "would change our mind": {"choice.would_change_our_mind": "Something else"},
    "what a dissenter says": {"choice.dissent.0.what": "Grease is enough"},
    "who dissents": {"choice.dissent.0.who": "engineer"},
    "the answer to it": {"choice.dissent.0.answer": "It is not"},
    "no dissent": {"choice.dissent": "none raised"},
    "what is lost": {"losses.0.what": "The old polish"},
    "how it is recorded": {"losses.0.recorded_by": ["drawing"]},
    "nothing lost": {"losses": "none"},
    "why a hazard": {"hazards.0.because": "Another reason"},
    "why a waiver": {"waivers.0.because": "Another reason"},
    "why a risk": {"accepted_risk.because": "Another reason"},
    "a note": {"note": "Another note"},
}


@pytest.mark.parametrize("case", WORDS)
def test_prose_changes_only_the_digest_of_the_words(case: str) -> None:
    judgement, words = seals(WORDS[case])
    assert AGREED[0] == judgement
    assert AGREED[1] != words


@pytest.mark.parametrize(
    "changes",
    [
        {"findings.0.photo": "photos/a.svg"},
        {"findings.0.public": True},
        {"findings.0.put_off": {"until": "2025-01-01", "because": "Winter"}},
    ],
)
def test_what_is_done_with_a_finding_later_changes_nothing(changes: Mapping[str, object]) -> None:
    assert AGREED == seals(changes, file=FINDINGS)


def test_a_finding_nobody_relied_on_changes_nothing() -> None:
    other = plainly(BASE[FINDINGS])["findings"][0] | {"id": "f-002"}
    assert AGREED == seals({"findings.1": other}, file=FINDINGS)


def test_parts_outside_the_assemblies_in_question_change_nothing() -> None:
    assert AGREED == seals({"assemblies.1.parts.0.origin": "unknown"}, file=MACHINE)


@pytest.mark.parametrize("field", ["name", "note", "drawing", "material"])
def test_other_facts_of_a_part_in_scope_change_nothing(field: str) -> None:
    assert AGREED == seals({f"assemblies.0.parts.1.{field}": "Other"}, file=MACHINE)


def signed_on(*days: str) -> list[dict[str, str]]:
    return [SIGNED | {"date": day} for day in days]


def test_the_machine_is_read_as_on_the_day_of_the_first_signature() -> None:
    later = {"agreed": signed_on("2024-04-10", "2024-03-02")}
    library = museum(changes={DECISION: later})
    ground = ground_of(decision_in(library), "winch", library)
    assert ground is not None
    assert date(2024, 3, 2) == ground.day


def test_an_unsigned_record_is_read_as_on_the_day_it_was_opened() -> None:
    library = museum()
    ground = ground_of(decision_in(library), "winch", library)
    assert ground is not None
    assert date(2024, 2, 11) == ground.day


def test_work_ended_after_the_first_signature_changes_no_seal() -> None:
    renew = "- {do: remove, part: drum/shaft, fate: lost}\n"
    after = {"winch/2024-002-x.yml": done("2024-002", steps=renew, ended="2024-03-02")}
    before = {"winch/2024-002-x.yml": done("2024-002", steps=renew, ended="2024-03-01")}
    text = changed(FULL, {"agreed": signed_on("2024-03-02")})
    assert AGREED == seals_in(museum(also={DECISION: text} | after))
    assert AGREED[0] != seals_in(museum(also={DECISION: text} | before))[0]


def test_without_a_machine_or_policy_there_is_nothing_to_seal() -> None:
    for file in (MACHINE, POLICY):
        library = museum(without=(file,))
        case = case_in(library)
        assert facts_of(case, library) is None
        assert seals_of(case, library, {}) is None


def test_the_reckoned_figures_are_exact_text() -> None:
    found = reckoned_of(case_in(museum()), program="0.0.0")
    assert ["rebush"] == found["winner"]
    assert ["57/16", "179/48", "179/48"] == found["options"]["rebush"]["authenticity"]
    assert ["2", "2", "2"] == found["options"]["rebush"]["safety"]
    assert ["3", "3", "3"] == found["options"]["rebush"]["reversibility"]
    # 7/20 x 179/48 + 2/5 x 2 + 1/4 x 3, by hand
    assert "2741/960" == found["options"]["rebush"]["value"]
    assert {"clearance": "beyond"} == found["worksheets"]
    assert ("only-one-left", "0.0.0") == (found["verdict"], found["program"])


def test_a_withheld_score_is_said_to_be_withheld() -> None:
    found = reckoned_of(
        case_in(museum(changes={DECISION: {"options.1.answers.drops": GONE}})), program="0.0.0"
    )
    assert ("withheld", "none") == (
        found["options"]["rebush"]["safety"],
        found["options"]["rebush"]["value"],
    )
