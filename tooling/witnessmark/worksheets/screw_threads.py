"""The sizes of a named screw thread that decide its strength, in millimetres.

ISO 68-1 and ISO 898-1 for metric threads, ASME B1.1 for unified, BS 84 for Whitworth form. Areas
are those a standard prints, rounded as it prints them, since its loads are worked out from those;
by formula where none is printed.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from witnessmark.model.fields import Exact, Written
from witnessmark.model.thread import Thread, ThreadSeries
from witnessmark.worksheets.declare import CannotCompute, Source
from witnessmark.worksheets.table_reading import WrittenTable, read_table

_INCH = Fraction("25.4")
# Depths in pitches. 60 degrees: ISO 68-1 (1998) and ASME B1.1: effective diameter 3/4 H under the
# nominal (twice 3/8 H), nut minor 5/4 H under it, H = sqrt(3)/2 p. Bolt root: ISO 68-1, 17/12 H
# (d3 = d - 1.226869 p); ASME B1.1, 3/2 H. Seen in public tables, or from memory.
_H60 = math.sqrt(3) / 2
_EFFECTIVE_60, _NUT_60 = 0.75 * _H60, 1.25 * _H60
_ROOT_ISO, _ROOT_UNIFIED = 17 / 12 * _H60, 1.5 * _H60
# Whitworth form, BS 84: depth 0.640327 p, the same for bolt and nut (seen in public tables).
_DEPTH_55 = 0.640327
# Stress diameters: ISO 898-1 (2013), d - 0.9382 p; ASME B1.1, D - 0.9743 p.
_STRESS_ISO, _STRESS_UNIFIED = 0.9382, 0.9743
_FLANK_60, _FLANK_55 = math.radians(30), math.radians(27.5)


@dataclass(frozen=True, slots=True, kw_only=True)
class Screw:
    """A thread with its sizes in millimetres and areas in square millimetres.

    `root` is the minor diameter of the bolt, `nut_minor` that of the nut; `flank` is half the
    thread angle in radians. `printed` tells whether a standard prints the area.
    """

    series: ThreadSeries
    diameter: float
    pitch: float
    effective: float
    root: float
    nut_minor: float
    flank: float
    stress_area: float
    printed: bool
    listed: bool

    @property
    def core_area(self) -> float:
        """The area at the root of the bolt."""
        return math.pi / 4 * self.root**2

    @property
    def is_metric(self) -> bool:
        """Tell whether it is an ISO metric thread."""
        return self.series is ThreadSeries.M

    @property
    def is_whitworth(self) -> bool:
        """Tell whether it is of Whitworth form."""
        return self.series in (ThreadSeries.BSW, ThreadSeries.BSF)


class _Coarse(Written):
    pitch: Exact
    area: Exact | None = None


class _Fine(Written):
    size: Exact
    pitch: Exact
    area: Exact


class _Inch(Written):
    per_inch: Exact
    area: Exact | None = None


class _Threads(WrittenTable):
    metric_coarse: dict[str, _Coarse]
    metric_fine: tuple[_Fine, ...]
    inch: dict[str, dict[str, _Inch]]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """What the table holds of a thread: pitch in mm, area in mm2 where one is printed."""

    pitch: Fraction
    area: Fraction | None


def _table() -> _Threads:
    return read_table("screw-threads", kind=_Threads)


def sources() -> tuple[Source, ...]:
    """Give the sources of the table."""
    return _table().cited()


def screw(thread: Thread) -> Screw:
    """Give the sizes of a thread; refuse what no table holds and no pitch is given for."""
    rows = _metric_rows(thread) if thread.series is ThreadSeries.M else _inch_rows(thread)
    row = next((row for row in rows if thread.pitch in (None, row.pitch)), None)
    pitch = row.pitch if row is not None else _pitch_as_given(thread, rows=rows)
    area = None if row is None else row.area
    return _screw(thread, pitch=float(pitch), area=area, listed=row is not None)


def _metric_rows(thread: Thread) -> list[_Row]:
    """Give the rows of a metric size, the coarse one first."""
    table = _table()
    coarse = [
        _Row(pitch=row.pitch, area=row.area)
        for size, row in table.metric_coarse.items()
        if Fraction(size) == thread.diameter
    ]
    fine = [
        _Row(pitch=row.pitch, area=row.area)
        for row in table.metric_fine
        if row.size == thread.diameter
    ]
    return coarse + fine


def _inch_rows(thread: Thread) -> list[_Row]:
    return [
        _Row(pitch=_INCH / row.per_inch, area=None if row.area is None else row.area * _INCH**2)
        for size, row in _table().inch[thread.series.name].items()
        if _inches(size) * _INCH == thread.diameter
    ]


def _inches(written: str) -> Fraction:
    return sum((Fraction(piece) for piece in written.split()), Fraction(0))


def _pitch_as_given(thread: Thread, *, rows: list[_Row]) -> Fraction:
    """Give the pitch of a thread the table does not hold; never one that belongs to another."""
    if thread.pitch is None:
        raise CannotCompute(
            "thread",
            message=f"The tables here hold no pitch for '{thread.written}'.",
            fix="Write the pitch too, as in M13x1.5 or 7/16-14 UNC, or check the size.",
        )
    if rows and thread.series is not ThreadSeries.M:
        right = float(_INCH / rows[0].pitch)
        raise CannotCompute(
            "thread",
            message=(
                f"'{thread.written}' names {float(_INCH / thread.pitch):g} threads to the inch; "
                f"{thread.series.name} of that size has {right:g}."
            ),
            fix="Check the series with a thread gauge: BSW and UNC share sizes, not angles.",
        )
    return thread.pitch


def _screw(thread: Thread, *, pitch: float, area: Fraction | None, listed: bool) -> Screw:
    d = float(thread.diameter)
    if thread.series in (ThreadSeries.BSW, ThreadSeries.BSF):
        effective, root, flank = d - _DEPTH_55 * pitch, d - 2 * _DEPTH_55 * pitch, _FLANK_55
        nut_minor, stress = root, (effective + root) / 2
    else:
        is_metric = thread.series is ThreadSeries.M
        effective, flank = d - _EFFECTIVE_60 * pitch, _FLANK_60
        root = d - (_ROOT_ISO if is_metric else _ROOT_UNIFIED) * pitch
        nut_minor = d - _NUT_60 * pitch
        stress = d - (_STRESS_ISO if is_metric else _STRESS_UNIFIED) * pitch
    if root <= 0:
        raise CannotCompute(
            "thread",
            message=f"A thread of pitch {pitch:g} mm leaves no core in {d:g} mm.",
            fix="Check the size and the pitch.",
        )
    return Screw(
        series=thread.series,
        diameter=d,
        pitch=pitch,
        effective=effective,
        root=root,
        nut_minor=nut_minor,
        flank=flank,
        stress_area=math.pi / 4 * stress**2 if area is None else float(area),
        printed=area is not None,
        listed=listed,
    )
