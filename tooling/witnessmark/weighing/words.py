"""The closed words of a weighing: how an option stands, and how sure the result is."""

from __future__ import annotations

from enum import StrEnum
from typing import Self


class _Word(StrEnum):
    """A word of a closed list, with its definition."""

    definition: str

    def __new__(cls, word: str, definition: str) -> Self:
        """Make a member that equals its word and knows its meaning."""
        member = str.__new__(cls, word)
        member._value_ = word
        member.definition = definition
        return member


class Standing(_Word):
    """How an option stands among all the weights anybody could hold."""

    BEST = "best", "It has the highest value at the policy's weights."
    SUPPORTED = "supported", "Other weights than the policy's would make it the best."
    TOUCHING = "touching", "At some weights it ties for best; nowhere is it best alone."
    UNSUPPORTED = "unsupported", "No other option is as good throughout, yet no weights favour it."
    DOMINATED = "dominated", "Another option is as good on every criterion and better on one."
    SET_ASIDE = "set-aside", "It was ruled out before weighing, and the reason is given."
    NOT_SCORED = "not-scored", "A score is missing, so it could not be weighed."


class VerdictWord(_Word):
    """How sure the result of a weighing is."""

    FIRM = "firm", "Best throughout the policy's ranges, very likely, and no one step changes it."
    HOLDS = "holds", "Best at the policy's weights and likely to be the best."
    CLOSE = "close", "Best at the policy's weights, but the doubt in the scores could change it."
    TIED = "tied", "Two or more options have exactly the same highest value."
    ONLY_ONE_LEFT = "only-one-left", "One option is left, so nothing was weighed against it."
    NONE_LEFT = "none-left", "Every option was set aside or could not be scored."
