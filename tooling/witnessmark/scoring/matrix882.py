"""The risk matrix: from severity and probability to a level of risk, as data nobody edits.

Source: US Department of Defense, MIL-STD-882E, System Safety, 11 May 2012, Table III (public
domain), with Tables I and II for the words; read in public transcriptions that agree on every
cell, not in the standard's own file.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType


class RiskLevel(StrEnum):
    """The level of risk of one cell, gravest first."""

    HIGH = "High"
    SERIOUS = "Serious"
    MEDIUM = "Medium"
    LOW = "Low"
    ELIMINATED = "Eliminated"


SEVERITY: Mapping[int, tuple[str, str]] = MappingProxyType(
    {
        1: ("Catastrophic", "death or lasting total disability"),
        2: ("Critical", "lasting partial disability, or three or more people in hospital"),
        3: ("Marginal", "an injury with one or more lost working days"),
        4: ("Negligible", "an injury without a lost working day"),
    }
)
PROBABILITY: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "A": ("Frequent", "likely to occur often"),
        "B": ("Probable", "will occur several times"),
        "C": ("Occasional", "likely to occur some time"),
        "D": ("Remote", "unlikely, but possible"),
        "E": ("Improbable", "so unlikely that it may be assumed not to occur"),
        "F": ("Eliminated", "cannot occur: the hazard has been removed"),
    }
)
_H, _S, _M, _L = RiskLevel.HIGH, RiskLevel.SERIOUS, RiskLevel.MEDIUM, RiskLevel.LOW
_ROWS: Mapping[str, tuple[RiskLevel, RiskLevel, RiskLevel, RiskLevel]] = MappingProxyType(
    {
        "A": (_H, _H, _S, _M),
        "B": (_H, _H, _S, _M),
        "C": (_H, _S, _M, _L),
        "D": (_S, _M, _M, _L),
        "E": (_M, _M, _M, _L),
    }
)
LEVEL_OF_RISK: Mapping[RiskLevel, int] = MappingProxyType(
    {
        RiskLevel.HIGH: 0,
        RiskLevel.SERIOUS: 1,
        RiskLevel.MEDIUM: 2,
        RiskLevel.LOW: 3,
        RiskLevel.ELIMINATED: 4,
    }
)
"""Risk to the 0 to 4 scale: the museum's own translation."""


def risk_level(cell: str) -> RiskLevel:
    """The level of risk of a cell written severity then probability.

    >>> risk_level("2C"), risk_level("3E")
    (<RiskLevel.SERIOUS: 'Serious'>, <RiskLevel.MEDIUM: 'Medium'>)
    """
    severity, probability = int(cell[0]), cell[1]
    if probability == "F":
        return RiskLevel.ELIMINATED
    return _ROWS[probability][severity - 1]


def cell_words(cell: str) -> str:
    """A cell in plain words.

    >>> cell_words("2C")
    '2C (critical, occasional: serious risk)'
    """
    severity, probability = SEVERITY[int(cell[0])][0], PROBABILITY[cell[1]][0]
    level = risk_level(cell)
    risk = "no risk left" if level is RiskLevel.ELIMINATED else f"{level.value.lower()} risk"
    return f"{cell} ({severity.lower()}, {probability.lower()}: {risk})"


def cell_in_full(cell: str) -> str:
    """A cell for a reader who does not know the codes: what could happen and how likely, code last.

    >>> cell_in_full("3D")
    'medium risk: an injury with one or more lost working days; unlikely, but possible (3D)'
    >>> cell_in_full("3F")
    'no risk left: it cannot occur, as the hazard has been removed (3F)'
    """
    level = risk_level(cell)
    if level is RiskLevel.ELIMINATED:
        return f"no risk left: it cannot occur, as the hazard has been removed ({cell})"
    harm, likely = SEVERITY[int(cell[0])][1], PROBABILITY[cell[1]][1]
    return f"{level.value.lower()} risk: {harm}; {likely} ({cell})"
