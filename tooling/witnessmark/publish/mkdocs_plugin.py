"""The same pages inside a mkdocs theme: a thin adapter, since the theme will not last for ever."""

from __future__ import annotations

import copy
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import cast

from jinja2 import Environment
from markupsafe import escape
from mkdocs.config import base
from mkdocs.config import config_options as c
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page as ThemedPage
from mkdocs.structure.toc import AnchorLink, TableOfContents
from mkdocs.utils.templates import TemplateContext

from witnessmark.errors import WitnessmarkError
from witnessmark.publish.allow import NO_REVISIONS
from witnessmark.publish.finder import (
    WASM,
    Finder,
    finder_of,
    index_by_pagefind,
    without_search,
)
from witnessmark.publish.other_formats import NO_OTHERS, OtherFormats
from witnessmark.publish.pages import Page, static_file
from witnessmark.publish.policy_of_scripts import Policies, without_scripts
from witnessmark.publish.public_decision import PublicRevision
from witnessmark.publish.shown_history import NO_VERSIONS
from witnessmark.publish.themed import themed_site
from witnessmark.publish.views_finding import SEARCH
from witnessmark.repository.picture_store import PictureStore
from witnessmark.repository.record_versions import RecordVersions

LOST = "404.html"
"""The page that the theme shows for an address that is not there; ours stands inside it."""


class WitnessmarkConfig(base.Config):  # type: ignore[no-untyped-call]  # mkdocs leaves it untyped
    """What mkdocs.yml may say: where the museum lies and the day the site is made for."""

    museum = c.Type(str, default="decisions")
    as_of = c.Optional(c.Type((str, date)))


class WitnessmarkPlugin(BasePlugin[WitnessmarkConfig]):  # type: ignore[no-untyped-call]
    """Hands every page to mkdocs as ready markup, so that no record text is read as Markdown."""

    revisions: Mapping[str, PublicRevision] = NO_REVISIONS
    versions: RecordVersions = NO_VERSIONS
    others: OtherFormats = NO_OTHERS
    store: PictureStore | None = None
    """All four are set by `witnessmark publish`, which knows the history and other formats."""

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add every page, picture and style sheet as a file that lies nowhere on disk."""
        place = Path(config.config_file_path or "mkdocs.yml").parent / self.config.museum
        day = str(self.config.as_of) if self.config.as_of else None
        try:
            pages, others = themed_site(
                place,
                as_of=day,
                revisions=self.revisions,
                versions=self.versions,
                others=self.others,
                store=self.store,
            )
        except WitnessmarkError as error:
            raise PluginError(str(error)) from error
        decisions = sum(1 for page in pages if page.path.startswith("d/"))
        self.finder = finder_of(config, decisions=decisions)
        self.silent = without_search(config)
        if self.finder is Finder.PAGEFIND:
            others |= {"assets/finder.js": static_file("finder.js")}
        self.lost = next(page for page in pages if page.path == LOST)
        self.pages: dict[str, Page] = {_source(page): page for page in pages if page.path != LOST}
        for name, content in {**dict.fromkeys(self.pages, b""), **others}.items():
            if written := files.get_file_from_path(name):
                files.remove(written)
            level = InclusionLevel.NOT_IN_NAV
            files.append(File.generated(config, name, content=content, inclusion=level))
        return files

    def on_page_markdown(self, markdown: str, *, page: ThemedPage, **_: object) -> str:
        """Set title and description, escaped here because the theme does not."""
        if made := self.pages.get(page.file.src_uri):
            page.update_date = made.day.isoformat() if made.day else page.update_date
            page.meta = {
                "finder": self.finder.value if made.path == SEARCH else None,
                "title": str(escape(made.title)),
                "description": str(escape(made.description)),
                "hide": ["navigation"] if made.toc else ["navigation", "toc"],
                "head": made.head,
            }
        return markdown

    def on_page_content(self, html: str, *, page: ThemedPage, **_: object) -> str:
        """Put the ready markup and its headings in place of the empty page."""
        made = self.pages.get(page.file.src_uri)
        if made is None:
            return html
        page.toc = TableOfContents([AnchorLink(s.title, s.id, 2) for s in made.toc])
        # What is folded away is reasons and sums of what is said above; it would double the index.
        return str(made.body).replace("<details", '<details data-search-exclude="yes"')

    def on_env(self, env: Environment, **_: object) -> Environment:
        """Keep the theme's templates at hand, to see which scripts they bring."""
        self.policies = Policies(env)
        return env

    def on_page_context(
        self, context: TemplateContext, *, page: ThemedPage, **_: object
    ) -> TemplateContext:
        """Let the page run the theme's own scripts, and no script that its content might hold."""
        bare = copy.copy(page)
        finder = page.meta.get("finder")
        bare.content, bare.title, bare.toc = "", "", TableOfContents([])
        bare.meta = {"finder": finder}
        if finder != Finder.THEME.value:
            context = _with(context, config=self.silent)
        policy = self.policies.of(context, "main.html", page=bare)
        made = self.pages.get(page.file.src_uri, self.lost)
        if finder == Finder.PAGEFIND.value:
            policy = policy.replace("script-src 'self'", f"script-src 'self' {WASM}")
        return _with(context, content_policy=policy, foot=made.foot)

    def on_post_page(self, output: str, *, page: ThemedPage, **_: object) -> str:
        """Leave the theme's own scripts only where it searches."""
        return output if page.meta.get("finder") == Finder.THEME.value else without_scripts(output)

    def on_template_context(
        self, context: TemplateContext, *, template_name: str, **_: object
    ) -> TemplateContext:
        """The same for pages of the theme that show no record, such as the one for a lost link."""
        if not template_name.endswith(".html"):
            return context
        silent = _with(context, config=self.silent)
        policy = self.policies.of(silent, template_name, lost=None)
        return _with(silent, content_policy=policy, lost=self.lost, foot=self.lost.foot)

    def on_post_template(self, output_content: str, *, template_name: str, **_: object) -> str:
        """Leave no script of the theme's in the page for a lost link."""
        is_page = template_name.endswith(".html")
        return without_scripts(output_content) if is_page else output_content

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Let pagefind read the finished pages, where it is what answers."""
        if self.finder is Finder.PAGEFIND:
            try:
                index_by_pagefind(Path(config.site_dir))
            except WitnessmarkError as error:
                raise PluginError(str(error)) from error


def _with(context: TemplateContext, **more: object) -> TemplateContext:
    """The context with what our overrides of the theme print, or read instead."""
    return cast("TemplateContext", {**context, **more})


def _source(page: Page) -> str:
    """The name of the Markdown file that mkdocs believes the page comes from."""
    return f"{page.path.removesuffix('.html')}.md"
