"""What end-to-end tests share: the build as a user runs it, and the screens."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path

from benchleaf import pipeline
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


@lru_cache(maxsize=1)
def demo_shop() -> Shop:
    """The records of the demo, read once; they are frozen."""
    return pipeline.load(ROOT / "content").shop


def mkdocs_build(folder: Path, *options: str) -> subprocess.CompletedProcess[str]:
    """`mkdocs build` in a folder that holds mkdocs.yml, as a user would run it."""
    command = (sys.executable, "-m", "mkdocs", "build", *options)
    return subprocess.run(
        command, cwd=folder, capture_output=True, text=True, timeout=300, check=False
    )
