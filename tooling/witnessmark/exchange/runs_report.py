"""Whether a machine runs today, in words, with the reasons and what it is not."""

from __future__ import annotations

from witnessmark.exchange.text_table import folded
from witnessmark.rules.runs_today import Runs, RunsToday

ANSWERS = {
    Runs.NOT_KEPT_RUNNING: "It is not kept running.",
    Runs.STANDS: "No, it stands.",
    Runs.WITH_LIMITS: "Within limits.",
    Runs.RUNS: "Nothing in the records holds it.",
}


def render_runs(found: RunsToday) -> str:
    """The answer, its reasons one below the other, and that it is no certificate."""
    lines = folded(f"Does {found.machine} run on {found.on}? {ANSWERS[found.runs]}")
    for reason in found.reasons:
        lines += folded(reason.says, indent="  - ", rest="    ")
    return "\n".join([*lines, *folded(found.notice)])
