"""What the fields of machine.yml and findings.yml mean."""

from __future__ import annotations

MACHINE_NOTES = """
Machine.as_of Public. The day on which the machine was as this file says; work done since is
  reckoned from the decisions, so the file is not edited for them. Example: 2022-01-01
Machine.name Public. What the machine is called; the curator. Example: The quay crane
Machine.what Public. What it is and did, in a few sentences; the curator. Example: A rail crane
  that loaded ships.
Machine.built Public. When and how it came to be; the curator. Example: 1931
Machine.number Public. The number it carries; the curator. Example: No. 4
Machine.owner Private. Whose it is; "museum" if nothing is said; the curator. Example: on loan
  from a brigade
Machine.conditions Private. What was asked when it was given or lent; the curator copies it from
  the letter. Example: never to leave the quay
Machine.kept Public. How the machine is kept, each way from a day on; the trustees decide, the
  curator writes. Example: running from 2012
KeptFrom.from Public. The first day of this way of keeping; the curator. Example: 2012-05-01
KeptFrom.as Public. The way it is kept from then on; the curator. Example: running
KeptFrom.decided Private. Where that was decided; the curator. Example: Minutes of the trustees,
  2012-04-16
KeptFrom.look_again Private. The day on which this is looked at again; the trustees. It shows up
  in what is due. Example: 2027-03-01
KeptFrom.because Public. Why it is kept so; the curator. Example: The gear was sound.
KeptFrom.shows Private. What running shows that a standing machine, a film or a copy could not;
  the curator. Example: How a driver lands a load by ear
Machine.significance Public. Why the machine matters and what carries its value; the curator with
  others. Example: its last season
Significance.statement Public. Why it matters, in a few sentences; the curator. Example: The last
  of its kind on this coast.
Significance.state Public. The state against which authenticity is judged; the curator. Example:
  As it worked in its last season, 1968.
Significance.carried_by Public. Which of the six aspects carry the value, and how much each; the
  curator. Aspects left out weigh 0. Example: material 2, form 1
Significance.present Public. The level each aspect has today, 4 if nothing is said; the curator.
  Example: form 3
Machine.assemblies Public. The groups of parts; the engineer. Example: slewing gear
Assembly.id Public. A short name, the first half of a part's address; the engineer. The site shows
  the name. Example: slewing-gear
Assembly.name Public. What the workshop calls it; the engineer. Example: Slewing gear
Assembly.parts Public. The parts of the assembly; like pieces are one part with a count; the
  engineer. Example: upper bush
Part.id Public. A short name, the second half of the address; the engineer. The site shows the
  name. Example: upper-bush
Part.name Public. What the workshop calls it; the engineer. Example: Upper slewing bush
Part.origin Public. Where the part comes from; the curator. Unknown counts as original. Example:
  as-built
Part.made_to Public. What the maker meant to happen to it; the engineer. Example: wear
Part.count Public. How many like pieces there are; 1 if nothing is said; the engineer. Example: 24
Part.mass Public. The mass of all pieces together, with a unit; the engineer. Example: 14 kg
Part.material Public. What it is made of; the engineer. Example: leaded tin bronze
Part.drawing Public. The drawing it is made to; the engineer. Example: MQ-D-31
Part.can_be_made Public. Whether the type can still be made; the engineer. Example: true
Part.interchanges_with Private. What else would fit in its place; the engineer. Example: the lower
  bush
Part.last_known Public. True where no other piece of this type is known anywhere; the curator.
  Example: false
Part.sought Private. Where other pieces were looked for; the curator. Example: three yards asked
Sought.what Private. Where it was looked for and what was found; the curator. Example: Two
  breakers' yards, nothing.
Sought.date Private. Until when it was looked for; the curator. Example: 2025-11-30
Part.made_to_known_from Private. What says that the maker meant it to be renewed or used up; the
  engineer. Example: Handbook, page 31
Part.handed Private. True where it is made as left and right; the engineer. Example: true
Part.held_by Private. What keeps these fasteners from turning; the engineer. Example: tack-weld
Part.highly_stressed Private. True where a scratch could start a crack; the engineer. Example:
  true
Part.bears Private. Marks of identity on it; the curator. Example: the maker's plate
Part.plating Private. What the surface is plated with; the engineer. Example: cadmium
Part.lubricant Private. What it was made to run in; the engineer. Example: oil
Part.holds_tension Private. True where it keeps a track or chain tight; the engineer. Example:
  false
Part.note Private. Anything the house should know; the engineer. Example: stiff since 2019
Machine.photos Public. Pictures of the machine; only those marked public are shown. Example: one
  view from the quay
Photo.file Public. The picture's file in this machine's folder; whoever took it. Example:
  photos/overview.svg
Photo.alt Public. What the picture shows, for those who cannot see it; whoever took it. Example:
  The crane from the quay, jib raised
Photo.caption Public. One line below the picture; whoever took it. Example: The crane in 1968
Photo.date Public. The day on which it was made; whoever took it. Example: 2024-01-22
Photo.stage Public. Whether it was made before, during or after the work; whoever took it.
  Example: before
Photo.public Private. True lets the site show this picture; the curator. Example: true
Machine.note Private. Anything the house should know; the curator. Example: key in the office

Findings.findings Public. What was found, oldest first; each is shown only where it is marked
  public. Example: a worn bush
Finding.id Public. The finding's number on this machine, never used twice; `finding` gives the
  next. Example: f-012
Finding.date Public. The day on which it was found; whoever found it. Example: 2024-01-22
Finding.by Private. Who found it: an id from people.yml, which the site shows by its title.
  Example: workshop-engineer
Finding.part Public. Where on the machine: an address from machine.yml, shown by the part's name.
  Example: slewing-gear/upper-bush
Finding.basis Public. How it is known; whoever found it. Example: measured
Finding.told_by Private. Who knew it, where `by` only wrote it down. Example: a retired driver
Finding.what Public. What was found, as plainly as it was seen; whoever found it. Example: The
  bush is worn oval.
Finding.grade Public. How much it presses; a stop holds the machine until it is answered; whoever
  found it. Example: act
Finding.measurement Public. The figure with its unit and doubt; whoever measured. Example: 180.88
  ± 0.02 mm
Finding.instrument Public. What it was measured with, and how; whoever measured. Example: inside
  micrometer, at three heights
Finding.limit Private. The value at which it may not go on; the engineer. Example: 0.60 mm
Finding.limit_from Private. Who or what set that limit; the engineer. Example: the drawing of 1931
Finding.cause Private. Why it came to this, or that nobody knows; the engineer. Example: Grease
  had stopped the oil ways.
Finding.photo Private. A picture of it in this machine's folder; whoever took it. Example:
  photos/upper-bush.svg
Finding.put_off Public. Why an answer waits, and until when; the engineer. A stop still holds the
  machine. Example: until the track is split
PutOff.until Public. The day by which it is taken up again; the engineer. It shows up in what is
  due. Example: 2027-10-01
PutOff.because Public. Why it may wait; the engineer. Example: The track has to be split for it.
Finding.answers Private. Earlier findings that this one settles; whoever found it. Example: f-007
Finding.public Private. True lets the site show this finding; the curator. Example: true
"""
"""Notes by dotted name, one after the other; lines set in go on with the one above."""
