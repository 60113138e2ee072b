"""What the public sees, and the pages it is shown on."""

from __future__ import annotations

from witnessmark.publish.allow import public_museum, publicly_due
from witnessmark.publish.other_formats import OtherFormats
from witnessmark.publish.pages import Page, Skin, render_pages, static_files
from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.public_decision import PublicDecision, PublicRevision
from witnessmark.publish.render import render

__all__ = [
    "OtherFormats",
    "Page",
    "PublicDecision",
    "PublicMuseum",
    "PublicRevision",
    "Skin",
    "public_museum",
    "publicly_due",
    "render",
    "render_pages",
    "static_files",
]
