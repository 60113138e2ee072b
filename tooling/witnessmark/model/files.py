"""Which files a museum folder holds, by their names; a light module, for it is asked first."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

DECISION_FILE = re.compile(r"(?P<machine>[^/]+)/(?P<id>[0-9]{4}-[0-9]{3})(-[^/]*)?\.ya?ml")
POLICY_FILE = re.compile(r"policy/(?P<id>[^/]+)\.ya?ml")
MACHINE_FILE = re.compile(r"(?P<machine>[^/]+)/(?P<kind>machine|findings)\.ya?ml")


NOT_MACHINES = frozenset({"policy", "schema"})
"""Folders of a museum that are no machine's."""


@dataclass(frozen=True)
class Folder:
    """What lies in a museum folder, as the disk layer found it.

    `files` are the contents by path below the museum folder; `names` are all other paths found
    (pictures); `refused` are paths that were not read, each with the reason and the remedy.
    """

    name: str
    files: Mapping[str, bytes]
    names: frozenset[str] = frozenset()
    refused: Mapping[str, tuple[str, str]] = field(default_factory=dict)
