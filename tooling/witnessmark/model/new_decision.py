"""A new decision as a draft: everything that can be known written out, the rest left blank."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from textwrap import indent
from typing import Self

from witnessmark.errors import RefusedError
from witnessmark.model.block_style import prose, word
from witnessmark.model.library import Library
from witnessmark.model.machine import Machine
from witnessmark.model.option_drafts import Fields, OptionDraft
from witnessmark.model.question_sorts import Foreseen

MODELINE = "# yaml-language-server: $schema=../schema/decision.schema.json\n"
LAST_NUMBER = 999
_MOST_SLUG = 40
_NUMBERS = frozenset({"likely", "undo"})


@dataclass(frozen=True, kw_only=True)
class ChoiceDraft:
    """What was chosen, as far as it is known yet; empty texts are blanks."""

    option: str = ""
    because: str = ""
    gives_up: str = ""
    would_change_our_mind: str = ""
    dissent: str = ""


@dataclass(frozen=True, kw_only=True)
class Draft:
    """A decision as it is to be written; empty texts are blanks to be filled."""

    id: str
    title: str
    question: str
    aim: str
    aim_because: str
    about: tuple[str, ...]
    findings: tuple[str, ...]
    policy: str
    opened: date
    proposed_by: str
    hazards: tuple[Foreseen, ...]
    options: tuple[OptionDraft, ...]
    choice: ChoiceDraft = ChoiceDraft()
    follows: tuple[str, ...] = ()
    sheets: tuple[str, ...] = ()

    @property
    def file_name(self) -> str:
        """The name of its file: the id and a few words of what it is about."""
        return f"{self.id}-{slug(self.about[0].rpartition('/')[2])}.yml"

    def with_finding(self, name: str) -> Self:
        """The same draft, resting on one finding more."""
        return replace(self, findings=(*self.findings, name))


def slug(text: str, *, most: int = _MOST_SLUG) -> str:
    """A text as an id: small letters, digits and hyphens; empty where nothing is left of it.

    >>> slug("The Steam-hammer, No. 3"), slug("Führerstand (links)")
    ('the-steam-hammer-no-3', 'fuhrerstand-links')
    """
    bare = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", bare).strip("-")[:most].strip("-")


def next_decision_id(library: Library, year: int) -> str | None:
    """The number after the highest of a year; gaps are never filled. None when all are used up."""
    names = {name for entry in library.decisions for name in (entry.id, entry.named)}
    numbers = [int(name[5:]) for name in names if name.startswith(f"{year:04}-")]
    following = max(numbers, default=0) + 1
    return f"{year:04}-{following:03}" if following <= LAST_NUMBER else None


def free_id(library: Library, day: date) -> str:
    """The next id of the year.

    Raises:
        RefusedError: all of them are taken.
    """
    found = next_decision_id(library, day.year)
    if found is None:
        raise RefusedError(f"All numbers of {day.year} are taken.", remedy="Write it next year.")
    return found


def policy_on(library: Library, day: date) -> str:
    """The newest policy valid on a day.

    Raises:
        RefusedError: there is none.
    """
    valid = [(p.valid_from, name) for name, p in library.policies.items() if p.valid_from <= day]
    if not valid:
        raise RefusedError(
            f"No policy of this museum was valid on {day}.",
            remedy="Write policy/YYYY-MM.yml with a valid_from on that day or before it.",
        )
    return max(valid)[1]


def working_title(machine: Machine, about: Sequence[str]) -> str:
    """A title until it is decided, from the names of part and machine."""
    names = [part.name for address, _, part in machine.parts() if address in about]
    whole = machine.name
    called = f"the {whole[4:]}" if whole.startswith("The ") else whole
    return f"{' and '.join(names)} of {called}: what to do"


def draft_text(draft: Draft) -> str:
    """The whole record in block style, with a comment where somebody has to think."""
    return "\n".join([*_head(draft), *_dangers(draft), *_end(draft)]) + "\n"


def _head(draft: Draft) -> Iterator[str]:
    """From the first line to who judged."""
    yield f"{MODELINE}witnessmark: 1\nid: {draft.id}"
    yield '# Write after the colons. A text with a colon or # in it stands in "double quotes".'
    yield "# When it is decided, the title says so: Why we ... instead of ..."
    yield f"title: {word(draft.title)}"
    yield prose("question", draft.question)
    yield "# What the machine should be able to do afterwards, and why that is wanted.\naim:"
    yield _in(prose("what", draft.aim), prose("because", draft.aim_because))
    yield f"about: {_listed(draft.about)}"
    yield f"findings: {_listed(draft.findings)}" if draft.findings else "# findings: [f-001]"
    yield f"policy: {draft.policy}"
    yield "# draft while you write; for-review when no blank is left and a choice is made."
    yield f"state: draft\nopened: {draft.opened}\nproposed_by: {draft.proposed_by}"
    yield "# Who judged the aspects below, and when; better somebody else than the proposer."
    yield "judged_by:\n  by:\n  date:"


def _dangers(draft: Draft) -> Iterator[str]:
    """Worksheets, hazards and options."""
    yield from _sheets(draft.sheets, draft.about)
    yield "# What could hurt somebody. Take out what is not so, and add what is."
    yield "# before: how bad it is today, 1 (death) to 4 (no working day lost), and how likely,"
    yield "# A (often) to E (hardly ever), as in 2C.\nhazards:"
    yield from map(_hazard, draft.hazards)
    yield "# after: the same grade once this option is done, and because: what makes it so; or, in"
    yield "# place of both, none: with the reason."
    yield "# likely: 0 to 4, where 4 is as good as the state that machine.yml names. Where you are"
    yield "# not sure, write low: and high: beside it. What is not touched, move to unaffected."
    yield "options:"
    yield from map(_option, draft.options)


def _end(draft: Draft) -> Iterator[str]:
    """From the choice to the last line."""
    yield "# The option's id, and the reasons as you would tell a visitor.\nchoice:"
    yield _in(*_choice(draft.choice))
    yield "# Who gains or loses by it, or: none declared\ninterests:"
    yield "# What evidence goes, and how it is recorded first; or: none\nlosses:"
    if draft.follows:
        yield f"follows: {_listed(draft.follows)}"
    yield "# The day on which somebody looks whether it held.\nlook_again:\n  date:"
    yield "# true: shown once it is agreed.\npublish: true"


def _in(*blocks: str) -> str:
    return indent("\n".join(blocks), "  ")


def _listed(names: Iterable[str]) -> str:
    return f"[{', '.join(names)}]"


def _short(name: str, text: str) -> str:
    """A field in one line; a bare name where there is nothing to write yet."""
    if not text:
        return f"{name}:"
    return f"{name}: {text if name in _NUMBERS and text.isdecimal() else word(text)}"


def _sheets(names: Sequence[str], about: Sequence[str]) -> Iterator[str]:
    """A comment that shows how a worksheet is written, with those that may be of use."""
    if names:
        yield (
            f"# Numbers to rest on: {', '.join(names)} (`witnessmark worksheet show {names[0]}`).\n"
            f"# worksheets:\n#   - id: one\n#     sheet: {names[0]}\n"
            f"#     given: {{}}\n#     bears_on: {_listed(about)}"
        )


def _hazard(hazard: Foreseen) -> str:
    rows = [
        f"id: {hazard.id}",
        _short("what", hazard.what),
        f"when: {hazard.when.value}",
        f"who: {_listed(map(word, hazard.who))}",
        _short("before", hazard.before),
    ]
    return _member(rows)


def _member(rows: Sequence[str]) -> str:
    """One member of a list, a dash before its first row and the others set in as far."""
    return f"  - {indent(chr(10).join(rows), '    ').lstrip()}"


def _option(option: OptionDraft) -> str:
    return _member(list(_option_rows(option)))


def _option_rows(option: OptionDraft) -> Iterator[str]:
    yield f"id: {option.id}"
    yield f"kind: {option.kind.value}"
    yield _short("title", option.title)
    if option.what:
        yield prose("what", option.what)
    if option.steps:
        yield "steps:\n" + "\n".join(_fields(step) for step in option.steps)
    if option.consequences:
        yield (
            "# What becomes of the parts, and undo: how far that can be taken back, 4 wholly to 0"
            " not at all.\nconsequences:\n" + "\n".join(_fields(one) for one in option.consequences)
        )
    yield "answers:\n" + _in(*_answers(option))
    yield "judged:\n" + _in(*_judged(option))
    if option.unaffected:
        yield "# One sentence each, why it stays as it is.\nunaffected:\n" + _in(
            *(_short(aspect.value, text) for aspect, text in option.unaffected.items())
        )
    if option.way_back is not None:
        yield _short("way_back", option.way_back)
    if option.hours or option.cost:
        yield "effort:\n" + _in(*_effort(option))
    yield "# If it is not chosen: why not."
    yield _short("why_not", option.why_not)


def _fields(fields: Fields) -> str:
    return _member([_short(name, text) for name, text in fields.items()])


def _answers(option: OptionDraft) -> Iterator[str]:
    for name, (grade, because) in option.answers.items():
        yield f"{name}:\n  {_short('after', grade)}\n  {_short('because', because)}"
    for name, reason in option.none.items():
        yield f"{name}:\n  {_short('none', reason)}"


def _judged(option: OptionDraft) -> Iterator[str]:
    for aspect, (level, because) in option.judged.items():
        yield f"{aspect.value}:\n  {_short('likely', level)}\n  {_short('because', because)}"


def _effort(option: OptionDraft) -> Iterator[str]:
    if option.hours:
        yield f"hours: {_listed(option.hours)}"
    if option.cost:
        yield f"cost: {_listed(option.cost)}"


def _choice(choice: ChoiceDraft) -> Iterator[str]:
    yield _short("option", choice.option)
    yield prose("because", choice.because)
    yield prose("gives_up", choice.gives_up)
    yield prose("would_change_our_mind", choice.would_change_our_mind)
    if choice.dissent and choice.dissent != "none raised":
        yield f"# Somebody disagreed: {word(choice.dissent)}\ndissent:"
    else:
        yield _short("dissent", choice.dissent)
