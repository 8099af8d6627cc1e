"""The plugin's options, as written under `benchleaf:` in mkdocs.yml."""

from __future__ import annotations

from mkdocs.config import base
from mkdocs.config import config_options as c


class BenchleafConfig(base.Config):  # type: ignore[no-untyped-call]
    """Options of the plugin."""

    content = c.Dir(default="content", exists=False)
    """The folder of breakdowns and records."""
    edition = c.Choice(("kiosk", "full"), default="kiosk")
    """`kiosk` for readers; `full` adds pages for trainers and engineers, in its own folder."""
    crew_dir = c.Type(str, default="")
    """People and what they can do, read for the full edition only; best outside the repository."""
    machine = c.Type(str, default="")
    """The id of the machine at which a kiosk stands: of a job of several like machines it shows
    that on its own machine."""
    drafts = c.Optional(c.Type(bool))
    """True to build drafts, marked as such, into a site that is not for use."""
    overrides = c.Optional(c.Dir(exists=True))
    """A shop's own templates, which may extend `shipped/NAME`."""
