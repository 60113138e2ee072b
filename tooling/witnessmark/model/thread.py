"""Screw threads as a drawing names them: `M16x1.5`, `3/4-10 UNC`, `5/8 BSW`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from witnessmark.model.quantity import QuantityFault

_MM_PER_INCH = Fraction("25.4")  # exact: the international yard and pound, 1959

_METRIC = re.compile(r"M(?P<size>\d+(?:\.\d+)?)(?: ?x ?(?P<pitch>\d+(?:\.\d+)?))?", re.ASCII)
_INCH = re.compile(
    r"(?:(?P<whole>\d+)(?: (?=\d+/)|-(?=\d+/)|(?=[ -])))?(?:(?P<top>\d+)/(?P<bottom>\d+))?"
    r"(?:-(?P<per_inch>\d+))? (?P<series>UNC|UNF|BSW|BSF)",
    re.ASCII,
)


class ThreadSeries(Enum):
    """The families of thread a record may name; the text says what each is."""

    M = "ISO metric, 60 degrees"
    UNC = "unified coarse, 60 degrees"
    UNF = "unified fine, 60 degrees"
    BSW = "British Standard Whitworth, 55 degrees"
    BSF = "British Standard Fine, 55 degrees"


@dataclass(frozen=True, slots=True, kw_only=True)
class Thread:
    """A named thread; `pitch` is None where the name leaves it to the standard's own table."""

    series: ThreadSeries
    diameter: Fraction  # mm, nominal
    pitch: Fraction | None  # mm
    written: str


def parse_thread(text: str) -> Thread:
    """Give the thread that the text names.

    >>> parse_thread("3/4-10 UNC").pitch
    Fraction(127, 50)
    """
    tidy = " ".join(text.split()).replace("\N{MULTIPLICATION SIGN}", "x")
    if metric := _METRIC.fullmatch(tidy):
        diameter, pitch = Fraction(metric["size"]), metric["pitch"]
        return _thread(text, ThreadSeries.M, diameter, Fraction(pitch) if pitch else None)
    if inch := _INCH.fullmatch(tidy):
        return _inch_thread(inch, written=text)
    raise _not_a_thread(text)


def _inch_thread(found: re.Match[str], *, written: str) -> Thread:
    if found["bottom"] and not int(found["bottom"]):
        raise _not_a_thread(written)
    part = Fraction(int(found["top"]), int(found["bottom"])) if found["top"] else Fraction(0)
    diameter = (int(found["whole"] or 0) + part) * _MM_PER_INCH
    per_inch = int(found["per_inch"] or 0)
    pitch = _MM_PER_INCH / per_inch if per_inch else None
    return _thread(written, ThreadSeries[found["series"]], diameter, pitch)


def _thread(
    written: str, series: ThreadSeries, diameter: Fraction, pitch: Fraction | None
) -> Thread:
    if not diameter or pitch == 0 or (pitch is not None and pitch >= diameter):
        raise _not_a_thread(written)
    return Thread(series=series, diameter=diameter, pitch=pitch, written=written)


def _not_a_thread(written: str) -> QuantityFault:
    return QuantityFault(
        f"'{written}' does not name a thread known here.",
        fix="Write it as in M12, M16x1.5, 3/4-10 UNC, 5/8 BSW or 1/2 BSF.",
    )
