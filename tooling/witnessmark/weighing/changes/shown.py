"""How plain values and paths are shown in a sentence."""

from __future__ import annotations

from witnessmark.model.differences import Path, Plain

_LONGEST = 300


def shown(value: Plain) -> str:
    """A plain value as short text; nothing where there is nothing.

    >>> shown({"after": "2C", "controls": [{"order": "device"}]}), shown(None), shown(["a", "b"])
    ('after 2C, controls order device', '', 'a, b')
    """
    text = _text(value)
    return text if len(text) <= _LONGEST else f"{text[:_LONGEST]}\N{HORIZONTAL ELLIPSIS}"


def _text(value: Plain) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, dict):
        return ", ".join(f"{name} {_text(member)}" for name, member in value.items())
    if isinstance(value, list):
        return ", ".join(_text(member) for member in value)
    return str(value)


def field_of(path: Path) -> str:
    """A path as one name.

    >>> field_of(("options", "rebush", "steps", "remove drum/bush", "undo"))
    'options.rebush.steps.remove drum/bush.undo'
    """
    return ".".join(path)


def member_words(value: Plain, name: str) -> str:
    """What the members of a list are called, in a row."""
    members = value if isinstance(value, list) else [value]
    return ", ".join(str(one.get(name, "")) for one in members if isinstance(one, dict))
