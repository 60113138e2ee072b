"""A machine as public data."""

from __future__ import annotations

from witnessmark.publish.public import PublicMachine
from witnessmark.publish.public_json_values import Data, plain, rows


def machine_data(machine: PublicMachine) -> dict[str, Data]:
    """What a machine is, its parts and what sits there, its account, findings and pictures."""
    return {
        "id": machine.id,
        "name": machine.name,
        "what": machine.what,
        "built": machine.built,
        "number": machine.number,
        "as_of": plain(machine.as_of),
        "kept": plain(machine.kept),
        "kept_now": plain(machine.kept_now),
        "matters": machine.matters,
        "judged_against": machine.judged_against,
        "carried_by": rows(machine.carried_by, "aspect", "weight", "present"),
        "assemblies": plain(machine.assemblies),
        "account": plain(machine.account),
        "findings": plain(machine.findings),
        "pictures": plain(machine.pictures),
        "decisions": plain(machine.decisions),
        "runs": plain(machine.runs),
    }
