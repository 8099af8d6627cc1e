"""Templates to HTML: the Jinja environment, its filters, and the writer of one page."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

from jinja2 import (
    BaseLoader,
    ChoiceLoader,
    Environment,
    FileSystemLoader,
    PackageLoader,
    PrefixLoader,
    StrictUndefined,
    pass_context,
)
from jinja2.runtime import Context
from markupsafe import Markup, escape

from benchleaf.link import relative
from benchleaf.model import ROUNDS, ROUNDS_IN_WORDS, WATCH_FIRST

from .dates import hours, short_date, week_date
from .inline import Inline
from .values import HANDING_ON, HANDS_IN, Link

_SAID_ONCE = {
    "handing_on": HANDING_ON,
    "hands_in": HANDS_IN,
    "watch_first": WATCH_FIRST,
    "rounds": ROUNDS,
    "rounds_in_words": ROUNDS_IN_WORDS,
}
"""What several templates say in the same words."""


class Writer:
    """Writes pages from templates. One writer serves a whole site."""

    def __init__(self, inline: Inline | None, overrides: Sequence[Path] = ()) -> None:
        self._environment = _environment(overrides)
        self._environment.filters |= {
            "link": pass_context(_link),
            "href": pass_context(_href),
            "capitalize_first": _capitalize_first,
            "long_date": long_date,
            "short_date": short_date,
            "week_date": week_date,
            "hours": hours,
        }

        self._environment.globals |= _SAID_ONCE
        if inline is not None:
            self._environment.filters["say"] = pass_context(partial(_say, inline))

    def write(self, template: str, here: str, **view: Any) -> str:
        """The article of the page `here`.

        Templates are given the view, `here`, and `new_section()`, after which a glossary term
        is linked again at its first use.
        """
        seen: set[str] = set()

        def new_section() -> str:
            seen.clear()
            return ""

        found = self._environment.get_template(template)
        return found.render(here=here, seen_terms=seen, new_section=new_section, **view)


def _environment(overrides: Sequence[Path]) -> Environment:
    """A shop's own folder first, then ours; ours also under `shipped/`, to be extended."""
    shipped = PackageLoader("benchleaf.html")
    own: list[BaseLoader] = [FileSystemLoader(folder) for folder in overrides]
    return Environment(
        loader=ChoiceLoader([*own, shipped, PrefixLoader({"shipped": shipped})]),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def _say(inline: Inline, context: Context, text: str) -> Markup:
    """Running text with its Markdown, links and terms."""
    return inline.html(text, context["here"], context["seen_terms"])


def _link(context: Context, link: Link) -> Markup:
    """A link from this page."""
    target = escape(relative(link.address, context["here"]))
    detail = f' <span class="bl-detail">{escape(link.detail)}</span>' if link.detail else ""
    return Markup(f'<a href="{target}">{escape(link.words)}</a>{detail}')


def _href(context: Context, target: str) -> str:
    """An address as seen from this page."""
    return relative(target, context["here"])


_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip


def long_date(day: date) -> str:
    """A date that nobody can read two ways, whatever the computer's language."""
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def _capitalize_first(text: str) -> str:
    """The first letter as a capital, the rest as it is (Jinja's own lowers the rest)."""
    return text[:1].upper() + text[1:]
