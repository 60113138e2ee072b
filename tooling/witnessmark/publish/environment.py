"""The templates and the few ways in which they may turn a value into text."""

from __future__ import annotations

import re
from datetime import date
from fractions import Fraction
from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from witnessmark.publish.anchors import RISK_MEANS, SAFETY_ANCHORS, UNDO_ANCHORS, nearest_anchor
from witnessmark.publish.figures.figure import Figure, Table
from witnessmark.publish.shown_names import listed, named, within
from witnessmark.scoring.fabric import one_percent
from witnessmark.scoring.score import one_decimal
from witnessmark.weighing.verdict import in_a_hundred

# English month names written out, so that no locale of the machine can change a page.
_MONTHS = (
    *("January", "February", "March", "April", "May", "June", "July"),
    *("August", "September", "October", "November", "December"),
)
_BLANK_LINE = re.compile(r"\n[ \t]*\n")


@cache
def environment() -> Environment:
    """The one environment: everything escaped, nothing undefined, no text run twice.

    Cached because compiling the templates costs more than a page.
    """
    found = Environment(
        loader=PackageLoader("witnessmark.publish", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    found.filters |= {
        "paragraphs": paragraphs,
        "day": long_day,
        "words": plain_words,
        "sentence": lambda text: f"{text[:1].upper()}{text[1:]}",
        "within": within,
        "stopped": stopped,
        "named": named,
        "level": one_decimal,
        "percent": one_percent,
        "in_a_hundred": in_a_hundred,
        "listed": listed,
        "amount": amount,
        "signed": signed,
    }
    found.globals |= {
        "figure": _figure,
        "table": _table,
        "undo_words": lambda level: nearest_anchor(UNDO_ANCHORS, level),
        "safety_words": lambda level: nearest_anchor(SAFETY_ANCHORS, level),
        "risk_means": lambda level: RISK_MEANS[int(level)],
    }
    return found


def _figure(figure: Figure, **around: str) -> Markup:
    """The markup of a figure and its table; marked safe because a template made it.

    The table stands behind a line to open, which reads `summary`; `more` stands below the table.
    """
    text = environment().get_template("figures/figure.html").render(figure=figure, **around)
    return Markup(text)  # noqa: S704  the template escaped it


def _table(table: Table, *, name: str, title: str) -> Markup:
    """The markup of a table without a drawing; marked safe because a template made it."""
    template = environment().get_template("figures/table.html")
    return Markup(template.render(table=table, name=name, title=title))  # noqa: S704


def paragraphs(text: str) -> list[str]:
    """The paragraphs of a text, parted by blank lines."""
    return [part.strip() for part in _BLANK_LINE.split(text) if part.strip()]


def long_day(day: date) -> str:
    """A day as people write it.

    >>> long_day(date(2024, 3, 2))
    '2 March 2024'
    """
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def plain_words(word: str) -> str:
    """A closed word without its hyphens; the lists themselves keep them.

    >>> plain_words("leave-as-found")
    'leave as found'
    """
    return word.replace("-", " ")


def stopped(text: str) -> str:
    """A text with a stop at its end, unless it has one.

    >>> stopped("It knocks"), stopped("Does it?")
    ('It knocks.', 'Does it?')
    """
    return text if text.endswith((".", "!", "?", "\N{HORIZONTAL ELLIPSIS}")) else f"{text}."


def signed(value: Fraction) -> str:
    """A figure of agreement with two decimals and, where it is below nought, a true minus sign.

    >>> signed(Fraction(2, 3)), signed(Fraction(-1, 1000)), len(signed(Fraction(-1, 8)))
    ('0.67', '0.00', 5)
    """
    rounded = round(value, 2)
    sign = "\N{MINUS SIGN}" if rounded < 0 else ""
    return f"{sign}{float(abs(rounded)):.2f}"


def amount(value: Fraction) -> str:
    """A count or a mass with at most one decimal, thousands parted by a space that does not break.

    >>> amount(Fraction(12345, 10)).split(), amount(Fraction(3))
    (['1', '234.5'], '3')
    """
    whole, _, tenth = one_decimal(value).partition(".")
    spaced = f"{int(whole):,}".replace(",", "\N{NO-BREAK SPACE}")
    return f"{spaced}.{tenth}" if tenth else spaced
