"""What rules see, scope by scope; a promise to everybody who writes a rule, changed with care."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

from witnessmark.rules.rule import Scope
from witnessmark.rules.view_decision import DecisionView, FactsView
from witnessmark.rules.view_machine import FindingView, MachineView, MuseumView, WholeMachineView
from witnessmark.rules.view_option import OptionView, StepView

if TYPE_CHECKING:
    from collections.abc import Mapping

Context: TypeAlias = dict[str, object]
"""The names an expression may use, each with a JSON-shaped value of its view."""

_DECISION: dict[str, type] = {
    "decision": DecisionView,
    "machine": MachineView,
    "facts": FactsView,
}

VARIABLES: Mapping[Scope, Mapping[str, type]] = {
    Scope.MUSEUM: {"museum": MuseumView},
    Scope.MACHINE: {"machine": WholeMachineView},
    Scope.FINDING: {"finding": FindingView, "machine": MachineView},
    Scope.DECISION: {**_DECISION, "options": list[OptionView], "chosen": list[OptionView]},
    Scope.OPTION: {**_DECISION, "option": OptionView},
    Scope.STEP: {**_DECISION, "step": StepView},
}
"""For each scope, the names its rules may use and the types that describe them.

`chosen` holds the chosen option, or nothing.
"""
