"""What the fields of an option mean: steps, consequences, answers and judged values."""

from __future__ import annotations

OPTION_NOTES = """
OnParts.part Public. The part it acts on: an address from machine.yml, shown by the part's name;
  the proposer. Example: slewing-gear/upper-bush
OnParts.parts Public. The parts it acts on, where they are several, shown by their names; the
  proposer. Example: two bushes

Option.id Public. A short name within the record; the proposer. Example: rebush
Option.kind Public. What sort of option it is; the proposer. Example: renew-like-for-like
Option.title Public. The option in a few words; the proposer. Example: New bushes to the 1931
  drawing
Option.temporary Private. True where it is meant to be taken back; then the record has `until`;
  the proposer. Example: true
Option.what Public. What it means, in a few sentences; the proposer. Example: The bores are not
  cut.
Option.steps Public. What would be done, in order; the workshop. Example: remove, then fit-new
Option.consequences Public. What happens to parts nobody works on, or that nothing does and why;
  the engineer. Example: the post wears
NoneBecause.none Public. Why nothing happens to any part; the engineer. Example: It stands under
  cover.
Option.answers Public. What is left of each hazard under this option, by the hazard's id; the
  safety officer. Example: seizure to 2E
Option.relies_on Private. The worksheets this option relies on, by their id in the record; the
  engineer. Example: duty
Option.judged Public. The aspects judged by people, each with a range and a reason; the curator.
  Example: form 4
Option.unaffected Public. The aspects this option leaves as they are, each with a sentence; the
  curator. Example: Setting: on its rails
Option.not_applicable Public. The aspects that mean nothing here, each with a sentence; the
  curator. Example: It never had a setting.
Option.ruled_out Public. Who or what shuts this option out; the proposer. Example: the owner
RuledOut.by Public. Whether law, owner or a rule shuts it out; the proposer. Example: owner
RuledOut.because Public. Why it is shut out; the proposer. Example: The owner forbids welding.
RuledOut.ref Private. Where that is written; the proposer. Example: letter of 2024-01-05
Option.misses_aim Public. In what it misses the aim; then it is set aside; the proposer. Example:
  The crane would not slew.
Option.not_scored Public. Why it is not scored; the proposer. Example: The price is not known.
Option.way_back Public. How a later generation would undo it; the engineer. Example: Press out;
  the housings are not cut.
Option.forecloses Private. What can no longer be done once this was done; the engineer. Example: A
  larger bush no longer fits.
Option.later_cost Public. What it asks of those who come later; the engineer. Example: New pads in
  ten years.
Option.effort Public. What it would take; hours and money stay private unless the museum shows
  them; the workshop. Example: forty hours
Effort.hours Private. The least and the most hours of work; the workshop. Example: 40 and 60
Effort.cost Private. The least and the most money, in the museum's currency; the workshop.
  Example: 900 and 1400
Effort.done_by Public. Where the work would be done; the workshop. Example: in-house
Option.why_not Public. Why it was not chosen; the proposer. Example: The shaft would be cut.

Step.do Public. What is done; the workshop. Example: remove
Step.count Public. How many pieces, where the step touches only some; the workshop. Example: 12
Step.fate Public. What becomes of what comes out; the curator. Example: stored
Step.label Public. The label tied to the piece that comes out, never used twice in the museum; the
  curator. Example: MQ-0112
Step.labels Public. The labels, in the order of the parts; the curator. Example: MQ-0112, MQ-0113
Step.place Private. Where it is kept: the id of a store place; the curator. Example: store-b
Step.like Public. Whether what goes in matches what came out; the engineer. Example: same
Step.from Private. The lot of old stock, or the donor's part, that it comes from; the site shows
  what that is called. Example: plough-pads
Step.what Public. What exactly is done or fitted; the workshop. Example: A padlock on the brake
Step.material Public. What the new piece is made of; the engineer. Example: leaded tin bronze
Step.drawing Public. The drawing it is made to; the engineer. Example: MQ-D-31
Step.made_by Private. Who made it; the workshop. Example: the shop
Step.marked Public. How the new piece is marked as new; the workshop. Example: 2024 on the hidden
  face
Step.pattern Private. What its shape was taken from where there is no drawing; the workshop.
  Example: the old bush
Step.copied_marks Private. Marks of identity copied on to it and how the copy is told, or none;
  the curator. Example: none
Step.interchange Private. What came of trying the other hand's part; the workshop. Example: It
  fits.
Step.care Private. How a kept part was made safe to keep; the conservator. Example: Cleaned and
  waxed.
Step.undo Public. How far it can be undone, 0 to 4, where the policy's level does not fit; say why
  in `because`; the engineer. Example: 2
Step.lubricant Private. What goes in; the engineer. Example: oil
Step.suits Private. How it was found to suit the metals, seals and felts it meets; the engineer.
  Example: Tried on a felt for a month.
Step.residue Private. What becomes of what was in there; the workshop. Example: Flushed out warm.
Step.inspected Private. What was seen when old stock or a donor's piece was looked at; the
  engineer. Example: No crack under dye.
Step.conditions_met Private. How the giver's conditions are kept; the curator. Example: It stays
  on this tender.
Step.leaves Private. What stays behind in the machine that gives; the curator. Example: one bush
  of two
Step.over Private. Which floor a machine is moved over; the engineer. Example: finished-floor
Step.carried_on Private. What it rests on while it is moved; the engineer. Example: carrier
Step.rubber_left Private. The least rubber above the steel of its pads; the engineer. Example: 18
  mm
Step.comes_off_with Private. What takes a coat or seal off again; the conservator. Example: white
  spirit
Step.because Public. Why the step is needed, or why its undo level is another; the engineer.
  Example: The sleeve is only pressed in.
Step.note Private. Anything the shop should know; the workshop. Example: left-hand thread

Consequence.becomes Public. What the part becomes in one word or two; the engineer. Example: worn
Consequence.count Public. How many pieces, where it is only some; the engineer. Example: 2
Consequence.undo Public. How far that can be undone, 0 to 4; the engineer. Example: 1
Consequence.because Public. Why that happens; the engineer. Example: Steel runs on steel.

Answer.after Public. Severity and probability left under this option; the safety officer. Example:
  2E
Answer.none Public. Why the hazard is not there under this option; the safety officer. Example:
  Nothing is lifted.
Answer.because Public. Why that much is left; the safety officer. Example: Oil ways re-cut
Answer.controls Public. What makes the hazard smaller, each with how it works; the safety officer.
  Example: a guard
Control.order Public. How the control works, strongest first; the safety officer. Example:
  redesign
Control.what Public. What it is; the safety officer. Example: oil ways

JudgedRange.low Public. The lowest level it might fairly be, 0 to 4; left out, it is the likely
  one; whoever judged. Example: 3
JudgedRange.likely Public. The likely level, 0 to 4, 4 best; whoever judged. Example: 4
JudgedRange.high Public. The highest level it might fairly be, 0 to 4; left out, it is the likely
  one; whoever judged. Example: 4
JudgedRange.because Public. Why this level; whoever judged. Example: Same shape and oil ways
Judged.by Public. Who judged it, where not the one named for the record: an id from people.yml,
  shown by its title. Example: curator
Judged.date Private. The day on which it was judged, where it differs; whoever judged. Example:
  2024-02-20
Judged.second Private. How others judged it without having seen the first; whoever judged.
  Example: 3
SecondJudged.low Private. The lowest level the second person gave, 0 to 4. Example: 2
SecondJudged.likely Private. The level the second person gave, 0 to 4. Example: 3
SecondJudged.high Private. The highest level the second person gave, 0 to 4. Example: 4
SecondJudged.because Private. Why the second person gave it. Example: The sound is duller.
SecondJudged.by Private. Who judged a second time: an id from people.yml. Example:
  metals-conservator
SecondJudged.date Private. The day of the second judging. Example: 2024-02-25
"""
"""Notes by dotted name, one after the other; lines set in go on with the one above."""
