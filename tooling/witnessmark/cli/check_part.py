"""One of several parts of a check, as it is written on the command line."""

from __future__ import annotations

import click

from witnessmark.repository.asking import Part


class PartParam(click.ParamType[Part]):
    """One of several parts on the command line: 2/3 is the second of three."""

    name = "part"

    def convert(
        self, value: object, param: click.Parameter | None, ctx: click.Context | None
    ) -> Part:
        """Read the part, or say how one is written."""
        number, _, of = str(value).partition("/")
        if number.isascii() and of.isascii() and number.isdecimal() and of.isdecimal():
            part = Part(int(number), int(of))
            if 1 <= part.number <= part.of:
                return part
        return self.fail(f'"{value}" is not a part. Write 2/3 for the second of three.', param, ctx)
