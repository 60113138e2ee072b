"""What a sheet says when it must not give a result."""

from __future__ import annotations

from dataclasses import dataclass

from witnessmark.errors import UnknownNameError


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing wrong with what was given; `name` is the input, empty for the sheet as a whole."""

    name: str
    message: str
    fix: str


class SheetRefuses(ValueError):  # noqa: N818 - what was given is at fault, not the program
    """A sheet gives no result: every fault found, not only the first."""

    def __init__(self, sheet: str, *, faults: tuple[Fault, ...]) -> None:
        super().__init__(
            "; ".join(f"{fault.name or sheet}: {fault.message} {fault.fix}" for fault in faults)
        )
        self.sheet = sheet
        self.faults = faults


class SheetUnknown(UnknownNameError):  # noqa: N818 - what was asked is at fault, not the program
    """No sheet of that name can be run; `fix` says what to ask for instead."""

    def __init__(self, message: str, *, fix: str) -> None:
        super().__init__(message, remedy=fix)
        self.fix = fix
