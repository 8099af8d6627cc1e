"""Two builds and more at once, a full disk, a folder of something else: nothing is ever lost."""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path

from build_demo import SECONDS, forked_build

SETTINGS = "mkdocs.yml"


def files(site: Path) -> dict[str, bytes]:
    found = (path for path in site.rglob("*") if path.is_file())
    return {path.relative_to(site).as_posix(): path.read_bytes() for path in found}


def test_of_builds_at_once_each_is_whole_or_says_that_another_builds(built: Path) -> None:
    site = built / "site"
    before = files(site)
    command = (sys.executable, "-m", "mkdocs", "build", "--quiet")
    builds = [
        subprocess.Popen(command, cwd=built, stderr=subprocess.PIPE, text=True) for _ in range(3)
    ]
    ends, absent = time.monotonic() + SECONDS, 0
    while any(one.poll() is None for one in builds) and time.monotonic() < ends:
        absent += not (site / "index.html").exists()
        time.sleep(0.0005)
    said = [one.communicate()[1] for one in builds]
    codes = [one.returncode for one in builds]
    assert 0 in codes, said
    for code, text in zip(codes, said, strict=True):
        assert code == 0 or "another build is writing site/ now" in text, text
        assert "Traceback" not in text
    assert absent == 0
    assert files(site) == before
    assert [path.name for path in built.glob(".site*")] == []


def test_a_folder_of_something_else_is_not_replaced(project: Path) -> None:
    crew = project / "crew"
    (crew / "people").mkdir(parents=True)
    (crew / "crew.yml").write_text("kept", encoding="utf-8")
    settings = project / SETTINGS
    usual = settings.read_text(encoding="utf-8")
    settings.write_text(f"site_dir: crew\n{usual}", encoding="utf-8")
    done = forked_build(project)
    assert done.returncode == 1
    assert "P707 site_dir leads to crew/, which holds files and is no manual" in done.stderr
    assert (crew / "crew.yml").read_text(encoding="utf-8") == "kept"


def test_a_folder_that_may_not_be_written_is_named(built: Path, tmp_path: Path) -> None:
    """As a file in its way does it, also for a test that runs as root."""
    (tmp_path / "in-the-way").write_text("", encoding="utf-8")
    done = forked_build(built, "--site-dir", str(tmp_path / "in-the-way" / "site"))
    assert done.returncode == 1
    assert "Nothing is published: " in done.stderr
    assert "in-the-way" in done.stderr
    assert "Traceback" not in done.stderr
