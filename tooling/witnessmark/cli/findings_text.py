"""What a check found, for a tired reader: by file, worst first, one message for one cause."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from witnessmark.cli.printing import folded, plural, quoted, tally, visible
from witnessmark.model.diagnostics import Diagnostic, Level

GRAVITY = tuple(Level)
"""From the gravest down, as the words are declared."""


@dataclass(frozen=True)
class Message:
    """One message with every finding that says it, in the order of the file."""

    findings: tuple[Diagnostic, ...]

    @property
    def first(self) -> Diagnostic:
        """The finding whose line is quoted."""
        return self.findings[0]

    @property
    def rank(self) -> tuple[int, str, int, int, str]:
        """The gravest first; then by file, line, column and code."""
        one = self.first
        return GRAVITY.index(one.level), one.file, one.line, one.column, one.code


def messages(diagnostics: Iterable[Diagnostic]) -> list[Message]:
    """The messages of a check, the gravest first; the same words in one file are said once."""
    said: dict[tuple[str, Level, str, str], list[Diagnostic]] = {}
    for one in diagnostics:
        said.setdefault((one.file, one.level, one.code, one.message), []).append(one)
    return sorted((Message(tuple(found)) for found in said.values()), key=lambda m: m.rank)


def render_findings(
    diagnostics: Sequence[Diagnostic], texts: Mapping[str, str], *, most: int
) -> Iterator[str]:
    """The findings as blocks of text, at most so many messages (0: all), then a count of the rest.

    What is shown is chosen by gravity over all files, so that no file's notes hide another's error.
    """
    every = messages(diagnostics)
    shown = every[:most] if most else every
    for file in dict.fromkeys(message.first.file for message in shown):
        yield _heading(file, [d for d in diagnostics if d.file == file])
        yield from _blocks([message for message in shown if message.first.file == file], texts)
    if rest := every[len(shown) :]:
        files = len({message.first.file for message in rest})
        yield (
            f"... and {plural(len(rest), 'more message')} in {plural(files, 'file')}; "
            "--most 0 shows all.\n"
        )


def _heading(file: str, found: Sequence[Diagnostic]) -> str:
    counts = ", ".join(tally(tuple(found)))
    title = visible(f"{file}: {counts}")
    return f"{title}\n{'-' * len(title)}"


def _blocks(shown: Sequence[Message], texts: Mapping[str, str]) -> Iterator[str]:
    """The messages of one file; those of one code stand together, why and fix once."""
    groups: dict[tuple[Level, str, str, str], list[Message]] = {}
    for message in shown:
        one = message.first
        groups.setdefault((one.level, one.code, one.why, one.fix), []).append(message)
    for group in groups.values():
        lines = [line for message in group for line in _message(message, texts)]
        yield "\n".join([*lines, *_standing(group[0].first)]) + "\n"


def _message(message: Message, texts: Mapping[str, str]) -> Iterator[str]:
    one = message.first
    yield from folded(f"{one.level.value} {one.code}: {one.message}", first="", rest="  ")
    yield f"  line {one.line}, column {one.column}"
    yield from quoted(one, texts.get(one.file, ""))
    others = dict.fromkeys(str(other.line) for other in message.findings[1:])
    others.pop(str(one.line), None)
    if others:
        words = "line" if len(others) == 1 else "lines"
        yield from folded(f"and at {words} {', '.join(others)}", first="  ", rest="  ")


def _standing(one: Diagnostic) -> Iterator[str]:
    if one.why:
        yield from folded(one.why, first="  why  ", rest="       ")
    if one.fix:
        yield from folded(one.fix, first="  fix  ", rest="       ")
