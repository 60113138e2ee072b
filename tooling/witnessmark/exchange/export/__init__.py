"""What a museum publishes, for programs of others: tables and linked data."""

from __future__ import annotations

from witnessmark.exchange.export.files import FORMATS, export_files
from witnessmark.exchange.export.linked import linked_beside, linked_decision
from witnessmark.exchange.export.published import Published
from witnessmark.exchange.export.reading import names_wanted, read_published

__all__ = [
    "FORMATS",
    "Published",
    "export_files",
    "linked_beside",
    "linked_decision",
    "names_wanted",
    "read_published",
]
