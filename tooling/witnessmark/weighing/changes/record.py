"""The changes of one record as written, each difference told as what it means."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from witnessmark.model.decision import Decision
from witnessmark.model.differences import Difference, Path, Plain, differences, normal_form, settled
from witnessmark.model.judgement import plain
from witnessmark.model.library import DecisionFile
from witnessmark.model.prose import WORDS
from witnessmark.model.words import State
from witnessmark.weighing.changes.change import Change, Kind, Weight
from witnessmark.weighing.changes.shown import field_of, member_words, shown
from witnessmark.weighing.changes.state import state_change

PRIVATE_FIELDS = frozenset({"note", "consent", "effort", "place", "giver", "thanks"})
Teller = Callable[[Difference, Decision, str], Iterator[Change]]


def record_changes(before: DecisionFile, after: DecisionFile, *, scored: bool) -> Iterator[Change]:
    """Every change of one record but its scores, which `score_changes` tells where `scored`."""
    if after.value is None:
        says = "It can no longer be read as a decision."
        yield Change.of(Kind.UNREADABLE, after.id, "", says)
        return
    if before.value is None:
        yield Change.of(Kind.NEW, after.id, "", "It could not be read before and can be now.")
        return
    if before.machine != after.machine:
        says = f"The record moves from {before.machine} to {after.machine}: another machine."
        yield Change.of(Kind.MOVED, after.id, "", says, before=before.machine, after=after.machine)
    for one in record_differences(before, after):
        yield from _told(one, after.value, scored=scored)


def record_differences(before: DecisionFile, after: DecisionFile) -> Iterator[Difference]:
    """Where two versions of a record differ; as written, where one of them has faults."""
    if before.value and after.value and before.shaped.whole and after.shaped.whole:
        yield from differences(normal_form(before.value), normal_form(after.value))
        return
    old, new = before.shaped.document.data, after.shaped.document.data
    yield from differences(settled(plain(old)), settled(plain(new)))


def _told(one: Difference, after: Decision, *, scored: bool) -> Iterator[Change]:
    head = one.path[0] if one.path else ""
    if scored and _is_score(one.path) and not (is_prose(one.path) and _is_reworded(one)):
        return
    teller = _TELLERS.get(head)
    if teller and not (is_prose(one.path) and isinstance(one.before, str)):
        yield from teller(one, after, after.id)
    elif is_prose(one.path) and _is_text(one):
        yield _prose(one, after)
    else:
        yield _other(one, after.id)


def _is_score(path: Path) -> bool:
    """True for what is told with the scores: levels, who judged, cells and controls."""
    match path:
        case ("options", _, "judged" | "unaffected" | "not_applicable" | "answers"):
            return True
        case ("options", _, "judged", _, *rest):
            return rest in ([], ["low"], ["likely"], ["high"], ["by"])
        case ("options", _, "unaffected" | "not_applicable" | "answers", *_):
            return True
    return False


def _is_reworded(one: Difference) -> bool:
    return isinstance(one.before, str) and isinstance(one.after, str)


def _is_text(one: Difference) -> bool:
    return all(side is None or isinstance(side, str) for side in (one.before, one.after))


def is_prose(path: Path) -> bool:
    """True for a sentence for people, wherever it stands."""
    return any(step in WORDS for step in path[-1:]) or bool(
        {"unaffected", "not_applicable"} & set(path)
    )


def _prose(one: Difference, after: Decision) -> Change:
    is_public = after.publish is True and not PRIVATE_FIELDS & set(one.path)
    field = field_of(one.path)
    before, after_text = one.before or "", one.after or ""
    says = f"The words of {field} changed." if before and after_text else (
        f"Words were added: {field}." if after_text else f"Words were taken out: {field}."
    )  # fmt: skip
    return Change.of(
        Kind.PROSE, after.id, field, says, before=before, after=after_text, is_public=is_public
    )


def _other(one: Difference, record: str) -> Change:
    says = f"{field_of(one.path)} changed."
    return Change.of(
        Kind.OTHER, record, field_of(one.path), says, before=shown(one.before),
        after=shown(one.after),
    )  # fmt: skip


def _options(one: Difference, after: Decision, record: str) -> Iterator[Change]:
    del after
    depth = len(one.path)
    if depth == 1:  # one of the sides has no options at all
        for name, gone in _members(one.before).items():
            yield _option(Difference(("options", name), gone, None), record)
        for name, come in _members(one.after).items():
            yield _option(Difference(("options", name), None, come), record)
    elif depth == 2:  # noqa: PLR2004  an option as a whole
        yield _option(one, record)
    elif one.path[2] in {"steps", "consequences"}:
        yield _step(one, record)
    else:
        inside = " ".join(one.path[2:]).replace("_", " ")
        yield _sided(Kind.OPTION, one, record, f"Option {one.path[1]}: {inside} {_verb(one)}.")


def _members(value: Plain) -> Mapping[str, Plain]:
    found = value if isinstance(value, list) else []
    return {str(member.get("id")): member for member in found if isinstance(member, dict)}


def _text(member: Plain, field: str) -> str:
    return str(member.get(field, "")) if isinstance(member, dict) else ""


def _option(one: Difference, record: str) -> Change:
    whole = one.before if one.after is None else one.after
    title = whole.get("title", "") if isinstance(whole, dict) else ""
    kind = Kind.OPTION_REMOVED if one.after is None else Kind.OPTION
    verb = "is removed" if one.after is None else "is new"
    return Change.of(kind, record, field_of(one.path), f"Option {one.path[1]} {verb}: {title}")


def _step(one: Difference, record: str) -> Change:
    option, part = one.path[1], one.path[2].removesuffix("s")
    if one.path[-1] == "order":
        return _sided(Kind.STEP, one, record, f"Option {option}: the order of the steps changed.")
    if one.path[-1] == "undo":
        says = f"Option {option}: the undo level of {one.path[-2]} is set by hand."
        return _sided(Kind.UNDO, one, record, says)
    names = " ".join(one.path[3:]) or part
    says = f"Option {option}: {part} {_verb(one)}: {names}."
    return _sided(Kind.STEP, one, record, says)


def _hazards(one: Difference, after: Decision, record: str) -> Iterator[Change]:
    del after
    if len(one.path) == 1:
        now = _members(one.after)
        lost = {name: was for name, was in _members(one.before).items() if name not in now}
        for name, gone in lost.items():
            says = f"Hazard {name} is removed: {_text(gone, 'what')}"
            yield Change.of(Kind.HAZARD_REMOVED, record, f"hazards.{name}", says)
        if not lost or isinstance(one.after, dict):
            yield _sided(Kind.HAZARD, one, record, f"The list of hazards {_verb(one)}.")
        return
    name = one.path[1]
    if len(one.path) == 2:  # noqa: PLR2004  a hazard as a whole
        whole = one.before if one.after is None else one.after
        what = whole.get("what", "") if isinstance(whole, dict) else ""
        kind = Kind.HAZARD_REMOVED if one.after is None else Kind.HAZARD
        verb = "is removed" if one.after is None else "is new"
        yield Change.of(kind, record, field_of(one.path), f"Hazard {name} {verb}: {what}")
        return
    before = one.path[2] == "before"
    says = f"Hazard {name}: the risk as it is now" if before else f"Hazard {name}: {one.path[2]}"
    yield _sided(Kind.RISK if before else Kind.HAZARD, one, record, f"{says} {_verb(one)}.")


def _choice(one: Difference, after: Decision, record: str) -> Iterator[Change]:
    if one.path[1:2] == ("dissent",):
        yield from _dissent(one, record)
    elif one.path[1:2] == ("option",):
        yield _sided(Kind.CHOICE, one, record, f"{shown(one.before)} was chosen, now "
                     f"{shown(one.after)} is.")  # fmt: skip
    elif one.after is None:
        yield _sided(Kind.CHOICE, one, record, "The choice is taken out.")
    else:
        says = f"A choice is made: {after.choice.option if after.choice else ''}."
        yield _sided(Kind.CHOICE, one, record, says, weight=Weight.LOOK)


def _dissent(one: Difference, record: str) -> Iterator[Change]:
    if len(one.path) > 2 and one.after is not None and one.before is not None:  # noqa: PLR2004
        yield _sided(Kind.DISSENT, one, record, f"The dissent of {one.path[2]} changed.")
        return
    if one.after is None or isinstance(one.before, list):
        who = one.path[2] if len(one.path) > 2 else member_words(one.before, "who")  # noqa: PLR2004
        yield _sided(Kind.DISSENT_REMOVED, one, record, f"The dissent of {who} is taken out.")
        return
    who = one.path[2] if len(one.path) > 2 else member_words(one.after, "who")  # noqa: PLR2004
    yield _sided(Kind.DISSENT, one, record, f"A dissent is written down: {who}.")


def _agreed(one: Difference, after: Decision, record: str) -> Iterator[Change]:
    del after
    old, new = _by_person(one.before), _by_person(one.after)
    if len(one.path) > 2:  # noqa: PLR2004  a field of one agreement
        says = f"The agreement of {one.path[1]} was changed by hand: {one.path[2]}."
        yield _sided(Kind.AGREEMENT, one, record, says, weight=Weight.PERSON)
        return
    for name in sorted(old.keys() - new.keys()):
        says = f"The agreement of {name} is taken out."
        yield Change.of(Kind.AGREEMENT_REMOVED, record, f"agreed.{name}", says)
    for name in sorted(new.keys() - old.keys()):
        says = f"Recorded as agreed by {name} on {new[name]}."
        yield Change.of(Kind.AGREEMENT, record, f"agreed.{name}", says)


def _by_person(value: Plain) -> dict[str, str]:
    members = (m for m in (value if isinstance(value, list) else [value]) if isinstance(m, dict))
    return {f"{m.get('by')} ({m.get('role')})": str(m.get("date")) for m in members}


def _losses(one: Difference, after: Decision, record: str) -> Iterator[Change]:
    del after
    is_gone = one.after is None or (
        isinstance(one.before, list) and not isinstance(one.after, list)
    )
    if is_gone:
        what = one.path[1] if len(one.path) > 1 else member_words(one.before, "what")
        yield _sided(Kind.LOSS_REMOVED, one, record, f"A listed loss is taken out: {what}")
    else:
        yield _sided(Kind.FABRIC, one, record, f"The list of losses {_verb(one)}.")


def _simple(kind: Kind, name: str) -> Teller:
    def tell(one: Difference, after: Decision, record: str) -> Iterator[Change]:
        del after
        inside = " ".join(one.path[1:])
        says = f"{name} {_verb(one)}" + (f": {inside}." if inside else ".")
        yield _sided(kind, one, record, says)

    return tell


def _state(one: Difference, after: Decision, record: str) -> Iterator[Change]:
    del after
    known = {str(state) for state in State}
    if one.before in known and one.after in known:
        yield state_change(record, State.named(one.before), State.named(one.after))


def _publish(one: Difference, after: Decision, record: str) -> Iterator[Change]:
    if after.publish is True:
        said = "" if after.is_settled else " It is shown from its agreement on."
        yield _sided(Kind.PUBLIC, one, record, f"The record is to be published.{said}")
    else:
        yield _sided(Kind.PRIVATE, one, record, "The record is no longer published.")


def _photos(one: Difference, after: Decision, record: str) -> Iterator[Change]:
    del after
    was = isinstance(one.before, dict) and bool(one.before.get("public"))
    now = isinstance(one.after, dict) and bool(one.after.get("public"))
    if one.path[-1] == "public":
        was, now = bool(one.before), bool(one.after)
    if isinstance(one.after, list):
        now = any(_text(member, "public") == "True" for member in one.after)
    if now and not was:
        yield _sided(
            Kind.PUBLIC, one, record, f"A picture becomes public: {' '.join(one.path[1:2])}."
        )
    else:
        yield _sided(Kind.EVIDENCE, one, record, f"A picture {_verb(one)}.")


def _nothing(one: Difference, after: Decision, record: str) -> Iterator[Change]:
    """What `sign` writes beside an agreement is told with the seals."""
    del one, after, record
    yield from ()


def _sided(
    kind: Kind, one: Difference, record: str, says: str, *, weight: Weight | None = None
) -> Change:
    return Change.of(
        kind, record, field_of(one.path), says, weight=weight, before=shown(one.before),
        after=shown(one.after),
    )  # fmt: skip


def _verb(one: Difference) -> str:
    if one.before is None:
        return "is new"
    return "is taken out" if one.after is None else "changed"


_TELLERS: Mapping[str, Teller] = {
    "options": _options,
    "hazards": _hazards,
    "choice": _choice,
    "agreed": _agreed,
    "losses": _losses,
    "state": _state,
    "publish": _publish,
    "photos": _photos,
    "reckoned": _nothing,
    "judged_by": _simple(Kind.SCORE, "Who judged, or when,"),
    "policy": _simple(Kind.POLICY, "The policy that the record is weighed under"),
    "departs_from_policy": _simple(Kind.POLICY, "The departure from the policy of its day"),
    "findings": _simple(Kind.EVIDENCE, "The findings it rests on"),
    "worksheets": _simple(Kind.EVIDENCE, "A worksheet"),
    "sources": _simple(Kind.EVIDENCE, "A source"),
    "waivers": _simple(Kind.WAIVER, "A waiver"),
    "explained": _simple(Kind.WAIVER, "An explanation"),
    "accepted_risk": _simple(Kind.WAIVER, "An accepted risk"),
    "work": _simple(Kind.WORK, "The work"),
    "outcome": _simple(Kind.WORK, "The outcome"),
    "look_again": _simple(Kind.WORK, "The second look"),
    "emergency": _simple(Kind.WAIVER, "The emergency"),
}
