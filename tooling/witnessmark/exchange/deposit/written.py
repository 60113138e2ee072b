"""Plain data as YAML that our own strict reader, and any other, takes as it was meant."""

from __future__ import annotations

from typing import Any

import yaml

_WIDTH = 100


class _Plain(yaml.SafeDumper):
    """YAML without anchors, and with short lists of numbers on one line."""

    def ignore_aliases(self, data: Any) -> bool:  # noqa: ANN401, ARG002
        """Write a thing twice rather than point at it: the strict reader takes no anchors."""
        return True


def _list(dumper: _Plain, members: list[Any]) -> yaml.Node:
    is_short = all(isinstance(m, int | str) and len(str(m)) < 12 for m in members)  # noqa: PLR2004
    return dumper.represent_sequence("tag:yaml.org,2002:seq", members, flow_style=is_short)


_Plain.add_representer(list, _list)


def written_yaml(data: Any, *, says: str) -> bytes:  # noqa: ANN401  plain data
    """A YAML file in UTF-8; `says` is the comment in its first line."""
    text = yaml.dump(data, Dumper=_Plain, sort_keys=False, allow_unicode=True, width=_WIDTH)
    return f"# {says}\n{text}".encode()
