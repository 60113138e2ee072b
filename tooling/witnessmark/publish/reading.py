"""The reading copy: each decision as one page of its own for paper, and for a reader without us.

It shows what the decision's page on the site shows. A museum's own copy may go on with the record
as it is written, which only a sealed deposit holds.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from importlib.resources import files

from markupsafe import Markup

from witnessmark.publish.environment import environment
from witnessmark.publish.pages import leaf_of, tidy
from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.public_decision import PublicDecision
from witnessmark.publish.views_decision import decision_view

CONTENTS = "contents"
"""The name of the page that lists the others."""

_DRAWING = re.compile(r'class="wm-drawing"[^>]*>')


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One page: whole HTML that asks for nothing but the pictures at `root`."""

    name: str
    title: str
    html: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """A record as the museum keeps it: its title, and its text as written."""

    title: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class _Setting:
    """Whose pages these are, and where the site lies from them."""

    museum: PublicMuseum
    root: str


def readings(
    museum: PublicMuseum, *, root: str, written: Mapping[str, Record]
) -> tuple[Reading, ...]:
    """The list of decisions, then each decision in the order of its number.

    `root` is where the site lies, for pictures and links. `written` are records as the museum keeps
    them, by decision id: they follow what is shown, and those that are not shown stand alone.
    """
    setting = _Setting(museum=museum, root=root)
    shown = {decision.id: decision for decision in museum.decisions}
    names = sorted({*shown, *written})
    return (
        _contents(setting),
        *(_reading(name, shown.get(name), written.get(name), setting) for name in names),
    )


def _contents(setting: _Setting) -> Reading:
    decisions = sorted(setting.museum.decisions, key=lambda decision: decision.id)
    body = _filled("reading/contents.html", museum=setting.museum, decisions=decisions)
    title = f"Decisions of {setting.museum.name}"
    return Reading(name=CONTENTS, title=title, html=_page(title, body, setting))


def _reading(
    name: str, decision: PublicDecision | None, record: Record | None, setting: _Setting
) -> Reading:
    title = decision.title if decision else record.title if record else name
    bodies = [_shown(decision, setting)] if decision else []
    if record:
        shown = decision is not None
        bodies.append(
            _filled("reading/written.html", id=name, title=title, text=record.text, is_shown=shown)
        )
    html = _page(f"{name}: {title}", Markup("\n").join(bodies), setting)
    return Reading(name=name, title=title, html=html)


def _shown(decision: PublicDecision, setting: _Setting) -> Markup:
    view = decision_view(decision, setting.museum)
    template = environment().get_template("page.html")
    text = template.render(
        museum=setting.museum,
        view=view,
        root=setting.root,
        leaf=leaf_of("plain"),
        **view.values,
    )
    style = _filled("reading/drawing.html", rules=Markup(_drawing_style()))  # noqa: S704  ours
    styled = _DRAWING.sub(lambda match: f"{match[0]}{style}", tidy(text))
    return Markup(styled)  # noqa: S704  the template escaped it


def _filled(template: str, **values: object) -> Markup:
    text = environment().get_template(template).render(**values)
    return Markup(text)  # noqa: S704  the template escaped it


def _page(title: str, body: Markup, setting: _Setting) -> str:
    return (
        environment()
        .get_template("reading.html")
        .render(
            museum=setting.museum,
            title=title,
            description=f"Reading copy: {title}",
            style=Markup(f"{_sheet('witnessmark.css')}\n{_sheet('reading.css')}"),  # noqa: S704  ours
            body=body,
        )
    )


def _sheet(name: str) -> str:
    return (files("witnessmark.publish") / "static" / name).read_text(encoding="utf-8")


def _drawing_style() -> str:
    """The rules for drawings alone: within a drawing a printer does not see the page's own."""
    return "\n".join(_drawing_rules())


def _drawing_rules() -> Iterator[str]:
    for line in _sheet("witnessmark.css").splitlines():
        if line.startswith((".wm-drawing", ".wm .wm-drawing")):
            yield line.replace(".wm .wm-drawing", ".wm-drawing").replace(
                "var(--wm-sans)", "sans-serif"
            )
