"""What a fuzzer throws bytes at, and what must be true of each; `make fuzz` runs them.

The test suite runs every target over its seeds and a few changes of them, so that none goes stale.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial

from building import DECISION, POLICY, ROOT
from listing import MUSEUM, taken_or_refused
from mutating import fault_of, look
from reviewing import both, rulebook
from witnessmark.exchange.incoming.examples import EXAMPLES
from witnessmark.exchange.review import review_of
from witnessmark.exchange.review.markdown import MARKER, render_markdown
from witnessmark.model.library import Folder, assemble
from witnessmark.model.quantity import parse_quantity, parse_use
from witnessmark.model.source import read
from witnessmark.rules import cel
from witnessmark.rules.cel import ExpressionFault
from witnessmark.rules.cel_grammar import parse
from witnessmark.rules.cel_sight import at_sight
from witnessmark.rules.check import check

RECORD = {"decision": {"title": "Bushes", "about": ["a/b"], "number": 3}}


def a_file(raw: bytes) -> None:
    """Any bytes are read, and every problem has a place and a remedy."""
    look(read(f"{ROOT}/x.yml", raw).problems, {"x.yml": raw})


def checked_with(file: str, raw: bytes) -> None:
    """A museum of which one file is any bytes is checked."""
    files = {**MUSEUM.files, file: raw}
    look(check(assemble(Folder(ROOT, files)), rulebook=rulebook()).diagnostics, files)


def a_quantity(raw: bytes) -> None:
    """Any text is a quantity, or is refused with a remedy."""
    for parse_it in (parse_quantity, parse_use):
        fault = fault_of(parse_it, raw.decode("utf-8", "replace"))
        assert fault is None or (fault.message.strip() and fault.fix.strip())


def an_expression(raw: bytes) -> None:
    """Any expression is refused, or what is told of it at sight is what the engine says."""
    source = raw.decode("utf-8", "replace")
    try:
        program = cel.compile(source)
        at_once = at_sight(parse(source))(RECORD)
        told = program.decide(cel.bind(RECORD))
    except (ExpressionFault, cel.RuleFault):
        return
    assert at_once is told or not isinstance(at_once, bool)


def a_list(raw: bytes) -> None:
    """Rows of any list are taken, or left out with a reason."""
    told = taken_or_refused("findings", raw)
    rows = told.rows if told else ()
    assert [] == [row for row in rows if row.placed is None and not row.reason.strip()]


def a_review(raw: bytes) -> None:
    """What changed between the museum and the same with a decision of any bytes is told."""
    after = Folder(ROOT, {**MUSEUM.files, DECISION: raw})
    assert render_markdown(review_of(*both(MUSEUM, after))).startswith(MARKER)


TARGETS: Mapping[str, tuple[Callable[[bytes], None], tuple[bytes, ...]]] = {
    "reader": (a_file, tuple(MUSEUM.files.values())),
    "record": (partial(checked_with, DECISION), (MUSEUM.files[DECISION],)),
    "policy": (partial(checked_with, POLICY), (MUSEUM.files[POLICY],)),
    "quantity": (a_quantity, (b"65 mm", b"5 +- 0.1 thou", b"200 h running", b"-3.5 kN/m2")),
    "rule": (an_expression, (b"decision.title != ''", b"decision.about.exists(a, a == 'a/b')")),
    "list": (a_list, (EXAMPLES["findings"].csv.encode(),)),
    "review": (a_review, (MUSEUM.files[DECISION],)),
}
"""Each target with the seeds it starts from."""
