"""Every worksheet's method as lines of text: what it tells, its equation and where that is from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, cast

from witnessmark.exchange.deposit.telling import wrapped
from witnessmark.worksheets import STANDING_CAUTION, built_names, describe_sheet, find_sheet


def worksheet_lines() -> Iterator[str]:
    """All worksheets in the order of their ids."""
    yield from ("THE WORKSHEETS", "==============", "")
    yield from wrapped(
        "Small calculations that decisions rely on. A record names one under `worksheets` and "
        "gives its inputs. A result beyond its limit is `beyond`; within a tenth of it `near`; "
        "where its doubt holds the limit `cannot-tell`; else `within`. " + STANDING_CAUTION,
    )
    for name in built_names():
        told = cast("Mapping[str, Any]", describe_sheet(find_sheet(name)))
        yield from ("", f"{told['sheet']}: {told['title']}")
        yield from _sheet(told)


def _sheet(told: Mapping[str, Any]) -> Iterator[str]:
    yield from _set_in(told["tells"])
    yield from (f"        {line}" for line in told["formula"])
    for name, taken in told["inputs"].items():
        unit = f" [{taken['unit']}]" if taken.get("unit") else ""
        yield from _set_in(f"in   {name}{unit}: {taken['meaning']}")
    for name, given in told["results"].items():
        yield from _set_in(f"out  {name} [{given['unit']}]: {given['meaning']}")
    for limit in told["limits"]:
        yield from _set_in(f"limit  {limit['result']} {limit['side']} {limit['meaning']}")
    for source in told["sources"]:
        words = (source["author"], source["title"], source["year"], source["clause"])
        yield from _set_in(f"source  {', '.join(str(word) for word in words if word)}")


def _set_in(text: str) -> list[str]:
    return wrapped(text, first="    ", further="        ")
