"""Thread sizes and bolt strengths against printed tables.

Sources, beside each check: public copies of the proof load and tensile load tables of ISO 898-1;
Carvill, Mechanical Engineer's Data Handbook, page 313 (root areas); public tables of BSW and BSF
core diameters; the boltport copy of BS 1083, table 1 (threads to the inch).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

import pytest

from witnessmark.model.thread import parse_thread
from witnessmark.worksheets.declare import CannotCompute
from witnessmark.worksheets.property_classes import property_classes
from witnessmark.worksheets.screw_threads import _table, screw

IN2 = 25.4**2
CLASSES = ("4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9")

# ISO 898-1, table of proof loads, N, coarse threads, by class as above; read in a public copy.
PROOF_LOADS = {
    3: (5.03, 1130, 1560, 1410, 1910, 2210, 2920, 3270, 4180, 4880),
    4: (8.78, 1980, 2720, 2460, 3340, 3860, 5100, 5710, 7290, 8520),
    5: (14.2, 3200, 4400, 3980, 5400, 6250, 8230, 9230, 11800, 13800),
    6: (20.1, 4520, 6230, 5630, 7640, 8840, 11600, 13100, 16700, 19500),
    7: (28.9, 6500, 8960, 8090, 11000, 12700, 16800, 18800, 24000, 28000),
    8: (36.6, 8240, 11400, 10200, 13900, 16100, 21200, 23800, 30400, 35500),
    10: (58.0, 13000, 18000, 16200, 22000, 25500, 33700, 37700, 48100, 56300),
    12: (84.3, 19000, 26100, 23600, 32000, 37100, 48900, 54800, 70000, 81800),
    14: (115, 25900, 35600, 32200, 43700, 50600, 66700, 74800, 95500, 112000),
    16: (157, 35300, 48700, 44000, 59700, 69100, 91000, 102000, 130000, 152000),
    18: (192, 43200, 59500, 53800, 73000, 84500, 115000, None, 159000, 186000),
    20: (245, 55100, 76000, 68600, 93100, 108000, 147000, None, 203000, 238000),
    22: (303, 68200, 93900, 84800, 115000, 133000, 182000, None, 252000, 294000),
    24: (353, 79400, 109000, 98800, 134000, 155000, 212000, None, 293000, 342000),
    27: (459, 103000, 142000, 128000, 174000, 202000, 275000, None, 381000, 445000),
}
# ISO 898-1, table of least tensile loads, N, by class; read in a public copy of a bolt seller.
TENSILE_LOADS = {
    12: (33700, 35400, 42200, 43800, 50600, 67400, 75900, 87700, 103000),
    20: (98000, 103000, 122000, 127000, 147000, 203000, None, 255000, 299000),
    36: (327000, 343000, 408000, 425000, 490000, 678000, None, 850000, 997000),
}
# Carvill, page 313: root areas in square inches.
ROOT_AREAS = {
    "UNC": "1/4 .0269,5/16 .0454,3/8 .0678,7/16 .0933,1/2 .1257,9/16 .162,5/8 .202,3/4 .302,"
    "7/8 .419,1 .551,1 1/4 .890,1 1/2 1.294",
    "UNF": "1/4 .0326,5/16 .0524,3/8 .0809,7/16 .1090,1/2 .1485,9/16 .1890,5/8 .240,3/4 .351,"
    "7/8 .480,1 .625,1 1/4 1.024",
}
# Core diameters in inches of public BSW and BSF tables.
CORES = {
    "BSW": "1/4 .1860,5/16 .2414,3/8 .2950,7/16 .3460,1/2 .3933,5/8 .5086,3/4 .6219,7/8 .7327,"
    "1 .8399,1 1/4 1.0670,1 1/2 1.2866",
    "BSF": "1/4 .2007,5/16 .2543,3/8 .3110,7/16 .3664,1/2 .4200,5/8 .5335,3/4 .6433,7/8 .7586,"
    "1 .8719,1 1/4 1.1077,1 1/2 1.3399",
}


def loads(table: Mapping[int, tuple[float | None, ...]]) -> list[tuple[int, str, float]]:
    return [
        (size, name, load)
        for size, row in table.items()
        for name, load in zip(CLASSES, row[-len(CLASSES) :], strict=True)
        if load is not None
    ]


def rows(table: dict[str, str]) -> Iterator[tuple[str, float]]:
    for series, text in table.items():
        for entry in text.split(","):
            size, _, figure = entry.rpartition(" ")
            yield f"{size} {series}", float(figure)


@pytest.mark.parametrize(("size", "name", "load"), loads(PROOF_LOADS))
def test_stress_area_times_proof_stress_is_the_proof_load_of_the_standard(
    size: int, name: str, load: float
) -> None:
    strength = property_classes()[name].at(size, name="proof_stress")
    ours = screw(parse_thread(f"M{size}")).stress_area * float(strength.proof)
    # The standard keeps three figures, and sometimes cuts where it should round.
    assert load == pytest.approx(ours, rel=6e-3)


@pytest.mark.parametrize(("size", "name", "load"), loads(TENSILE_LOADS))
def test_stress_area_times_tensile_strength_is_the_tensile_load_of_the_standard(
    size: int, name: str, load: float
) -> None:
    strength = property_classes()[name].at(size, name="proof_stress")
    ours = screw(parse_thread(f"M{size}")).stress_area * float(strength.tensile)
    assert load == pytest.approx(ours, rel=6e-3)


@pytest.mark.parametrize(("size", "row"), list(PROOF_LOADS.items()))
def test_metric_areas_are_those_the_standard_prints(size: int, row: tuple[float, ...]) -> None:
    assert row[0] == screw(parse_thread(f"M{size}")).stress_area


@pytest.mark.parametrize(("thread", "area"), list(rows(ROOT_AREAS)))
def test_unified_root_areas_agree_with_a_handbook(thread: str, area: float) -> None:
    assert area == pytest.approx(screw(parse_thread(thread)).core_area / IN2, rel=2.5e-3)


@pytest.mark.parametrize(("thread", "core"), list(rows(CORES)))
def test_whitworth_cores_agree_with_printed_tables(thread: str, core: float) -> None:
    assert core == pytest.approx(screw(parse_thread(thread)).root / 25.4, abs=1e-4)


def printed_areas() -> Iterator[tuple[str, float]]:
    table = _table()
    for size, coarse in table.metric_coarse.items():
        if coarse.area is not None:
            yield f"M{size}", float(coarse.area)
    for fine in table.metric_fine:
        yield f"M{float(fine.size):g}x{float(fine.pitch):g}", float(fine.area)
    for series in ("UNC", "UNF"):
        for size, row in table.inch[series].items():
            if row.area is not None:
                yield f"{size} {series}", float(row.area) * IN2


@pytest.mark.parametrize(("written", "area"), list(printed_areas()))
def test_a_printed_area_is_the_formula_rounded(written: str, area: float) -> None:
    thread = parse_thread(written)
    size = screw(thread)
    assert area == pytest.approx(size.stress_area)
    stress = size.diameter - (0.9382 if size.is_metric else 0.9743) * size.pitch
    assert area == pytest.approx(math.pi / 4 * stress**2, rel=7e-3)


def test_every_inch_size_has_the_same_diameter_in_each_series() -> None:
    # BS 1083, table 1, and ASME B1.1: 1/2 in is the one size whose BSW and UNC threads differ.
    inch = _table().inch
    shared = inch["BSW"].keys() & inch["UNC"].keys()
    differ = {s for s in shared if inch["BSW"][s].per_inch != inch["UNC"][s].per_inch}
    assert {"1/2"} == differ


@pytest.mark.parametrize(
    ("written", "pitch"),
    [("M16", 2.0), ("M16x1.5", 1.5), ("5/8 BSW", 25.4 / 11), ("2 UNC", 25.4 / 4.5)],
)
def test_a_thread_named_without_its_pitch_gets_the_coarse_one(written: str, pitch: float) -> None:
    assert pitch == pytest.approx(screw(parse_thread(written)).pitch)


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("M13", "hold no pitch"),
        ("13/16 BSW", "hold no pitch"),
        ("1/2-13 BSW", "has 12"),
        ("1/2-12 UNC", "has 13"),
        ("M2x1.9", "leaves no core"),
    ],
)
def test_a_thread_that_cannot_be_right_is_refused(written: str, words: str) -> None:
    with pytest.raises(CannotCompute, match=words):
        screw(parse_thread(written))


def test_a_metric_pitch_of_no_table_is_reckoned_and_known_as_such() -> None:
    size = screw(parse_thread("M16x1.25"))
    assert (False, False) == (size.listed, size.printed)
    assert math.pi / 4 * (16 - 0.9382 * 1.25) ** 2 == pytest.approx(size.stress_area)


@pytest.mark.parametrize(
    ("name", "size", "proof"),
    [("8.8", 16, 580), ("8.8", 16.001, 600), ("class 8.8", 20, 600), ("class: 4.6", 20, 225)],
)
def test_a_class_changes_where_the_standard_says(name: str, size: float, proof: int) -> None:
    assert proof == property_classes()[name].at(size, name="proof_stress").proof


@pytest.mark.parametrize(("name", "size"), [("9.8", 18), ("8.8", 42)])
def test_a_class_beyond_its_sizes_is_refused(name: str, size: float) -> None:
    with pytest.raises(CannotCompute, match="only up to"):
        property_classes()[name].at(size, name="proof_stress")
