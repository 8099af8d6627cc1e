"""Findings into the engine's log, and the error that ends a build."""

from __future__ import annotations

from collections.abc import Sequence

from mkdocs.exceptions import PluginError
from mkdocs.plugins import get_plugin_logger
from mkdocs.utils import CountHandler

from benchleaf.diagnose import SHOWN_AT_MOST, Finding, Severity, as_text, summary

log = get_plugin_logger("benchleaf")

BEYOND_A_PAGE = (
    "A page opened from disk cannot clear the browser's Back history, hide the lists of folders, "
    "lock the address bar, or cut off the network: start the kiosk's browser as the guide says "
    "on its page about the kiosk (the full edition holds it)."
)

_LEVELS = {
    Severity.ERROR: log.error,
    Severity.WARNING: log.warning,
    Severity.STOP: log.info,
    Severity.NOTE: log.info,
}
"""A stop is only told: even a strict build must replace the former page by *do not run*."""


def tell(findings: Sequence[Finding], *, go_on: bool = False) -> None:
    """Log every finding, then end the build with one error if any of them is an error.

    A preview goes on instead, and shows the findings as pages.
    """
    stops = [finding for finding in findings if finding.severity is Severity.STOP]
    for finding in findings[:SHOWN_AT_MOST]:
        _LEVELS[finding.severity]("%s", as_text(finding))
    if len(findings) > SHOWN_AT_MOST:
        log.error("and %s more", f"{len(findings) - SHOWN_AT_MOST:,}")
    if stops:
        log.info("%d set-up%s DO NOT RUN", len(stops), " says" if len(stops) == 1 else "s say")
    if not go_on and any(finding.blocks_publishing for finding in findings):
        raise PluginError(f"Nothing is published: {summary(findings)}.")


def tell_system(error: Exception) -> None:
    """A full disk, a folder that may not be written: one line that names the file, no traceback."""
    if isinstance(error, OSError) and error.errno is not None:  # else a template is missing
        where = error.filename or "a file of the new site"
        why = error.strerror or str(error)
        raise PluginError(f"Nothing is published: {where}: {why}. The former site is as it was.")


def tell_number(number: str) -> None:
    """Say the number of the copy, to be kept elsewhere: `benchleaf verify` prints it again."""
    log.info("The number of this copy is %s. Write it down outside of the copy.", number)


def tell_limits(edition: str) -> None:
    """Say in the log what no page opened from disk can do at a kiosk."""
    if edition == "kiosk":
        log.info("%s", BEYOND_A_PAGE)


def is_about_to_abort(strict: bool) -> bool:
    """True where the engine will abort a strict build for warnings after our last hook."""
    import logging

    handlers = logging.getLogger("mkdocs").handlers
    counts = [one.get_counts() for one in handlers if isinstance(one, CountHandler)]
    return strict and any(counts)
