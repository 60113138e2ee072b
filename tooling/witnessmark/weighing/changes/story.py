"""How a decision changed: the versions of one record told in sentences, oldest first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise

from witnessmark.model.decision import Decision
from witnessmark.model.differences import Difference, Plain, differences, normal_form
from witnessmark.model.machine import Photo
from witnessmark.model.options import Option
from witnessmark.model.words import Aspect
from witnessmark.weighing.changes.public_fields import is_public, is_public_text

_COUNTED = {
    "worksheets": ("worksheet", "worksheets"),
    "waivers": ("waiver", "waivers"),
}


@dataclass(frozen=True)
class Told:
    """What changed on one day, in sentences."""

    day: date
    sentences: tuple[str, ...]


@dataclass(frozen=True)
class _Names:
    """What may be quoted: only what is published today; what was dropped is called just that."""

    options: Mapping[str, str]
    hazards: Mapping[str, str]

    def option(self, name: str) -> str:
        return self.options.get(name, "an option that was dropped later")

    def hazard(self, name: str) -> str:
        return self.hazards.get(name, "a hazard that was dropped later")


def how_it_changed(
    versions: Sequence[tuple[date, Decision]], *, today: Decision | None = None
) -> tuple[Told, ...]:
    """What each version changed in meaning, oldest first; a version that changed none is left out.

    `versions` are the day of each version and the record as it then stood, oldest first; `today` is
    the record as published, if other than the last. No person is named, only public fields are
    told, and titles are quoted only as they stand today.
    """
    if not versions:
        return ()
    (day, first), last = versions[0], today or versions[-1][1]
    names = _Names(
        {option.id: option.title for option in last.options},
        {hazard.id: hazard.what for hazard in last.listed_hazards},
    )
    told = [Told(day, (f"Written down, as {_word(first.state)}.",))]
    for (_, before), (later, after) in pairwise(versions):
        sentences = tuple(dict.fromkeys(_sentences(before, after, names)))
        told += [Told(later, sentences)] if sentences else []
    return tuple(told)


def _word(word: str) -> str:
    return str(word).replace("-", " ")


def _sentences(before: Decision, after: Decision, names: _Names) -> Iterator[str]:
    every = differences(normal_form(before), normal_form(after))
    found = [one for one in every if is_public(one.path)]
    old = {option.id: option for option in before.options}
    yield from _state(before, after)
    yield from _choice(before, after, names)
    yield from _options(old, {option.id: option for option in after.options}, names)
    yield from _steps(found, old, names)
    for option in after.options:
        if option.id in old:
            yield from _levels(old[option.id], option, names)
    yield from _risks(found, names)
    yield from _lists(found)
    yield from _pictures(before.photos, after.photos)
    yield from _words(found)


def _state(before: Decision, after: Decision) -> Iterator[str]:
    if before.state is not after.state:
        yield f"From {_word(before.state)} to {_word(after.state)}."
    come = len(after.agreed) - len(before.agreed)
    if come > 0:
        roles = ", ".join(_word(s.role) for s in after.agreed[len(before.agreed) :])
        yield f"Agreed to by {roles}."
    if come < 0:
        yield "Earlier agreements were taken back."


def _choice(before: Decision, after: Decision, names: _Names) -> Iterator[str]:
    was, now = before.chosen, after.chosen
    if now and (was is None or was.id != now.id):
        yield f"The choice became: {names.option(now.id)}."
    elif was and now is None:
        yield "The choice was taken back."


def _options(old: Mapping[str, Option], new: Mapping[str, Option], names: _Names) -> Iterator[str]:
    for name in new:
        if name not in old:
            yield f"An option was added: {names.option(name)}."
    for name in old:
        if name not in new:
            yield f"An option was taken out: {names.option(name)}."


def _steps(found: Sequence[Difference], old: Mapping[str, Option], names: _Names) -> Iterator[str]:
    for one in found:
        match one.path:
            case ("options", option, "steps", *_) if option in old:
                yield f"The steps changed of: {names.option(option)}."


def _levels(old: Option, new: Option, names: _Names) -> Iterator[str]:
    for aspect in Aspect:
        was, now = old.judged.get(aspect), new.judged.get(aspect)
        if was and now and was.likely != now.likely:
            moved = f"went from {was.likely} to {now.likely}"
            yield f"{aspect.value.capitalize()} {moved} for: {names.option(new.id)}."


def _risks(found: Sequence[Difference], names: _Names) -> Iterator[str]:
    for one in found:
        match one.path:
            case ("options", option, "answers", hazard, "after"):
                cells = f"went from {_cell(one.before)} to {_cell(one.after)}"
                what = names.hazard(hazard)
                yield f'The risk left {cells} for "{what}" under: {names.option(option)}.'
            case ("hazards", hazard) if one.before is None:
                yield f"A hazard was added: {names.hazard(hazard)}."
            case ("hazards", hazard) if one.after is None:
                yield f"A hazard was taken out: {names.hazard(hazard)}."


def _cell(value: Plain) -> str:
    return str(value) if value else "none"


def _lists(found: Sequence[Difference]) -> Iterator[str]:
    for head, (one, many) in _COUNTED.items():
        count = len({d.path[:2] for d in found if d.path[:1] == (head,)})
        if count:
            yield f"One {one} changed." if count == 1 else f"{count} {many} changed."
    tops = {d.path[:2] for d in found}
    if ("choice", "dissent") in tops:
        yield "The dissent on record changed."
    heads = {top[:1] for top in tops}
    if ("work",) in heads:
        yield "What was done was written down."
    if ("outcome",) in heads:
        yield "A second look was written down."


def _pictures(before: Sequence[Photo], after: Sequence[Photo]) -> Iterator[str]:
    """Pictures that are public, or were; no other is known to be there."""
    was, now = ({photo for photo in side if photo.public} for side in (before, after))
    count = len({photo.file for photo in was ^ now})
    if count:
        yield "One picture changed." if count == 1 else f"{count} pictures changed."


def _words(found: Sequence[Difference]) -> Iterator[str]:
    words = [d for d in found if is_public_text(d.path)]
    edited = sum(isinstance(d.before, str) and isinstance(d.after, str) for d in words)
    if edited:
        anew = "One passage was" if edited == 1 else f"{edited} passages were"
        yield f"{anew} worded anew."
