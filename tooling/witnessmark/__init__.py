"""Witnessmark: a museum's decisions about historic machines, kept, checked, weighed and shown."""

from __future__ import annotations

__version__ = "0.1.0"
