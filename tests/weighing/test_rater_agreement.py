"""Kappa and alpha against published numbers and three independent libraries.

Sources of the tables: Cohen 1968, as quoted in the manual of the R package psych; SAS PROC FREQ
example "skin condition", and the SAS table in statsmodels' own tests; Krippendorff, Computing
Krippendorff's alpha-reliability, 2011, and the encyclopaedia example, both as given in the tests of
fast-krippendorff. Tables said to be "like ours" were made for this project. Where only exact
fractions are given they were worked out for this project and agree with the libraries here.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from fractions import Fraction

import krippendorff
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sklearn.metrics import cohen_kappa_score  # type: ignore[import-untyped]
from statsmodels.stats.inter_rater import cohens_kappa  # type: ignore[import-untyped]

from witnessmark.errors import WitnessmarkError
from witnessmark.weighing.agreement import (
    Agreement,
    Metric,
    Rating,
    Ratings,
    Slip,
    agreement_figures,
    agreement_of,
    krippendorff_alpha,
    resample_alpha,
    weighted_kappa,
)

F = Fraction
Table = Sequence[Sequence[int]]

COHEN = [[88, 14, 18], [10, 40, 10], [2, 6, 12]]
SAS_IN_STATSMODELS = [[0, 4, 1], [0, 8, 0], [0, 1, 5]]
SKIN_CONDITION = [[10, 4, 1, 0], [5, 10, 12, 2], [2, 4, 12, 5], [0, 2, 6, 13]]
LIKE_OURS = [[3, 1, 0, 0, 0], [1, 6, 2, 0, 0], [0, 2, 9, 3, 0], [0, 0, 2, 8, 1], [0, 0, 0, 1, 5]]
AGREE_85_EVENLY = [[40, 9], [6, 45]]
AGREE_85_LOPSIDED = [[80, 10], [5, 5]]
TABLES = [COHEN, SAS_IN_STATSMODELS, SKIN_CONDITION, LIKE_OURS, AGREE_85_EVENLY, AGREE_85_LOPSIDED]


def pairs_of(table: Table) -> list[tuple[F, F]]:
    """Give a table of counts (rows the first rater, columns the second) as pairs of scores."""
    return [
        (F(row), F(column))
        for row, counts in enumerate(table)
        for column, count in enumerate(counts)
        for _ in range(count)
    ]


KAPPAS = [
    pytest.param(COHEN, Slip.NONE, F(29, 59), id="cohen-plain"),
    pytest.param(COHEN, Slip.LINEAR, F(9, 19), id="cohen-linear"),
    pytest.param(COHEN, Slip.QUADRATIC, F(5, 11), id="cohen-quadratic"),
    pytest.param(SAS_IN_STATSMODELS, Slip.NONE, F(107, 221), id="sas-plain"),
    pytest.param(SAS_IN_STATSMODELS, Slip.LINEAR, F(118, 251), id="sas-linear"),
    pytest.param(SKIN_CONDITION, Slip.NONE, F(249, 722), id="skin-plain"),
    pytest.param(SKIN_CONDITION, Slip.LINEAR, F(2273, 4473), id="skin-linear"),
    pytest.param(SKIN_CONDITION, Slip.QUADRATIC, F(1371, 2075), id="skin-quadratic"),
    pytest.param(LIKE_OURS, Slip.NONE, F(917, 1489), id="ours-plain"),
    pytest.param(LIKE_OURS, Slip.LINEAR, F(969, 1255), id="ours-linear"),
    pytest.param(LIKE_OURS, Slip.QUADRATIC, F(1167, 1310), id="ours-quadratic"),
    pytest.param(AGREE_85_EVENLY, Slip.NONE, F(291, 416), id="evenly"),
    pytest.param(AGREE_85_LOPSIDED, Slip.NONE, F(7, 22), id="lopsided"),
]


@pytest.mark.parametrize(("table", "slip", "expected"), KAPPAS)
def test_every_kappa_is_exact(table: Table, slip: Slip, expected: F) -> None:
    assert expected == weighted_kappa(pairs_of(table), cost=slip)


def test_weights_of_ones_own_give_cohens_printed_kappa() -> None:
    # Cohen 1968 weighs a slip between 1 and 2 as 1, 1 and 3 as 3, 2 and 3 as 6; printed .348.
    costs = {(0, 1): 1, (0, 2): 3, (1, 2): 6}

    def cost(lower: F, upper: F) -> int:
        return costs.get((int(lower), int(upper)), 0)

    expected = F(8, 23)
    assert expected == weighted_kappa(pairs_of(COHEN), cost=cost)


@pytest.mark.parametrize("table", TABLES)
@pytest.mark.parametrize("slip", Slip)
def test_every_kappa_agrees_with_scikit_learn(table: Table, slip: Slip) -> None:
    first, second = zip(*pairs_of(table), strict=True)
    theirs = cohen_kappa_score(
        [int(score) for score in first],
        [int(score) for score in second],
        labels=list(range(len(table))),
        weights=None if slip is Slip.NONE else slip.value,
    )
    ours = weighted_kappa(pairs_of(table), cost=slip)
    assert float(theirs) == pytest.approx(float(ours or 0), abs=1e-12)


@pytest.mark.parametrize("table", TABLES)
@pytest.mark.parametrize("slip", Slip)
def test_every_kappa_agrees_with_statsmodels(table: Table, slip: Slip) -> None:
    how = {Slip.NONE: None, Slip.LINEAR: "linear", Slip.QUADRATIC: "quadratic"}[slip]
    theirs = cohens_kappa(np.array(table), wt=how).kappa
    ours = weighted_kappa(pairs_of(table), cost=slip)
    assert float(theirs) == pytest.approx(float(ours or 0), abs=1e-12)


GAP = [(F(a), F(b)) for a, b in zip([0, 1, 4, 0, 1, 4, 1], [0, 1, 1, 1, 4, 4, 1], strict=True)]


def test_a_level_nobody_used_keeps_its_place() -> None:
    # Without labels scikit-learn closes the gap and gives 0.5714.
    theirs = cohen_kappa_score(
        [int(a) for a, _ in GAP],
        [int(b) for _, b in GAP],
        labels=[0, 1, 2, 3, 4],
        weights="quadratic",
    )
    ours = weighted_kappa(GAP, cost=Slip.QUADRATIC)
    assert float(theirs) == pytest.approx(float(ours or 0), abs=1e-12)


def test_named_levels_are_counted_in_steps() -> None:
    # The levels named are those given, so the gap closes on purpose: 4/7 = 0.5714.
    expected = F(4, 7)
    assert expected == weighted_kappa(GAP, cost=Slip.QUADRATIC, levels=[F(0), F(1), F(4)])


def test_a_score_off_the_named_levels_is_refused() -> None:
    with pytest.raises(WitnessmarkError, match="The score 4 is not one of the levels named"):
        weighted_kappa(GAP, cost=Slip.LINEAR, levels=[F(0), F(1)])


@pytest.mark.parametrize("slip", Slip)
def test_kappa_has_no_meaning_where_nobody_varies(slip: Slip) -> None:
    assert weighted_kappa([(F(3), F(3))] * 9, cost=slip) is None


def test_one_raw_agreement_can_hide_two_kappas() -> None:
    # Feinstein and Cicchetti's paradox; both tables agree in 85 of 100.
    found = [agreement_of(of_pairs(pairs_of(t))) for t in (AGREE_85_EVENLY, AGREE_85_LOPSIDED)]
    expected = [(F(85, 100), F(291, 416)), (F(85, 100), F(7, 22))]
    assert expected == [(a.raw, (a.kappa or {})[Slip.NONE]) for a in found]


def of_pairs(pairs: Sequence[tuple[F, F]]) -> Ratings:
    return Ratings.of(
        Rating(f"unit-{place:03}", rater, score)
        for place, pair in enumerate(pairs)
        for rater, score in zip(("one", "two"), pair, strict=True)
    )


KRIPPENDORFF = (
    "1 2 3 3 2 1 4 1 2 * * * / 1 2 3 3 2 2 4 1 2 5 * 3"
    " / * 3 3 3 2 3 4 2 2 5 1 * / 1 2 3 3 2 4 4 1 2 5 1 *"
)
ENCYCLOPAEDIA = (
    "* * * * * 3 4 1 2 1 1 3 3 * 3 / 1 * 2 1 3 3 4 3 * * * * * * * / * * 2 1 3 4 4 * 2 1 1 3 3 * 4"
)
RATED_LIKE_OURS = "4 3 3 2 1 0 4 2 3 1 2 * / 4 3 2 2 1 1 4 3 3 * 2 4 / 3 3 3 2 2 0 * 2 4 1 2 3"


def ratings_of(text: str, *, decisions: Sequence[str] = ()) -> Ratings:
    """Give the ratings in rows (one a rater, parted by strokes) of scores (one a unit)."""
    return Ratings.of(
        Rating(f"unit-{place:02}", f"rater-{row}", F(cell), decisions[place] if decisions else None)
        for row, cells in enumerate(text.split("/"))
        for place, cell in enumerate(cells.split())
        if cell != "*"
    )


ALPHAS = [
    pytest.param(
        KRIPPENDORFF,
        (F(113, 152), F(108577, 133160), F(951, 1120)),
        id="krippendorff-2011",
    ),
    pytest.param(
        ENCYCLOPAEDIA,
        (F(56, 81), F(112173, 139048), F(643, 793)),
        id="encyclopaedia",
    ),
    pytest.param(
        RATED_LIKE_OURS,
        (F(47, 103), F(25877, 30789), F(579, 691)),
        id="like-ours",
    ),
]


@pytest.mark.parametrize(("text", "expected"), ALPHAS)
def test_every_alpha_is_exact(text: str, expected: tuple[F, F, F]) -> None:
    units = list(ratings_of(text).units.values())
    found = [krippendorff_alpha(units, metric=metric) for metric in Metric]
    assert list(expected) == found


@pytest.mark.parametrize(
    ("metric", "printed"), [(Metric.NOMINAL, "0.743"), (Metric.ORDINAL, "0.815")]
)
def test_krippendorffs_own_alphas_come_out_as_printed(metric: Metric, printed: str) -> None:
    alpha = krippendorff_alpha(ratings_of(KRIPPENDORFF).units.values(), metric=metric)
    assert printed == f"{float(alpha or 0):.3f}"


@pytest.mark.parametrize("text", [KRIPPENDORFF, ENCYCLOPAEDIA, RATED_LIKE_OURS])
@pytest.mark.parametrize("metric", Metric)
def test_every_alpha_agrees_with_the_krippendorff_library(text: str, metric: Metric) -> None:
    rows = [
        [np.nan if cell == "*" else float(cell) for cell in row.split()] for row in text.split("/")
    ]
    theirs = krippendorff.alpha(reliability_data=rows, level_of_measurement=metric.value)
    ours = krippendorff_alpha(ratings_of(text).units.values(), metric=metric)
    assert theirs == pytest.approx(float(ours or 0), abs=1e-14)


CELLS = st.one_of(st.none(), st.integers(0, 4))
GRIDS = st.integers(2, 4).flatmap(
    lambda raters: st.lists(
        st.lists(CELLS, min_size=raters, max_size=raters), min_size=2, max_size=9
    )
)
"""Units, each with one cell a rater; None where it was not scored."""


def of_grid(grid: list[list[int | None]]) -> list[Rating]:
    return [
        Rating(f"unit-{place}", f"rater-{column}", F(cell))
        for place, cells in enumerate(grid)
        for column, cell in enumerate(cells)
        if cell is not None
    ]


@settings(deadline=None, max_examples=60)
@given(GRIDS, st.sampled_from(list(Metric)))
def test_any_alpha_agrees_with_the_krippendorff_library(
    grid: list[list[int | None]], metric: Metric
) -> None:
    units = Ratings.of(of_grid(grid)).units.values()
    ours = krippendorff_alpha(units, metric=metric)
    compared = {score for scores in units if len(scores) > 1 for score in scores}
    if len(compared) <= 1:
        assert ours is None
        return
    rows = np.array([[np.nan if cell is None else cell for cell in cells] for cells in grid]).T
    theirs = krippendorff.alpha(
        reliability_data=rows.astype(float), level_of_measurement=metric.value
    )
    assert theirs == pytest.approx(float(ours or 0), abs=1e-9)


@settings(deadline=None, max_examples=40)
@given(st.lists(st.tuples(st.integers(0, 4), st.integers(0, 4)), min_size=2, max_size=12))
def test_any_kappa_agrees_with_scikit_learn(given_scores: list[tuple[int, int]]) -> None:
    pairs = [(F(a), F(b)) for a, b in given_scores]
    for slip in Slip:
        ours = weighted_kappa(pairs, cost=slip)
        if len({score for pair in pairs for score in pair}) == 1:
            assert ours is None
            continue
        theirs = cohen_kappa_score(
            [a for a, _ in given_scores],
            [b for _, b in given_scores],
            labels=[0, 1, 2, 3, 4],
            weights=None if slip is Slip.NONE else slip.value,
        )
        assert float(theirs) == pytest.approx(float(ours or 0), abs=1e-12)


def everything(agreement: Agreement) -> tuple[object, ...]:
    return (
        agreement_figures(agreement),
        agreement.raw,
        agreement.units,
        agreement.ratings,
        agreement.decisions,
        agreement.cautions,
    )


@settings(deadline=None, max_examples=15)
@given(GRIDS, st.randoms(use_true_random=False))
def test_the_order_of_rows_never_matters(
    grid: list[list[int | None]], shuffler: random.Random
) -> None:
    rows = of_grid(grid)
    expected = everything(agreement_of(Ratings.of(rows)))
    shuffler.shuffle(rows)
    assert expected == everything(agreement_of(Ratings.of(rows)))


@settings(deadline=None, max_examples=15)
@given(GRIDS)
def test_it_never_matters_which_rater_is_which(grid: list[list[int | None]]) -> None:
    expected = everything(agreement_of(Ratings.of(of_grid(grid))))
    turned = [cells[::-1] for cells in grid]
    assert expected == everything(agreement_of(Ratings.of(of_grid(turned))))


@settings(deadline=None, max_examples=30)
@given(GRIDS)
def test_turning_the_scale_round_changes_no_figure_of_agreement(
    grid: list[list[int | None]],
) -> None:
    turned = [[None if cell is None else 4 - cell for cell in cells] for cells in grid]
    ours, theirs = (Ratings.of(of_grid(each)).units.values() for each in (grid, turned))
    for metric in Metric:
        expected = krippendorff_alpha(ours, metric=metric)
        assert expected == krippendorff_alpha(theirs, metric=metric)


def test_agreement_is_given_with_what_it_rests_on() -> None:
    # By hand: unit 12 has one score only. Of the pairs of scores in units 1 to 11,
    # 3+3+6+6+6+0+6+3+6+3+1 = 43 are equal out of 3+6+6+6+6+6+6+6+6+3+1 = 55.
    found = agreement_of(ratings_of(KRIPPENDORFF))
    expected = (11, 40, F(43, 55), None, ("rater-0", "rater-1", "rater-2", "rater-3"))
    assert expected == (found.units, found.ratings, found.raw, found.kappa, found.raters)


def test_the_figures_have_the_shape_the_command_prints() -> None:
    figures = agreement_figures(agreement_of(of_pairs(pairs_of(LIKE_OURS)), seed=1))
    expected = ["alpha", "kappa", "n", "interval", "clustered"]
    assert expected == list(figures)
    assert figures["kappa"] == {"none": "917/1489", "linear": "969/1255", "quadratic": "1167/1310"}
    assert (88, False) == (figures["n"], figures["clustered"])


def test_without_variation_every_figure_is_none_and_never_one() -> None:
    figures = agreement_figures(agreement_of(of_pairs([(F(3), F(3))] * 12)))
    expected = {
        "alpha": {"nominal": None, "ordinal": None, "interval": None},
        "kappa": {"none": None, "linear": None, "quadratic": None},
        "n": 24,
        "interval": None,
        "clustered": False,
    }
    assert expected == figures


def test_without_variation_the_reader_is_told_why() -> None:
    found = agreement_of(of_pairs([(F(3), F(3))] * 12)).cautions
    expected = ("Every score is the same, so agreement beyond chance cannot be told.",)
    assert expected == found


def test_kappa_is_for_two_raters_only() -> None:
    assert agreement_figures(agreement_of(ratings_of(RATED_LIKE_OURS)))["kappa"] is None


def test_two_raters_with_nothing_in_common_have_no_figures() -> None:
    apart = Ratings.of([Rating("a", "one", F(1)), Rating("b", "two", F(2))])
    found = agreement_of(apart)
    expected = (dict.fromkeys(Slip), None, 0)
    assert expected == (found.kappa, found.raw, found.ratings)


# The libraries have no clustered bootstrap of units. The ends for unit draws were found beforehand
# by another program for this project (2,000 draws, its own seed); ours must come near.
@pytest.mark.parametrize(
    ("text", "low", "high"), [(KRIPPENDORFF, 0.42, 1.00), (RATED_LIKE_OURS, 0.57, 0.93)]
)
def test_the_interval_comes_near_that_of_another_program(
    text: str, low: float, high: float
) -> None:
    interval = agreement_of(ratings_of(text)).resampled.interval
    assert interval is not None
    assert (low, high) == pytest.approx([float(end) for end in interval], abs=0.06)


def test_the_interval_agrees_with_numpys_percentiles_of_the_librarys_alphas() -> None:
    # Same draws, alpha by the krippendorff library and percentiles by numpy.
    units = [scores for scores in ratings_of(RATED_LIKE_OURS).units.values() if len(scores) > 1]
    source = random.Random(5)  # noqa: S311 - the same draws as ours
    rows = [[*map(float, scores), *[np.nan] * (3 - len(scores))] for scores in units]
    theirs = []
    for _ in range(60):
        drawn = [rows[int(source.random() * len(rows))] for _ in rows]
        theirs.append(
            krippendorff.alpha(reliability_data=np.array(drawn).T, level_of_measurement="ordinal")
        )
    ours = resample_alpha([[unit] for unit in units], metric=Metric.ORDINAL, seed=5, draws=60)
    assert ours.interval is not None
    assert list(np.percentile(theirs, [2.5, 97.5])) == pytest.approx(
        [float(end) for end in ours.interval], abs=1e-9
    )


def test_one_seed_gives_one_interval() -> None:
    ratings = ratings_of(RATED_LIKE_OURS)
    expected = agreement_of(ratings, seed=7).resampled
    assert expected == agreement_of(ratings, seed=7).resampled


def test_another_seed_gives_other_draws() -> None:
    ratings = ratings_of(RATED_LIKE_OURS)
    assert agreement_of(ratings, seed=7).resampled != agreement_of(ratings, seed=8).resampled


def test_units_of_one_decision_are_drawn_together() -> None:
    # Two decisions of six units each: a draw is the first twice, the second twice, or one of each,
    # so the ends can only be alphas of the halves.
    homes = ["first"] * 6 + ["second"] * 6
    units = list(ratings_of(RATED_LIKE_OURS).units.values())
    halves = [
        krippendorff_alpha(half * 2, metric=Metric.ORDINAL) for half in (units[:6], units[6:])
    ]
    interval = agreement_of(ratings_of(RATED_LIKE_OURS, decisions=homes)).resampled.interval
    assert interval is not None
    expected = sorted(alpha for alpha in halves if alpha is not None)
    assert expected == list(interval)


@pytest.mark.parametrize(("homes", "drawn"), [([], "Units"), (["a", "b"] * 6, "Whole decisions")])
def test_the_reader_is_told_what_was_drawn_for_the_interval(homes: list[str], drawn: str) -> None:
    expected = (
        f"{drawn} were drawn again 2000 times; in 95 of 100 draws the ordinal alpha lay between"
        " these ends."
    )
    assert expected == agreement_of(ratings_of(RATED_LIKE_OURS, decisions=homes)).method


def test_a_single_decision_has_no_interval() -> None:
    found = agreement_of(ratings_of(RATED_LIKE_OURS, decisions=["only"] * 12))
    assert found.resampled.interval is None


def test_under_ten_decisions_are_too_few_to_say() -> None:
    homes = [f"2024-{place // 2:03}" for place in range(12)]
    found = agreement_of(ratings_of(RATED_LIKE_OURS, decisions=homes))
    expected = "Too few to say: 6 decisions judged by more than one person, and it takes 10."
    assert expected == found.too_few


@pytest.mark.parametrize(("many", "expected"), [(9, True), (10, False)])
def test_ten_decisions_are_enough(many: int, expected: bool) -> None:  # noqa: FBT001
    pairs = [(F(place % 5), F((place + place % 2) % 5)) for place in range(many)]
    assert expected == (agreement_of(of_pairs(pairs)).too_few is not None)


def test_scores_nobody_else_gave_do_not_make_enough() -> None:
    pairs = [(F(place % 5), F(place % 4)) for place in range(9)]
    lonely = [Rating(f"lonely-{place}", "one", F(2)) for place in range(20)]
    found = agreement_of(Ratings.of([*of_pairs(pairs).every, *lonely]))
    expected = 9
    assert expected == found.decisions
