"""What a check tells beside the faults: what is due, was public once, and could read easier."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace
from datetime import date
from zoneinfo import ZoneInfo

from witnessmark.cli.opening import Opened, day_or_today
from witnessmark.cli.pictures import with_pictures
from witnessmark.model.diagnostics import Diagnostic, in_order
from witnessmark.repository.filings import read_filings
from witnessmark.rules.checked import Checked, is_under
from witnessmark.rules.correcting import told
from witnessmark.rules.due import overdue
from witnessmark.rules.once_public import Old, is_looked_at, once_public
from witnessmark.rules.plain_language import advice


def told_beside(
    checked: Checked,
    opened: Opened,
    *,
    under: str,
    beside: Collection[str],
    day: date | str | None,
) -> Checked:
    """What was found, with which of it can be mended, and what else was asked for.

    `beside` names any of due, past, pictures and advice; `day` is that of what is due.
    """
    checked = told(checked, opened.library)
    if "pictures" in beside:
        checked = with_pictures(checked, opened, under=under)
    more = [d for d in _further(opened, beside, day) if is_under(d.file, under)]
    return replace(checked, diagnostics=tuple(in_order([*checked.diagnostics, *more])))


def _further(
    opened: Opened, beside: Collection[str], day: date | str | None
) -> Iterator[Diagnostic]:
    if "due" in beside:
        yield from overdue(opened.library, on=day_or_today(day, opened.library))
    if "past" in beside:
        yield from once_public(opened.library, _past(opened))
    if "advice" in beside:
        yield from advice(opened.library)


def _past(opened: Opened) -> Iterator[Old]:
    museum = opened.library.museum.value
    zone = ZoneInfo(museum.time_zone if museum else "Etc/UTC")
    for one in read_filings(opened.folder, zone=zone, wanted=is_looked_at):
        yield Old(one.path, one.revision.name, one.revision.day, one.content)
