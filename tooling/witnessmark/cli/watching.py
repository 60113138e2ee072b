"""Checking again whenever a file changes, and saying only what is new and what is mended."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from witnessmark.cli.findings_text import render_findings
from witnessmark.cli.printing import folded, plural, tally
from witnessmark.errors import WitnessmarkError
from witnessmark.model.diagnostics import Diagnostic
from witnessmark.rules.checked import Checked


@dataclass(frozen=True)
class Look:
    """What one check found, and the text of every file by the name findings use."""

    checked: Checked
    texts: Mapping[str, str]


def watch(
    look: Callable[[], Look],
    changes: Iterable[object],
    *,
    say: Callable[[str], None],
    most: int,
) -> int:
    """Check once, then after each change, until the changes end or somebody presses Ctrl-C.

    The exit code is that of the last check that could be run.
    """
    last = look()
    try:
        for block in _first(last, most):
            say(block)
        for _ in changes:
            try:
                now = look()
            except WitnessmarkError as failure:
                say(f"Could not check: {failure}")
                continue
            for block in _since(last, now, most):
                say(block)
            last = now
    except KeyboardInterrupt:
        say("\nStopped watching.")
    return last.checked.exit_code


def new_and_mended(
    before: Sequence[Diagnostic], after: Sequence[Diagnostic]
) -> tuple[list[Diagnostic], list[Diagnostic]]:
    """What is found now and was not before, and the other way round, wherever lines have moved."""
    was = {_key(one) for one in before}
    now = {_key(one) for one in after}
    return (
        [one for one in after if _key(one) not in was],
        [one for one in before if _key(one) not in now],
    )


def _key(one: Diagnostic) -> tuple[str, ...]:
    return one.file, one.code, one.level.value, one.field, one.message


def _first(look: Look, most: int) -> Iterator[str]:
    yield from render_findings(look.checked.diagnostics, look.texts, most=most)
    yield f"{_summary(look.checked)} Watching; Ctrl-C ends it."


def _since(before: Look, now: Look, most: int) -> Iterator[str]:
    new, mended = new_and_mended(before.checked.diagnostics, now.checked.diagnostics)
    yield from render_findings(new, now.texts, most=most)
    for one in mended:
        text = f"mended  {one.file}: {one.code}: {one.message}"
        yield "\n".join(folded(text, first="", rest="        "))
    yield f"{_summary(now.checked)} {len(new)} new, {len(mended)} mended."


def _summary(checked: Checked) -> str:
    found = ", ".join(tally(checked.diagnostics)) or "nothing found"
    return f"{plural(checked.records, 'record')} read: {found}."
