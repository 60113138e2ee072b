"""Thread names as drawings write them, against the pitches their names state."""

from __future__ import annotations

from fractions import Fraction

import pytest

from witnessmark.model.quantity import QuantityFault
from witnessmark.model.thread import parse_thread


@pytest.mark.parametrize(
    ("text", "series", "diameter", "pitch"),
    [
        ("M12", "M", "12", None),
        ("M16x1.5", "M", "16", "1.5"),
        ("M16 \N{MULTIPLICATION SIGN} 1.5", "M", "16", "1.5"),
        # An inch is 25.4 mm exactly; 10 threads to the inch is a pitch of 2.54 mm.
        ("3/4-10 UNC", "UNC", "19.05", "2.54"),
        ("1/4-28 UNF", "UNF", "6.35", "127/140"),
        ("5/8 BSW", "BSW", "15.875", None),
        ("1/2 BSF", "BSF", "12.7", None),
        ("1 BSW", "BSW", "25.4", None),
        ("1 1/4 BSW", "BSW", "31.75", None),
        ("1-8 UNC", "UNC", "25.4", "3.175"),
        ("1-1/4-7 UNC", "UNC", "31.75", "127/35"),
    ],
)
def test_a_thread_is_read_from_its_name(
    text: str, series: str, diameter: str, pitch: str | None
) -> None:
    thread = parse_thread(text)
    expected = (series, Fraction(diameter), None if pitch is None else Fraction(pitch), text)
    assert expected == (thread.series.name, thread.diameter, thread.pitch, thread.written)


@pytest.mark.parametrize(
    "text", ["", "12", "M0", "M6x7", "0/4 BSW", "3/0 BSW", "-10 UNC", "5/8", "5/8 bsw", "16 mm"]
)
def test_a_name_that_is_no_thread_is_refused_with_a_pattern(text: str) -> None:
    with pytest.raises(QuantityFault, match="5/8 BSW"):
        parse_thread(text)
