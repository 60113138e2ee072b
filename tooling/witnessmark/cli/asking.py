"""Asking in the terminal what was not given as a flag; without a terminal nothing is asked."""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence

import click

from witnessmark.errors import UnknownNameError
from witnessmark.model.spelling import hint


def is_a_talk() -> bool:
    """True when somebody sits at the terminal and can answer."""
    return sys.stdin.isatty()


def given_or_asked(
    given: str | None,
    question: str,
    *,
    flag: str,
    default: str | None = None,
    fault_of: Callable[[str], str | None] | None = None,
) -> str:
    """The flag's value, or what is answered; an answer that cannot stand is asked for again.

    Raises:
        UnknownNameError: there is no flag, no default and nobody to ask, or the flag cannot stand.
    """
    if given is None and is_a_talk():
        return _asked(question, default, fault_of)
    value = given if given is not None else default
    if value is None:
        raise UnknownNameError(
            f"It is not said: {question.rstrip('?:')}.", remedy=f"Give it with {flag}."
        )
    if fault_of and (fault := fault_of(value)):
        raise UnknownNameError(fault, remedy=f"Give another with {flag}.")
    return value


def _asked(question: str, default: str | None, fault_of: Callable[[str], str | None] | None) -> str:
    while True:
        shown = default or None
        answer = str(click.prompt(question, default="" if shown is None else shown,
                                  show_default=shown is not None)).strip()  # fmt: skip
        if not answer and default is None:
            click.echo("  Nothing was written. This one is needed; Ctrl-C stops.")
        elif fault_of and answer and (fault := fault_of(answer)):
            click.echo(f"  {fault}")
        else:
            return answer


def one_of(known: Sequence[str], *, what: str) -> Callable[[str], str | None]:
    """A check that an answer is one of these names, with the clear winner where there is one."""

    def fault(answer: str) -> str | None:
        if answer in known:
            return None
        meant = hint(answer, known) or f" Use one of: {', '.join(known)}."
        return f'There is no {what} "{answer}".{meant}'

    return fault
