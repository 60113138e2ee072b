"""Every field and every closed word, as lines of text, from the notes and lists in the model."""

from __future__ import annotations

from collections.abc import Iterator
from types import MappingProxyType
from typing import Any, get_args, get_type_hints

from pydantic import BaseModel

from witnessmark.exchange.deposit.telling import wrapped
from witnessmark.exchange.schema import KINDS
from witnessmark.model.field_notes import CHOICES, note_of
from witnessmark.model.words import CLOSED_WORDS
from witnessmark.weighing.words import Standing, VerdictWord
from witnessmark.worksheets.verdict import Verdict

_HEADS = MappingProxyType({"True": "true", "False": "false"})


def field_lines() -> Iterator[str]:
    """Every field of every kind of file, with what it means and whether it is public."""
    yield from ("EVERY FIELD", "===========", "")
    yield from (
        "Each kind of file first, then what stands inside its fields. A field called",
        "Public is shown on the site and in public deposits; a Private one is not.",
    )
    for model, title in _models():
        yield from ("", *wrapped(title), "-" * 40)
        for field in _written(model):
            yield from _wrapped(f"{field}: {note_of(model, field)}")


def _written(model: type[BaseModel]) -> Iterator[str]:
    return (info.alias or name for name, info in model.model_fields.items())


def _models() -> Iterator[tuple[type[BaseModel], str]]:
    """Each model once, a kind of file before what lies in it."""
    seen: set[type[BaseModel]] = set()
    for root, what in KINDS.values():
        waiting: list[tuple[type[BaseModel], str]] = [(root, what)]
        while waiting:
            model, title = waiting.pop(0)
            if model in seen:
                continue
            seen.add(model)
            yield model, title
            waiting += _inside(model)


def _inside(model: type[BaseModel]) -> Iterator[tuple[type[BaseModel], str]]:
    kinds = get_type_hints(model, include_extras=True)
    for name, info in model.model_fields.items():
        for inner in _models_of(kinds[name]):
            doc = (inner.__doc__ or "").strip().splitlines()[0].rstrip(".")
            yield inner, f"Inside `{info.alias or name}`: {doc}"


def _models_of(kind: Any) -> Iterator[type[BaseModel]]:  # noqa: ANN401  any type
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        yield kind
    for inner in get_args(kind):
        yield from _models_of(inner)


def word_lines() -> Iterator[str]:
    """Every word of a closed list, with its meaning."""
    yield from ("EVERY WORD OF THE CLOSED LISTS", "==============================")
    closed: tuple[Any, ...] = (*CLOSED_WORDS, Standing, VerdictWord)
    for words in closed:
        yield from ("", f"{words.__name__}: {(words.__doc__ or '').partition(chr(10))[0]}")
        for word in words:
            yield from _wrapped(f"{word.value}: {word.definition}")
    yield from ("", "How a worksheet's result stands to its limit.")
    for verdict in Verdict:
        yield from _wrapped(f"{verdict.word}: {verdict.value}.")
    for field, meanings in CHOICES.items():
        yield from ("", f"{field.rpartition('.')[2]}, where it is one word.")
        for said, meaning in meanings.items():
            yield from _wrapped(f"{_HEADS.get(str(said), said)}: {meaning}")


def _wrapped(text: str) -> list[str]:
    return wrapped(text, first="  ", further="      ")
