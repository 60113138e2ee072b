"""A museum in which every text is a token of its own, so that what leaks can be named.

In the texts below `$name` stands for a token; the same name gives the same token.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from datetime import date
from typing import Any

from pydantic import BaseModel

from witnessmark.model.library import Folder, Library, assemble
from witnessmark.repository.record_versions import RecordVersions

TOKEN = re.compile(r"zt[a-z0-9]+q")
SVG = (
    b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 3 2"><title>A sketch</title>'
    b'<path d="M0 0h3"/></svg>'
)

MUSEUM = """
witnessmark: 1
name: $museum_name
place: $museum_place
web: https://example.org/$museum_web/
about: $museum_about
licence: $museum_licence
time_zone: Etc/UTC
currency: $currency
units: metric
shown: {money: false, hours: false}
contact: $museum_contact
demo_as_of: 2026-09-15
"""
PEOPLE = """
witnessmark: 1
people:
  - id: $ann
    title: $ann_title
    name: $ann_name
    contact: $ann_contact
    note: $ann_note
    roles: [{role: collections, from: 2010-01-01}]
  - id: $bob
    title: $bob_title
    public_name: $bob_public
    name: $bob_name
    contact: $bob_contact
    note: $bob_note
    roles:
      - {role: engineering, from: 2010-01-01}
      - {role: governing, from: 2010-01-01, to: 2030-01-01}
"""
STORES = """
witnessmark: 1
as_of: 2020-01-01
places:
  - {id: $place, name: $place_name, note: $place_note}
lots:
  - id: $lot
    what: $lot_what
    count: 9
    origin: as-built
    made_to: wear
    can_be_made: false
    pattern: $lot_pattern
    drawing: $lot_drawing
    material: $lot_material
    conditions: $lot_conditions
    from: $lot_giver
    purpose: spares
    who: $lot_who
    when: 2021-01-01
    because: $lot_because
    place: $place
    note: $lot_note
"""
POLICY = """
witnessmark: 1
valid_from: 2020-01-01
title: $policy_title
statement: $policy_statement
weights: {running: {authenticity: 0.35, safety: 0.40, reversibility: 0.25}}
ranges: {running: {authenticity: [0.2, 0.5], safety: [0.3, 0.6], reversibility: [0.1, 0.4]}}
floors: {running: {safety: 1}}
level_values: [0, 1, 2, 3, 4]
fabric: {worst: 3/4}
undo: {grind: 1}
verdict: {firm_chance: 9/10, holds_chance: 3/5}
waivers: {most_days: 700, approver_roles: [governing]}
elicited:
  - question: $elicited_question
    answer: $elicited_answer
    who: $elicited_who
    when: 2019-12-01
    kept_as: [running]
    swings: {authenticity: 90, safety: 100, reversibility: 60}
    trade_off: $elicited_trade_off
    pairs:
      authenticity_to_safety: 0.9
      authenticity_to_reversibility: 1.5
      safety_to_reversibility: 1.7
    because: $elicited_because
rules_off: [{rule: undo-is-described, because: $rule_off_because}]
held_as_must: [{rule: intervention-is-least, because: $rule_held_because}]
own_rules:
  - id: title-is-long-enough
    code: WM901
    level: should
    title: $own_title
    why: $own_why
    family: our-own
    scope: decision
    sources:
      - text: $own_source
        clause: $own_clause
        edition: $own_edition
        standing: current
        confidence: own-judgement
    holds: size(decision.title) > 5
    message: The title is short.
    remedy: $own_remedy
    at: [title]
    cases:
      - name: $own_passes
        verdict: passes
        record: |
          title: $own_record
      - {name: $own_faulted, verdict: faulted, record: "title: Pins", lines: [1]}
review: 2027-01-01
"""
MACHINE = """
witnessmark: 1
as_of: 2020-01-01
name: $machine_name
what: $machine_what
built: $machine_built
number: $machine_number
owner: $machine_owner
conditions: $machine_conditions
kept:
  - from: 2012-05-01
    as: running
    decided: $kept_decided
    look_again: 2028-01-01
    because: $kept_because
    shows: $kept_shows
significance:
  statement: $significance_statement
  state: $significance_state
  carried_by: {material: 2, form: 1, use: 2, technique: 1}
  present: {form: 3}
assemblies:
  - id: $assembly
    name: $assembly_name
    parts:
      - id: bush
        name: $bush_name
        origin: as-built
        made_to: wear
        count: 1
        mass: 14 kg
        material: $bush_material
        drawing: $bush_drawing
        can_be_made: true
        interchanges_with: [$bush_interchanges]
        sought: {what: $bush_sought, date: 2019-01-01}
        made_to_known_from: $bush_made_to_known_from
        handed: false
        held_by: tack-weld
        highly_stressed: false
        bears: $bush_bears
        plating: $bush_plating
        lubricant: oil
        holds_tension: true
        note: $bush_note
      - {id: post, name: $post_name, origin: unknown, made_to: last, can_be_made: unknown}
      - {id: pad, name: $pad_name, origin: as-built, made_to: wear, count: 4, last_known: false}
photos:
  - file: photos/shown.svg
    alt: $photo_alt
    caption: $photo_caption
    date: 2020-01-01
    stage: before
    public: true
  - {file: photos/hidden.svg, alt: $hidden_photo_alt, caption: $hidden_photo_caption}
note: $machine_note
"""
FINDINGS = """
witnessmark: 1
findings:
  - id: f-001
    date: 2021-01-01
    by: $bob
    part: $assembly/bush
    basis: measured
    what: $finding_what
    grade: stop
    measurement: 65.74 mm
    instrument: $finding_instrument
    limit: 65.50 mm
    limit_from: $finding_limit_from
    cause: $finding_cause
    photo: photos/hidden.svg
    put_off: {until: 2022-01-01, because: $finding_put_off}
    public: true
  - id: f-002
    date: 2021-01-02
    by: $finding_by
    basis: told
    told_by: $told_by
    what: $hidden_finding_what
    grade: note
  - id: f-003
    date: 2021-01-03
    by: $ann
    basis: seen
    what: $answer_what
    grade: note
    answers: [f-001]
    public: true
"""
DECISION = """
witnessmark: 1
id: 2024-003
title: $title
question: $question
aim: {what: $aim_what, because: $aim_because}
about: [$assembly/bush]
findings: [f-001, f-002]
policy: 2020-01
departs_from_policy: $departs_from_policy
state: done
opened: 2024-01-01
until: 2028-01-01
proposed_by: $ann
judged_by: {by: $ann, date: 2024-01-10}
sources: [{id: $source_id, what: $source_what, where: $source_where}]
consent: {by: $consent_by, date: 2024-01-02, text: $consent_text}
conditions_kept: $conditions_kept
heard: [{by: $bob, role: objector, date: 2024-01-15, what: $heard_what}]
interests: [{who: $interest_who, what: $interest_what, answer: $interest_answer}]
worksheets:
  - id: $sheet
    sheet: bearing-clearance
    given: {bore: 65.74 mm, journal: 65.00 mm, limit: 0.50 mm}
    bears_on: [$assembly/bush]
    note: $sheet_note
hazards:
  - id: $hazard
    what: $hazard_what
    when: afterwards
    who: [$hazard_who]
    before: 2C
    kind: pressure
    found: present
    part: $assembly/bush
    parts: [$assembly/post]
    survey: {by: $survey_by, date: 2024-01-05, ref: $survey_ref, says: $survey_says}
    made_safe: {energy: $safe_energy, how: $safe_how, tested_by: $safe_tested_by, ref: $safe_ref}
    because: $hazard_because
  - {id: jack, what: $jack_what, when: doing-the-work, before: 2D}
options:
  - id: leave
    kind: leave-as-found
    title: $leave_title
    what: $leave_what
    consequences:
      - part: $assembly/post
        parts: [$assembly/pad]
        count: 1
        becomes: $becomes
        undo: 1
        because: $becomes_because
    answers: {$hazard: {after: 2C}, jack: {none: $answer_none}}
    judged:
      use:
        low: 0
        likely: 3
        high: 4
        because: $judged_because
        by: $bob
        date: 2024-01-11
        second:
          - {low: 1, likely: 2, high: 3, because: $second_because, by: $ann, date: 2024-01-12}
    unaffected:
      form: $unaffected_form
      technique: $unaffected_technique
      spirit: $unaffected_spirit
    not_applicable: {setting: $not_applicable}
    ruled_out: {by: owner, because: $ruled_out_because, ref: $ruled_out_ref}
    misses_aim: $misses_aim
    later_cost: $later_cost
    why_not: $why_not
  - id: rebush
    kind: renew-like-for-like
    title: $rebush_title
    temporary: true
    steps:
      - do: remove
        part: $assembly/bush
        fate: stored
        label: $label
        place: $place
        because: $step_because
        care: $step_care
        note: $step_note
      - do: fit-new
        part: $assembly/bush
        like: same
        what: $step_what
        material: $step_material
        drawing: $step_drawing
        made_by: $step_made_by
        marked: $step_marked
        pattern: $step_pattern
        copied_marks: $step_copied_marks
        interchange: $step_interchange
        undo: 3
        lubricant: oil
        suits: $step_suits
        residue: $step_residue
        inspected: $step_inspected
        conditions_met: $step_conditions_met
        leaves: $step_leaves
        over: hard-yard
        carried_on: carrier
        rubber_left: 4711 mm
        comes_off_with: $step_comes_off_with
      - do: remove
        parts: [$assembly/pad]
        count: 1
        fate: stored
        labels: [$label_two]
        place: $place
      - {do: fit-old-stock, part: $assembly/pad, count: 1, like: same, from: $lot}
    relies_on: [$sheet]
    answers:
      $hazard:
        after: 3E
        because: $answer_because
        controls: [{order: redesign, what: $control_what}]
      jack: {after: 3E}
    judged: {use: {likely: 4, because: $judged_two}}
    unaffected: {form: $u_form, technique: $u_technique, setting: $u_setting, spirit: $u_spirit}
    way_back: $way_back
    forecloses: $forecloses
    effort: {hours: [4111, 4222], cost: [91333, 91444], done_by: in-house}
  - id: nothing
    kind: restrict-use
    title: $nothing_title
    not_scored: $not_scored
    consequences: {none: $none_because}
    answers: {$hazard: {after: 3D}, jack: {after: 3E}}
    judged: {use: {likely: 2, because: $judged_three}}
    unaffected: {form: $n_form, technique: $n_technique, setting: $n_setting, spirit: $n_spirit}
    why_not: $why_not_nothing
choice:
  option: rebush
  because: $choice_because
  gives_up: $gives_up
  would_change_our_mind: $change_mind
  dissent: [{who: $dissent_who, what: $dissent_what, answer: $dissent_answer}]
losses: [{what: $loss_what, recorded_by: [drawing], where: $loss_where}]
follows: [2024-006]
departs_from: [{decision: 2024-005, because: $departs_because}]
departs_from_ranking: $departs_from_ranking
accepted_risk:
  by: $bob
  role: governing
  until: 2026-01-01
  because: $accepted_because
  option: rebush
waivers: [{rule: some-rule, because: $waiver_because, approver: $bob, until: 2025-01-01}]
explained: [{rule: other-rule, because: $explained_because}]
emergency: {because: $emergency_because, ratified: 2024-04-01}
agreed:
  - {role: collections, by: $ann, date: 2024-02-01, seal: "wm1:aaaa", words: "wm1w:bbbb"}
  - {role: engineering, by: $bob, date: 2024-02-02, seal: "wm1:aaaa", words: "wm1w:bbbb"}
reckoned: {program: $reckoned}
withdrawn_because: $withdrawn_stray
replaces: 2024-005
replaces_because: $replaces_because
work:
  started: 2024-03-01
  ended: 2024-03-20
  by: [$work_by, $bob]
  as_done:
    - do: remove
      part: $assembly/bush
      fate: stored
      label: $label
      place: $place
      note: $done_note
    - {do: fit-new, part: $assembly/bush, like: same, made_by: $done_made_by}
    - {do: remove, part: $assembly/pad, count: 1, fate: stored, label: $label_two, place: $place}
    - {do: fit-old-stock, part: $assembly/pad, count: 1, like: same, from: $lot}
  departures: [$departure]
  competence: $work_competence
  hidden: $work_hidden
  done_by: in-house
  hours: 4333
  cost: 91555
  new_loss: {by: $bob, role: governing, date: 2024-03-05, because: $new_loss_because}
  photos: [{file: photos/work.svg, alt: $work_photo_alt, public: true}]
outcome:
  - date: 2025-01-01
    by: $bob
    what: $outcome_what
    measured: 41.77 mm
    expected: [41.66 mm, 41.88 mm]
leaves_out: $leaves_out
adds_up_to: $adds_up_to
look_again:
  {date: 2027-03-01, or_after: $look_after, measure: $look_measure, expects: [41.55 mm, 41.99 mm]}
photos: [{file: photos/decision.svg, alt: $decision_photo_alt, public: true}]
thanks: [$thanks]
note: $decision_note
publish: true
"""
OTHER = """
witnessmark: 1
id: ID
title: $ID_title
question: $ID_question
aim: {what: $ID_aim, because: $ID_why}
about: [$assembly/bush]
policy: 2020-01
state: STATE
opened: 2024-01-01
proposed_by: $ann
hazards: {none: {by: $ann, because: $ID_no_hazard}}
options:
  - id: leave
    kind: leave-as-found
    title: $ID_leave
    consequences: {none: $ID_none}
    judged: {use: {likely: 3, because: $ID_judged}}
    unaffected: {form: $ID_form, technique: $ID_technique, setting: $ID_setting, spirit: $ID_spirit}
choice:
  option: leave
  because: $ID_because
  gives_up: $ID_gives_up
  would_change_our_mind: $ID_mind
  dissent: none raised
losses: {none: {by: $bob, because: $ID_no_losses}}
MORE
publish: PUBLISH
"""
OTHERS = (
    ("2024-001", "draft", "true", ""),
    ("2024-002", "for-review", "true", ""),
    ("2024-004", "withdrawn", "true", "withdrawn_because: $withdrawn_because"),
    ("2024-005", "replaced", "true", "replaced_by: 2024-003"),
    ("2024-006", "agreed", "false", "replaced_by: 2024-001"),
    ("2024-007", "agreed", "{withheld: $withheld}", ""),
    ("2024-008", "agreed", "true", "replaces: 2024-006"),
)


def named_token(name: str) -> str:
    """A word that stands for one name, made of signs that every field takes."""
    return f"zt{re.sub('[^a-z0-9]', '', name.lower())}q"


def fill(text: str, *, value: Callable[[str], str] = named_token) -> str:
    """The text with every `$name` replaced."""
    return re.sub(r"\$([a-zA-Z0-9_-]*[a-z])", lambda match: value(match[1]), text)


def other(entry: tuple[str, str, str, str]) -> str:
    """A short decision of a given state."""
    name, state, publish, more = entry
    text = OTHER.replace("STATE", state).replace("PUBLISH", publish).replace("MORE", more)
    return text.replace("ID", name)


def files() -> dict[str, str]:
    """Every file of the museum, with `$name` still in it."""
    found = {
        "museum.yml": MUSEUM,
        "people.yml": PEOPLE,
        "stores.yml": STORES,
        "policy/2020-01.yml": POLICY,
        "crane/machine.yml": MACHINE,
        "crane/findings.yml": FINDINGS,
        "crane/2024-003-canary.yml": DECISION,
    }
    return found | {f"crane/{entry[0]}-other.yml": other(entry) for entry in OTHERS}


def library(value: Callable[[str], str] = named_token) -> Library:
    """The museum read, with every `$name` replaced; it has no fault of shape."""
    filled = {name: fill(text, value=value).encode() for name, text in files().items()}
    return assemble(Folder("museum", filled, frozenset(pictures())))


NAMES_AND_LABELS = frozenset(
    {"ann", "bob", "place", "lot", "assembly", "sheet", "hazard", "label", "label_two"}
    | {"source_id"}
)
"""What stands for an id or a label in the decision, and so is the same in its older version."""


def old_token(name: str) -> str:
    """The word that stood for a name in the older version of the decision."""
    if name in NAMES_AND_LABELS:
        return named_token(name)
    return f"ztold{re.sub('[^a-z0-9]', '', name.lower())}q"


def versions() -> RecordVersions:
    """The decision as git might keep it: public before with every text other, then as it is."""
    before, now = fill(DECISION, value=old_token), fill(DECISION)
    days = (date(2024, 5, 1), date(2024, 6, 1))
    filed = tuple(zip(days, (before.encode(), now.encode()), strict=True))
    return RecordVersions(by_id={"2024-003": filed})


def pictures() -> dict[str, bytes]:
    """The pictures of the museum, those not public among them."""
    names = ("shown", "hidden", "work", "decision")
    return {f"crane/photos/{name}.svg": SVG for name in names}


def texts(value: object, where: str = "") -> Iterator[tuple[str, str]]:
    """Every text of a record as read, with the model and field it stands in."""
    if isinstance(value, str):
        yield where, value
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield from texts(key, f"{where} key")
            yield from texts(inner, where)
    elif isinstance(value, tuple | list):
        for inner in value:
            yield from texts(inner, where)
    elif isinstance(value, BaseModel):
        for name in type(value).model_fields:
            yield from texts(getattr(value, name), f"{type(value).__name__}.{name}")


def records(museum: Library) -> Iterator[Any]:
    """Every record of the museum."""
    shaped: list[Any] = [museum.museum, museum.people_file, museum.stores_file]
    shaped += [*museum.policy_files.values(), *museum.machine_files.values()]
    shaped += [*museum.finding_files.values(), *(entry.shaped for entry in museum.decisions)]
    for found in shaped:
        assert found.whole, found.diagnostics
        yield found.value


def library_with(name: str, text: str) -> Library:
    """The museum with one file written otherwise."""
    found = files() | {name: text}
    filled = {path: fill(content).encode() for path, content in found.items()}
    return assemble(Folder("museum", filled, frozenset(pictures())))
