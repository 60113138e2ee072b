"""What the fields of museum.yml, people.yml, stores.yml and the policies mean."""

from __future__ import annotations

MUSEUM_NOTES = """
witnessmark Private. The version of the file's form; always 1. It is there so that a reader in
  forty years knows which form this is. Example: 1

Museum.name Public. What the museum is called; the curator fills it once. Example: The Museum of
  the Old Quay
Museum.place Public. Where it is, as visitors would say it; the curator. Example: On the dune
  coast
Museum.web Public. The web address under which the site is published; the curator. Labels and
  calendars use it. Example: https://example.org/reasons/
Museum.about Public. Two or three sentences for the first page; the curator. Example: We keep
  heavy machines in running order where that is safe.
Museum.licence Public. The terms on which others may use what is published, as a web address or in
  words; the trustees. Example: https://creativecommons.org/licenses/by/4.0/
Museum.time_zone Private. The zone in which "today" is meant, by its name in the tz database; the
  curator. Example: Europe/Lisbon
Museum.currency Private. The currency of all costs, in three letters (ISO 4217); the curator.
  Shown only beside money that is shown. Example: EUR
Museum.units Private. Which units come first when a figure is printed; the curator. Example:
  metric
Museum.shown Private. Which private figures are shown all the same; the curator with the trustees.
  Example: money stays hidden
Shown.money Private. Whether the site shows what options would cost; the trustees. Example: false
Shown.hours Private. Whether the site shows hours of work; the trustees. Example: false
Museum.contact Private. Whom to ask, for those who hold the files; the curator. Example: The
  workshop office
Museum.demo_as_of Private. The day on which a demonstration museum is read; leave it out in a real
  one. Example: 2026-09-15

People.people Public. The register of those who play a part; the curator keeps it. Example: a
  curator and an engineer
Person.id Private. A short name used all over the records, never changed; the curator. Example:
  workshop-engineer
Person.title Public. What the public may call this person: a role, not a name; the curator.
  Example: Workshop engineer
Person.public_name Public. The person's own name, only where they agreed to be named; the curator.
  Example: A. Fitter
Person.name Private. The person's name for the house; the curator. Example: A. Fitter
Person.contact Private. How to reach the person; better kept elsewhere if the files are shared.
  Example: by the workshop telephone
Person.note Private. Anything the house should know; the curator. Example: back in spring
Person.roles Public. Which parts the person plays, each from a day on; the curator. Example:
  engineering from 2018-09-01
Held.role Public. The part that is played; the curator. Example: engineering
Held.from Private. The first day on which the role is held; the curator. Example: 2018-09-01
Held.to Private. The last day on which it was held; left out while it lasts. Example: 2026-08-31

Stores.as_of Private. The day on which the stores were counted; counts are never edited for a
  decision, draws are reckoned from the work done since. Example: 2022-01-01
Stores.places Private. The places where parts lie; the curator. Example: the long shed
StorePlace.id Private. A short name for the place, used by steps; the curator. Example: store-a
StorePlace.name Private. What the place is called in the house; the curator. Example: Store A,
  parts racks
StorePlace.note Private. How it is kept there; the curator. Example: kept under 18 degrees
Stores.lots Public. The lots of old stock; of each, the site shows only what it is. Example:
  twelve track pads, unused
Lot.id Private. A short name for the lot, used by the step that draws on it; the curator. Example:
  plough-pads
Lot.what Public. What the lot is; the curator. Example: Rubber track pads, unused
Lot.count Private. How many there were on the day of counting; whoever counted. Example: 12
Lot.origin Private. Where the pieces come from; the curator. Example: in-service
Lot.made_to Private. What the maker meant to happen to them; the engineer. Example: wear
Lot.can_be_made Private. Whether the type can still be made; the engineer. Example: false
Lot.pattern Private. What the shape could be taken from once the last is gone; the engineer.
  Example: Plaster cast of one pad
Lot.drawing Private. The drawing they are made to; the engineer. Example: MQ-D-57
Lot.material Private. What they are made of; the engineer. Example: natural rubber on steel plate
Lot.conditions Private. What the giver asked; the curator copies it from the letter. Example: to
  be used only on this tender
Lot.from Private. Who gave the lot or where it was found; the curator. Example: a retired road
  foreman
Lot.purpose Private. What the lot is for; undecided means that a decision is owed. Example: spares
Lot.who Private. Who decided what it is for: an id from people.yml. Example: curator
Lot.when Private. The day on which that was decided. Example: 2019-06-12
Lot.because Private. Why it is for that; whoever decided. Example: The mould is gone, so these are
  the last.
Lot.place Private. Where it lies: the id of a store place; the curator. Example: rubber-room
Lot.note Private. Anything the house should know; the curator. Example: turned every spring

Policy.valid_from Public. The first day on which these values count; the trustees. A policy is
  never edited once a decision was agreed under it. Example: 2025-01-01
Policy.title Public. What this edition is called; the trustees. Example: What we weigh, second
  edition
Policy.statement Public. Why the museum weighs as it does, in a few sentences; the trustees.
  Example: We give more weight to what can be undone.
Policy.weights Public. For each way of keeping, how much each criterion counts; the three sum to
  1; the trustees. Example: 0.32, 0.40 and 0.28
Policy.ranges Public. For each way of keeping, the least and the most each weight might fairly be;
  the trustees. Example: safety from 0.30 to 0.60
Policy.floors Public. For each way of keeping, the score below which an option is set aside; the
  trustees. Example: safety 2
Policy.level_values Public. What the five levels 0 to 4 are worth; leave it out unless you know
  why. Example: 0, 1, 2, 3, 4
Policy.fabric Public. How original material is reckoned; leave it out to use the published table.
  Example: worst counts 3/4
FabricPolicy.worst Public. How much the worst-treated part counts beside the mean of the assembly,
  from 0 to 1; the trustees. Example: 3/4
FabricPolicy.table Public. The worth left after each kind of treatment; the trustees. Example: a
  part altered for good keeps 1/4
FabricTable.untouched Public. Left alone, or taken out and put back; the trustees. Example: 1 and
  1
FabricTable.altered_restorable Public. Altered so that it can be restored; the trustees. Example:
  3/4 and 3/4
FabricTable.altered_for_good Public. Altered for good; the trustees. Example: 1/4 and 1/2
FabricTable.kept_successor_alike Public. Taken out and kept, with a like part in its place; the
  trustees. Example: 1/2 and 3/4
FabricTable.kept_otherwise Public. Taken out and kept, with an unlike part or none in its place;
  the trustees. Example: 1/2 and 1/2
FabricTable.lost_can_be_made Public. Not kept, and the type can still be made; the trustees.
  Example: 0 and 1/2
FabricTable.lost_for_good Public. Not kept, and it cannot be made again; the trustees. Example: 0
  and 1/4
FabricRow.last Public. The worth left of a part made to last, from 0 to 1; the trustees. Example:
  1/4
FabricRow.wear Public. The worth left of a part made to wear, from 0 to 1; the trustees. Example:
  1/2
Policy.undo Public. How far each verb of a step can be undone, 0 to 4, where this museum departs
  from the published table; the trustees. Example: grind 1
Policy.verdict Public. From which chance on a result is called firm, or said to hold; the
  trustees. Example: 9/10 and 3/5
VerdictPolicy.firm_chance Public. The least chance of being best for "firm", from 0 to 1; the
  trustees. Example: 9/10
VerdictPolicy.holds_chance Public. The least chance of being best for "holds", from 0 to 1; the
  trustees. Example: 3/5
Policy.waivers Public. Who may let a rule rest, and for how long; the trustees. Example: 730 days
WaiverPolicy.most_days Public. The longest a rule may rest, in days; the trustees. Example: 730
WaiverPolicy.approver_roles Public. The roles that may let a rule rest; the trustees. Example:
  governing
Policy.elicited Public. How the weights were asked for and what was answered; whoever asked.
  Example: one question, three answers
Elicited.question Public. The question as it was put; whoever asked. Example: What should count
  more?
Elicited.answer Public. The answer in words; whoever asked writes it down. Example: Safety first.
Elicited.who Private. Who answered: ids from people.yml, which the site shows by their titles;
  free text stays in the house. Example: curator
Elicited.when Public. The day of the answer; whoever asked. Example: 2024-11-20
Elicited.kept_as Public. For which ways of keeping it was asked; all, if none is named. Example:
  running
Elicited.swings Public. The points one person gave for lifting each criterion from 0 to 4, the
  first at 100; whoever asked. Example: safety 100
Elicited.trade_off Public. The cross-check asked afterwards, in words; whoever asked. Example: One
  step of safety for two of undo.
Elicited.pairs Private. A second cross-check in numbers; not used for any weight. Example: 0.9
Pairs.authenticity_to_safety Private. How many times as much the first matters as the second;
  whoever answered. Example: 0.9
Pairs.authenticity_to_reversibility Private. How many times as much the first matters as the
  second; whoever answered. Example: 1.5
Pairs.safety_to_reversibility Private. How many times as much the first matters as the second;
  whoever answered. Example: 1.7
Elicited.because Public. Why the museum's ranges leave this answer out; the trustees. Example:
  Asked for one machine only.
Policy.own_rules Public. The museum's own rules, each written as in the rule book; whoever keeps
  the policy. Example: a rule about open days
Policy.rules_off Public. Shoulds of the book that this museum does not keep, each with the reason;
  the trustees. Example: undo-is-described
Policy.held_as_must Public. Shoulds of the book that are musts here; the trustees. Example:
  removed-part-is-marked
HouseRule.rule Public. The id of the rule; the trustees. Example: undo-is-described
HouseRule.because Public. Why it is kept otherwise here; the trustees. Example: Our machines are
  all alike.
Policy.review Private. The day on which the policy is looked at again; the trustees. It shows up
  in what is due. Example: 2028-01-01
"""
"""Notes by dotted name, one after the other; lines set in go on with the one above."""
