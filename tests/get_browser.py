"""Makes sure a browser is there for the tests, and says which.

Playwright's own download where it works, else the system's package manager, else a Chromium or
Chrome that is there already. Prints the path of the browser's program; exits 1 with what was
tried if there is none. Run by hand or by the test command; the tests only ask for the result.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

NOTE = Path(sys.prefix) / "benchleaf-browser.txt"
"""Which browser was found last time; lies in the virtual environment."""

NAMES = (
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
    "chrome",
    "microsoft-edge",
)
FIXED_PLACES = (
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    r"C:\Program Files\Google\Chrome\Application\chrome.exe",
    r"C:\Program Files (x86)\Google\Chrome\Application\chrome.exe",
    r"C:\Program Files (x86)\Microsoft\Edge\Application\msedge.exe",
)
MANAGERS = (
    ("apt-get", (("apt-get", "update", "-qq"), ("apt-get", "install", "-y", "-qq", "chromium"))),
    ("dnf", (("dnf", "install", "-y", "chromium"),)),
    ("pacman", (("pacman", "-Sy", "--noconfirm", "chromium"),)),
    ("apk", (("apk", "add", "chromium"),)),
    ("brew", (("brew", "install", "--cask", "chromium"),)),
)
SECONDS = 300
"""Longest wait for one command: a download that hangs must not hold up the tests."""


def known() -> str | None:
    """The browser found last time, where it is still there."""
    if NOTE.is_file():
        path = NOTE.read_text(encoding="utf-8").strip()
        return path if Path(path).is_file() else None
    return None


def downloaded() -> str | None:
    """Playwright's own browser, downloaded if need be."""
    if not _run((sys.executable, "-m", "playwright", "install", "chromium")):
        return None
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        path = playwright.chromium.executable_path
    return path if path and Path(path).is_file() else None


def packaged() -> str | None:
    """Chromium from the system's package manager."""
    for manager, commands in MANAGERS:
        if shutil.which(manager) and all(_run(_as_root(one)) for one in commands):
            return present()
    return None


def present() -> str | None:
    """A Chromium or Chrome that is there already."""
    found = (shutil.which(name) for name in NAMES)
    places = (*found, *FIXED_PLACES)
    return next((path for path in places if path and Path(path).is_file()), None)


def find() -> Iterator[tuple[str, Callable[[], str | None]]]:
    """The ways, in order."""
    yield "the one used last time", known
    yield "Playwright's own download", downloaded
    yield "the system's package manager", packaged
    yield "a browser that is there already", present


def browser() -> str | None:
    """The path of a browser's program, or None; the first way that works is kept."""
    for name, way in find():
        path = way()
        if path and _starts(path):
            NOTE.write_text(path, encoding="utf-8")
            return path
        print(f"get_browser: {name}: no", file=sys.stderr)
    return None


def _starts(path: str) -> bool:
    """True when the program runs at all: a download may lack the system's libraries."""
    try:
        done = subprocess.run((path, "--version"), capture_output=True, timeout=60, check=False)
    except (OSError, subprocess.TimeoutExpired):
        return False
    return done.returncode == 0


def _as_root(command: tuple[str, ...]) -> tuple[str, ...]:
    is_root = not hasattr(os, "geteuid") or os.geteuid() == 0
    return command if is_root or not shutil.which("sudo") else ("sudo", "-n", *command)


def _run(command: tuple[str, ...]) -> bool:
    try:
        done = subprocess.run(command, capture_output=True, timeout=SECONDS, check=False)
    except (OSError, subprocess.TimeoutExpired):
        return False
    return done.returncode == 0


if __name__ == "__main__":
    found = browser()
    if found is None:
        sys.exit("get_browser: no browser could be had; install Chromium or Chrome and try again")
    print(found)
