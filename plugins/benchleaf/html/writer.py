"""Templates to HTML: the Jinja environment, its filters, and the writer of one page."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from pathlib import Path
from types import MappingProxyType
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

from benchleaf.compute import (
    held_reasons,
    in_both,
    inside,
    span,
    told,
    told_entered,
    was_written_in_inches,
)
from benchleaf.link import relative
from benchleaf.model import ROUNDS, ROUNDS_IN_WORDS, WATCH_FIRST, Job, Onboarding, Units

from .dates import hours, long_date, short_date, week_date
from .inline import Inline
from .issue import NO_SIGN_OFF, in_force_of, issue_of
from .laid_out import Table, attributes
from .values import HANDING_ON, HANDS_IN, NO_ENDS, PUT_RIGHT, Ends, Link

_SAID_ONCE = {
    "handing_on": HANDING_ON,
    "hands_in": HANDS_IN,
    "put_right": PUT_RIGHT,
    "watch_first": WATCH_FIRST,
    "rounds": ROUNDS,
    "rounds_in_words": ROUNDS_IN_WORDS,
    "no_sign_off": NO_SIGN_OFF,
}
"""What several templates say in the same words."""
NO_FILTERS: Mapping[str, Callable[..., Markup]] = MappingProxyType({})


class Writer:
    """Writes pages from templates. One writer serves a whole site."""

    def __init__(
        self,
        inline: Inline | None,
        overrides: Sequence[Path] = (),
        filters: Mapping[str, Callable[..., Markup]] = NO_FILTERS,
        layouts: Table = MappingProxyType({}),
    ) -> None:
        """A writer; `filters` are those of a layer above, such as `drawn`."""
        self._environment = _environment(overrides)
        self._environment.filters |= filters
        drafts = inline.shop.drafts if inline is not None else {}
        self._units = inline.shop.manual.units if inline is not None else Units.METRIC

        def is_draft(record: Job | Onboarding) -> bool:
            return isinstance(record, Job) and record.id in drafts

        def on_hold(job: Job | str) -> tuple[str, ...]:
            job_id = job if isinstance(job, str) else job.id
            return held_reasons(inline.shop, job_id.lower()) if inline is not None else ()

        def issue(record: Job | Onboarding) -> str:
            return issue_of(record, drafts)

        def in_force(record: Job | Onboarding) -> str:
            return in_force_of(record, drafts)

        self._environment.filters |= {
            "link": pass_context(_link),
            "href": pass_context(_href),
            "capitalize_first": _capitalize_first,
            "long_date": long_date,
            "short_date": short_date,
            "week_date": week_date,
            "hours": hours,
            "issue": issue,
            "is_draft": is_draft,
            "on_hold": on_hold,
            "in_force": in_force,
            "told": pass_context(_told),
            "ranged": pass_context(_ranged),
            "and_metric": pass_context(_and_metric),
            "in_both": pass_context(_in_both),
        }

        self._environment.globals |= _SAID_ONCE
        self._environment.globals["layouts_of"] = partial(attributes, layouts)
        if inline is not None:
            self._environment.filters["say"] = pass_context(partial(_say, inline))
            self._environment.filters["plain"] = inline.plain

    def write(self, template: str, here: str, ends: Ends = NO_ENDS, **view: Any) -> str:
        """The article of the page `here`, with what the manual adds to it.

        Templates are given the view, `here`, `units` (those that stand first: the shop's, or what
        the view says), `former_at()`, which keeps the former anchors of a
        place, and `new_section()`, after which a glossary term is linked again at its first use.
        """
        seen: set[str] = set()
        waiting = list(ends.former)

        def new_section() -> str:
            seen.clear()
            return ""

        def former_at(anchor: str) -> Markup:
            placed = [one for one in waiting if one.link.address == f"{here}#{anchor}"]
            waiting[:] = [one for one in waiting if one not in placed]
            spans = (Markup('<span id="{}" class="bl-former"></span>').format(one.old)
                     for one in reversed(placed))  # fmt: skip
            return Markup().join(spans)

        view = {"units": self._units, **view}
        html = self._environment.get_template(template).render(
            here=here, seen_terms=seen, new_section=new_section, former_at=former_at, **view
        )
        if waiting:
            html += self.write("former.html.jinja", here, former=waiting)
        if ends.foot is not None:
            html += self.write("foot.html.jinja", here, NO_ENDS, **ends.foot())
        return html


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


def _told(context: Context, size: Any, toward: Any = "nearest") -> str:
    """A size of a record as it was written; where inches stand first, in inches first."""
    return told_entered(size, context["units"], toward)


def _ranged(context: Context, size: Any, decimals: int) -> str:
    """A range of a record in the units that stand first, whatever it was written in."""
    return told(span(size.low, size.high, size.unit, decimals), context["units"])


def _and_metric(context: Context, size: Any, decimals: int) -> str:
    """In an inch shop the metric range, before the text of a source that has inches."""
    is_inch = context["units"] == Units.INCH and was_written_in_inches(size.text)
    shown = inside(size.low, size.high, size.unit, decimals) if is_inch else None
    return f"{shown.text}; " if shown is not None else ""


def _in_both(context: Context, size: Any) -> str:
    """A diameter in both units."""
    return in_both(size.value, context["units"])


def _capitalize_first(text: str) -> str:
    """The first letter as a capital, the rest as it is (Jinja's own lowers the rest)."""
    return text[:1].upper() + text[1:]
