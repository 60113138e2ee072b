"""The options of a form, each with what follows from its kind and what was written."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Final

from witnessmark.exchange.decision_form import values
from witnessmark.exchange.decision_form.fields import LEFT, label_of
from witnessmark.exchange.decision_form.reader import Reader, one_of, parts_of, word_of
from witnessmark.exchange.decision_form.told import Told
from witnessmark.exchange.decision_form.values import UnclearError
from witnessmark.model.fields import LABEL_PATTERN
from witnessmark.model.machine import Machine
from witnessmark.model.meant import meant
from witnessmark.model.option_drafts import Fields, OptionDraft, begun
from witnessmark.model.question_sorts import Foreseen
from witnessmark.model.words import Aspect, Do, Fate, Kind, Phase

ASPECTS: Final[tuple[Aspect, ...]] = tuple(
    aspect for aspect in Aspect if aspect is not Aspect.MATERIAL
)
"""Those that people judge, in the order of the form: form, use, technique, setting, spirit."""

_LOST = ("lost", "scrap", "thrown", "not kept", "used up", "bin")
_SHOWN = ("display", "show", "case")


def options_in(
    reader: Reader, machine: Machine, about: tuple[str, ...], hazards: Sequence[Foreseen]
) -> Iterator[OptionDraft]:
    """Leaving it alone, then every option of the form that has anything written in it."""
    phases = {hazard.id: hazard.when is Phase.DOING_THE_WORK for hazard in hazards}
    left = begun(Kind.LEAVE_AS_FOUND, "Leave it as it is", about=about, hazards=phases)
    yield _judged(reader, LEFT, _risked(reader, LEFT, _left(reader, left), phases))
    taken = [left.id]
    for section in written_options(reader):
        kind = _kind(reader, section)
        if kind is None:
            continue
        title = reader.text(section, "title")
        option = begun(kind, title, about=about, hazards=phases, taken=taken)
        taken.append(option.id)
        option = _filled(reader, section, option, machine)
        yield _judged(reader, section, _risked(reader, section, option, phases))


def written_options(reader: Reader) -> list[str]:
    """The options that somebody wrote something for, in order."""
    found = {section for section, key in reader.read.answers if reader.text(section, key)}
    return sorted(section for section in found if section.startswith("option "))


def _kind(reader: Reader, section: str) -> Kind | None:
    if reader.read.given(section, "kind") is None:
        kinds = "; ".join(f"{kind.value} ({kind.definition.rstrip('.')})" for kind in Kind)
        reader.missing(section, "kind", f"Write for {section} one of: {kinds}.")
        return None
    found = reader.value(section, "kind", word_of(Kind, "kind of option"), blank="")
    return Kind.named(found) if found else None


def _left(reader: Reader, option: OptionDraft) -> OptionDraft:
    """Leaving it alone, with what becomes of the first part in question."""
    undo = reader.value(LEFT, "undo", lambda text: values.levels(text, count=1)[0], blank="")
    becomes = reader.text(LEFT, "becomes")
    given = {"becomes": becomes, "undo": undo, "because": becomes}
    first, *others = option.consequences
    kept = {**first, **{name: text for name, text in given.items() if text}}
    why_not = reader.text(LEFT, "why_not")
    # What was said once is said of the part it was said of; the others would be guessed.
    return replace(
        option, consequences=(kept, *others) if not becomes else (kept,), why_not=why_not
    )


def _filled(reader: Reader, section: str, option: OptionDraft, machine: Machine) -> OptionDraft:
    nothing: tuple[str, ...] = ()
    off = reader.value(section, "comes_off", parts_of(machine), blank=nothing)
    hours = reader.value(section, "hours", values.pair, blank=None)
    cost = reader.value(section, "cost", values.pair, blank=None)
    named = [step["part"] for step in option.steps]
    wanted = off or tuple(dict.fromkeys(named))
    steps = tuple(_steps(reader, section, option, wanted))
    return replace(
        option,
        steps=steps,
        hours=hours,
        cost=cost,
        way_back=reader.text(section, "way_back") or option.way_back,
        why_not=reader.text(section, "why_not"),
    )


def _steps(
    reader: Reader, section: str, option: OptionDraft, parts: Sequence[str]
) -> Iterator[Fields]:
    """The steps that follow from the kind, for the parts that come off, with what was written."""
    nothing: tuple[str, ...] = ()
    labels = reader.value(section, "label", _labels, blank=nothing)
    goes_in = reader.text(section, "goes_in")
    fate, place = _fate_and_place(reader, section)
    pattern = [step for step in option.steps if step["part"] == option.steps[0]["part"]]
    for number, part in enumerate(parts):
        label = labels[number] if number < len(labels) else ""
        for step in pattern:
            made = {**step, "part": part}
            if made["do"] == Do.REMOVE.value:
                made |= {"fate": fate, "label": label, "place": place}
                yield {name: text for name, text in made.items() if _asked(name, fate)}
            elif "like" in made and goes_in:
                yield {**made, "what": goes_in}
            elif "what" in made:
                yield {**made, "what": made["what"] or option.title}
            else:
                yield made


def _labels(text: str) -> tuple[str, ...]:
    """The labels, with a hyphen where somebody left a blank."""
    found = tuple("-".join(one.split()) for one in text.replace(";", ",").split(",") if one.strip())
    if odd := [one for one in found if not re.fullmatch(LABEL_PATTERN, one)]:
        raise UnclearError(
            f'"{odd[0]}" cannot stand on a label.',
            "Use letters a to z, digits and hyphens, such as WL-0001.",
        )
    return found


def _asked(name: str, fate: str) -> bool:
    """True for a field that a piece with this fate has: what is not kept has no shelf."""
    if name == "because":
        return fate == Fate.LOST.value
    return fate != Fate.LOST.value or name not in {"label", "place", "care"}


def _fate_and_place(reader: Reader, section: str) -> tuple[str, str]:
    found = reader.read.given(section, "kept_at")
    if found is None:
        return Fate.STORED.value, ""
    said = found.text.casefold()
    stores = reader.library.stores_file
    places = {p.id: p.name for p in stores.value.places} if stores and stores.value else {}
    if meant(found.text, places) is None and any(word in said for word in _LOST):
        return Fate.LOST.value, ""
    if meant(found.text, places) is None and any(word in said for word in _SHOWN):
        return Fate.DISPLAYED.value, ""
    place = reader.value(section, "kept_at", one_of(places, "store place"), blank="")
    return Fate.STORED.value, place


def _risked(
    reader: Reader, section: str, option: OptionDraft, phases: dict[str, bool]
) -> OptionDraft:
    """The option with the grades that were written, or why a danger is not there."""
    answers, none = dict(option.answers), dict(option.none)
    safe_by = "" if section == LEFT else reader.text(section, "safe_by")
    for name, at_work in phases.items():
        key = "work_risk" if at_work else "after_risk"
        if section == LEFT and at_work:
            continue
        said = reader.text(section, key).casefold().rstrip(".")
        if said.startswith(("none", "no danger", "nothing")):
            answers.pop(name, None)
            none[name] = safe_by or said.removeprefix("none").lstrip(" ,:").capitalize()
            continue
        grade = reader.value(section, key, _grade_after(safe_by), blank="")
        answers[name] = (grade, safe_by if grade else "")
    return replace(option, answers=answers, none=none)


def _grade_after(safe_by: str) -> Callable[[str], str]:
    """A reader of what is left of a danger, which knows what was done about it."""

    def read(text: str) -> str:
        found = values.grade(text)
        if found[1] == "F":
            raise UnclearError(
                f"{found} says it cannot happen at all.",
                "Write none and the reason if it is not there; else a grade from A to E.",
            )
        if found[0] in "12" and found[1] == "E" and not safe_by:
            raise UnclearError(
                f"{found} is grave if it happens, and nothing says what makes it so unlikely.",
                f"Fill in {label_of('option 1', 'safe_by')}, or write a likelier grade such as "
                f"{found[0]}D.",
            )
        return found

    return read


def _judged(reader: Reader, section: str, option: OptionDraft) -> OptionDraft:
    """The option with its five levels; without them the blanks of its kind stay."""
    nothing: tuple[str, ...] = ()
    found = reader.value(
        section, "levels", lambda text: values.levels(text, count=len(ASPECTS)), blank=nothing
    )
    if not found:
        return option
    because = reader.text(section, "levels_because")
    if not because:
        given = reader.read.given(section, "levels")
        reader.told.append(
            Told(
                line=given.line if given else 1,
                what=f"No reason is written for the five numbers of {section}.",
                why="A number without a reason tells nobody anything in ten years.",
                fix=f"Fill in {label_of(section, 'levels_because')}; or do it in the record later.",
                stops=False,
            )
        )
    judged = {aspect: (level, because) for aspect, level in zip(ASPECTS, found, strict=True)}
    return replace(option, judged=judged, unaffected={})
