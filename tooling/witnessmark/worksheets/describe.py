"""Sheets and runs as plain data, for whatever prints or publishes them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeAlias

from witnessmark.worksheets.declare import (
    Caution,
    Choice,
    Each,
    Example,
    Gives,
    Input,
    Kind,
    Limit,
    NamedRow,
    Sheet,
    Source,
)
from witnessmark.worksheets.propagation import ASSUMPTIONS
from witnessmark.worksheets.reading import write_like
from witnessmark.worksheets.run import STANDING_CAUTION, Run, run
from witnessmark.worksheets.signature import inputs_of, results_of
from witnessmark.worksheets.verdict import LimitMet

Plain: TypeAlias = "str | float | bool | list[Plain] | dict[str, Plain] | None"


def describe_run(reached: Run) -> dict[str, Plain]:
    """Give a run in the shape of `worksheet run --format json`."""
    return {
        "sheet": reached.sheet,
        "results": {
            name: {"value": result.value, "unit": result.unit, "plus_minus": result.plus_minus}
            for name, result in reached.results.items()
        },
        "verdict": None if reached.verdict is None else reached.verdict.word,
        "limits": [_limit_met(limit) for limit in reached.limits],
        "cautions": list(reached.cautions),
        "assumptions": list(reached.assumptions),
        "source": reached.source,
    }


def describe_sheet(sheet: Sheet) -> dict[str, Plain]:
    """Give all that a sheet says about itself, its examples recomputed."""
    return {
        "sheet": sheet.id,
        "title": sheet.title,
        "tells": sheet.tells,
        "formula": list(sheet.formula),
        "inputs": {
            taken.name: _input(taken.kind, optional=taken.optional)
            for taken in inputs_of(sheet.equation)
        },
        "results": {name: _gives(gives) for name, gives in results_of(sheet.equation).items()},
        "limits": [_limit(limit, sheet=sheet) for limit in sheet.limits],
        "uncertainty": list(ASSUMPTIONS),
        "cautions": [
            *(_caution(caution) for caution in sheet.cautions),
            _caution(Caution(text=STANDING_CAUTION)),
        ],
        "sources": [_source(source) for source in sheet.sources],
        "examples": [_example(sheet, example) for example in sheet.examples],
        "none_found": sheet.none_found,
    }


def explain_limit(met: LimitMet) -> str:
    """Give one sentence on how a result stands to its limit."""
    band = "" if met.plus_minus is None else f" ± {met.plus_minus:.2g}"
    return (
        f"{met.result} is {met.value:.6g}{band} {met.unit} and must be {met.side.value} "
        f"{met.limit:.6g} {met.unit}: {met.verdict.word} ({met.because})."
    )


def _limit_met(met: LimitMet) -> dict[str, Plain]:
    return {
        "result": met.result,
        "side": met.side.value,
        "limit": met.limit,
        "margin": met.margin,
        "plus_minus": met.plus_minus,
        "unit": met.unit,
        "verdict": met.verdict.word,
        "explained": explain_limit(met),
    }


def _input(kind: Kind, *, optional: bool) -> dict[str, Plain]:
    told: dict[str, Plain] = {
        "meaning": kind.meaning,
        "written": write_like(kind),
        "optional": optional,
    }
    if isinstance(kind, Input):
        told |= _bounds(kind)
    if isinstance(kind, Choice):
        told["words"] = dict(kind.words)
    if names := _names(kind):
        told["rows"] = list[Plain](names)
    if isinstance(kind, Each):
        told["repeated"] = True
        told["parts"] = [{"meaning": part.meaning, **_bounds(part)} for part in kind.parts]
    return told


def _names(kind: Kind) -> list[str]:
    """Give the words that stand for a row or a quantity; of several for one class the first."""
    if isinstance(kind, NamedRow):
        return list(kind.rows)
    if isinstance(kind, Input) and kind.rows:
        first = {id(row): name for name, row in reversed(list(kind.rows.items()))}
        return [name for name in kind.rows if name in first.values()]
    return list(kind.named) if isinstance(kind, Input) else []


def _bounds(kind: Input) -> dict[str, Plain]:
    return {
        "unit": kind.unit,
        "over": kind.above,
        "least": kind.refuse_low,
        "most": kind.refuse_high,
        "cautioned_under": kind.low,
        "cautioned_over": kind.high,
        "plus_minus": kind.band.value,
    }


def _gives(gives: Gives) -> dict[str, Plain]:
    told: dict[str, Plain] = {"unit": gives.unit, "meaning": gives.meaning}
    if gives.unit_by is not None:
        name, units = gives.unit_by
        told["unit_by"] = {"input": name, "units": dict(units)}
    return told


def _limit(limit: Limit, *, sheet: Sheet) -> dict[str, Plain]:
    against = limit.against if isinstance(limit.against, str) else limit.meaning
    optional = {taken.name for taken in inputs_of(sheet.equation) if taken.optional}
    return {
        "result": limit.result,
        "side": limit.side.value,
        "against": against,
        "meaning": limit.meaning,
        "where_given": against in optional,
    }


def _caution(caution: Caution) -> dict[str, Plain]:
    return {"text": caution.text, "always": caution.when is None}


def _source(source: Source) -> dict[str, Plain]:
    return {
        "author": source.author,
        "title": source.title,
        "year": source.year,
        "clause": source.clause,
        "standing": source.standing.value,
        "note": source.note,
    }


def _example(sheet: Sheet, example: Example) -> dict[str, Plain]:
    reached = run(sheet, example.given)
    return {
        "title": example.title,
        "given": _given(example.given),
        "results": {
            name: {
                "printed": printed.value,
                "ours": reached.results[name].value,
                "unit": reached.results[name].unit,
                "ours_in_that_unit": printed.ours,
                "tolerance": printed.tolerance,
                "print_is_wrong": printed.is_wrong,
            }
            for name, printed in example.printed.items()
        },
        "source": _source(example.source),
        "note": example.note,
    }


def _given(given: Mapping[str, str | tuple[str, ...]]) -> dict[str, Plain]:
    return {name: text if isinstance(text, str) else list(text) for name, text in given.items()}
