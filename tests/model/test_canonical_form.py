"""The canonical form under every seal, held against published test data."""

from __future__ import annotations

import json
from typing import Any

import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.model.canonical import canonical

# RFC 8785's own test data, as its author publishes it: github.com/cyberphone/json-canonicalization,
# testdata/input and testdata/output (the RFC, section 3, points there). Read in a stored copy.
PUBLISHED = {
    "french": (
        (
            '{"peach": "This sorting order", "péché": "is wrong according to French",'
            ' "pêche": "but canonicalization MUST", "sin":   "ingnore locale"}'
        ),
        (
            '{"peach":"This sorting order","péché":"is wrong according to French",'
            '"pêche":"but canonicalization MUST","sin":"ingnore locale"}'
        ),
    ),
    "structures": (
        (
            '{"1": {"f": {"f": "hi","F": 5} ,"\\n": 56.0}, "10": { }, "": "empty", "a": { },'
            ' "111": [ { } ], "A": { }}'
        ),
        '{"":"empty","1":{"\\n":56,"f":{"F":5,"f":"hi"}},"10":{},"111":[{}],"A":{},"a":{}}',
    ),
    "unicode": (
        '{"Unnormalized Unicode":"\\u1e0d\\u0307"}',
        '{"Unnormalized Unicode":"\u1e0d\u0307"}',
    ),
    "values": (
        (
            '{"numbers": [1E30, 4.50, 333333333.33333329, 2e-3, 0.000000000000000000000000001],'
            ' "escaping": "\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/",'
            ' "literals": [null, true, false]}'
        ),
        (
            '{"escaping":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/","literals":[null,true,false],'
            '"numbers":[1e+30,4.5,333333333.3333333,0.002,1e-27]}'
        ),
    ),
    "weird": (
        (
            '{"\\u20ac": "Euro Sign", "1": "One", "\\u0080": "Control\\u007f",'
            ' "\\ud83d\\ude02": "Smiley", "\\u00f6": "Latin Small Letter O With Diaeresis",'
            ' "\\ufb33": "Hebrew Letter Dalet With Dagesh", "</script>": "Browser Challenge"}'
        ),
        (
            '{"1":"One","</script>":"Browser Challenge","\u0080":"Control\u007f",'
            '"ö":"Latin Small Letter O With Diaeresis","€":"Euro Sign","\U0001f602":"Smiley",'
            '"\ufb33":"Hebrew Letter Dalet With Dagesh"}'
        ),
    ),
}


@pytest.mark.parametrize("name", PUBLISHED)
def test_the_published_test_data_comes_out_as_published(name: str) -> None:
    given, expected = PUBLISHED[name]
    assert expected.encode() == rfc8785.dumps(json.loads(given))


def test_a_bare_string_has_the_published_bytes() -> None:
    # testdata/outhex/simpleString.txt
    published = "22746869732069732061207465737420737472696E67203132333522"
    assert bytes.fromhex(published) == rfc8785.dumps("this is a test string 1235")


JSON_WITHOUT_NUMBERS = st.recursive(
    st.none() | st.booleans() | st.text(),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(), inner, max_size=4),
    max_leaves=20,
)


@given(value=JSON_WITHOUT_NUMBERS)
def test_the_form_that_is_hashed_is_the_one_rfc8785_writes(value: Any) -> None:
    assert rfc8785.dumps(value) == canonical(value)


@pytest.mark.parametrize("names", [("\ue000", "\U00010000"), ("é", "e\u0301"), ("b", "B", "ß")])
def test_names_sort_by_utf_16_as_the_scheme_wants(names: tuple[str, ...]) -> None:
    # RFC 8785, 3.2.3: names are sorted by their UTF-16 code units.
    wanted = sorted(names, key=lambda name: name.encode("utf-16-be"))
    assert wanted == list(json.loads(canonical(dict.fromkeys(names, ""))))


def test_half_a_sign_is_refused_and_not_hashed() -> None:
    with pytest.raises(rfc8785.CanonicalizationError):
        canonical({"name": "\ud800"})
