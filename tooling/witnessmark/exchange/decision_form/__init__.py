"""A decision on one printed page: the empty form, and a filled one read back."""

from __future__ import annotations

from witnessmark.exchange.decision_form.page import form_as_html, form_as_text
from witnessmark.exchange.decision_form.reading import read_form
from witnessmark.exchange.decision_form.record import FormRecord, record_of
from witnessmark.exchange.decision_form.told import Told

__all__ = ["FormRecord", "Told", "form_as_html", "form_as_text", "read_form", "record_of"]
