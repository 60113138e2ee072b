"""Findings from a list into the log of each machine."""

from __future__ import annotations

from collections.abc import Mapping

from witnessmark.exchange.incoming.cells import LeftOutError, refuse_shape, typed
from witnessmark.exchange.incoming.table import Row
from witnessmark.exchange.incoming.taking import Bench, Placed
from witnessmark.model.findings import Finding, Findings
from witnessmark.model.new_finding import finding_text, next_id, with_finding
from witnessmark.model.shape import shape
from witnessmark.model.source import Document, read

FIELDS = (
    "machine", "date", "by", "part", "basis", "told_by", "what", "grade", "measurement",
    "instrument", "limit", "limit_from", "cause", "photo", "answers", "public",
)  # fmt: skip


def lay_finding(bench: Bench, _row: Row, given: Mapping[str, str]) -> Placed:
    """One finding at the end of its machine's log, with the next free id.

    Raises:
        LeftOutError: a needed field is missing, or the log says the same already.
    """
    machine = given.get("machine", "")
    if machine not in bench.library.machine_files:
        raise LeftOutError(f'There is no machine "{machine}" here.')
    values = typed(given, order=bench.found.order)
    log, document = _log(bench, machine)
    fields = {"id": next_id(log)}
    fields.update({name: values[name] for name in FIELDS[1:] if name in values})
    refuse_shape(finding_text(fields), Finding)
    _refuse_twice(log, fields)
    file = f"{machine}/findings.yml"
    bench.texts[file] = with_finding(document, fields, file=f"{bench.library.root}/{file}").text
    return Placed(file, ("findings", len(log)), f"{machine} {fields['id']}")


def _log(bench: Bench, machine: str) -> tuple[tuple[Finding, ...], Document | None]:
    """The log as it has become so far."""
    file = f"{machine}/findings.yml"
    shaped = bench.library.finding_files.get(machine)
    if file in bench.texts:
        shaped = shape(read(f"{bench.library.root}/{file}", bench.texts[file].encode()), Findings)
    if shaped is None:
        return (), None
    if not shaped.whole or shaped.value is None:
        raise LeftOutError(f"{shaped.document.file} has faults of its own; mend them first.")
    return shaped.value.findings, shaped.document


def _refuse_twice(log: tuple[Finding, ...], fields: Mapping[str, object]) -> None:
    what = " ".join(str(fields.get("what", "")).split())
    for one in log:
        same = (str(one.date), one.part, " ".join(one.what.split()))
        if same == (str(fields.get("date")), fields.get("part"), what):
            raise LeftOutError(f"{one.id} says the same already, and nothing is overwritten.")
