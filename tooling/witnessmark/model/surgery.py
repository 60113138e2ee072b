"""Changing a record's text in one place: comments, order and layout stay as they are."""

from __future__ import annotations

from typing import Any

from witnessmark.errors import RefusedError
from witnessmark.model.diagnostics import field_name
from witnessmark.model.edits import at, is_same, put
from witnessmark.model.source import Document, read

Path = tuple[str | int, ...]


def with_scalar(document: Document, path: Path, value: str) -> Document:
    """The document with the word at a path replaced by another.

    Raises:
        RefusedError: something else would change with it.
    """
    start, end = document.span(path)
    if start.line != end.line:
        raise RefusedError(
            f"{document.file}: the word to change spans lines.", remedy="Write it on one line."
        )
    lines = document.text.splitlines(keepends=True)
    line = lines[start.line - 1]
    lines[start.line - 1] = line[: start.column - 1] + value + line[end.column - 1 :]
    return _only_changing(document, "".join(lines), str(path[0]))


def with_item(document: Document, key: str, item: str) -> Document:
    """The document with one more member in a top-level block list, which is begun if missing.

    A member of several lines is written as if it stood at the left edge; all of it is set in.

    Raises:
        RefusedError: the list is not written one member a line, or something else would change.
    """
    data = _data(document)
    end = "\r\n" if "\r\n" in document.text else "\n"
    if not data.get(key):
        without = _without_blank(document, key)
        begun = f"{key}:{end}{_member(item, '  ', end)}"
        return _only_changing(document, _appended(without, begun), key)
    return _only_changing(document, _with_member(document, (key,), item), key)


def with_member(document: Document, path: Path, item: str) -> Document:
    """The document with one more member in a block list that is there, however deep it stands.

    Raises:
        RefusedError: the list is not written one member a line, or something else would change.
    """
    members = at(document.data, path)
    if not isinstance(members, list) or not members:
        raise RefusedError(
            f"{document.file}: `{field_name(path)}` has no member to write another after.",
            remedy="Write its first member by hand.",
        )
    changed = read(document.file, _with_member(document, path, item).encode())
    now = at(changed.data, path)
    new = now[-1] if isinstance(now, list) and now else None
    if changed.problems or not is_same(changed.data, put(document.data, path, [*members, new])):
        raise RefusedError(
            f"{document.file}: writing in {field_name(path)} would change something else too.",
            remedy=f"Write `{field_name(path)}` in block style, and try again.",
        )
    return changed


def _with_member(document: Document, path: Path, item: str) -> str:
    end = "\r\n" if "\r\n" in document.text else "\n"
    members = at(document.data, path)
    lines = document.text.splitlines(keepends=True)
    last = document.place((*path, len(members) - 1 if isinstance(members, list) else 0))
    first = lines[document.place((*path, 0)).line - 1]
    if not first.lstrip().startswith("- "):
        raise RefusedError(
            f"{document.file}: `{field_name(path)}` is not written one member a line.",
            remedy=f"Write each member of `{field_name(path)}` on a line of its own, after `- `.",
        )
    indent = first[: len(first) - len(first.lstrip())]
    where = _end_of_block(lines, last.line, len(indent))
    joint = "" if where == 0 or lines[where - 1].endswith("\n") else end
    lines.insert(where, f"{joint}{_member(item, indent, end)}")
    return "".join(lines)


def _member(item: str, indent: str, end: str) -> str:
    """The lines of one member: a dash before the first, the others set in as far."""
    first, *others = item.splitlines()
    rows = [f"{indent}- {first}", *(f"{indent}  {row}" if row else "" for row in others)]
    return "".join(f"{row}{end}" for row in rows)


def with_block(document: Document, key: str, block: str) -> Document:
    """The document with a top-level key and all below it written anew, or added at the end.

    Raises:
        RefusedError: something else would change with it.
    """
    if key not in _data(document):
        return _only_changing(document, _appended(document.text, block), key)
    lines = document.text.splitlines(keepends=True)
    first = document.place((key,), key=True).line
    end = _end_of_block(lines, first, 0)
    text = "".join([*lines[: first - 1], block, *lines[end:]])
    return _only_changing(document, text, key)


def _data(document: Document) -> dict[str, Any]:
    if isinstance(document.data, dict):
        return document.data
    raise RefusedError(f"{document.file} cannot be read.", remedy="Mend it first; run check.")


def _end_of_block(lines: list[str], first: int, indent: int) -> int:
    """The index after the last line of a block that starts on a line (from 1) at an indent."""
    end = first
    for index in range(first, len(lines)):
        text = lines[index].strip()
        depth = len(lines[index]) - len(lines[index].lstrip())
        if text and depth <= indent:
            break
        if text and not text.startswith("#"):
            end = index + 1
    return end


def _without_blank(document: Document, key: str) -> str:
    """The text without a top-level key that holds nothing yet."""
    if key not in _data(document):
        return document.text
    lines = document.text.splitlines(keepends=True)
    first = document.place((key,), key=True).line
    return "".join(lines[: first - 1] + lines[_end_of_block(lines, first, 0) :])


def _appended(text: str, block: str) -> str:
    joint = "" if not text or text.endswith("\n") else "\n"
    return f"{text}{joint}{block}"


def _only_changing(document: Document, text: str, key: str) -> Document:
    """The changed document, read again; refused where anything but one key differs."""
    changed = read(document.file, text.encode())
    before = {name: value for name, value in _data(document).items() if name != key}
    after = {name: value for name, value in _data(changed).items() if name != key}
    if changed.problems or before != after:
        raise RefusedError(
            f"{document.file}: writing {key} would change something else too.",
            remedy=f"Write `{key}` at the left edge, in block style, and try again.",
        )
    return changed
