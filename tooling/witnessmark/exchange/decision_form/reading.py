"""A filled form as text: which answer belongs to which field, whatever slips were made."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from witnessmark.exchange.decision_form.fields import (
    QUESTION,
    SECTIONS,
    fields_of,
    partners,
    plain,
)
from witnessmark.exchange.decision_form.told import Told
from witnessmark.model.spelling import clear_winner

_LABEL = re.compile(r"^[\s*>\-]*(?P<label>[^:=]{2,90}?)[\s._]*[:=](?P<value>.*)$")
_FILLER = re.compile(r"_{2,}|\.{4,}|-{3,}|…+")
_OPTION = re.compile(r"^opt\w* (?P<number>[1-9])$")
_NOTHING = frozenset({"", "?", "??", "-", "tbd", "n/a", "unknown yet"})
_MOST_WORDS = 7
_TOP = 4  # the title and the note of the page
_PARTNERS = partners()
_LEGEND = ("a grade such as 2c is how bad",)
_ABOVE = ("one decision", "write after the colons")


@dataclass(frozen=True)
class Answer:
    """What was written for one field, and on which line it begins."""

    text: str
    line: int


@dataclass
class ReadForm:
    """Answers by section and field, in the order written, and what has to be said of them."""

    answers: dict[tuple[str, str], Answer] = field(default_factory=dict)
    sections: list[str] = field(default_factory=list)
    told: list[Told] = field(default_factory=list)
    lines: tuple[str, ...] = ()

    def given(self, section: str, key: str) -> Answer | None:
        """What was written for a field; None where it was left blank."""
        found = self.answers.get((section, key))
        return found if found and found.text.casefold() not in _NOTHING else None


def read_form(text: str) -> ReadForm:
    """The answers of a form; a line that no field begins goes on with the answer above it."""
    lines = tuple(text.lstrip("\ufeff").splitlines())
    read = ReadForm(sections=[QUESTION], lines=lines)
    here: tuple[str, str] | None = None
    is_over = False
    for number, line in enumerate(lines, 1):
        bare = " ".join(_FILLER.sub(" ", line).split())
        if not bare or (here is None and plain(bare).startswith(_ABOVE)):
            continue
        is_over = is_over or plain(bare).startswith(_LEGEND)
        if is_over:
            continue
        if section := _section(bare):
            read.sections.append(section)
            here = (section, "")
        else:
            for piece in _pieces(bare):
                here = _taken_in(piece, read, here, number)
    return read


def _pieces(line: str) -> Iterator[str]:
    """The line, or its two halves where two fields stand on it as they are printed."""
    found = _LABEL.match(line)
    label = plain(found["label"]) if found else ""
    left = label if label in _PARTNERS else clear_winner(label, list(_PARTNERS))
    cut = _cut(line, _PARTNERS[left]) if left else None
    if cut is None:
        yield line
    else:
        yield line[:cut].strip()
        yield line[cut:].strip()


def _cut(line: str, label: str) -> int | None:
    """Where a label begins further along on a line, also with a slip in it."""
    wanted = plain(label)
    for colon in list(re.finditer("[:=]", line))[1:]:
        before = re.sub(r"\([^)]*\)\s*$", "", line[: colon.start()])
        words = list(re.finditer(r"\S+", before))[-len(wanted.split()) :]
        if words and clear_winner(plain(before[words[0].start() :]), [wanted]):
            return words[0].start()
    return None


def _taken_in(
    piece: str, read: ReadForm, here: tuple[str, str] | None, number: int
) -> tuple[str, str] | None:
    """The field that the answer went to; the one above where the line begins none."""
    if found := _field(piece, read, number):
        return found
    _go_on(read, here, piece, number)
    return here


def _section(line: str) -> str | None:
    """The section whose heading a line is."""
    name = plain(line.rstrip(":"))
    if option := _OPTION.match(name):
        return f"option {option['number']}"
    headings = {plain(section.heading): section.key for section in SECTIONS}
    if name in headings:
        return headings[name]
    # Only a line in capitals, or without an answer, can be a heading with a slip in it.
    if not line.isupper():
        return None
    near = clear_winner(name, list(headings))
    return headings[near] if near else None


def _field(line: str, read: ReadForm, number: int) -> tuple[str, str] | None:
    """The field that a line begins, its answer noted; None where it begins none."""
    found = _LABEL.match(line)
    label = plain(found["label"]) if found else ""
    if found is None or not label or len(label.split()) > _MOST_WORDS:
        return None
    place = _place(label, read)
    if place is None:
        return None
    section, key, exact = place
    if not exact:
        named = next(one.label for one in fields_of(section) if one.key == key)
        read.told.append(_taken(number, found["label"].strip(), named))
    value = found["value"].strip()
    old = read.given(section, key)
    if old and value:
        read.told.append(_twice(number, found["label"].strip(), old.line))
    elif value or (section, key) not in read.answers:
        read.answers[section, key] = Answer(value, number)
    if section != read.sections[-1]:
        read.sections.append(section)
    return section, key


def _place(label: str, read: ReadForm) -> tuple[str, str, bool] | None:
    """Section, field, and whether the label stands there as it is printed."""
    here = read.sections[-1]
    order = [here, *(one.key for one in SECTIONS if one.key != here)]
    labels = {section: _labels(section) for section in order}
    for section in order:
        if label in labels[section] and (section == here or not _is_shared(label, labels)):
            return section, labels[section][label], True
    if near := _begun_with(label, labels[here]) or clear_winner(label, list(labels[here])):
        return here, labels[here][near], False
    elsewhere = {name: section for section in order for name in labels[section]
                 if not _is_shared(name, labels)}  # fmt: skip
    near = clear_winner(label, list(elsewhere))
    return (elsewhere[near], labels[elsewhere[near]][near], False) if near else None


def _begun_with(label: str, known: Iterable[str]) -> str | None:
    """The one label of which somebody wrote only some of the words, two at the least."""
    words = set(label.split())
    found = [name for name in known if words <= set(name.split())]
    return found[0] if len(words) > 1 and len(found) == 1 else None


def _labels(section: str) -> Mapping[str, str]:
    return {plain(one.label): one.key for one in fields_of(section)}


def _is_shared(label: str, labels: Mapping[str, Mapping[str, str]]) -> bool:
    """True for a label that stands in several sections, so that only the heading tells which."""
    return sum(label in known for known in labels.values()) > 1


def _go_on(read: ReadForm, here: tuple[str, str] | None, line: str, number: int) -> None:
    """Add a line to the answer above it, or say that it belongs to nothing."""
    if number <= _TOP and here is None:
        return
    if here is None or not here[1]:
        read.told.append(_lost(number, line))
        return
    old = read.answers.get(here, Answer("", number))
    read.answers[here] = Answer(f"{old.text} {line}".strip(), old.line if old.text else number)
    if ":" in line:
        read.told.append(_joined(number, line.partition(":")[0]))


def told_in_order(read: ReadForm) -> Iterator[Told]:
    """Everything that has to be said, by line."""
    yield from sorted(read.told, key=lambda one: one.line)


def _taken(line: int, written: str, meant: str) -> Told:
    return Told(
        line=line,
        what=f'"{written}" was read as "{meant}".',
        why="There is no field of that name, and this one is nearest.",
        fix="Nothing need be done, unless another field was meant.",
        stops=False,
    )


def _joined(line: int, written: str) -> Told:
    return Told(
        line=line,
        what=f'"{written.strip()}:" is not a field of the form; it was added to the answer above.',
        why="A colon may also stand inside an answer.",
        fix="If it was meant as a field, write the field's name as it is printed.",
        stops=False,
    )


def _twice(line: int, written: str, first: int) -> Told:
    return Told(
        line=line,
        what=f'"{written}" is answered twice, first on line {first}.',
        why="Only one of the two can hold, and nobody but you knows which.",
        fix="Keep one of them and delete the other.",
    )


def _lost(line: int, written: str) -> Told:
    shown = written if len(written) <= 40 else f"{written[:37]}..."  # noqa: PLR2004  fits a line
    return Told(
        line=line,
        what=f'"{shown}" belongs to no field.',
        why="An answer that nobody can place would be lost.",
        fix="Put the name of the field and a colon before it, as in `Machine: the steam hammer`.",
    )
