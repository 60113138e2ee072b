"""The verbs `parts` and `stock`, as a person calls them, and the labels they print."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from building import MACHINE, MUSEUM, done, on_disk
from calling import DEMO, call

OUT = "- {do: remove, part: drum/bush, fate: stored, label: TB-0001, place: store-a}"
HOSTILE = '"><b onclick=x>&amp;'


class Read(HTMLParser):
    """What a reader of a page meets: its tags, attributes and text."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str | None]] = []
        self.text = ""
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += attrs

    def handle_data(self, data: str) -> None:
        self.text += data


def off(tmp_path: Path, **changes: object) -> Path:
    """A museum on disk in which one bush came off."""
    record = done("2023-001", steps=OUT)
    return on_disk(
        tmp_path,
        also={"winch/2023-001-job.yml": record},
        changes=changes,  # type: ignore[arg-type]
    )


def test_parts_shows_label_machine_place_decision_and_state() -> None:
    told = call("parts", "mq-0112", "--as-of", "demo", "--museum", str(DEMO)).out
    row = next(line for line in told.splitlines() if line.startswith("MQ-0112"))
    assert ["MQ-0112", "quay-crane", "store-b", "2024-003", "done", "no"] == row.split()[:6]


def test_parts_says_when_nothing_answers() -> None:
    called = call("parts", "no-such-thing", "--as-of", "demo", "--museum", str(DEMO))
    assert (0, "No removed original answers to that.\n") == (called.code, called.out)


def test_parts_as_json_tells_the_place_to_the_house() -> None:
    called = call("parts", "--as-of", "demo", "--museum", str(DEMO), "--format", "json")
    by_label = {one["label"]: one for one in called.json["parts"]}
    assert ("store-a", "on asking", 12) == (
        by_label["MQ-0121"]["place"], by_label["MQ-0121"]["seen"], by_label["MQ-0211"]["count"],
    )  # fmt: skip


def sheet(root: Path, *query: str) -> str:
    return call("parts", *query, "--museum", str(root), "--format", "html").out


def test_a_label_carries_code_machine_part_decision_and_address() -> None:
    text = Read(sheet(DEMO, "MQ-0112")).text
    for said in (
        "MQ-0112", "The quay crane", "Upper slewing bush", "decision 2024-003",
        "https://marramquay.example/d/2024-003/",
    ):  # fmt: skip
        assert said in text


def test_a_label_names_no_place_in_store() -> None:
    text = sheet(DEMO)
    assert "MQ-0112" in text
    assert [] == [name for name in ("store-a", "store-b", "Store B", "rubber-room") if name in text]


def test_the_sheet_needs_nothing_beside_it() -> None:
    page = Read(sheet(DEMO))
    assert [] == [name for name, _ in page.attributes if name in {"src", "href", "srcset"}]
    assert set() == set(page.tags) & {"script", "link", "img", "iframe"}
    assert [] == re.findall(r"url\(|@import", sheet(DEMO))


def test_a_record_that_is_not_published_gives_its_label_no_address(tmp_path: Path) -> None:
    root = off(tmp_path, **{MUSEUM: {"web": "https://example.org/"}})
    text = Read(sheet(root)).text
    assert ("TB-0001" in text, "example.org" in text) == (True, False)


@pytest.mark.parametrize("field", ["name", "assemblies.0.parts.0.name"])
def test_any_text_stands_on_a_label_as_it_was_written(tmp_path: Path, field: str) -> None:
    page = Read(sheet(off(tmp_path, **{MACHINE: {field: HOSTILE}})))
    assert HOSTILE in page.text
    assert "b" not in page.tags


def test_a_part_without_a_label_is_counted_on_the_sheet(tmp_path: Path) -> None:
    record = done("2023-001", steps="- {do: remove, part: drum/bush, fate: stored}")
    root = on_disk(tmp_path, also={"winch/2023-001-job.yml": record})
    text = Read(sheet(root)).text
    assert "1 of the parts asked for lie off a machine without a label" in text


def test_stock_tells_of_the_last_the_giver_and_what_is_owed() -> None:
    told = " ".join(call("stock", "--as-of", "demo", "--museum", str(DEMO)).out.split())
    for said in (
        "plough-pads: 12 of 12 left, 12 free (spares)",
        "The last of their kind: no more can be made.",
        "Nobody has decided what it is for; a decision is owed.",
        "The giver asked: To be used only on this tender.",
    ):
        assert said in told


def test_stock_as_json_says_what_its_forecast_rests_on() -> None:
    lots = call("stock", "--as-of", "demo", "--museum", str(DEMO), "--format", "json").json["lots"]
    pads = next(one for one in lots if one["id"] == "plough-pads")
    assert (True, 12, None, 0, "9/10") == (
        pads["last_of_its_kind"], pads["left"], pads["lasts"]["likely"], pads["lasts"]["draws"],
        pads["lasts"]["confidence"],
    )  # fmt: skip


def test_a_forecast_is_a_range_in_words(tmp_path: Path) -> None:
    fit = "- {do: fit-old-stock, part: drum/bush, like: same, from: bushes, count: 1}"
    root = on_disk(tmp_path, also={"winch/2023-001-job.yml": done("2023-001", steps=fit)})
    told = " ".join(call("stock", "--as-of", "2026-01-01", "--museum", str(root)).out.split())
    assert "Drawn: 1 by 2023-001 on 2023-06-30." in told
    # 6.0 years, one draw, two left: 12 years; the range by chi-squared: 2.5 and 234 years.
    assert "at that rate it lasts about 12 years more" in told
    assert "anything from about 3 years to about 234 years (9 in 10)" in told


def test_a_museum_without_stores_has_no_lots(tmp_path: Path) -> None:
    root = on_disk(tmp_path, without=("stores.yml",))
    called = call("stock", "--museum", str(root))
    assert (0, "No lot of old stock is listed.\n") == (called.code, called.out)
