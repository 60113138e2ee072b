"""The house keeps its layers: imports point down the list, pure layers touch nothing outside."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import witnessmark

PACKAGE = Path(witnessmark.__file__).parent
ORDER = (
    "errors",
    "model",
    "worksheets",
    "scoring",
    "weighing",
    "rules",
    "repository",
    "publish",
    "exchange",
    "cli",
)
PURE = frozenset({"model", "worksheets", "scoring", "weighing", "rules"})
OUTSIDE = frozenset(
    {"os", "subprocess", "git", "socket", "time", "tempfile", "shutil", "urllib", "http", "random"}
)
SEEDED = frozenset({"weighing"})
"""Layers that may resample, from a seed given as a value."""


def _modules() -> list[Path]:
    doors = {PACKAGE / "__init__.py", PACKAGE / "__main__.py"}
    return sorted(path for path in PACKAGE.rglob("*.py") if path not in doors)


def _layer(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def _imports(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module


@pytest.mark.parametrize("path", _modules(), ids=lambda path: str(path.relative_to(PACKAGE)))
def test_imports_point_down_the_list_of_layers(path: Path) -> None:
    layer = _layer(path)
    reached = {name.split(".")[1] for name in _imports(path) if name.startswith("witnessmark.")}
    allowed = set(ORDER[: ORDER.index(layer) + 1])
    if layer == "exchange":
        allowed -= {"publish"}
    assert reached <= allowed


@pytest.mark.parametrize(
    "path", [p for p in _modules() if _layer(p) in PURE], ids=lambda p: str(p.relative_to(PACKAGE))
)
def test_pure_layers_import_nothing_that_reaches_outside(path: Path) -> None:
    forbidden = OUTSIDE - ({"random"} if _layer(path) in SEEDED else set())
    reached = {name.split(".")[0] for name in _imports(path)}
    assert set() == reached & forbidden


@pytest.mark.parametrize(
    "path", [p for p in _modules() if _layer(p) in PURE], ids=lambda p: str(p.relative_to(PACKAGE))
)
def test_pure_layers_read_no_clock_and_no_disk(path: Path) -> None:
    called = {
        node.func.attr
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute)
    }
    assert set() == called & {"now", "today", "utcnow", "getenv", "write_text", "open"}


def test_the_layer_test_sees_a_breach() -> None:
    breach = ast.parse("from witnessmark.cli import main")
    names = [node.module for node in ast.walk(breach) if isinstance(node, ast.ImportFrom)]
    assert ["witnessmark.cli"] == names
    assert "cli" not in ORDER[: ORDER.index("model") + 1]


def test_no_module_is_longer_than_the_house_allows() -> None:
    longest = {p.name: len(p.read_text(encoding="utf-8").splitlines()) for p in _modules()}
    assert {} == {name: lines for name, lines in longest.items() if lines > 500}
