"""Museums mutated by bytes, by tokens and by structure, for hypothesis to draw and to shrink."""

from __future__ import annotations

import re
import signal
import tempfile
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st

from building import ROOT, plainly, written
from conftest import SOAK
from sound_museum import TEXTS, signed
from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.library import Folder
from witnessmark.model.quantity import QuantityFault


def _public() -> Mapping[str, str]:
    with tempfile.TemporaryDirectory() as where:
        museum = signed(Path(where))
        return {file: (museum / file).read_text(encoding="utf-8") for file in TEXTS}


PUBLIC: Mapping[str, str] = _public()
"""The sound museum with its decision agreed and marked public."""

FILES = sorted(PUBLIC)
PLAIN: Mapping[str, Any] = {file: plainly(text) for file, text in PUBLIC.items()}
_TOKEN = re.compile(r"\w+|[^\w\s]|\n *| ")
TOKENS = sorted({token for text in PUBLIC.values() for token in _TOKEN.findall(text)})
MUSEUMS = 10_000 if SOAK else 200
SECONDS = 10
KIND = settings(
    deadline=None,
    derandomize=not SOAK,
    database=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


@contextmanager
def in_time() -> Iterator[None]:
    """Stop what takes more than ten seconds of the processor, however busy the machine is."""

    def stop(*_: object) -> None:
        raise TimeoutError(f"more than {SECONDS} s")

    before = signal.signal(signal.SIGVTALRM, stop)
    signal.setitimer(signal.ITIMER_VIRTUAL, SECONDS)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        signal.signal(signal.SIGVTALRM, before)


def look(found: Iterable[Diagnostic], files: Mapping[str, bytes]) -> None:
    """Every diagnostic names a file, a line in it, a reason and a remedy, all fit to print."""
    for one in found:
        name = one.file.removeprefix(f"{ROOT}/")
        lines = files.get(name, b"").decode("utf-8", "replace").replace("\r", "\n").count("\n") + 2
        assert one.file.startswith(ROOT), one
        assert 1 <= one.line <= lines, one
        assert 1 <= one.column, one
        for words in (one.message, one.why, one.fix):
            assert words.strip(), one
            assert not any(sign in words for sign in "\0\x1b\u202e"), one


def fault_of(parse: Callable[[str], object], text: str) -> QuantityFault | None:
    """Why a text is refused, if it is; anything else that is raised comes out."""
    try:
        parse(text)
    except QuantityFault as fault:
        return fault
    return None


HOSTILE_BYTES = [
    b"\0", b"\xff\xfe", b"\xef\xbb\xbf", b"\r", b"\t", b"\x1b[2J", b"\xe2\x80\xae", b"\xc2\xa0",
    b"\xe2\x80\x8b", b"\xed\xa0\x80", b"\xf4\x90\x80\x80", b"---\n", b"...\n", b"<<<<<<< x\n",
    b"[" * 600, b"{" * 40, b"- " * 400, b"? " * 40, b"&a ", b"*a", b"!!python/none ",
    b"%YAML 1.1\n", b"'", b'"', b"#", b": ", b"|\n", b">-\n", b"\\", b"\xc2\x85", b"\xe2\x80\xa8",
]  # fmt: skip
HOSTILE_VALUES: list[Any] = [
    None, True, False, 0, -1, 5, 10**17, "", " ", "\n", "0", "3/4", "1/0", "1e9", "-0", "NO",
    "2024-02-30", "0001-01-01", "9999-12-31", "2024-02-11", "a/b", "drum/bush", "winch/drum/bush",
    "../x", "con", "65 mm", "1e400 mm", "-5 mm", "0 mm", "5 ± 9 mm", "31 ton", "2C", "1A",
    "4F", "9Z", "none",
    "none raised", "unknown", "agreed", "done", "draft", "running", "rebush", "leave", "curator",
    "fitter", "engineer", "x" * 5000, "\u202e", "e\u0301", "=1+1", "<b>", "{{ 7*7 }}",
    "wm1:" + "0" * 64, [], [None], [[]], ["drum/bush"] * 3, {}, {"none": "x"}, {"likely": 4},
    {"low": 4, "likely": 1},
    {"withheld": "x"}, {"": ""}, {"is": {"this": {"deep": []}}}, list(range(50)),
]  # fmt: skip


HOSTILE_TEXTS = [
    "</script><b>x", "{{ 7*7 }}{% raw %}", "]]> & <!--", "a\n\n\nb", "\u00e9\u0301" * 9,
    "\U0001f600", "x" * 3000, "word " * 900, "\u0645\u0631\u062d\u0628\u0627", "'\"`", "%s %d {0}",
    "\\u0041", "-", "?", "1", "true", "2024-02-30", "a: b", "a #b", "[x](javascript:x)",
    "\u2603 & \u00a0 x", "\ud7ff",
]  # fmt: skip


@st.composite
def bytes_changed(draw: st.DrawFn, content: bytes) -> bytes:
    """A file with a slice taken out, repeated, moved or overwritten, or odd bytes put in."""
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(content)))
        end = min(start + draw(st.integers(0, 60)), len(content))
        way = draw(st.sampled_from(["out", "twice", "odd", "any", "cut"]))
        if way == "out":
            content = content[:start] + content[end:]
        elif way == "twice":
            content = content[:end] + content[start:end] * draw(st.integers(1, 9)) + content[end:]
        elif way == "cut":
            content = content[:end]
        else:
            odd = draw(st.sampled_from(HOSTILE_BYTES) if way == "odd" else st.binary(max_size=8))
            content = content[:start] + odd + content[end if way == "any" else start :]
    return content


@st.composite
def tokens_changed(draw: st.DrawFn, content: bytes) -> bytes:
    """A file with some words and signs put in place of others, from any file of the museum."""
    text = content.decode("utf-8", "replace")
    found = [match.span() for match in _TOKEN.finditer(text)]
    for _ in range(draw(st.integers(1, 6))):
        if not found:
            break
        start, end = found[draw(st.integers(0, len(found) - 1))]
        text = text[:start] + draw(st.sampled_from(TOKENS)) + text[end:]
        found = [match.span() for match in _TOKEN.finditer(text)]
    return text.encode()


def _places(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    members = value.items() if isinstance(value, dict) else enumerate(value)
    found = []
    for step, member in members:
        found.append((*path, step))
        if isinstance(member, dict | list):
            found += _places(member, (*path, step))
    return found


def _with(value: Any, path: tuple[Any, ...], change: Any) -> Any:
    """A copy of plain data in which `change` was called on what holds the end of the path."""
    copy = dict(value) if isinstance(value, dict) else list(value)
    if len(path) == 1:
        change(copy, path[0])
    else:
        copy[path[0]] = _with(copy[path[0]], path[1:], change)
    return copy


@st.composite
def structure_changed(draw: st.DrawFn, file: str) -> bytes:
    """A file of sound YAML in which values were taken out, replaced, repeated or carried over."""
    data = PLAIN[file]
    for _ in range(draw(st.integers(1, 4))):
        places = _places(data)
        if not places:
            break
        path = draw(st.sampled_from(places))
        way = draw(st.sampled_from(["out", "odd", "odd", "other", "twice", "renamed"]))
        data = _with(data, path, draw(_change(way)))
    return written(data).encode()


@st.composite
def _change(draw: st.DrawFn, way: str) -> Any:
    other = PLAIN[draw(st.sampled_from(FILES))]
    value: Any = draw(st.sampled_from(HOSTILE_VALUES))
    if way == "other":
        value = other
        for step in draw(st.sampled_from(_places(other))):
            value = value[step]

    def change(holder: Any, step: Any) -> None:
        if way == "out":
            del holder[step]
        elif way == "twice" and isinstance(holder, list):
            holder.append(holder[step])
        elif way == "renamed" and isinstance(holder, dict):
            holder[str(value)[:80]] = holder.pop(step)
        else:
            holder[step] = value

    return change


@st.composite
def texts_changed(draw: st.DrawFn, file: str) -> bytes:
    """A file of sound YAML in which some sentences say something else, so that it may be shown."""
    data = PLAIN[file]
    places = [
        path for path in _places(data) if " " in str(_at(data, path)) and _is_text(data, path)
    ]
    for _ in range(draw(st.integers(1, 3)) if places else 0):
        path = draw(st.sampled_from(places))
        odd = draw(st.one_of(st.sampled_from(HOSTILE_TEXTS), st.text(min_size=1, max_size=40)))

        def change(holder: Any, step: Any, text: str = odd) -> None:
            holder[step] = text

        data = _with(data, path, change)
    return written(data).encode("utf-8", "replace")


def _at(value: Any, path: tuple[Any, ...]) -> Any:
    for step in path:
        value = value[step]
    return value


def _is_text(data: Any, path: tuple[Any, ...]) -> bool:
    return isinstance(_at(data, path), str)


WAYS = ("bytes", "tokens", "structure", "texts")


@st.composite
def mutated(draw: st.DrawFn, ways: tuple[str, ...] = WAYS) -> Folder:
    """The agreed and public museum with one to three of its files changed in one of the ways."""
    files = {file: text.encode() for file, text in PUBLIC.items()}
    for file in draw(st.lists(st.sampled_from(FILES), min_size=1, max_size=3, unique=True)):
        way = draw(st.sampled_from(ways))
        if way in ("structure", "texts"):
            change_values = structure_changed if way == "structure" else texts_changed
            files[file] = draw(change_values(file))
        else:
            change = bytes_changed if way == "bytes" else tokens_changed
            files[file] = draw(change(files[file]))
    return Folder(ROOT, files)
