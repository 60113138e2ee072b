"""What changed in meaning between two versions of a decision."""

from witnessmark.weighing.changes.change import Change, Kind, Weight
from witnessmark.weighing.changes.ranking import ranking_changes
from witnessmark.weighing.changes.record import record_changes
from witnessmark.weighing.changes.scores import score_changes
from witnessmark.weighing.changes.story import Told, how_it_changed

__all__ = [
    "Change",
    "Kind",
    "Told",
    "Weight",
    "how_it_changed",
    "ranking_changes",
    "record_changes",
    "score_changes",
]
