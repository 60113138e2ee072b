"""Museums mutated at random: no traceback, no hang, every diagnostic with a place and a remedy."""

from __future__ import annotations

import resource
import sys
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from building import POLICY, ROOT
from mutating import (
    KIND,
    MUSEUMS,
    PUBLIC,
    WAYS,
    bytes_changed,
    fault_of,
    in_time,
    look,
    mutated,
    tokens_changed,
)
from reviewing import both, rulebook, side
from witnessmark.exchange.review import review_of
from witnessmark.exchange.review.markdown import MARKER, render_markdown
from witnessmark.model.library import Folder, assemble
from witnessmark.model.quantity import parse_quantity, parse_use
from witnessmark.model.source import read
from witnessmark.publish import render
from witnessmark.rules.check import check

MEGABYTES = 500


def megabytes() -> float:
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most / (2**20 if sys.platform == "darwin" else 2**10)


def check_and_render(folder: Folder) -> bool:
    """Whether the museum was fit to be rendered, and was."""
    library = assemble(folder)
    checked = check(library, rulebook=rulebook())
    look(checked.diagnostics, dict(folder.files))
    if any(one.level.value == "error" for one in checked.diagnostics):
        return False
    # Each page is made when it is asked for, so all of them are.
    pages = dict(render(library, rulebook=rulebook(), as_of=date(2026, 1, 1), skin="plain"))
    assert "index.html" in pages
    return True


@pytest.mark.parametrize("way", WAYS)
def test_a_museum_mutated_by(way: str) -> None:
    before, rendered = megabytes(), []

    @settings(KIND, max_examples=MUSEUMS // len(WAYS))
    @given(mutated((way,)))
    def every(folder: Folder) -> None:
        with in_time():
            rendered.append(check_and_render(folder))

    every()
    assert any(rendered) or way != "texts"
    assert MEGABYTES > megabytes() - before


@settings(KIND, max_examples=MUSEUMS // 4)
@given(st.sampled_from(sorted(PUBLIC)), st.data())
def test_the_reader_raises_nothing_and_places_everything(file: str, data: st.DataObject) -> None:
    change = data.draw(st.sampled_from([bytes_changed, tokens_changed]))
    raw = data.draw(st.one_of(change(PUBLIC[file].encode()), st.binary(max_size=300)))
    with in_time():
        document = read(f"{ROOT}/x.yml", raw)
    look(document.problems, {"x.yml": raw})


_PIECES = st.sampled_from(
    ["65", "0", "-1", "1e400", "1e-400", ".5", "5/8", "1/0", "±", "+-", "%", "mm", "kN", "m/s2",
     "°C", "-300", "h", "running", "BSW", "thou", "ton", " ", "9" * 400, "µm", "x", "^", "*"]
)  # fmt: skip


@settings(KIND, max_examples=MUSEUMS * 2)
@given(st.one_of(st.text(max_size=40), st.lists(_PIECES, max_size=8).map(" ".join)))
def test_a_quantity_is_read_or_refused_with_a_remedy(text: str) -> None:
    for parse in (parse_quantity, parse_use):
        with in_time():
            fault = fault_of(parse, text)
        assert fault is None or (fault.message.strip() and fault.fix.strip())


RULE = """\
own_rules:
  - id: own
    code: WM901
    level: should
    title: A title
    why: A reason
    family: our-own
    scope: {scope}
    sources:
      - {{text: Ours, clause: '1', edition: '2020', standing: current, confidence: own-judgement}}
    {when}holds: {holds}
    message: A message
    remedy: A remedy
    cases:
      - {{name: one, verdict: passes, record: "title: A long title"}}
"""
_SIGNS = r"""
    decision.title size(decision.title) 1 0 'x' true == != < && || ! ( ) [ ] . , ? : in options
    .all(o, .exists(o, o.id 'a'.matches( '(a+)+$' 9223372036854775807 + * / % { } null has(
    undefined \ ' -
"""
_CEL = st.sampled_from(_SIGNS.split())


@settings(KIND, max_examples=MUSEUMS // 2)
@given(
    st.sampled_from(["decision", "option", "step", "machine", "museum", "finding", "planet"]),
    st.one_of(st.lists(_CEL, max_size=12).map(" ".join), st.text(max_size=30)),
    st.sampled_from(["", "when: true", "when: 1", "when"]),
)
def test_a_rule_of_the_house_is_used_or_refused_with_a_remedy(
    scope: str, holds: str, when: str
) -> None:
    quoted = "'" + holds.replace("'", "''") + "'"
    rule = RULE.format(scope=scope, holds=quoted, when=f"{when}\n    " if when else "")
    files = {file: text.encode() for file, text in PUBLIC.items()}
    files[POLICY] += rule.encode("utf-8", "replace")
    with in_time():
        check_and_render(Folder(ROOT, files))


@settings(KIND, max_examples=MUSEUMS // 8)
@given(mutated(), mutated())
def test_a_review_of_two_mutated_museums_is_told(base: Folder, head: Folder) -> None:
    with in_time():
        told = render_markdown(review_of(*both(base, head)))
    assert render_markdown(review_of(side(base, label="base"), side(head, label="head"))) == told
    assert told.startswith(MARKER)
