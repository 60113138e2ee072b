"""The examples of the YAML specification, read as it says or refused by design.

Source: YAML Ain't Markup Language, version 1.2.2 (2021-10-01), chapter 2 "Language Overview" and
10.3.2 "Core Schema, Tag Resolution"; the numbers are its own. Forms and signs are those of the
examples; words are of the workshop, since several examples name living people. The second opinion
beside each is PyYAML's own loader of texts only, which leaves every value as it is written.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import pytest
import yaml

from witnessmark.model.source import Document, read


class Example(NamedTuple):
    number: str
    text: str
    data: Any


class Refused(NamedTuple):
    number: str
    text: str
    codes: list[str]
    why: str


def reading(text: str) -> Document:
    return read("museum/x.yml", text.encode())


SAME = [
    Example("2.2 mapping of scalars to scalars", "hr:  65    # Bores\navg: 0.278 # Share\nrbi: 147 "
            "  # Pins\n", {"hr": "65", "avg": "0.278", "rbi": "147"}),
    Example("2.3 mapping of scalars to sequences", "cranes:\n- Quay\n- Yard\nrollers:\n- Motor\n- "
            "Steam\n", {"cranes": ["Quay", "Yard"], "rollers": ["Motor", "Steam"]}),
    Example("2.4 sequence of mappings", "all:\n-\n  name: Bush\n  hr:   65\n-\n  name: Pin\n  hr: "
            "63\n", {"all": [{"name": "Bush", "hr": "65"}, {"name": "Pin", "hr": "63"}]}),
    Example("2.5 sequence of sequences", "all:\n- [name  , hr, avg  ]\n- [Bush, 65, 0.278]\n",
            {"all": [["name", "hr", "avg"], ["Bush", "65", "0.278"]]}),
    Example("2.6 mapping of mappings", "Bush: {hr: 65, avg: 0.278}\nPin: {\n    hr: 63,\n    avg: "
            "0.288,\n  }\n",
            {"Bush": {"hr": "65", "avg": "0.278"}, "Pin": {"hr": "63", "avg": "0.288"}}),
    Example("2.9 one document with two comments", "---\nhr: # what was found\n- Bush\n- Pin\nrbi:\n"
            "# what was kept\n- Pin\n- Nut\n", {"hr": ["Bush", "Pin"], "rbi": ["Pin", "Nut"]}),
    Example("2.12 compact nested mapping", "all:\n# Taken off\n- item    : Bush\n  quantity: 1\n- "
            "item    : Nut\n  quantity: 4\n",
            {"all": [{"item": "Bush", "quantity": "1"}, {"item": "Nut", "quantity": "4"}]}),
    Example("2.13 newlines are kept in literals", "a: |\n  \\//||\\/||\n  // ||  ||__\n",
            {"a": "\\//||\\/||\n// ||  ||__\n"}),
    Example("2.14 newlines become spaces in the folded", "a: >\n  The bush's\n  year was crippled\n"
            "  by a knee wear.\n", {"a": "The bush's year was crippled by a knee wear.\n"}),
    Example("2.15 more indented and blank lines are kept", "a: >\n The bush ran\n a fine year.\n\n "
            "  63 Hours\n   0.288 Share\n\n What a year!\n",
            {"a": "The bush ran a fine year.\n\n  63 Hours\n  0.288 Share\n\nWhat a year!\n"}),
    Example("2.16 indentation determines scope", "name: Bush\naccomplishment: >\n  It ran a\n  "
            "season without oil.\nstats: |\n  65 Hours\n  0.278 Share\n",
            {"name": "Bush", "accomplishment": "It ran a season without oil.\n",
             "stats": "65 Hours\n0.278 Share\n"}),
    Example("2.17 quoted scalars", 'unicode: "The bush did fine.\\u263A"\nhex esc: "\\x0d\\x0a is '
            "\\r\\n\"\nsingle: '\"Howdy!\" he cried.'\nquoted: ' # Not a ''comment''.'\ntie: "
            "'|\\-*-/|'\n",
            {"unicode": "The bush did fine.\u263a", "hex esc": "\r\n is \r\n",
             "single": '"Howdy!" he cried.', "quoted": " # Not a 'comment'.", "tie": "|\\-*-/|"}),
    Example("2.18 flow scalars of several lines", 'plain:\n  This unquoted scalar\n  spans many '
            'lines.\n\nquoted: "So does this\n  quoted scalar.\\n"\n',
            {"plain": "This unquoted scalar spans many lines.",
             "quoted": "So does this quoted scalar.\n"}),
]  # fmt: skip

TYPED = [
    Example("2.19 integers", "canonical: 12345\nnegative: -19\n",
            {"canonical": 12345, "negative": -19}),
    Example("2.21 miscellaneous", "null:\nbooleans: [ true, false ]\nstring: '012345'\n".replace(
            "null:", "nothing:"),
            {"nothing": None, "booleans": [True, False], "string": "012345"}),
    Example("2.22 timestamps stay text, as the core schema says", "canonical: 2001-12-15T02:59:43."
            "1Z\ndate: 2002-12-14\n",
            {"canonical": "2001-12-15T02:59:43.1Z", "date": "2002-12-14"}),
    Example("10.3.2 octal is a number there and text here", "octal: 0o14\n", {"octal": "0o14"}),
    Example("10.3.2 hexadecimal is a number there and text here", "hex: 0xC\n", {"hex": "0xC"}),
    Example("10.3.2 a plus before a number: text here", "decimal: +12345\n",
            {"decimal": "+12345"}),
]  # fmt: skip

REFUSED = [
    Refused("2.1 sequence of scalars", "- Bush\n- Pin\n- Nut\n", ["WM009"],
            "a record is a set of named fields"),
    Refused("2.7 two documents in a stream", "# Bores\n---\na: 1\n\n# Pins\n---\nb: 2\n",
            ["WM010"], "a file is one record"),
    Refused("2.8 play by play feed", "---\ntime: 20:03:20\nplayer: Bush\n...\n---\ntime: 20:03:47\n"
            "player: Pin\n...\n", ["WM010"], "a file is one record"),
    Refused("2.10 a node that appears twice", "hr:\n- Bush\n# Following node labeled SS\n- &SS Pin"
            "\nrbi:\n- *SS # Subsequent occurrence\n- Nut\n", ["WM013", "WM014"],
            "no anchors: each fact is written where it holds"),
    Refused("2.11 mapping between sequences", "? - Crane\n  - Roller\n: - 2001-07-23\n", ["WM011"],
            "a name is a word"),
    Refused("2.17 a backspace by its escape", 'control: "\\b1998\\t1999"\n', ["WM024"],
            "no sign that nobody can see"),
    Refused("2.20 not a number and infinity", "negative infinity: -.inf\nnot a number: .nan\n",
            ["WM029", "WM029"], "no scale has such a value"),
    Refused("2.23 various explicit tags", "not-date: !!str 2002-04-28\n", ["WM016"], "no tags"),
    Refused("2.24 global tags", "%TAG ! tag:example.org,2002:\n---\na: !shape\n  b: 1\n",
            ["WM016"], "no tags"),
    Refused("2.25 an unordered set", "--- !!set\n? Bush\n? Pin\n", ["WM016"], "no tags"),
    Refused("2.26 ordered mappings", "--- !!omap\n- Bush: 65\n- Pin: 63\n", ["WM009", "WM016"],
            "no tags"),
]  # fmt: skip


@pytest.mark.parametrize("example", SAME, ids=[one.number for one in SAME])
def test_an_example_is_read_as_the_specification_says(example: Example) -> None:
    found = reading(example.text)
    assert (example.data, []) == (as_text(found.data), [one.message for one in found.problems])


@pytest.mark.parametrize("example", SAME, ids=[one.number for one in SAME])
def test_another_reader_of_texts_agrees(example: Example) -> None:
    assert example.data == yaml.load(example.text, Loader=yaml.BaseLoader)  # noqa: S506  texts only


@pytest.mark.parametrize("example", TYPED, ids=[one.number for one in TYPED])
def test_a_plain_word_has_the_type_of_the_core_schema_or_stays_text(example: Example) -> None:
    found = reading(example.text)
    assert (example.data, ()) == (found.data, found.problems)


@pytest.mark.parametrize("example", REFUSED, ids=[one.number for one in REFUSED])
def test_an_example_is_refused_by_design(example: Refused) -> None:
    assert example.codes == sorted(one.code for one in reading(example.text).problems)


def as_text(value: Any) -> Any:
    """The data with every number as it is written."""
    if isinstance(value, dict):
        return {name: as_text(member) for name, member in value.items()}
    if isinstance(value, list):
        return [as_text(member) for member in value]
    return str(value)
