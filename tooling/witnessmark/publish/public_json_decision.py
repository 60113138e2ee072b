"""A decision as public data."""

from __future__ import annotations

from witnessmark.publish.public_decision import PublicDecision, PublicOption, PublicScore
from witnessmark.publish.public_json_values import Data, plain, rows, without
from witnessmark.publish.public_weighing import PublicWeighed, PublicWeighing


def decision_data(decision: PublicDecision) -> dict[str, Data]:
    """Every field of a decision that is no drawing and no sentence made for its page."""
    return {
        "id": decision.id,
        "machine": decision.machine,
        "machine_name": decision.machine_name,
        "kept": plain(decision.kept),
        "title": decision.title,
        "question": decision.question,
        "aim": {"what": decision.aim, "because": decision.aim_because},
        "about": plain(decision.places),
        "findings": plain(decision.findings),
        "policy": decision.policy,
        "departs_from_policy": decision.departs_from_policy,
        "state": plain(decision.state),
        "opened": plain(decision.opened),
        "settled": plain(decision.settled),
        "until": plain(decision.until),
        "proposed_by": decision.proposed_by,
        "judged_by": decision.judged_by,
        "no_hazards": decision.no_hazards,
        "options": [_option(option) for option in decision.options],
        "choice": _choice(decision),
        "losses": rows(decision.losses, "what", "recorded_by"),
        "no_losses": decision.no_losses,
        "weighing": _weighing(decision.weighing) if decision.weighing else None,
        "worksheets": [_worksheet(sheet) for sheet in map(_fields_of, decision.sheets)],
        "rules": _rules(decision),
        "precedents": _precedents(decision),
        "emergency": decision.emergency,
        "work": _work(decision),
        "old_parts": plain(decision.old_parts),
        "outcomes": rows(decision.outcomes, "day", "by", "what"),
        "look_again": {"day": plain(decision.look_again), "after": decision.look_after},
        "unknown": plain(decision.unknown),
        "agreed": plain(decision.agreed),
        "timeline": rows([(e.day, e.what, e.is_ahead) for e in decision.timeline], *_EVENT),
        "pictures": plain(decision.pictures),
        "replaced_by": decision.replaced_by,
        "replaces": decision.replaces,
        "file": decision.file,
        "revision": plain(decision.revision),
    }


_EVENT = ("day", "what", "is_ahead")


def _option(option: PublicOption) -> dict[str, Data]:
    own = without(
        option, "aspects", "scores", "changed", "effort", "answers", "aside", "undone_means"
    )
    return own | {
        "changed": rows(option.changed, "part", "what"),
        "set_aside": plain(option.aside),
        "effort": rows(option.effort, "what", "how_much"),
        "hazards": [
            without(answer, "controls") | {"controls": rows(answer.controls, "order", "what")}
            for answer in option.answers
        ],
        "aspects": [without(row, "score") | {"score": _score(row.score)} for row in option.aspects],
        "scores": [
            {"criterion": plain(word), "score": _score(score)} for word, score in option.scores
        ],
    }


def _score(score: PublicScore | None) -> Data:
    """A score; where there is none the three levels are null and `withheld` says why."""
    if score is None:
        return None
    levels = (score.low, score.likely, score.high) if score.is_given else (None, None, None)
    return {
        **dict(zip(("low", "likely", "high"), map(plain, levels), strict=True)),
        "facts": plain(score.facts),
        "withheld": plain(score.withheld),
    }


def _choice(decision: PublicDecision) -> dict[str, Data]:
    return {
        "option": decision.chosen.id if decision.chosen else None,
        "because": decision.because,
        "gives_up": decision.gives_up,
        "would_change_our_mind": decision.would_change_our_mind,
        "dissent": rows(decision.dissent, "who", "what", "answer"),
        "departs_from_ranking": decision.departs_from_ranking,
        "accepted_risk": rows([decision.accepted_risk], "by", "because", "until")[0]
        if decision.accepted_risk
        else None,
    }


def _weighing(weighing: PublicWeighing) -> dict[str, Data]:
    said = ("lead", "flips", "stability", "doubt", "steps", "others", "aside")
    return {
        "verdict": plain(weighing.word),
        "said": {name: plain(getattr(weighing, name)) for name in said},
        "options": [_weighed(row) for row in weighing.rows],
    }


def _weighed(row: PublicWeighed) -> dict[str, Data]:
    return without(row, "letter", "shade", "is_chosen")


def _fields_of(sheet: object) -> dict[str, Data]:
    return without(sheet, "tells", "formula", "is_known", "relied_on_by")


def _worksheet(sheet: dict[str, Data]) -> dict[str, Data]:
    """A worksheet; its inputs and results are rows of name, value and meaning."""
    named: dict[str, Data] = {}
    for part in ("given", "results"):
        found = sheet[part]
        named[part] = rows(found, "name", "value", "meaning") if isinstance(found, list) else []
    return sheet | named


def _rules(decision: PublicDecision) -> dict[str, Data]:
    return {
        "met": [name for name, _ in decision.met],
        "broken": [name for name, _ in decision.broken],
        "waived": plain(decision.waived),
        "explained": plain(decision.explained),
    }


def _precedents(decision: PublicDecision) -> list[Data]:
    """Earlier decisions named by this one; who departs from one gives the reason."""
    named = [
        (earlier, "departs-from" if because else "follows", because or None)
        for earlier, because in decision.precedents
    ]
    return rows(named, "decision", "how", "because")


def _work(decision: PublicDecision) -> Data:
    if decision.started is None:
        return None
    return {
        "started": plain(decision.started),
        "ended": plain(decision.ended),
        "by": plain(decision.done_by),
        "as_done": plain(decision.as_done),
        "departures": plain(decision.departures),
    }
