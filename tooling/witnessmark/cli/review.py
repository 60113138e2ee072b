"""witnessmark review: what changed in meaning between two versions of a museum."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import click

from witnessmark.cli.opening import MUSEUM
from witnessmark.exchange.review import Review, review_of, sides_of
from witnessmark.exchange.review.as_json import review_as_json
from witnessmark.exchange.review.markdown import render_markdown
from witnessmark.repository.collection import without_collection
from witnessmark.repository.disk import find_museum
from witnessmark.repository.versions import read_versions
from witnessmark.rules.rulebook_check import load_shipped


@click.command("review")
@click.argument("base", required=False)
@click.argument("head", required=False)
@click.option(
    "--format",
    "form",
    type=click.Choice(["md", "json", "html"]),
    default="md",
    show_default=True,
    help="Markdown for a host's comment, JSON, or one page with everything.",
)
@MUSEUM
def command(base: str | None, head: str | None, form: str, museum: str) -> None:
    """Tell what changed in meaning: rankings, seals, scores, metal, rules, words.

    BASE is where to compare from; the point where HEAD parted from it counts (default: main). HEAD
    is what to review (default: the files on disk). Records are matched by id, so that moved files
    and layout are no change. A new record gets a sheet for its first review.

    Exit code: 0 nothing needs a person, 1 something does, 2 could not run.

    Example: witnessmark review main HEAD --format html
    """
    with without_collection():
        review = _review(find_museum(Path(museum)), base, head)
    click.echo(_rendered(review, form), nl=False)
    sys.exit(review.exit_code)


def _review(folder: Path, base: str | None, head: str | None) -> Review:
    versions = read_versions(folder, base=base, head=head)
    keys, rulebook = versions.allowed_signers, load_shipped()
    sides = sides_of(versions.base, versions.head, rulebook=rulebook, allowed_signers=keys)
    return review_of(*sides, notes=versions.notes)


def _rendered(review: Review, form: str) -> str:
    if form == "json":
        return json.dumps(review_as_json(review), indent=2, ensure_ascii=False) + "\n"
    if form == "html":
        from witnessmark.exchange.review.page import render_page

        return render_page(review)
    return render_markdown(review)
