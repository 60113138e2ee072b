"""What the fields of a decision mean, but for its options."""

from __future__ import annotations

DECISION_NOTES = """
Decision.id Public. The year and a number unique in the museum, the same as in the file's name;
  the proposer. Example: 2024-003
Decision.title Public. The decision as a sentence, what was done first, at most 90 characters; the
  proposer. Example: Why we made new bushes instead of fitting rollers
Decision.question Public. What was asked, in one or two sentences; the proposer. Example: Both
  bushes are worn. What should carry the jib now?
Decision.aim Public. What the machine should be able to do afterwards; the proposer. Example: slew
  a full load
Aim.what Public. What it should be able to do; the proposer. Example: Slew a full load safely
Aim.because Public. Why that is wanted; the proposer. Example: The crane is kept running.
Decision.about Public. The parts in question: addresses from machine.yml, shown by their names;
  the proposer. Example: slewing-gear/upper-bush
Decision.findings Public. The findings it answers, from this machine's log; the proposer. Example:
  f-007
Decision.policy Public. The policy it was weighed under: the newest valid when it was opened; the
  proposer. Example: 2023-04
Decision.departs_from_policy Public. Why another policy was used than the one then valid; the
  proposer. Example: Opened a week before the new one.
Decision.state Public. How far the decision has come; whoever moves it on. `sign` writes agreed.
  Example: for-review
Decision.opened Public. The day on which the question was written down; the proposer. Example:
  2024-02-11
Decision.until Public. The day on which a temporary decision runs out; the proposer. It shows up
  in what is due. Example: 2026-10-31
Decision.proposed_by Public. Who proposes it: an id from people.yml, shown by its title; never the
  only one to agree. Example: workshop-engineer
Decision.judged_by Public. Who judged the values, and when, said once for the record; the curator.
  Example: curator
JudgedBy.by Public. An id from people.yml, shown by its title; whoever judged. Example: curator
JudgedBy.date Public. The day on which the values were judged; whoever judged. Example: 2024-02-20
Decision.sources Private. Documents and people the record rests on; the proposer. Example: the
  drawing of 1931
Source.id Private. A short name to refer to it by; the proposer. Example: drawing
Source.what Private. What it is; the proposer. Example: Drawing of the slewing gear, 1931
Source.where Private. Where it lies; the proposer. Example: Plan chest, drawer 4
Decision.consent Private. What the owner allowed, where the machine is not the museum's; the
  curator. Example: a letter
Consent.by Private. Who allowed it; the curator. Example: the association's chair
Consent.date Private. The day on which it was allowed; the curator. Example: 2024-03-02
Consent.text Private. What was allowed, in their words; the curator. Example: You may open one
  strut.
Decision.conditions_kept Private. How the conditions on which the machine was given are kept; the
  curator. Example: It stays on the quay.
Decision.heard Private. Who was asked before the choice; the proposer. Example: the Sunday crew
Heard.by Private. Who was asked: an id from people.yml; the proposer. Example: sunday-crew-lead
Heard.role Private. In which role they were asked; the proposer. Example: volunteer-lead
Heard.date Private. The day on which they were asked; the proposer. Example: 2024-02-18
Heard.what Private. What they said; the proposer. Example: We would rather wait a season.
Decision.interests Private. Who gains or loses by the choice, or that nobody does; the proposer.
  Example: none declared
Interest.who Private. Who gains or loses; they say so themselves. Example: the engineer's brother
Interest.what Private. What they gain or lose; they say so themselves. Example: His shop would
  make it.
Interest.answer Private. What is done about it; the curator. Example: He left the room.
Decision.worksheets Public. Calculations the decision relies on, worked out anew at every check;
  the engineer. Example: bearing-clearance
UsedSheet.id Public. What this use of it is called in the record; the engineer. Example: clearance
UsedSheet.sheet Public. Which worksheet; `worksheet list` shows them; the engineer. Example:
  bearing-clearance
UsedSheet.given Public. What it was given, each with its unit; the engineer. Example: bore 65.74
  mm
UsedSheet.bears_on Public. The parts whose safety it says something about, shown by their names;
  the engineer. Example: slewing-gear/upper-bush
UsedSheet.note Private. Anything the reader of the figures should know; the engineer. Example: the
  wear is one-sided
Decision.hazards Public. What could hurt somebody, during the work and afterwards, or signed that
  nothing could; the safety officer. Example: the jib swings free
Hazard.id Private. A short name that the options answer by; the safety officer. Example: seizure
Hazard.what Public. What could happen; the safety officer. Example: The jib swings free under load
Hazard.when Public. While the work is done, or afterwards; the safety officer. Example: afterwards
Hazard.who Private. Who could be hurt; the safety officer. Example: crew
Hazard.before Public. Severity 1 to 4 and probability A to F as things stand; the safety officer.
  Example: 2C
Hazard.kind Private. The sort, where it decides who may touch it; the safety officer. Example:
  asbestos
Hazard.found Private. Whether it is there; unknown is an answer; the safety officer. Example:
  unknown
Hazard.part Private. The part in which it sits: an address from machine.yml; the safety officer.
  Example: hoisting-gear/brake-lining
Hazard.parts Private. The parts in which it sits, where they are several; the safety officer.
  Example: two linings
Hazard.survey Private. What somebody competent found out; the safety officer. Example: a
  laboratory's letter
Survey.by Private. Who looked; the safety officer. Example: a competent laboratory
Survey.date Private. The day of the survey; the safety officer. Example: 2026-06-01
Survey.ref Private. Where it is written; the safety officer. Example: letter 2026-17
Survey.says Private. What it says, in a sentence; the safety officer. Example: No fibres found.
Hazard.made_safe Private. How stored energy is let out or held; the engineer. Example: chocked and
  drained
MadeSafe.energy Private. How much there is; the engineer. Example: 12 kJ in the accumulator
MadeSafe.how Private. What is done about it; the engineer. Example: Let down and locked open.
MadeSafe.tested_by Private. Who tests that it is gone; the engineer. Example: the safety officer
MadeSafe.ref Private. Where that is written; the engineer. Example: shop sheet 8
Hazard.because Private. Why it was read as it was; the safety officer. Example: Treated as
  asbestos until tested.
NoneSigned.none Public. Who answers for there being none, and why; whoever signs it. Example: by
  the engineer
SignedNone.by Public. An id from people.yml, shown by its title; whoever answers for it. Example:
  safety-officer
SignedNone.because Public. Why there is none; whoever answers for it. Example: Nothing is moved.
Decision.options Public. Everything that could be done, leaving it as found among it; the
  proposer. Example: three options
Decision.choice Public. Which option, why, what it gives up and who disagreed; the proposer writes
  it once those who agree have spoken. Example: rebush
Choice.option Public. The id of the option that was chosen; the proposer. Example: rebush
Choice.because Public. Why this one; the proposer. Example: The bushes were made to be renewed.
Choice.gives_up Public. What is lost by choosing it; the proposer. Example: The old bronze leaves
  the machine.
Choice.would_change_our_mind Public. What would make another option the better one; the proposer.
  Example: Bronze that cannot be had
Choice.dissent Public. Who disagreed and the answer, or "none raised"; the proposer. Example: none
  raised
Dissent.who Private. Who disagreed: an id from people.yml, which the site shows by its title; free
  text stays in the house. Example: sunday-crew-lead
Dissent.what Public. What they said, in their own words; the one who disagreed. Example: It should
  wait.
Dissent.answer Public. What was answered; the proposer. Example: We wait one season.
Decision.losses Public. Evidence that goes and how it was recorded, or none; the conservator.
  Example: none
Loss.what Public. What goes; the conservator. Example: the scraping marks in the bore
Loss.recorded_by Public. How it was recorded first; the conservator. Example: photograph
Loss.where Private. Where that record lies; the conservator. Example: Plan chest, drawer 4
Decision.follows Public. Earlier decisions it follows; the proposer. Example: 2022-001
Decision.departs_from Public. Earlier decisions it departs from, each with the reason; the
  proposer. Example: 2022-001
Departs.decision Public. The id of the earlier decision; the proposer. Example: 2022-001
Departs.because Public. Why this one is otherwise; the proposer. Example: The joint was opened.
Decision.departs_from_ranking Public. Why the choice is not the one that scored best; those who
  agree. Example: The crew is too small for it.
Decision.accepted_risk Public. A risk below the floor that somebody accepts for a time; a trustee.
  Example: until 2026-01-01
AcceptedRisk.by Public. An id from people.yml, shown by its title; whoever accepts it. Example:
  trustee-for-machines
AcceptedRisk.role Private. In which role they accept it; whoever accepts it. Example: governing
AcceptedRisk.until Public. The day on which that ends; whoever accepts it. It shows up in what is
  due. Example: 2026-01-01
AcceptedRisk.because Public. Why it can be accepted; whoever accepts it. Example: One slow drive
  in an empty yard.
AcceptedRisk.option Private. The option it is about, where not the chosen one. Example: clamp
Decision.waivers Public. Must rules that rest, each with reason, approver and end; the approver.
  Example: one rule until 2027
Waiver.rule Public. The id of the rule; the proposer. Example: removed-part-is-marked
Waiver.because Public. Why it rests; the approver. Example: A punch mark could start a crack.
Waiver.approver Public. Who let it rest: an id from people.yml, shown by its title; never the
  proposer. Example: trustee-for-machines
Waiver.until Public. The day on which it is kept again; the approver. It shows up in what is due.
  Example: 2027-06-01
Decision.explained Public. Should rules not followed, each with the reason; the proposer. Example:
  one rule
Explained.rule Public. The id of the rule; the proposer. Example: intervention-is-least
Explained.because Public. Why it is not followed here; the proposer. Example: A smaller step
  fails.
Decision.emergency Public. Work done before agreement, to make safe; the engineer. Example: a
  burst hose
Emergency.because Public. Why it could not wait; the engineer. Example: The load hung by one
  strand.
Emergency.ratified Public. The day on which it was agreed afterwards; until then it is due.
  Example: 2024-04-01
Decision.agreed Public. The agreements, two or more; written by `sign`, never by hand. Example:
  two roles
Signature.role Public. The role in which it was agreed; `sign` writes it. Example: collections
Signature.by Public. Who agreed: an id from people.yml, shown by its title; `sign` writes it.
  Example: curator
Signature.date Public. The day of agreement; `sign` writes it. Example: 2024-03-02
Signature.seal Public. The seal over the judgement; `sign` writes it, and the site shows its
  beginning. Example: wm1: and a digest
Signature.words Private. The digest over the words; `sign` writes it. Example: wm1w: and a digest
Decision.reckoned Private. The scores as they were at agreement; `sign` writes it. Example: a
  winner and a verdict
Decision.withdrawn_because Private. Why the record was given up; the proposer. Example: The paint
  holds.
Decision.replaced_by Public. The later decision that stands in its place; the proposer of that
  one. Example: 2025-002
Decision.replaces Public. The earlier decision in whose place this one stands; the proposer.
  Example: 2022-001
Decision.replaces_because Private. What changed since; the proposer. Example: Two bolts have
  failed.
Decision.work Public. What was done; the workshop. Example: begun and ended in March
Work.started Public. The first day of the work; the workshop. Example: 2024-03-10
Work.ended Public. The last day of the work; left out while it lasts. Example: 2024-04-02
Work.by Private. Who did it: ids from people.yml, which the site shows by their titles; free text
  stays in the house. Example: workshop-engineer
Work.as_done Public. The steps as they were done, with labels of what came off; the workshop.
  Example: remove, then fit
Work.departures Public. What was done otherwise than planned, or none; the workshop. Example: none
Work.competence Private. What makes those who did it able to; the workshop. Example: two coded
  welders
Work.hidden Private. What is covered again and how it was recorded, or none; the workshop.
  Example: none
Work.new_loss Private. Who agreed to a loss that the plan did not have; the workshop. Example: the
  curator, by telephone
NewLoss.by Private. Who agreed: an id from people.yml; the workshop. Example: curator
NewLoss.role Private. In which role; the workshop. Example: collections
NewLoss.date Private. The day on which they agreed; the workshop. Example: 2024-03-12
NewLoss.because Private. Why more had to go; the workshop. Example: The stud was cracked through.
Work.done_by Private. Where it was done in the end; the workshop. Example: in-house
Work.hours Private. The hours of work it took; the workshop. Example: 84
Work.cost Private. The money it took, in the museum's currency; the workshop. Example: 1740
Work.photos Public. Pictures of the work; only those marked public are shown. Example: one before
Decision.outcome Public. What each second look found; whoever looked. Example: the wear held
Outcome.date Public. The day of the second look; whoever looked. Example: 2025-10-20
Outcome.by Public. Who looked: an id from people.yml, shown by its title. Example:
  workshop-engineer
Outcome.what Public. What was found, against what was expected; whoever looked. Example: 0.28 mm
  after 140 hours.
Outcome.measured Private. The size that the decision said to measure; whoever looked. Example:
  0.28 mm
Outcome.expected Private. The least and the most that was expected, as it stood in the next look
  before it was held; whoever looked. Example: 0.27 mm and 0.31 mm
Decision.leaves_out Private. What of the system the work does not reach; the engineer. Example:
  the lower bush
Decision.adds_up_to Private. What it makes together with earlier changes to the same parts; the
  engineer. Example: the third rebush
Decision.look_again Public. When the decision is looked at again; the proposer. It shows up in
  what is due. Example: 2027-03-01
LookAgain.date Public. The day of the next look; moved on by whoever looked. Example: 2027-03-01
LookAgain.or_after Public. The use after which it is looked at if that comes first; the proposer.
  Example: 200 h running
LookAgain.measure Private. What is measured at the next look; the proposer. Example: Clearance of
  the upper bush
LookAgain.expects Private. The least and the most that is expected then, each with its unit; the
  proposer. Example: 0.27 mm and 0.31 mm
Decision.photos Public. Pictures that explain the question; only those marked public are shown.
  Example: one of the bush
Decision.thanks Private. Whom the museum thanks; the proposer. Example: a retired driver
Decision.note Private. Anything the house should know; whoever has it. Example: ask the forge
  again
Decision.publish Public. Whether the record is shown once agreed, or the reason shown in its
  place; the curator. Example: true
Withheld.withheld Public. The reason shown in place of the record; the curator. Example: The owner
  asked us to wait.
"""
"""Notes by dotted name, one after the other; lines set in go on with the one above."""
