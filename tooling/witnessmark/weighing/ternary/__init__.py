"""The map of all weights: which option leads where, as plain geometry for a drawing."""

from __future__ import annotations

from witnessmark.weighing.ternary.labels import MARK_ROOM, Label
from witnessmark.weighing.ternary.spots import HEIGHT, UNIT, WIDTH, Box, Spot, in_units, spot_of
from witnessmark.weighing.ternary.weights_map import Area, TernaryMap, ternary_map

__all__ = [
    "HEIGHT",
    "MARK_ROOM",
    "UNIT",
    "WIDTH",
    "Area",
    "Box",
    "Label",
    "Spot",
    "TernaryMap",
    "in_units",
    "spot_of",
    "ternary_map",
]
