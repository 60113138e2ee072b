"""Every way the tool itself can fail; a record that is wrong is a diagnostic instead."""

from __future__ import annotations


class WitnessmarkError(Exception):
    """The tool cannot work: says what stopped it and what would put it right.

    >>> str(WitnessmarkError("There is no folder called x.", remedy="Name another."))
    'There is no folder called x. Name another.'
    """

    def __init__(self, message: str, *, remedy: str) -> None:
        super().__init__(message, remedy)
        self.message = message
        self.remedy = remedy

    def __str__(self) -> str:
        """Give the reason and the remedy as one line of text."""
        return f"{self.message} {self.remedy}".strip()


class NoMuseumError(WitnessmarkError):
    """No museum.yml was found where one was looked for."""


class UnknownNameError(WitnessmarkError):
    """A decision, rule, code or sheet was asked for that does not exist."""


class RefusedError(WitnessmarkError):
    """What was asked for would break a promise the record makes, so nothing was written."""
