"""From what a form says to a draft of a decision: names found, figures read, the rest blank."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from witnessmark.exchange.decision_form import values
from witnessmark.exchange.decision_form.fields import CHOICE, QUESTION
from witnessmark.exchange.decision_form.options import options_in, written_options
from witnessmark.exchange.decision_form.reader import Reader, one_of, parts_of, word_of
from witnessmark.exchange.decision_form.reading import ReadForm
from witnessmark.exchange.decision_form.told import Told
from witnessmark.exchange.decision_form.values import UnclearError
from witnessmark.model.library import Library
from witnessmark.model.machine import Machine
from witnessmark.model.meant import machine_names, part_names
from witnessmark.model.new_decision import (
    ChoiceDraft,
    Draft,
    free_id,
    policy_on,
    working_title,
)
from witnessmark.model.option_drafts import OptionDraft
from witnessmark.model.question_sorts import SORTS, Foreseen, sort_of
from witnessmark.model.words import Basis, Grade, Phase

_NOBODY = frozenset({"nobody", "no", "none", "no one", "none raised"})


@dataclass(frozen=True, kw_only=True)
class FormRecord:
    """What a form gives: the machine, the draft, a finding if there is one, and what to say.

    `draft` is None where something has to be put right first.
    """

    machine: str
    draft: Draft | None
    finding: Mapping[str, str]
    told: tuple[Told, ...]


def record_of(read: ReadForm, library: Library, *, today: date) -> FormRecord:
    """The draft that a form makes in a museum, or what stands in its way, by line."""
    reader = Reader(read, library, list(read.told))
    machine = _machine(reader)
    draft = _draft(reader, machine, today) if machine else None
    finding = dict(_finding(reader))
    if not machine:
        # What can be said without the machine is said now, and not one thing a time.
        tuple(_hazards(reader))
        reader.value(QUESTION, "date", values.day, blank=today)
    told = tuple(sorted(reader.told, key=lambda one: one.line))
    stopped = any(one.stops for one in told)
    return FormRecord(machine=machine, draft=None if stopped else draft, finding=finding, told=told)


def _machine(reader: Reader) -> str:
    names = machine_names(reader.library)
    if not names:
        reader.told.append(
            Told(
                line=1,
                what="This museum has no machine yet.",
                why="A decision is about a machine.",
                fix="Enter it first: witnessmark new machine NAME.",
            )
        )
        return ""
    listed = "; ".join(name for name in names.values())
    if reader.read.given(QUESTION, "machine") is None:
        reader.missing(QUESTION, "machine", f"Write which one it is: {listed}.")
        return ""
    return reader.value(QUESTION, "machine", one_of(names, "machine"), blank="")


def _draft(reader: Reader, machine: str, today: date) -> Draft | None:
    library, whole = reader.library, reader.library.machines[machine]
    about = _about(reader, whole)
    opened = reader.value(QUESTION, "date", values.day, blank=today)
    if opened > today:
        reader.stop(
            reader.read.answers[QUESTION, "date"], QUESTION, "date",
            UnclearError(f"{opened} has not come yet.", f"Write {today}, or an earlier day."),
        )  # fmt: skip
    by = _proposer(reader)
    hazards = tuple(_hazards(reader))
    options = tuple(options_in(reader, whole, about, hazards)) if about else ()
    choice = _choice(reader, options)
    question = reader.text(QUESTION, "question")
    if not question:
        reader.missing(QUESTION, "question", "Write it as one would ask it aloud.")
    if any(one.stops for one in reader.told):
        return None
    return Draft(
        id=free_id(library, opened),
        title=working_title(whole, about),
        question=question,
        aim=reader.text(QUESTION, "aim"),
        aim_because=reader.text(QUESTION, "aim_because"),
        about=about,
        findings=(),
        policy=policy_on(library, opened),
        opened=opened,
        proposed_by=by,
        hazards=hazards,
        options=options,
        choice=choice,
        sheets=SORTS[sort_of([question, *about])].sheets,
    )


def _about(reader: Reader, machine: Machine) -> tuple[str, ...]:
    if reader.read.given(QUESTION, "parts") is None:
        listed = "; ".join(part_names(machine).values())
        reader.missing(QUESTION, "parts", f"Write which of these: {listed}.")
        return ()
    nothing: tuple[str, ...] = ()
    return reader.value(QUESTION, "parts", parts_of(machine), blank=nothing)


def _proposer(reader: Reader) -> str:
    people = {name: person.title for name, person in reader.library.people.items()}
    given = reader.value(QUESTION, "by", one_of(people, "person"), blank="")
    if reader.read.given(QUESTION, "by") is None:
        reader.missing(QUESTION, "by", f"Write your role: {'; '.join(people.values())}.")
    return given


def _hazards(reader: Reader) -> Iterator[Foreseen]:
    """The two dangers of the form; where one is left blank, the usual one of the sort."""
    texts = [reader.text(QUESTION, key) for key in ("question", "parts", "found")]
    usual = SORTS[sort_of(texts)].hazards
    for key, grade, phase, who in (
        ("work_danger", "work_before", Phase.DOING_THE_WORK, ("fitters",)),
        ("after_danger", "after_before", Phase.AFTERWARDS, ("crew", "public")),
    ):
        before = reader.value(QUESTION, grade, values.grade, blank="")
        what = reader.text(QUESTION, key)
        name = "at-work" if phase is Phase.DOING_THE_WORK else "afterwards"
        foreseen = next(hazard for hazard in usual if hazard.when is phase)
        yield Foreseen(name, what or foreseen.what, phase, who, before)


def _finding(reader: Reader) -> Iterator[tuple[str, str]]:
    """The finding's own fields, where something was found."""
    what = reader.text(QUESTION, "found")
    if not what:
        return
    measured = reader.value(QUESTION, "measured", values.quantity, blank="")
    usual = Basis.MEASURED if measured else Basis.SEEN
    yield (
        "basis",
        reader.value(QUESTION, "basis", word_of(Basis, "way of knowing"), blank=usual.value),
    )
    yield "what", what
    yield (
        "grade",
        reader.value(
            QUESTION, "grade", word_of(Grade, "grade of a finding"), blank=Grade.ACT.value
        ),
    )
    if measured:
        yield "measurement", measured
    if limit := reader.value(QUESTION, "limit", values.quantity, blank=""):
        yield "limit", limit


def _choice(reader: Reader, options: tuple[OptionDraft, ...]) -> ChoiceDraft:
    names = {option.id: option.title for option in options}
    # Where a kind was unclear there are fewer options than sections, and nothing is written anyway.
    numbered = {s: one.id for s, one in zip(written_options(reader), options[1:], strict=False)}

    def read(text: str) -> str:
        plain = " ".join(text.casefold().split())
        if plain in numbered:
            return numbered[plain]
        if plain.isdecimal() and f"option {plain}" in numbered:
            return numbered[f"option {plain}"]
        spelt = {"left alone", "leave it alone", "leave", "leave it", "alone"}
        return options[0].id if plain in spelt and options else one_of(names, "option")(text)

    dissent = reader.text(CHOICE, "dissent")
    return ChoiceDraft(
        option=reader.value(CHOICE, "option", read, blank=""),
        because=reader.text(CHOICE, "because"),
        gives_up=reader.text(CHOICE, "gives_up"),
        would_change_our_mind=reader.text(CHOICE, "would_change_our_mind"),
        dissent="none raised" if dissent.casefold().rstrip(".") in _NOBODY else dissent,
    )
