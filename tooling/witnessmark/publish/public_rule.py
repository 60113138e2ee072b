"""What the public may see of a rule: all of it, and which published records met it or not."""

from __future__ import annotations

from dataclasses import dataclass

from witnessmark.rules.rule import CaseVerdict, RuleLevel, Scope, Source


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicCase:
    """A piece of a record that passes or is faulted; each line has its number and its mark.

    `says` are the rule's own sentences about it, each with the line it points to, 0 where it points
    to what the piece leaves out.
    """

    name: str
    verdict: CaseVerdict
    lines: tuple[tuple[int, str, bool], ...]
    says: tuple[tuple[int, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicRule:
    """One rule; the lists hold ids of published decisions and of machines.

    `policy` is the policy that holds a museum's own rule, None for one of the book. `off_because`
    is the newest policy's reason for switching it off, `held_because` for holding it as a must.
    """

    id: str
    code: str
    level: RuleLevel
    waivable: bool
    title: str
    why: str
    family: str
    scope: Scope
    sources: tuple[Source, ...]
    when: str
    holds: str
    remedy: str
    cases: tuple[PublicCase, ...]
    policy: str | None = None
    off_because: str | None = None
    held_because: str | None = None
    met_in: tuple[str, ...] = ()
    broken_in: tuple[str, ...] = ()
    waived_in: tuple[tuple[str, str], ...] = ()
    explained_in: tuple[tuple[str, str], ...] = ()
    met_by: tuple[str, ...] = ()
    broken_by: tuple[str, ...] = ()
    in_museum: bool | None = None
    """Whether the museum itself keeps it; None where it is not asked of museums."""

    @property
    def is_own(self) -> bool:
        """True for a rule that this museum set itself."""
        return self.policy is not None

    @property
    def passing(self) -> tuple[PublicCase, ...]:
        """The cases in which the rule finds nothing."""
        return tuple(case for case in self.cases if case.verdict is CaseVerdict.PASSES)

    @property
    def faulted(self) -> tuple[PublicCase, ...]:
        """The cases of which the rule complains."""
        return tuple(case for case in self.cases if case.verdict is CaseVerdict.FAULTED)


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicFamily:
    """Rules that belong together, with what they are for."""

    id: str
    title: str
    introduction: str
    rules: tuple[PublicRule, ...]
