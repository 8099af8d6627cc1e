"""What end-to-end tests share: the build as a user runs it, and the screens."""

from __future__ import annotations

import logging
import os
import signal
import subprocess
import sys
import tempfile
import traceback
import warnings
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import NoReturn

import read_once
from benchleaf.model import Shop

ROOT = Path(__file__).parents[2]
KIOSK, LANDSCAPE, PHONE = (1080, 1920), (1920, 1080), (390, 844)
FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
"""How the browser is started: nothing of its own asks the network."""

SECONDS = 300
"""Longest time for one build."""
SAID = "said.txt"
"""Beside a site that the tests share: what its build said."""

MKDOCS_YML = """\
site_name: test
docs_dir: content/pages
use_directory_urls: false
theme:
  name: material
  font: false
plugins:
  - benchleaf
"""


def write_files(folder: Path, files: Mapping[str, str]) -> None:
    """Write files below a folder: name and text."""
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")


def demo_shop() -> Shop:
    """The records of the demo, read once; they are frozen."""
    return read_once.demo().shop


def mkdocs_build(folder: Path, *options: str) -> subprocess.CompletedProcess[str]:
    """`mkdocs build` in a folder that holds mkdocs.yml, as a user would run it."""
    command = (sys.executable, "-m", "mkdocs", "build", *options)
    return subprocess.run(
        command, cwd=folder, capture_output=True, text=True, timeout=SECONDS, check=False
    )


def forked_build(folder: Path, *options: str) -> subprocess.CompletedProcess[str]:
    """The same in a fork of this process, which has loaded the engine: half the time.

    The demo is built by `mkdocs_build`, so the way of a user is gone in every run.
    """
    from mkdocs.__main__ import cli

    import benchleaf.engine.plugin  # noqa: F401  # loaded before the fork, once for all

    with tempfile.TemporaryDirectory() as kept:
        said = [Path(kept, name) for name in ("out", "err")]
        pid = os.fork()
        if not pid:
            _be_a_command(said, folder)
            _leave(lambda: cli(["build", *options], prog_name="mkdocs"))
        _, status = os.waitpid(pid, 0)
        out, err = (one.read_text(encoding="utf-8") for one in said)
    return subprocess.CompletedProcess(options, os.waitstatus_to_exitcode(status), out, err)


def _be_a_command(said: list[Path], folder: Path) -> None:
    """Write to files of its own, stand in the folder, and know nothing of pytest."""
    signal.alarm(SECONDS)
    for number, path in enumerate(said, 1):
        os.dup2(os.open(path, os.O_WRONLY | os.O_CREAT), number)
    sys.stdout, sys.stderr = (os.fdopen(number, "w", encoding="utf-8") for number in (1, 2))
    os.chdir(folder)
    sys.settrace(None)
    warnings.resetwarnings()
    logging.getLogger().handlers.clear()


def _leave(work: Callable[[], object]) -> NoReturn:
    """Work, and end the fork as a command ends."""
    code = 1
    try:
        work()
    except SystemExit as left:
        code = left.code if isinstance(left.code, int) else int(left.code is not None)
    except BaseException:
        traceback.print_exc()
    sys.stdout.flush()
    sys.stderr.flush()
    os._exit(code)
