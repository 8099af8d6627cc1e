"""`benchleaf layouts`: measures in a browser how each step is laid out; writes the table of it.

It needs a built site and any Chromium, Chrome or Edge of this computer. A shop without one builds
all the same: its steps scroll where they do not fit. Nothing is asked of a network.
"""

from __future__ import annotations

import argparse
import html
import json
import os
import re
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path
from typing import Any

from benchleaf.read import LAYOUTS_FILE, read_layouts
from benchleaf.write import make_folder, write_bytes, write_text

from .answer import misuse, reads_content

SIZES = ("1080x1920", "1920x1080", "1280x800", "390x844")
"""Width and height of the screens that are laid out: two kiosks, a cheap screen, a telephone.

A screen between two of them takes the largest that it holds.
"""
BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome",
            "microsoft-edge", "msedge")  # fmt: skip
PLACES = (
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    r"C:\Program Files\Google\Chrome\Application\chrome.exe",
    r"C:\Program Files (x86)\Google\Chrome\Application\chrome.exe",
    r"C:\Program Files (x86)\Microsoft\Edge\Application\msedge.exe",
)
SECONDS = 1800
"""The longest wait for one size."""
FLAGS = ("--headless", "--disable-gpu", "--no-first-run", "--hide-scrollbars",
         "--virtual-time-budget=100000")  # fmt: skip
_STEPPED = 'id="follow"'
_FOUND = re.compile(r'<pre id="found">(.*?)</pre>', re.DOTALL)
_FRAMES = """<!doctype html><meta charset="utf-8"><title>Layouts</title><body>
<pre id="found"></pre><script>
var jobs = %s, found = {}, told = document.getElementById("found");
function next() {
  if (!jobs.length) { told.textContent = JSON.stringify(found); return; }
  var frame = document.createElement("iframe");
  frame.width = %d; frame.height = %d; frame.style.border = "0";
  frame.src = jobs.shift() + "#follow";
  addEventListener("message", function (event) {
    Object.assign(found, event.data); frame.remove(); next();
  }, { once: true });
  document.body.append(frame);
}
next();
</script>
"""


def add(commands: Any) -> None:
    """Add the command to the parser."""
    command = commands.add_parser(
        "layouts", help="measure in a browser how steps are laid out on screens"
    )
    reads_content(command)
    command.add_argument(
        "--site", type=Path, default=Path("site"), metavar="FOLDER", help="the built site"
    )
    command.add_argument("--browser", metavar="PROGRAM", help="a Chromium, Chrome or Edge")
    command.set_defaults(run=_layouts)


def _layouts(options: argparse.Namespace) -> int:
    if not any(_job_pages(options.site)):
        cure = "build it first, or name its folder: benchleaf layouts --site FOLDER"
        return misuse(f"no job pages in {options.site}", (cure,))
    browser = options.browser or _browser()
    if browser is None:
        cure = "name its program: benchleaf layouts --browser PROGRAM"
        return misuse("no Chromium, Chrome or Edge was found on this computer", (cure,))
    table: dict[str, dict[str, Any]] = {}
    for size in SIZES:
        try:
            found = measure(options.site, browser, size)
        except (OSError, subprocess.SubprocessError, ValueError) as error:
            print(f"benchleaf: {browser} gave no layouts at {size}: {error}")
            return 1
        for key, layout in found.items():
            failed = layout.pop("failed", None)
            if failed:
                what = "what is read before it " if failed == "before" else ""
                print(f"{key.rsplit('/', 1)[0]}: {what}scrolls at {size}")
            if failed != "step":
                table.setdefault(key, {})[size] = layout
        print(f"{size}: {len(found)} steps measured")
    table |= unmeasured(options.content, options.site)
    path = options.content / LAYOUTS_FILE
    write_text(path, table_text(table), within=options.content)
    print(f"written to {path}: build the site again")
    return 0


def unmeasured(content: Path, site: Path) -> dict[str, dict[str, Any]]:
    """What the table holds of jobs that have no step view now, since they must not be run.

    It is kept as it is: once they may run again, their steps are laid out as before.
    """
    stepped = {page.stem for page in _job_pages(site)}
    there = {page.stem for page in (site / "jobs").glob("*.html")} - stepped
    return {
        key: dict(sizes)
        for key, sizes in read_layouts(content).items()
        if key.partition("/")[0] in there
    }


def table_text(table: dict[str, dict[str, Any]]) -> str:
    """One line a step and size, in order, so that a difference can be read."""
    steps = []
    for key in sorted(table):
        sizes = (f"  {json.dumps(size)}: {json.dumps(table[key][size])}" for size in SIZES
                 if size in table[key])  # fmt: skip
        steps.append(f"{json.dumps(key)}: {{\n" + ",\n".join(sizes) + "\n }")
    return '{"steps": {\n' + ",\n".join(steps) + "\n}}\n"


def measure(site: Path, browser: str, size: str) -> dict[str, dict[str, Any]]:
    """The layout of each step at one size, by its key; `failed` where it cannot but scroll.

    `step`, and then it has no layout, or `before`: the screens of its hazards alone.
    """
    width, height = (int(one) for one in size.split("x"))
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder, "site")
        _copy(site, copy)
        plan = files("benchleaf.html").joinpath("plan.js").read_bytes()
        write_bytes(copy / "plan.js", plan, sync=False)
        pages = list(_job_pages(copy))
        for page in pages:
            text = page.read_text(encoding="utf-8")
            script = '<script defer src="../plan.js"></script></body>'
            write_text(page, text.replace("</body>", script), sync=False)
        jobs = json.dumps([f"jobs/{page.name}" for page in pages])
        start = copy / "layouts.html"
        write_text(start, _FRAMES % (jobs, width, height), sync=False)
        done = subprocess.run(
            [browser, *FLAGS, *_as_root(), f"--user-data-dir={folder}/user", "--dump-dom",
             f"--window-size={width + 100},{height + 200}", start.as_uri()],
            capture_output=True, timeout=SECONDS, check=True,
        )  # fmt: skip
        told = _FOUND.search(done.stdout.decode("utf-8", "replace"))
        if told is None or not told[1]:
            raise ValueError("the page of frames did not come to its end")
        found: dict[str, dict[str, Any]] = json.loads(html.unescape(told[1]))
        return found


def _copy(site: Path, copy: Path) -> None:
    for path in sorted(site.rglob("*")):
        if path.is_file():
            aim = copy / path.relative_to(site)
            make_folder(aim.parent)
            write_bytes(aim, path.read_bytes(), sync=False)


def _job_pages(site: Path) -> Iterator[Path]:
    for page in sorted((site / "jobs").glob("*.html")):
        if _STEPPED in page.read_text(encoding="utf-8"):
            yield page


def _browser() -> str | None:
    named = (shutil.which(one) for one in BROWSERS)
    return next((one for one in (*named, *PLACES) if one and Path(one).is_file()), None)


def _as_root() -> tuple[str, ...]:
    """A browser does not shut itself in where root starts it, as in a container."""
    return ("--no-sandbox",) if hasattr(os, "geteuid") and os.geteuid() == 0 else ()
