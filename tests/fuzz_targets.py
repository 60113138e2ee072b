"""What a fuzzer throws bytes at, and what must be true of each; `make fuzz` runs them.

The test suite runs every target over its seeds and a few changes of them, so that none goes stale.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from building import DECISION, POLICY, ROOT
from mutating import PUBLIC, fault_of, look
from reviewing import both, rulebook
from witnessmark.cli.bring_in import KINDS
from witnessmark.errors import WitnessmarkError
from witnessmark.exchange.incoming.column_map import read_map
from witnessmark.exchange.incoming.examples import EXAMPLES
from witnessmark.exchange.incoming.table import read_table
from witnessmark.exchange.incoming.taking import take
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

FILES = {file: text.encode() for file, text in PUBLIC.items()}
MUSEUM = Folder(ROOT, FILES)
RECORD = {"decision": {"title": "Bushes", "about": ["a/b"], "number": 3}}


def a_file(raw: bytes) -> None:
    """Any bytes are read, and every problem has a place and a remedy."""
    look(read(f"{ROOT}/x.yml", raw).problems, {"x.yml": raw})


def a_record(raw: bytes) -> None:
    """A museum whose decision is any bytes is checked."""
    files = {**FILES, DECISION: raw}
    look(check(assemble(Folder(ROOT, files)), rulebook=rulebook()).diagnostics, files)


def a_policy(raw: bytes) -> None:
    """A museum whose policy, with rules of its own, is any bytes is checked."""
    files = {**FILES, POLICY: raw}
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
    kind = KINDS["findings"]
    try:
        found = read_map(EXAMPLES["findings"].map.encode(), file="map.yml", fields=kind.fields)
        table = read_table(raw, file="list.csv", separator=found.separator)
        told = take(MUSEUM, table, found, lay=kind.lay, source="list.csv", rulebook=rulebook())
    except WitnessmarkError as fault:
        refusal: WitnessmarkError = fault
    else:
        assert [] == [row for row in told.rows if row.placed is None and not row.reason.strip()]
        return
    assert refusal.remedy.strip()


def a_review(raw: bytes) -> None:
    """What changed between the museum and the same with a decision of any bytes is told."""
    after = Folder(ROOT, {**FILES, DECISION: raw})
    assert render_markdown(review_of(*both(MUSEUM, after))).startswith(MARKER)


TARGETS: Mapping[str, tuple[Callable[[bytes], None], tuple[bytes, ...]]] = {
    "reader": (a_file, tuple(FILES.values())),
    "record": (a_record, (FILES[DECISION],)),
    "policy": (a_policy, (FILES[POLICY],)),
    "quantity": (a_quantity, (b"65 mm", b"5 +- 0.1 thou", b"200 h running", b"-3.5 kN/m2")),
    "rule": (an_expression, (b"decision.title != ''", b"decision.about.exists(a, a == 'a/b')")),
    "list": (a_list, (EXAMPLES["findings"].csv.encode(),)),
    "review": (a_review, (FILES[DECISION],)),
}
"""Each target with the seeds it starts from."""
