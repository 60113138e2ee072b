"""Texts from records made harmless for Markdown, for logs and for XML."""

from __future__ import annotations

import re

_UNSEEN = re.compile(
    r"[\x00-\x1f\x7f-\x9f\u00ad\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff\ufff9-\ufffb]"
)
_LONE = re.compile(r"[\ud800-\udfff\ufffe\uffff]")
_JOINER = "\N{WORD JOINER}"
_REFERENCE = re.compile(r"(?<![\w&;])([@#!$%~^:])(?=[\w{\"'+-])|(?<=\w)(@)(?=\w)")
_LINK = re.compile(r"(?i)\b(https?|ftp|mailto|xmpp)(?=:)|\b(www)(?=\.)")
_SIGNS = re.compile(r"([\\`*_\[\]~|$])")
_START = re.compile(r"^(#{1,6}|[-+=>:]|\d+(?=[.)](?:\s|$)))")


def one_line(text: str) -> str:
    r"""Text on one line, with unseen characters spelt out.

    >>> one_line("a\n# b"), one_line("a\x1b[2J")
    ('a # b', 'a\\x1b[2J')
    """
    flat = re.sub(r"[ \t]*[\r\n]+[ \t]*", " ", text.replace("\t", " ")).strip()
    return _LONE.sub(_spelt, _UNSEEN.sub(_spelt, flat))


def _spelt(found: re.Match[str]) -> str:
    code = ord(found.group())
    return f"\\x{code:02x}" if code <= 0xFF else f"<U+{code:04X}>"  # noqa: PLR2004  one byte


def markdown(text: str) -> str:
    r"""Text from a record as Markdown that shows just this text, wherever it stands on a line.

    Signs that start markup are escaped. A mention, an issue number or an address is broken by a
    character of no width, since hosts look for them after the escapes are gone.

    >>> markdown("a | b <i> `c`")
    'a \\| b &lt;i&gt; \\`c\\`'
    >>> "@team" in markdown("Ask @team about #12"), "#12" in markdown("Ask @team about #12")
    (False, False)
    """
    safe = _SIGNS.sub(r"\\\1", one_line(text))
    safe = _START.sub(lambda found: _at_start(found.group()), safe)
    safe = safe.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    safe = _REFERENCE.sub(lambda found: f"{found.group()}{_JOINER}", safe)
    return _LINK.sub(lambda found: f"{found.group()}{_JOINER}", safe)


def _at_start(sign: str) -> str:
    """A sign that would start a heading, a list, a quote or a rule, made plain."""
    if sign.isdigit():
        return f"{sign}{_JOINER}"
    return f"\\{sign}" if sign != ">" else sign


def github_data(text: str) -> str:
    r"""Text for a GitHub workflow command.

    Source: the toolkit's `escapeData`: percent, carriage return and line feed; the rest is ours.

    >>> github_data("50 %\n::stop-commands::x")
    '50 %25 ::stop-commands::x'
    """
    return one_line(text).replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def github_property(text: str) -> str:
    """Text for a property of a GitHub workflow command; `escapeProperty` also takes : and ,.

    >>> github_property("a:b,c")
    'a%3Ab%2Cc'
    """
    return github_data(text).replace(":", "%3A").replace(",", "%2C")


def xml_text(text: str) -> str:
    r"""Text that XML 1.0 can hold: characters it has no place for are spelt out (section 2.2).

    >>> xml_text("a" + chr(1))
    'a\\x01'
    """
    return _LONE.sub(_spelt, re.sub(r"[\x00-\x08\x0b\x0c\x0e-\x1f]", _spelt, text))
