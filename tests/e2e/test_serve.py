"""The preview: an edit shows, an error is a page at its place, and the server lives."""

from __future__ import annotations

import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest


def _free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        port: int = one.getsockname()[1]
        return port


@dataclass
class Preview:
    """A running `mkdocs serve`."""

    server: subprocess.Popen[bytes]
    port: int

    def read(self, name: str) -> str:
        """A page's text, or nothing while the server is busy."""
        assert self.server.poll() is None, "the server has died"
        address = f"http://127.0.0.1:{self.port}/{name}"
        try:
            with urllib.request.urlopen(address, timeout=5) as answer:
                return str(answer.read().decode())
        except (urllib.error.URLError, ConnectionError, TimeoutError):
            return ""

    def until(self, name: str, words: str) -> str:
        """The page once it holds the words; fails after a good while."""
        end = time.monotonic() + 60
        while time.monotonic() < end:
            text = self.read(name)
            if words in text:
                return text
            time.sleep(0.2)
        raise AssertionError(f"{words!r} never came to {name}")


@pytest.fixture
def preview(project: Path) -> Iterator[Callable[[], Preview]]:
    """`preview()` serves the small shop as it is at that moment."""
    running: list[subprocess.Popen[bytes]] = []

    def start() -> Preview:
        port = _free_port()
        command = (sys.executable, "-m", "mkdocs", "serve", "-a", f"127.0.0.1:{port}")
        quiet = subprocess.DEVNULL
        running.append(subprocess.Popen(command, cwd=project, stdout=quiet, stderr=quiet))
        return Preview(running[0], port)

    yield start
    for server in running:
        server.terminate()
        server.wait(10)


def test_edit_error_and_recovery(project: Path, preview: Callable[[], Preview]) -> None:
    job = project / "content/jobs/vg-0010.yml"
    good = job.read_text(encoding="utf-8")
    shown = preview()
    shown.until("jobs/vg-0010.html", "Drill the guide hole")
    job.write_text(good.replace("title: Drill the guide hole", "title: Bore the guide hole"))
    shown.until("jobs/vg-0010.html", "Bore the guide hole")
    job.write_text(good.replace("machine: bench-drill", "machin: bench-drill"))
    page = shown.until("jobs/vg-0010.html", "There are problems")
    assert "F201" in page
    assert "content/jobs/vg-0010.yml:" in page
    assert "Did you mean" in page
    assert "F201" in shown.until("index.html", "There are problems")
    other = shown.read("jobs/vg-0020.html")
    assert "VG-0020" in other
    assert "There are problems" not in other
    job.write_text(good)
    shown.until("jobs/vg-0010.html", "Drill the guide hole")


def test_a_preview_that_starts_with_an_error_lives(
    project: Path, preview: Callable[[], Preview]
) -> None:
    """No last good pages yet: the problems are the home page."""
    job = project / "content/jobs/vg-0010.yml"
    job.write_text(job.read_text(encoding="utf-8").replace("machine:", "machin:"))
    shown = preview()
    assert "F201" in shown.until("index.html", "There are problems")
    assert "F201" in shown.until("jobs/vg-0010.html", "There are problems")
