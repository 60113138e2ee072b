"""One more finding in a machine's log: the next id, its text, and where it goes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from textwrap import indent
from typing import Any

from witnessmark.errors import RefusedError
from witnessmark.model.block_style import block_text
from witnessmark.model.diagnostics import field_name
from witnessmark.model.findings import Finding, Findings
from witnessmark.model.shape import shape
from witnessmark.model.source import Document, read
from witnessmark.model.surgery import with_item

MODELINE = "# yaml-language-server: $schema=../schema/findings.schema.json\n"

Given = Mapping[str, "str | bool | Sequence[str] | Given"]
"""A finding's fields as they were given, in the order they are to be written."""


def next_id(log: Sequence[Finding]) -> str:
    """The number after the highest; one that was taken out is never used again by filling a gap.

    >>> next_id(())
    'f-001'
    """
    highest = max((int(finding.id.removeprefix("f-")) for finding in log), default=0)
    return f"f-{highest + 1:03}"


def finding_text(given: Given) -> str:
    """A finding in block style, prose folded, so that no comma or colon in it does harm."""
    return block_text(given)


def with_finding(document: Document | None, given: Given, *, file: str) -> Document:
    """The log with one more finding at its end, nothing else touched; begun where there is none.

    Raises:
        RefusedError: the log or the finding has a fault, or something else would change.
    """
    text = finding_text(given)
    alone = _begun(file, text)
    if document is None:
        return alone
    changed = with_item(document, "findings", text)
    before, after = _findings(document), _findings(changed)
    if after != [*before, *_findings(alone)]:
        raise RefusedError(
            f"{file}: the finding would not be read as it was given.",
            remedy="Write the log in block style, each finding after `- `, and try again.",
        )
    return changed


def _begun(file: str, text: str) -> Document:
    """A log that holds this finding alone; it shows any fault of the finding."""
    begun = f"{MODELINE}witnessmark: 1\nfindings:\n  - {indent(text, '    ').lstrip()}\n"
    shaped = shape(read(file, begun.encode()), Findings)
    for fault in shaped.diagnostics:
        raise RefusedError(
            f"{field_name(fault.path[2:]) or 'The finding'}: {fault.message}", remedy=fault.fix
        )
    return shaped.document


def _findings(document: Document) -> list[Any]:
    data = document.data if isinstance(document.data, dict) else {}
    found = data.get("findings")
    return list(found) if isinstance(found, list) else []
