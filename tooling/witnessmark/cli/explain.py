"""witnessmark explain: what a code or a rule means and what to do, and the guides."""

from __future__ import annotations

import difflib
from collections.abc import Iterator

import click

from witnessmark.cli.explain_rule import render_places, render_rule
from witnessmark.cli.guides import guide, guides
from witnessmark.cli.opening import open_museum
from witnessmark.cli.printing import render_paragraph
from witnessmark.errors import UnknownNameError
from witnessmark.model.library import Library
from witnessmark.model.shape_codes import CODES as SHAPE_CODES
from witnessmark.model.source_codes import SOURCE_CODES
from witnessmark.rules.codes import CODES as RECORD_CODES
from witnessmark.rules.followed import rule_in_museum
from witnessmark.rules.house_rules import why_off
from witnessmark.rules.kept import rules_for
from witnessmark.rules.rule import Rule
from witnessmark.rules.rulebook_check import load_shipped, newest_policy


@click.command("explain")
@click.argument("code", required=False)
@click.option(
    "--museum",
    type=click.Path(),
    metavar="DIR",
    help="Say also where this museum kept, broke or waived the rule, and explain its own rules.",
)
def command(code: str | None, museum: str | None) -> None:
    r"""Say what a code (WM012) or a rule (removed-part-is-kept) means and what to do.

    A guide is printed whole. Without a code, lists all codes, rules and guides.

    \b
    Example:
      witnessmark explain WM012
      witnessmark explain weights
      witnessmark explain removed-part-is-kept --museum decisions
    """
    library = open_museum(museum).library if museum else None
    rules = _known(library)
    if code is None:
        click.echo("\n".join(_all(rules)))
        return
    if code in guides():
        click.echo(guide(code))
        return
    found = {rule.code: rule for rule in rules.values()} | rules
    wanted = code if code in rules else code.upper()
    if wanted in found:
        click.echo("\n".join(_rule(found[wanted], library)))
    elif wanted in _standing():
        title, why, fix = _standing()[wanted]
        click.echo(f"{wanted}: {title}\n")
        click.echo(render_paragraph(why, indent="  ") + "\n")
        click.echo(render_paragraph(f"To mend it: {fix}", indent="  "))
    else:
        near = difflib.get_close_matches(code, [*found, *_standing(), *guides()], n=3)
        hint = f"The nearest are: {', '.join(near)}." if near else "Run `witnessmark explain`."
        raise UnknownNameError(f'There is no code, rule or guide "{code}".', remedy=hint)


def _known(library: Library | None) -> dict[str, Rule]:
    """The book's rules by id, and those of a museum's newest policy."""
    book = load_shipped().rules
    if library is None:
        return {rule.id: rule for rule in book}
    kept = rules_for(newest_policy(library), library, book=book)
    return {rule.id: rule for rule in (*book, *kept)}


def _rule(rule: Rule, library: Library | None) -> Iterator[str]:
    yield from render_rule(rule)
    if library is not None:
        policy = newest_policy(library)
        if because := why_off(rule, policy, library):
            yield render_paragraph(f"Policy {policy} switches it off: {because}", indent="  ")
        yield from render_places(rule_in_museum(rule.id, library, rulebook=load_shipped()))


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
    yield "Guides"
    yield from (f"  {name}  {title}" for name, title in guides().items())
