"""What the preview answers to each address, from the museum as it lies on disk at that moment."""

from __future__ import annotations

import mimetypes
import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path, PurePosixPath
from typing import TypeVar

from pydantic import BaseModel

from witnessmark.cli.opening import day_or_today
from witnessmark.errors import WitnessmarkError
from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.library import DecisionFile, Library, assemble, reading_again
from witnessmark.publish.environment import environment
from witnessmark.publish.pages import Page, static_files
from witnessmark.publish.preview import (
    Ground,
    decision_page,
    preview_list,
    preview_script,
    preview_shell,
    site_page,
    standing_of,
)
from witnessmark.publish.shown_history import is_shown
from witnessmark.repository.disk import read_museum
from witnessmark.repository.prepared import prepared, public_photos
from witnessmark.repository.site import read_pictures
from witnessmark.repository.watching import stamp_of
from witnessmark.rules.check import check_one
from witnessmark.rules.rulebook_check import load_shipped

M = TypeVar("M", bound=BaseModel)
_DECISION = re.compile(r"d/(?P<id>[0-9]{4}-[0-9]{3})/(index\.html)?")


@dataclass(frozen=True, slots=True)
class Answer:
    """What is sent back."""

    code: int
    kind: str
    content: bytes


class Answers:
    """The answers of one preview.

    Holds what was read, so that after a file is saved only that file is read again.
    """

    def __init__(self, folder: Path, *, as_of: date | str | None, is_public: bool) -> None:
        self._folder = folder
        self._as_of = as_of
        self._is_public = is_public
        self._reading = reading_again()
        self._stamp = ""
        self._library: Library | None = None

    def to(self, path: str) -> Answer:
        """The answer to a path below the address, which the caller has freed from its escapes."""
        if path == "assets/preview-stamp":
            return Answer(200, "text/plain; charset=utf-8", stamp_of(self._folder).encode())
        if path == "assets/preview.js":
            return Answer(200, "text/javascript; charset=utf-8", preview_script())
        if (static := static_files().get(path)) is not None:
            return _file(path, static)
        try:
            return self._page_or_picture(path)
        except WitnessmarkError as failure:
            return self._stopped(500, "This page cannot be made", failure.message, failure.remedy)

    def _page_or_picture(self, path: str) -> Answer:
        library = self._read()
        if PurePosixPath(path).parent.name == "photos":
            return self._picture(path, library)
        if not path or path == "index.html":
            body = preview_list(library, museum=self._ground(library).museum.name)
            return self._shell(body, title="All records", root="", standing="Every record.")
        match = _DECISION.fullmatch(path)
        if match and (entry := library.by_id.get(match["id"])) is not None:
            return self._decision(entry, library)
        page = site_page(_file_of(path), self._ground(library))
        if page is None:
            return self._missing()
        return self._made(page, "This page is as the public would see it.")

    def _read(self) -> Library:
        """The museum; a file that has not changed is not read anew."""
        stamp = stamp_of(self._folder)
        if self._library is None or stamp != self._stamp:
            self._library = assemble(read_museum(self._folder), reading=self._reading)
            self._stamp = stamp
        return self._library

    def _ground(self, library: Library) -> Ground:
        museum = library.museum.value
        if museum is None or not library.museum.whole:
            raise WitnessmarkError(
                "museum.yml cannot be read whole.", remedy="Run check and mend what it names."
            )
        return Ground(
            library=library,
            museum=museum,
            rulebook=load_shipped(),
            as_of=day_or_today(self._as_of, library),
            pictures=read_pictures(self._folder, library.names),
        )

    def _decision(self, entry: DecisionFile, library: Library) -> Answer:
        decision = entry.value
        if self._is_public and not (decision and is_shown(decision)):
            page = site_page(f"d/{entry.id}/index.html", self._ground(library))
            return self._made(page, standing_of(decision)) if page and decision else self._missing()
        said = check_one(entry, library, rulebook=load_shipped())
        page = decision_page(entry, self._ground(library))
        standing = standing_of(decision) if decision else "This record cannot be read yet."
        if page:
            body, title, root = str(page.body), page.title, page.root
        else:
            body, title, root = _words("Too little of this record can be read"), entry.id, "../../"
        return self._shell(body, title=title, root=root, standing=standing, said=said)

    def _picture(self, path: str, library: Library) -> Answer:
        """One copy of a picture; only the picture it is of is made ready."""
        pictures = read_pictures(self._folder, library.names)
        wanted = path.removeprefix("m/")
        for name in {name for name, *_ in public_photos(library)} & pictures.keys():
            stem = str(PurePosixPath(name).with_suffix(""))
            if wanted.startswith(stem):
                copies = prepared({name: pictures[name]}, library)[name]
                for copy in copies:
                    if copy.name == wanted:
                        return _file(path, copy.content)
        return self._missing()

    def _made(self, page: Page, standing: str) -> Answer:
        return self._shell(str(page.body), title=page.title, root=page.root, standing=standing)

    def _missing(self) -> Answer:
        message = "There is no such page, or the public would not see it."
        return self._stopped(404, "Nothing stands here", message, "Go back to the list.")

    def _stopped(self, code: int, title: str, message: str, remedy: str) -> Answer:
        found = self._shell(
            _words(title, message, remedy), title=title, root="/", standing="Nothing is shown."
        )
        return Answer(code, found.kind, found.content)

    def _shell(
        self,
        body: str,
        *,
        title: str,
        root: str,
        standing: str,
        said: Sequence[Diagnostic] | None = None,
    ) -> Answer:
        text = preview_shell(
            body, title=title, root=root, stamp=self._stamp, standing=standing, said=said
        )
        return Answer(200, "text/html; charset=utf-8", text.encode())


def _words(title: str, message: str = "", remedy: str = "") -> str:
    template = environment().get_template("preview/stopped.html")
    return template.render(title=title, message=message, remedy=remedy)


def _file(path: str, content: bytes) -> Answer:
    kind = mimetypes.types_map.get(PurePosixPath(path).suffix, "application/octet-stream")
    return Answer(200, kind, content)


def _file_of(path: str) -> str:
    """The file that stands for an address, as a web server would find it."""
    return f"{path}index.html" if path.endswith("/") else path
