"""The commands a person types."""

from __future__ import annotations

from witnessmark.cli.verbs import main

__all__ = ["main"]
