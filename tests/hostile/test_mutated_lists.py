"""Lists mutated at random: every row is accounted for, nothing that is there is written over."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from listing import taken_or_refused
from mutating import KIND, MUSEUMS, PUBLIC, bytes_changed, in_time, tokens_changed
from witnessmark.cli.bring_in import KINDS
from witnessmark.exchange.incoming.examples import EXAMPLES

CELLS = st.sampled_from(
    ["", " ", "winch", "drum/bush", "../x", "2024-02-30", "3.4.2024", "fitter", "seen", "act",
     "=1+1", "a: b", "a #b", "- x", "&a", "*a", "!!x", "|", "{", "\u202e", "x" * 3000, "NO", "0x1",
     "0.74 mm", "1/0", "\n", '"', "'", "#", "as-built", "wear", "Drum", "drum", "7", "-7", "1e9"]
)  # fmt: skip


@st.composite
def lists(draw: st.DrawFn, kind: str) -> bytes:
    """Our own example of a list with bytes or words changed, or its headers over any cells."""
    example = EXAMPLES[kind].csv
    way = draw(st.sampled_from(["bytes", "tokens", "cells"]))
    if way == "bytes":
        return draw(bytes_changed(example.encode()))
    if way == "tokens":
        return draw(tokens_changed(example.encode()))
    header = ",".join(draw(st.permutations(KINDS[kind].fields)))
    width = len(KINDS[kind].fields)
    rows = draw(st.lists(st.lists(CELLS, min_size=width - 1, max_size=width + 1), max_size=6))
    quoted = (",".join('"' + cell.replace('"', '""') + '"' for cell in row) for row in rows)
    return "\n".join([header, *quoted]).encode("utf-8", "replace")


def is_within(old: str, new: str) -> bool:
    """True where every line of the old text still stands in the new one, in its order."""
    rest = iter(new.splitlines())
    return all(line in rest for line in old.splitlines())


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_every_row_of_a_list_is_taken_or_left_out_with_a_reason(kind: str) -> None:
    @settings(KIND, max_examples=MUSEUMS // 10)
    @given(lists(kind), st.booleans())
    def every(raw: bytes, by_map: bool) -> None:  # noqa: FBT001  drawn
        with in_time():
            told = taken_or_refused(kind, raw, by_map=by_map)
        if told is None:
            return
        assert [] == [row for row in told.rows if row.placed is None and not row.reason.strip()]
        for name, text in told.texts.items():
            assert is_within(PUBLIC.get(name, ""), text), name

    every()
