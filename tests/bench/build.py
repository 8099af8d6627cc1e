"""Build time and page size against plain MkDocs and Material on the same pages, in one run.

    python tests/bench/build.py [--jobs 100 1000] [--rounds 2] [--seed 7]

Makes synthetic breakdowns of the demo's richness, builds them with Benchleaf and, as Markdown
with the default navigation, with plain MkDocs and Material; the two take turns. Prints ratios.
Run by hand; never part of the tests.
"""

from __future__ import annotations

import argparse
import random
import re
import shutil
import subprocess
import sys
import tempfile
import time
from html.parser import HTMLParser
from pathlib import Path
from types import MappingProxyType
from typing import Any

import yaml

CONTENT = Path(__file__).parents[2] / "content"
JOBS_PER_MACHINE = 25
PARAGRAPHS = ("p", "dt", "dd", "summary")

BENCHLEAF_YML = """\
site_name: bench
docs_dir: content/pages
use_directory_urls: false
theme: {name: material, font: false}
plugins: [benchleaf]
"""
PLAIN_YML = """\
site_name: bench
docs_dir: docs
use_directory_urls: false
theme: {name: material, font: false}
plugins: [search, offline]
extra: {polyfills: [iframe-worker.js]}
"""


STATE = {
    "revision": "1", "effective": "2026-03-02", "approved_by": "production engineer",
    "change_note": "First issue.",
}  # fmt: skip
"""What the demo's history says of its jobs; here each file says it."""


def synthesise(target: Path, count: int, seed: int) -> None:
    """`count` breakdowns like the demo's, on as many machines as a shop of that size would have."""
    chance = random.Random(seed)
    registers = ("addresses.yml", "revisions.yml", "history.yml", "tally.yml", "forwards.yml")
    kept_out = (*registers, "notices", "onboarding")
    shutil.copytree(CONTENT, target, ignore=shutil.ignore_patterns(*kept_out))
    models = [{**STATE, **_plain(path)} for path in sorted((CONTENT / "jobs").glob("*.yml"))]
    machines = _machines(target, count)
    parts = {path.stem: _plain(path) for path in (CONTENT / "parts").glob("*.yml")}
    for path in (*(target / "jobs").glob("*.yml"), *(target / "parts").glob("*.yml")):
        path.unlink()
    _without_links(target)
    sentences = [point["reason"] for job in models for step in job["steps"]
                 for point in step["key_points"]]  # fmt: skip
    for number in range(count):
        job = _varied(chance, chance.choice(models), number, machines, sentences)
        if "part" in job:
            own = {"id": job["id"], "number": job["id"].upper()}
            _write(target / f"parts/{job['id']}.yml", parts[job["part"]] | own)
            job["part"] = job["id"]
        _write(target / f"jobs/{job['id']}.yml", job)


def _plain(path: Path) -> dict[str, Any]:
    loaded: dict[str, Any] = yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)
    return loaded


def _write(path: Path, record: object) -> None:
    path.write_text(yaml.safe_dump(record, sort_keys=False, allow_unicode=True), encoding="utf-8")


def _machines(target: Path, count: int) -> dict[str, list[str]]:
    """Copies of each demo machine; its id -> the ids of the copies."""
    copies: dict[str, list[str]] = {}
    for path in sorted((CONTENT / "machines").glob("*.yml")):
        machine = _plain(path)
        copies[machine["id"]] = []
        for number in range(max(1, count // JOBS_PER_MACHINE)):
            copy = machine | {
                "id": f"{machine['id']}-{number}",
                "name": f"{machine['name']} {number}",
            }
            copies[machine["id"]].append(copy["id"])
            _write(target / f"machines/{copy['id']}.yml", copy)
        (target / f"machines/{path.name}").unlink()
    return copies


def _without_links(target: Path) -> None:
    """Links to demo jobs and machines would dangle among synthetic ones."""
    for path in target.rglob("*.yml"):
        text = path.read_text(encoding="utf-8")
        path.write_text(_unlinked(text), encoding="utf-8")
    for path in target.rglob("*.md"):
        path.write_text(_unlinked(path.read_text(encoding="utf-8")), encoding="utf-8")


def _unlinked(text: str) -> str:
    return text.replace("[[", "").replace("]]", "")


def _varied(
    chance: random.Random, model: dict[str, Any], number: int,
    machines: dict[str, list[str]], sentences: list[str],
) -> dict[str, Any]:  # fmt: skip
    """A job like the model, with other reasons, another machine and a part of its own."""
    text = _unlinked(yaml.safe_dump(model, allow_unicode=True))
    job: dict[str, Any] = yaml.load(text, yaml.BaseLoader)
    job |= {"id": f"sy-{number:05}", "title": f"{model['title']} {number}",
            "machine": chance.choice(machines[model["machine"]])}  # fmt: skip
    for key in ("operation_before", "operation_after"):
        job.pop(key, None)
    job["know_first"] = [f"sy-{chance.randrange(number):05}"] if number else []
    if "part" in job:
        job["end_of_route"] = "The finished parts go to the store."
    for step in job["steps"]:
        for point in step["key_points"]:
            point["reason"] = _unlinked(chance.choice(sentences))
    return job


def as_markdown(site: Path, docs: Path) -> None:
    """Every article of a site that we built, as the Markdown that says the same."""
    for path in site.rglob("*.html"):
        html = path.read_text(encoding="utf-8")
        article = html[html.index("<article") : html.index("</article>")]
        writer = _MarkdownWriter()
        writer.feed(article)
        page = docs / path.relative_to(site).with_suffix(".md")
        page.parent.mkdir(parents=True, exist_ok=True)
        page.write_text(writer.text(), encoding="utf-8")


class _MarkdownWriter(HTMLParser):
    """Headings, lists, links and bold; all else as paragraphs."""

    BLOCKS = MappingProxyType(
        {
            "h1": "# ",
            "h2": "## ",
            "h3": "### ",
            "li": "- ",
            "p": "",
            "dt": "",
            "dd": "",
            "summary": "",
        }
    )

    def __init__(self) -> None:
        super().__init__()
        self.lines: list[str] = []
        self.link = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in self.BLOCKS:
            self.lines.append("\n\n" + self.BLOCKS[tag])
        elif tag == "a":
            self.link = (dict(attrs).get("href") or "").replace(".html", ".md", 1)
            self.lines.append("[")
        elif tag == "b":
            self.lines.append("**")

    def handle_endtag(self, tag: str) -> None:
        if tag == "a":
            self.lines.append(f"]({self.link})")
        elif tag == "b":
            self.lines.append("**")

    def handle_data(self, data: str) -> None:
        self.lines.append(" ".join(data.split()) + (" " if data[-1:].isspace() else ""))

    def text(self) -> str:
        """The page as Markdown."""
        return re.sub(r"\n\s*\n(\s*\n)+", "\n\n", "".join(self.lines)).strip() + "\n"


def seconds(folder: Path) -> float:
    """One build, timed from outside, as a user would wait for it."""
    begin = time.perf_counter()
    done = subprocess.run(
        (sys.executable, "-m", "mkdocs", "build", "--quiet"),
        cwd=folder, capture_output=True, text=True, check=False,
    )  # fmt: skip
    if done.returncode:
        raise SystemExit(done.stdout[-2000:] + done.stderr[-2000:])
    return time.perf_counter() - begin


def check_seconds(folder: Path) -> float:
    """One `benchleaf check`, timed from outside."""
    begin = time.perf_counter()
    command = (sys.executable, "-m", "benchleaf.cli", "check", "content")
    subprocess.run(command, cwd=folder, capture_output=True, check=False)
    return time.perf_counter() - begin


def job_bytes(folder: Path) -> tuple[float, float]:
    """Mean bytes of a job page, and bytes of the whole site."""
    sizes = [path.stat().st_size for path in (folder / "site/jobs").glob("sy-*.html")]
    total = sum(path.stat().st_size for path in (folder / "site").rglob("*") if path.is_file())
    return sum(sizes) / len(sizes), total


def measure(count: int, rounds: int, seed: int) -> float:
    """Build both ways in turn, print, and hand back our best time."""
    with tempfile.TemporaryDirectory() as temporary:
        ours, plain = Path(temporary) / "ours", Path(temporary) / "plain"
        ours.mkdir()
        synthesise(ours / "content", count, seed)
        (ours / "mkdocs.yml").write_text(BENCHLEAF_YML)
        (plain / "docs").mkdir(parents=True)
        seconds(ours)  # once to have the pages that the other side is to build
        as_markdown(ours / "site", plain / "docs")
        (plain / "docs/iframe-worker.js").write_text("")
        shutil.copytree(ours / "site/pictures", plain / "docs/pictures", dirs_exist_ok=True)
        (plain / "mkdocs.yml").write_text(PLAIN_YML)
        pairs = [(seconds(ours), seconds(plain)) for _ in range(rounds)]
        best_ours, best_plain = (min(times) for times in zip(*pairs, strict=True))
        page, site = job_bytes(ours)
        plain_page, plain_site = job_bytes(plain)
        print(f"{count} jobs: ours {best_ours:.1f} s, plain {best_plain:.1f} s, "
              f"ratio {best_ours / best_plain:.2f}")  # fmt: skip
        print(f"  a job page: ours {page / 1000:.1f} kB, plain {plain_page / 1000:.1f} kB")
        print(f"  the site:   ours {site / 1e6:.1f} MB, plain {plain_site / 1e6:.1f} MB")
        print(f"  benchleaf check: {check_seconds(ours):.1f} s")
        return float(best_ours)


def main() -> None:
    """Measure at each size, and say how time grows."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0] if __doc__ else None)
    parser.add_argument("--jobs", type=int, nargs="+", default=[100, 1000])
    parser.add_argument("--rounds", type=int, default=2)
    parser.add_argument("--seed", type=int, default=7)
    options = parser.parse_args()
    times = {count: measure(count, options.rounds, options.seed) for count in options.jobs}
    least, most = min(times), max(times)
    if least < most:
        growth = (times[most] / times[least]) / (most / least)
        print(f"growth from {least} to {most}: {growth:.2f} of a straight line through 0")


if __name__ == "__main__":
    main()
