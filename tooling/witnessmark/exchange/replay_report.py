"""Past decisions under another policy, as text for a terminal and as JSON for other programs."""

from __future__ import annotations

from collections.abc import Sequence

from witnessmark.exchange.text_table import folded, render_table
from witnessmark.weighing.replay import Replayed


def replay_as_json(policy: str, replayed: Sequence[Replayed]) -> dict[str, object]:
    """Give every past decision: what was chosen, who led then, who leads under the policy."""
    return {
        "policy": policy,
        "changed": sum(one.is_changed for one in replayed),
        "decisions": [
            {
                "decision": one.decision,
                "machine": one.machine,
                "chosen": one.chosen,
                "then": None if one.then is None else list(one.then),
                "now": None if one.now is None else list(one.now),
                "changed": one.is_changed,
            }
            for one in replayed
        ],
    }


def render_replay(policy: str, replayed: Sequence[Replayed]) -> str:
    """Give the table of past decisions, those that come out otherwise marked."""
    if not replayed:
        return "No decision of this museum was agreed yet, so there is nothing to work out anew."
    changed = sum(one.is_changed for one in replayed)
    lines = [
        f"Under policy {policy}, {changed} of {len(replayed)} past decisions would change.",
        "",
    ]
    heading = ["decision", "machine", "chosen", "led then", "leads now", "changed"]
    lines += render_table(heading, [_row(one) for one in replayed])
    lines += [
        "",
        *folded(
            "Scores, floors and weights are all read from that policy. Past decisions stand as they"
            " were agreed; this shows what the policy would mean, not what should be done again."
        ),
    ]
    return "\n".join(lines)


def _row(one: Replayed) -> list[str]:
    return [
        one.decision,
        one.machine,
        one.chosen or "nothing",
        _led(one.then),
        _led(one.now),
        "yes" if one.is_changed else "no",
    ]


def _led(winners: tuple[str, ...] | None) -> str:
    """Give who leads; nothing is weighed where a policy has no weights for such a machine."""
    if winners is None:
        return "not weighed"
    return " and ".join(winners) or "none left"
