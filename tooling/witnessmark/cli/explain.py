"""witnessmark explain: what a code or a rule means and what to do."""

from __future__ import annotations

import difflib
from collections.abc import Iterator

import click

from witnessmark.cli.printing import render_paragraph
from witnessmark.errors import UnknownNameError
from witnessmark.model.shape_codes import CODES as SHAPE_CODES
from witnessmark.model.source_codes import SOURCE_CODES
from witnessmark.rules.codes import CODES as RECORD_CODES
from witnessmark.rules.rule import Rule
from witnessmark.rules.rulebook_check import load_shipped


@click.command("explain")
@click.argument("code", required=False)
def command(code: str | None) -> None:
    """Say what a code (WM012) or a rule (removed-part-is-kept) means and what to do.

    Without a code, lists them all.

    Example: witnessmark explain WM012
    """
    rules = {rule.id: rule for rule in load_shipped().rules}
    if code is None:
        click.echo("\n".join(_all(rules)))
        return
    found = {rule.code: rule for rule in rules.values()} | rules
    wanted = code if code in rules else code.upper()
    if wanted in found:
        click.echo("\n".join(_rule(found[wanted])))
    elif wanted in _standing():
        title, why, fix = _standing()[wanted]
        click.echo(f"{wanted}: {title}\n")
        click.echo(render_paragraph(why, indent="  ") + "\n")
        click.echo(render_paragraph(f"To mend it: {fix}", indent="  "))
    else:
        near = difflib.get_close_matches(code, [*found, *_standing()], n=3)
        hint = f"The nearest are: {', '.join(near)}." if near else "Run `witnessmark explain`."
        raise UnknownNameError(f'There is no code or rule "{code}".', remedy=hint)


def _standing() -> dict[str, tuple[str, str, str]]:
    """Title, why and fix of every check that is not a rule, blanks in the fix shown as such."""
    reading = {code: (c.title, c.why, c.fix) for code, c in SOURCE_CODES.items()}
    every = {**reading, **SHAPE_CODES, **RECORD_CODES}
    blanks = {
        "{name}": "the field",
        "{known}": "the names allowed there",
        "{fix}": "As told there.",
    }
    told = {}
    for code, standing in sorted(every.items()):
        title, why, fix = tuple(standing)
        for blank, words in blanks.items():
            fix = fix.replace(blank, words)
        told[code] = (title, why, fix)
    return told


def _all(rules: dict[str, Rule]) -> Iterator[str]:
    yield "Checks of reading, shape and arithmetic"
    yield from (f"  {code}  {title}" for code, (title, _, _) in _standing().items())
    yield "Rules"
    yield from (f"  {rule.code}  {rule.id} ({rule.level.value})" for rule in rules.values())


def _rule(rule: Rule) -> Iterator[str]:
    waivable = "may be waived" if rule.waivable else "may never be waived"
    level = f"{rule.level.value}, {waivable}" if rule.level.value == "must" else rule.level.value
    yield f"{rule.code} {rule.id} ({level})"
    yield render_paragraph(rule.title, indent="  ")
    yield ""
    yield render_paragraph(rule.why, indent="  ")
    yield ""
    yield render_paragraph(f"To mend it: {rule.remedy}", indent="  ")
    yield ""
    yield "  Sources"
    for source in rule.sources:
        clause = f", {source.clause}" if source.clause else ""
        edition = f" ({source.edition})" if source.edition else ""
        yield render_paragraph(
            f"{source.text}{clause}{edition}: {source.standing.value}, {source.confidence.value}",
            indent="    ",
        )
