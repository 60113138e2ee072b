"""A short list of each kind as a house might keep it, and the map that goes with it."""
# ruff: noqa: E501  a row of a list is one line

from __future__ import annotations

from typing import NamedTuple


class Example(NamedTuple):
    """A list and its map, as the text of two files."""

    csv: str
    map: str


PARTS = Example(
    csv="""\
Group;Part;No off;Weight;Made of;Sheet;From the works?;Remarks
Hand pump;Plunger;1;3,2 kg;Gun-metal;MQ-D-71;original;Scored on one side
Hand pump;Leather cup;2;;Oak-tanned leather;;fitted later;
Hand pump;Pump body;1;41 kg;Cast iron;MQ-D-70;original;"Cracked; stitched in 1948"
""",
    map="""\
# Which of our fields each column of the list holds.
columns:
  Group: assembly
  Part: name
  No off: count
  Weight: mass
  Made of: material
  Sheet: drawing
  From the works?: origin
  Remarks: note
# The same in every row.
always:
  machine: quay-crane
  made_to: last
# Our word for each of theirs.
words:
  origin:
    original: as-built
    fitted later: in-service
""",
)
FINDINGS = Example(
    csv="""\
Day;Who;Where;What was seen;How bad
14/03/2026;shed-foreman;slewing-gear/upper-bush;A thread of grease below the upper bush.;keep an eye on it
15/03/2026;workshop-engineer;;The cab door drags on its sill.;for the file
""",
    map="""\
columns:
  Day: date
  Who: by
  Where: part
  What was seen: what
  How bad: grade
always:
  machine: quay-crane
  basis: seen
words:
  grade:
    keep an eye on it: watch
    for the file: note
# 3/4/2026 is the third of April here.
dates: day-first
""",
)
DECISIONS = Example(
    csv="""\
When,Machine,Decided,Asked,Reason,Paper
3 May 1998,quay-crane,Why we painted the jib grey,What colour should the jib have?,It was grey in the last photograph,Minute book 4
11 June 2003,fire-pump,Why we drained the pump for good,Should it still throw water?,,Letter in the file
""",
    map="""\
columns:
  When: opened
  Machine: machine
  Decided: title
  Asked: question
  Reason: note
  Paper: note
""",
)
EXAMPLES = {"parts": PARTS, "findings": FINDINGS, "decisions": DECISIONS}
