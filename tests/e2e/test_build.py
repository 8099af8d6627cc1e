"""The build as a user runs it: whole or not at all, and never a stale or half-made site."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.link import is_full_only
from benchleaf.publish import crawl
from build_demo import forked_build
from registering import take_over


def _files(site: Path) -> dict[str, bytes]:
    return {
        path.relative_to(site).as_posix(): path.read_bytes()
        for path in site.rglob("*")
        if path.is_file()
    }


def _replace(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text, f"{old!r} is not in {path.name}"
    path.write_text(text.replace(old, new), encoding="utf-8")


def _a_job(project: Path) -> Path:
    return next(
        path
        for path in sorted((project / "content/jobs").glob("*.yml"))
        if "set_ups:" in path.read_text(encoding="utf-8")
    )


def test_the_demo_builds_strictly_and_every_link_holds(demo: Path) -> None:
    assert list(crawl(demo)) == []
    assert (demo / "index.html").is_file()


def test_every_registered_address_is_in_the_demo(demo: Path, full_demo: Path) -> None:
    loaded = pipeline.load(Path(__file__).parents[2] / "content")
    assert loaded.registered
    for address in loaded.registered:
        site = full_demo.with_name("site-full") if is_full_only(address) else demo
        page, _, anchor = address.partition("#")
        html = (site / page).read_text(encoding="utf-8")
        assert not anchor or f'id="{anchor}"' in html, address


def test_no_file_that_is_useless_from_disk(demo: Path) -> None:
    names = _files(demo)
    assert not [name for name in names if name.endswith(".map") or "sitemap" in name]
    assert "404.html" not in names


def test_pages_do_not_grow_with_the_number_of_pages(demo: Path) -> None:
    """No page but the lists names another job's page that its own records do not name."""
    drill = (demo / "tools/drill-8-5.html").read_text(encoding="utf-8")
    assert "tr-0190" not in drill


def test_a_failed_build_leaves_the_former_site_whole(built: Path) -> None:
    before = _files(built / "site")
    _replace(_a_job(built), "machine:", "machin:")
    done = forked_build(built)
    assert done.returncode != 0
    assert "F201" in done.stderr
    assert "Traceback" not in done.stderr
    assert _files(built / "site") == before
    assert [path.name for path in built.glob(".site*")] == []


def test_a_bad_link_on_a_free_page_fails_the_build_and_keeps_the_site(built: Path) -> None:
    before = _files(built / "site")
    page = built / "content/pages/notes.md"
    page.write_text("# Notes\n\n<a href='nowhere.html'>raw link</a>\n", encoding="utf-8")
    done = forked_build(built)
    assert done.returncode != 0
    assert "P701" in done.stderr
    assert _files(built / "site") == before
    assert [path.name for path in built.glob(".site*")] == []


def test_an_outside_address_on_a_free_page_fails_the_build(project: Path) -> None:
    page = project / "content/pages/notes.md"
    page.write_text("# Notes\n\n![far](https://example.org/a.png)\n", encoding="utf-8")
    done = forked_build(project)
    assert done.returncode != 0
    assert "P703" in done.stderr


def test_a_strict_build_with_warnings_keeps_the_former_site(built: Path) -> None:
    before = _files(built / "site")
    (built / "content/addresses.yml").unlink()
    done = forked_build(built, "--strict")
    assert done.returncode != 0
    assert "A602" in done.stderr
    assert _files(built / "site") == before
    assert [path.name for path in built.glob(".site*")] == []


def test_a_swap_cut_off_half_way_is_put_right(built: Path) -> None:
    (built / "site").rename(built / ".site-former")
    _replace(_a_job(built), "machine:", "machin:")
    assert forked_build(built).returncode != 0
    assert (built / "site/index.html").is_file()


def test_links_by_id_on_a_free_page(project: Path) -> None:
    job = _a_job(project).stem
    page = project / "content/pages/notes.md"
    page.write_text(f"# Notes\n\nSee [[{job}]], not `[[{job}]]`.\n", encoding="utf-8")
    done = forked_build(project)
    assert done.returncode == 0, done.stderr
    html = (project / "site/notes.html").read_text(encoding="utf-8")
    assert f'<a href="jobs/{job}.html">{job.upper()} ' in html
    assert f"<code>[[{job}]]</code>" in html


def test_do_not_run_is_published_in_place_of_the_set_up(project: Path) -> None:
    """A broken limit must replace the former page, also in a strict build."""
    job = _a_job(project)
    text = job.read_text(encoding="utf-8")
    assert "margin:" not in text
    _replace(job, "  clamping:\n", "  margin: 50\n  clamping:\n")
    done = forked_build(project, "--strict")
    assert done.returncode == 0, done.stderr
    assert "S505" in done.stderr
    html = (project / f"site/jobs/{job.stem}.html").read_text(encoding="utf-8")
    assert "Do not run" in html
    assert "the holding resists" in html.lower()
    assert "bl-figure" not in html
    assert "bl-set" not in html.replace("bl-setup", "")
    index = (project / "site/jobs/index.html").read_text(encoding="utf-8")
    assert "Do not run" in index


@pytest.mark.parametrize(
    ("settings", "said"),
    [
        ("theme:\n  name: material\n  font: false\n  features: [navigation.instant]\n", "instant"),
        (
            "theme:\n  name: material\n  font: false\n  features: [navigation.instant.preview]\n",
            "instant.preview",
        ),
        (
            "markdown_extensions:\n  - pymdownx.superfences:\n      custom_fences:\n"
            "        - {name: mermaid, class: mermaid}\n",
            "Mermaid",
        ),
        ("extra_javascript: ['https://example.invalid/a.js']\n", "example.invalid/a.js"),
        ("extra_css: ['//example.invalid/a.css']\n", "example.invalid/a.css"),
    ],
)
def test_settings_that_cannot_work_from_disk_end_the_build_with_one_message(
    project: Path, settings: str, said: str
) -> None:
    config = project / "mkdocs.yml"
    text = config.read_text(encoding="utf-8")
    if settings.startswith("theme:"):
        text = text.replace("theme:\n  name: material\n  font: false\n", "")
    config.write_text(text + settings, encoding="utf-8")
    done = forked_build(project)
    printed = done.stdout + done.stderr
    assert done.returncode == 1, printed
    assert printed.count("P706") == 1
    assert said in printed
    assert "Traceback" not in printed
    assert not (project / "site").exists()


def test_a_draft_is_built_only_where_somebody_asks_for_it(
    built: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    take_over(built / "content")
    before = _files(built / "site")
    _replace(built / "content/jobs/vg-0010.yml", "8 +0.1/-0 mm", "8 +0.2/-0 mm")
    notice = built / "content/notices/larger.yml"
    notice.parent.mkdir()
    notice.write_text("jobs: [VG-0010]\nnote: Larger.\napproved_by: lead\n", encoding="utf-8")
    done = forked_build(built)
    assert done.returncode != 0
    assert "A612 VG-0010 is a draft" in done.stderr
    assert _files(built / "site") == before
    monkeypatch.setenv("BENCHLEAF_DRAFTS", "true")
    done = forked_build(built, "--strict")
    assert done.returncode == 0, done.stderr
    page = (built / "site/jobs/vg-0010.html").read_text(encoding="utf-8")
    assert "Draft of VG-0010" in page
