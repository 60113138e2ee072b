"""README-FIRST.txt: the whole deposit explained in plain words, for readers without any program."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from witnessmark.exchange.deposit.kit import Kit
from witnessmark.exchange.deposit.readme_fields import field_lines, word_lines
from witnessmark.exchange.deposit.readme_seals import seal_lines
from witnessmark.exchange.deposit.readme_tables import TABLES
from witnessmark.exchange.deposit.readme_worksheets import worksheet_lines
from witnessmark.exchange.deposit.telling import SHELL, heading, text_of, wrapped

NAME = "README-FIRST.txt"


def readme_of(kit: Kit, *, levels: Mapping[str, tuple[str, ...]]) -> bytes:
    """The text; `levels` are the meanings of the levels 0 to 4 by the name of what is judged."""
    parts = (
        _opening(kit),
        text_of("sealed" if kit.is_sealed else "public"),
        _whole(kit),
        _held(kit),
        _history(kit),
        text_of("yaml"),
        seal_lines(kit),
        _with_tables(text_of("formulas")),
        _levels(levels),
        worksheet_lines(),
        field_lines(),
        word_lines(),
    )
    return ("\n\n".join("\n".join(part).strip("\n") for part in parts) + "\n").encode()


def _opening(kit: Kit) -> Iterator[str]:
    place = f", {kit.place}" if kit.place else ""
    title = f"Decisions of {kit.museum}{place}"
    yield from wrapped(title)
    yield f"As on {kit.day}"
    yield from (NAME, "")
    yield from wrapped(
        "These are a museum's decisions about its historic machines: what was found, what could "
        "be done, what was chosen, what was given up and whether it worked. You need no special "
        "program. This file explains the rest.",
    )
    yield ""
    if kit.about:
        yield from wrapped(" ".join(kit.about.split()))
        yield ""
    made = f"Made by Witnessmark {kit.program}"
    made += f" from commit {kit.revision} of the records." if kit.revision else "."
    if kit.is_edited:
        made += " Some files held changes that were not filed yet."
    yield from wrapped(made)
    terms = kit.licence or "none are stated; ask the museum"
    yield "Terms of use: " + ("not for publication." if kit.is_sealed else f"{terms}")
    yield from ("It explains decisions. It never certifies a machine as safe.",)


def _whole(kit: Kit) -> Iterator[str]:
    del kit
    yield from heading("Is it whole?")
    yield from wrapped(
        "This folder is a BagIt bag (RFC 8493). manifest-sha512.txt lists every file in data/ "
        "with its SHA-512 sum, tagmanifest-sha512.txt the files around it. At a terminal, in the "
        "folder that holds bagit.txt, type what stands after the $:",
    )
    yield ""
    yield f"{SHELL}sha512sum --quiet -c manifest-sha512.txt"
    yield f"{SHELL}sha512sum --quiet -c tagmanifest-sha512.txt"
    yield from ("", "Both say nothing when every file is as it was.")


def _held(kit: Kit) -> Iterator[str]:
    yield from heading("What is here")
    pdf = (
        "one PDF a decision, and all.pdf with every one; each record's YAML is attached. "
        "Made to the rules of PDF/A-3; no validator has looked at it: claimed, not proven"
        if kit.has_pdf
        else "one page of HTML a decision, to be printed from a browser"
    )
    rows = (
        ("data/records/", "the records, YAML", True),
        ("data/site/", "the public site: open site/index.html in a browser", True),
        ("data/reading/", f"the reading copy: {pdf}", bool(kit.readings)),
        ("data/tables/", "the same as tables (CSV), each with a description", bool(kit.tables)),
        ("data/seals/", "the agreements and their seals", True),
        ("data/rulebook/", "the rules that records are held against, each with its source", True),
        ("data/schema/", "JSON Schemas of every kind of file", True),
        ("data/history/", "the whole history, for git", kit.history is not None),
        ("data/ro-crate-metadata.json", "what each file is, as an RO-Crate 1.2 (JSON-LD)", True),
        ("data/ro-crate-expanded.jsonld", "the same with nothing to be fetched from the web", True),
    )
    for path, what, is_there in rows:
        if is_there:
            yield from wrapped(f"{path}  {what}.", first="  ", further="      ")


def _history(kit: Kit) -> Iterator[str]:
    yield from heading("History")
    if kit.history is not None:
        yield from wrapped(
            "Every version of every file, and who filed it when, is in one file for git. This "
            "makes a folder with all of it beside this one:",
        )
        yield from ("", f"{SHELL}git clone -q data/history/history.bundle ../history-read-back")
        yield f"{SHELL}git -C ../history-read-back log --oneline"
        return
    why = (
        "The records lay in no git repository when this was made, so there is no history."
        if kit.is_sealed
        else "There is no git history in a public deposit, because earlier versions hold private "
        "fields. The site tells on each decision's page how it changed since it became public."
    )
    yield from wrapped(why)


def _with_tables(lines: Iterator[str]) -> Iterator[str]:
    """The lines of a text, each that names a table replaced by the table's rows."""
    for line in lines:
        if line.startswith("@"):
            yield from (f"    {row}" for row in TABLES[line[1:]]())
        else:
            yield line


def _levels(levels: Mapping[str, tuple[str, ...]]) -> Iterator[str]:
    yield from heading("What the levels mean")
    for name, meanings in levels.items():
        yield name
        for level, meaning in enumerate(meanings):
            yield from wrapped(f"{level}  {meaning}", first="    ", further="       ")
