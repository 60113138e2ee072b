"""The reading copy: PDF/A markers, fonts and attachments as pikepdf finds them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pikepdf
import pytest
from pypdf import PdfReader

from depositing import Made
from witnessmark.exchange.deposit.paper import Leaf, printed

AS_ON = date(2026, 6, 1)


def pdfs(deposit: Made) -> list[Path]:
    found = sorted((deposit.data / "reading").glob("*.pdf"))
    assert found
    return found


def fonts_in(pdf: pikepdf.Pdf) -> Iterator[pikepdf.Object]:
    for page in pdf.pages:
        yield from page.Resources.get("/Font", {}).values()


def descriptor(font: pikepdf.Object) -> pikepdf.Object:
    return (
        font.DescendantFonts[0].FontDescriptor
        if "/DescendantFonts" in font
        else font.FontDescriptor
    )


def test_there_is_one_a_decision_and_one_of_all(public: Made, sealed: Made) -> None:
    published = {"2022-001", "2023-002", "2023-004", "2024-003", "2025-002", "all"}
    every = published | {"2026-001", "2026-002", "2026-004", "2026-007"}
    found = [{path.stem for path in pdfs(made)} for made in (public, sealed)]
    assert [published, every] == found


def test_each_claims_pdf_a_3u(public: Made) -> None:
    # ISO 19005-3:2012, 6.6.4: part and conformance in the XMP metadata.
    for path in pdfs(public):
        with pikepdf.open(path) as pdf, pdf.open_metadata() as told:
            assert ("3", "U") == (told["pdfaid:part"], told["pdfaid:conformance"]), path.name


def test_each_names_its_colours_and_encrypts_nothing(public: Made) -> None:
    # ISO 19005-3:2012, 6.2.3 (output intent) and 6.1.3 (no encryption).
    for path in pdfs(public):
        with pikepdf.open(path) as pdf:
            intents = [str(one.S) for one in pdf.Root.OutputIntents]
            assert (["/GTS_PDFA1"], False) == (intents, pdf.is_encrypted)


def test_every_font_is_embedded_and_can_be_read_as_unicode(public: Made) -> None:
    # ISO 19005-3:2012, 6.2.11.4.1 (embedding) and 6.2.11.7.2 (level U: ToUnicode).
    kinds = ("/FontFile", "/FontFile2", "/FontFile3")
    for path in pdfs(public):
        with pikepdf.open(path) as pdf:
            fonts = list(fonts_in(pdf))
            assert fonts
            assert all(any(k in descriptor(font) for k in kinds) for font in fonts), path.name
            assert all("/ToUnicode" in font for font in fonts), path.name


def test_nothing_runs_and_no_link_leads_to_a_made_up_address(public: Made) -> None:
    # ISO 19005-3:2012, 6.5.1: no scripts, no launching.
    for path in pdfs(public):
        with pikepdf.open(path) as pdf:
            actions = [
                note.A for page in pdf.pages for note in page.get("/Annots", []) if "/A" in note
            ]
            assert {"/URI"} >= {str(action.S) for action in actions}
            assert [] == [a for a in actions if not str(a.URI).startswith("http")]
            assert "/JavaScript" not in pdf.Root.get("/Names", {})


@pytest.mark.parametrize("name", ["public", "sealed"])
def test_the_record_is_attached_byte_for_byte(name: str, request: pytest.FixtureRequest) -> None:
    deposit: Made = request.getfixturevalue(name)
    records = {path.name: path.read_bytes() for path in (deposit.data / "records").rglob("20*.yml")}
    for path in pdfs(deposit):
        with pikepdf.open(path) as pdf:
            held = {n: a.get_file().read_bytes() for n, a in pdf.attachments.items()}
            wanted = records if path.stem == "all" else {
                n: raw for n, raw in records.items() if n.startswith(path.stem)
            }  # fmt: skip
            known = {n: raw for n, raw in wanted.items() if n[:8] in {m[:8] for m in held}}
            assert held
            assert known == held, path.name


def test_each_attachment_says_how_it_belongs_to_the_paper(public: Made) -> None:
    # ISO 19005-3:2012, 6.8: AFRelationship, and AF in the catalog.
    for path in pdfs(public):
        with pikepdf.open(path) as pdf:
            assert {"/Source"} == {str(one.AFRelationship) for one in pdf.Root.AF}


def test_the_paper_goes_from_question_to_outcome(public: Made) -> None:
    reader = PdfReader(public.data / "reading" / "2024-003.pdf")
    text = " ".join(" ".join(page.extract_text() for page in reader.pages).split())
    wanted = (
        "What should carry the turning frame now?",
        "Roller bearings in bored housings",
        "The bronze that turned through 93 years",
        "two new drivers have passed out",
    )
    places = [text.find(words) for words in wanted]
    assert all(place >= 0 for place in places), places


def test_the_volume_of_all_begins_with_the_list(public: Made) -> None:
    reader = PdfReader(public.data / "reading" / "all.pdf")
    first = reader.pages[0].extract_text()
    assert [True] * 3 == [name in first for name in ("2022-001", "2024-003", "Every published")]


def test_a_printer_is_given_pictures_and_asks_for_nothing_else(
    caplog: pytest.LogCaptureFixture,
) -> None:
    html = (
        '<!doctype html><html lang="en"><head><title>x</title></head><body><p>Words</p>'
        '<img alt="a" src="https://example.org/a.png"><img alt="b" src="file:///etc/hostname">'
        '<img alt="c" src="museum:/m/other.svg"></body></html>'
    )
    made = printed([Leaf(name="x", html=html, attached={"x.yml": b"x"})], pictures={}, day=AS_ON)
    assert {"x.pdf", "all.pdf"} == set(made)
    refused = [told for told in caplog.messages if "not among the pictures given" in told]
    assert 3 == len(refused)


def test_the_same_pages_give_the_same_bytes(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1780272000")
    leaf = Leaf(name="x", html="<html lang=en><title>x</title><p>Words", attached={"x.yml": b"x"})
    first, second = (printed([leaf], pictures={}, day=AS_ON) for _ in range(2))
    assert first == second
