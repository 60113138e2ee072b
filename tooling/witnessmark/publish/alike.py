"""What several options share on a decision's page, so that it is said once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from witnessmark.publish.public_decision import PublicAspect, PublicOption
from witnessmark.publish.shown_names import listed


@dataclass(frozen=True, slots=True)
class Alike:
    """The letters of options whose aspect came out alike for the same reason, and that aspect."""

    letters: str
    aspect: PublicAspect


def alike(options: Sequence[PublicOption], place: int) -> Iterator[Alike]:
    """The options by what is said of one aspect, in the order of their first letters.

    `place` is the aspect's, the same in every option.
    """
    groups: dict[tuple[str | None, str, str, str | None], list[PublicOption]] = {}
    for option in options:
        one = option.aspects[place]
        told = (one.score.text if one.score else None, one.how, one.because, one.by)
        groups.setdefault(told, []).append(option)
    for found in groups.values():
        letters = "All" if len(found) == len(options) > 1 else listed([o.letter for o in found])
        yield Alike(letters, found[0].aspects[place])


def only_judge(options: Sequence[PublicOption]) -> str | None:
    """Who judged every aspect that was judged; None where several did, or nobody."""
    judges = {one.by for option in options for one in option.aspects if one.by}
    return judges.pop() if len(judges) == 1 else None
