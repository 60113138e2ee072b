"""Nothing private is in a public deposit, not even inside a PDF; a sealed one holds it all."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pikepdf
import pytest
from pypdf import PdfReader

import canary_museum as canary
from witnessmark.cli.deposit_kit import gather, kit_of, levels
from witnessmark.cli.opening import open_museum
from witnessmark.exchange.deposit import Sort, deposit_files


def canary_on_disk(where: Path) -> Path:
    museum = where / "museum"
    for name, text in canary.files().items():
        path = museum / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(canary.fill(text), encoding="utf-8")
    for name, content in canary.pictures().items():
        (museum / name).parent.mkdir(exist_ok=True)
        (museum / name).write_bytes(content)
    return museum


@pytest.fixture(scope="module")
def deposits(tmp_path_factory: pytest.TempPathFactory) -> dict[Sort, dict[str, bytes]]:
    """Both deposits of a museum in which every text is a token of its own."""
    opened = open_museum(canary_on_disk(tmp_path_factory.mktemp("canary")))
    return {
        sort: deposit_files(kit_of(gather(opened, sort, as_of=None)), levels=levels())
        for sort in Sort
    }


def texts_in(name: str, content: bytes) -> Iterator[str]:
    """Everything that can be read in a file: its name, its bytes, and what a PDF holds."""
    yield name
    yield content.decode("utf-8", "replace")
    if name.endswith(".pdf"):
        for page in PdfReader(io.BytesIO(content)).pages:
            # A line that was broken in two on paper is one word again.
            yield page.extract_text().replace("\n", "")
        with pikepdf.open(io.BytesIO(content)) as pdf:
            for thing in pdf.objects:
                yield str(thing)
                if isinstance(thing, pikepdf.Stream):
                    yield thing.read_bytes().decode("utf-8", "replace")


def tokens_in(files: dict[str, bytes]) -> frozenset[str]:
    found: set[str] = set()
    for name, content in files.items():
        for text in texts_in(name, content):
            found |= set(canary.TOKEN.findall(text))
    known = fields_of_tokens()
    # Where lines were joined, two tokens may stand together: each that is within counts.
    joined = {inside for token in found - known.keys() for inside in known if inside in token}
    return frozenset((found & known.keys()) | joined)


@cache
def fields_of_tokens() -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for record in canary.records(canary.library()):
        for where, text in canary.texts(record):
            for token in canary.TOKEN.findall(text):
                found.setdefault(token, set()).add(where)
    return found


def allowed() -> frozenset[str]:
    """The fields that the site may show, by the list its own test keeps."""
    import importlib.util

    here = Path(__file__).parents[1] / "publish" / "test_private_by_default.py"
    spec = importlib.util.spec_from_file_location("private_by_default", here)
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return frozenset(" ".join(module.PUBLIC).split())


def test_only_what_the_site_may_show_is_in_a_public_deposit(
    deposits: dict[Sort, dict[str, bytes]],
) -> None:
    fields, public = fields_of_tokens(), allowed()
    shown = tokens_in(deposits[Sort.PUBLIC])
    assert len(shown) > 100
    assert {} == {token: fields[token] for token in shown if not fields[token] & public}


def test_a_token_inside_a_pdf_would_be_found(deposits: dict[Sort, dict[str, bytes]]) -> None:
    pdfs = {
        name: raw for name, raw in deposits[Sort.PUBLIC].items() if name.endswith("2024-003.pdf")
    }
    assert len(pdfs) == 1
    assert canary.named_token("title") in tokens_in(pdfs)
    raw = b"".join(pdfs.values())
    assert canary.named_token("question").encode() not in raw  # it is packed, so reading is needed


@pytest.mark.parametrize("number", ["4111", "4222", "91333", "91444", "4711"])
def test_money_hours_and_private_figures_are_in_no_public_record(
    deposits: dict[Sort, dict[str, bytes]], number: str
) -> None:
    public = deposits[Sort.PUBLIC].items()
    assert [] == [
        name for name, raw in public if "data/records/" in name and number.encode() in raw
    ]


@pytest.mark.parametrize("name", ["2024-001", "2024-002", "2024-004", "2024-006"])
def test_a_record_that_is_not_public_is_not_even_named(
    deposits: dict[Sort, dict[str, bytes]], name: str
) -> None:
    examples = (
        "README-FIRST.txt",
        "/schema/",
        "/rulebook/",
        "/site/rules/",
    )  # these name invented records
    public = deposits[Sort.PUBLIC].items()
    found = [
        path for path, raw in public if name in path or any(name in t for t in texts_in(path, raw))
    ]
    assert [] == [path for path in found if not any(part in path for part in examples)]


def test_a_withheld_record_is_its_number_its_machine_and_the_reason(
    deposits: dict[Sort, dict[str, bytes]],
) -> None:
    copy = deposits[Sort.PUBLIC]["data/records/crane/2024-007.yml"].decode()
    assert {canary.named_token("withheld")} == set(canary.TOKEN.findall(copy))


def test_pictures_not_marked_public_stay_in_the_house(
    deposits: dict[Sort, dict[str, bytes]],
) -> None:
    # A sketch is drawn in sizes, so shown.svg lies there as shown-svg-480.png and so on.
    named = [path.rpartition("/")[2] for path in deposits[Sort.PUBLIC] if "/photos/" in path]
    assert {"shown", "work", "decision"} == {re.split(r"[-.]svg", name)[0] for name in named}


def test_every_text_is_in_a_sealed_deposit(deposits: dict[Sort, dict[str, bytes]]) -> None:
    records = {n: raw for n, raw in deposits[Sort.SEALED].items() if n.startswith("data/records/")}
    assert set() == set(fields_of_tokens()) - tokens_in(records)


def test_the_paper_of_a_sealed_deposit_holds_the_whole_record(
    deposits: dict[Sort, dict[str, bytes]],
) -> None:
    # AIC, Commentaries 27 and 28: what lies only on a computer goes on paper in good time.
    files = deposits[Sort.SEALED]
    paper = {n: raw for n, raw in files.items() if n == "data/reading/2024-003.pdf"}
    text = "".join(
        page.extract_text() for page in PdfReader(io.BytesIO(*paper.values())).pages
    ).replace("\n", "")
    record = files["data/records/crane/2024-003-canary.yml"].decode()
    wanted = set(canary.TOKEN.findall(record))
    assert set() == {token for token in wanted if token not in text}


def test_a_record_that_is_not_published_is_on_the_paper_of_a_sealed_deposit(
    deposits: dict[Sort, dict[str, bytes]],
) -> None:
    text = PdfReader(io.BytesIO(deposits[Sort.SEALED]["data/reading/2024-001.pdf"]))
    assert "This record is not published" in text.pages[0].extract_text()
