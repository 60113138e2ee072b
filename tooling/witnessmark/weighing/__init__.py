"""Which option leads, under which values, and how surely."""

from __future__ import annotations

from witnessmark.weighing.figures import option_figures, weighing_figures
from witnessmark.weighing.flips import Flip
from witnessmark.weighing.floors import below_a_floor
from witnessmark.weighing.leading import Leading, who_leads
from witnessmark.weighing.matrix import MOST_OPTIONS, Matrix, read_matrix, weigh_matrix
from witnessmark.weighing.nearest import Nearest
from witnessmark.weighing.option import CRITERIA, Option, Range, Scores, Weights
from witnessmark.weighing.ordinal import OrderTest
from witnessmark.weighing.outcome import Lifted, Weighed
from witnessmark.weighing.partition import Partition, Territory
from witnessmark.weighing.simplex import Region, weights_at
from witnessmark.weighing.verdict import Verdict, in_a_hundred
from witnessmark.weighing.weigh import Weighing, weigh
from witnessmark.weighing.weighting import EVEN_STEPS, Floors, Ranges, Weighting
from witnessmark.weighing.words import Standing, VerdictWord

__all__ = [
    "CRITERIA",
    "EVEN_STEPS",
    "MOST_OPTIONS",
    "Flip",
    "Floors",
    "Leading",
    "Lifted",
    "Matrix",
    "Nearest",
    "Option",
    "OrderTest",
    "Partition",
    "Range",
    "Ranges",
    "Region",
    "Scores",
    "Standing",
    "Territory",
    "Verdict",
    "VerdictWord",
    "Weighed",
    "Weighing",
    "Weighting",
    "Weights",
    "below_a_floor",
    "in_a_hundred",
    "option_figures",
    "read_matrix",
    "weigh",
    "weigh_matrix",
    "weighing_figures",
    "weights_at",
    "who_leads",
]
