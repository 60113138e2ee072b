"""Published decisions weighed anew under every other policy of the museum."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from witnessmark.model.library import Library
from witnessmark.publish.public_across import PublicReplay, PublicReplays
from witnessmark.publish.shown_names import Names
from witnessmark.publish.shown_options import letters_of
from witnessmark.weighing.case import Case
from witnessmark.weighing.replay import Replayed, replay, under_policy


def replays_of(case: Case, *, library: Library, names: Names) -> Iterator[tuple[str, PublicReplay]]:
    """One decision under each policy but its own, with the policy's id."""
    for policy in library.policies:
        if policy != case.decision.policy:
            (found,) = replay([case], under=under_policy(policy, library=library))
            yield policy, _public(found, case, names)


def _public(found: Replayed, case: Case, names: Names) -> PublicReplay:
    letters = letters_of(case.decision)
    called = {o.id: f"{letters[o.id]}: {o.title}" for o in case.decision.options}
    return PublicReplay(
        decision=found.decision,
        title=case.decision.title,
        machine_name=names.machine(found.machine),
        policy=case.decision.policy,
        chosen=called.get(found.chosen or "", "nothing"),
        then=_named(found.then, called),
        now=_named(found.now, called),
    )


def _named(options: tuple[str, ...] | None, called: Mapping[str, str]) -> tuple[str, ...] | None:
    return None if options is None else tuple(sorted(called[name] for name in options))


def public_replays(
    library: Library, found: Iterable[tuple[str, PublicReplay]]
) -> tuple[PublicReplays, ...]:
    """The replays of all decisions by policy, the newest policy first."""
    by_policy: dict[str, list[PublicReplay]] = {}
    for policy, one in found:
        by_policy.setdefault(policy, []).append(one)
    newest = sorted(
        library.policies.items(), key=lambda pair: (pair[1].valid_from, pair[0]), reverse=True
    )
    return tuple(
        PublicReplays(
            policy=name,
            title=policy.title,
            decisions=tuple(sorted(by_policy[name], key=lambda one: one.decision)),
        )
        for name, policy in newest
        if name in by_policy
    )
