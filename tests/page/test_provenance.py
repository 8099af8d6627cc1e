"""Where a page comes from: source, history, fingerprint, and an edit link only where allowed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from benchleaf import pipeline
from benchleaf.engine.edit import edit_base
from benchleaf.publish import crawl

Shop = Callable[..., Path]
Edited = Callable[..., dict[str, str]]
BASE = "https://forge.invalid/shop/manual/edit/main/"
J1 = "jobs/vg-0010.yml"
HISTORY = (
    "history:\n  - {revision: 1, effective: 2026-01-05, note: First issue.}\nchange_note: The check"
)


def page(content: Path, address: str, edition: str = "full", **given: Any) -> str:
    plan = pipeline.plan_site(pipeline.load(content), edition=edition, **given)
    return next(one for one in plan.pages if one.address == address).render().html


def test_a_page_names_its_file(shop: Shop) -> None:
    content = shop()
    assert "Made from <code>content/jobs/vg-0010.yml</code>" in page(content, "jobs/vg-0010.html")
    assert "Made from <code>content/terms.yml</code>" in page(content, "terms.html")
    foot = pipeline.plan_site(pipeline.load(content), edition="full").foot("safety.html")
    assert "Made from <code>content/pages/safety.md</code>" in foot


def test_an_edit_link_stands_only_where_the_place_is_known(shop: Shop) -> None:
    content = shop()
    assert "Edit this file" not in page(content, "jobs/vg-0010.html")
    html = page(content, "jobs/vg-0010.html", edit_base=BASE)
    assert f'href="{BASE}content/jobs/vg-0010.yml"' in html


def test_a_job_shows_its_history_and_fingerprint(shop: Shop, edited: Edited) -> None:
    content = shop(edited(J1, "change_note: The check", HISTORY))
    loaded = pipeline.load(content)
    html = page(content, "jobs/vg-0010.html", "kiosk")
    assert "Revision 1, from 5 January 2026" in html
    assert "First issue." in html
    print_ = loaded.fingerprints["vg-0010"]
    assert f"<code>{print_[:8]}</code>" in html
    assert print_ not in html
    assert print_ in page(content, "engineer.html")


def test_the_end_of_the_route_is_told(shop: Shop) -> None:
    assert "The finished plates go to the store." in page(shop(), "jobs/vg-0020.html")


def test_the_crawl_lets_exactly_the_edit_links_out(shop: Shop, tmp_path: Path) -> None:
    plan = pipeline.plan_site(pipeline.load(shop()), edition="full", edit_base=BASE)
    allowed = f"{BASE}content/jobs/vg-0010.yml"
    assert allowed in plan.outward
    assert all(one.startswith(BASE) for one in plan.outward)
    (tmp_path / "a.html").write_text(
        f'<a href="{allowed}">x</a><a href="{BASE}content/jobs/other.yml">x</a>'
        f'<a href="{BASE}">x</a>'
    )
    found = [one.text for one in crawl(tmp_path, (), plan.outward)]
    assert len(found) == 2
    assert not any(f"'{allowed}'" in text for text in found)
    assert pipeline.plan_site(pipeline.load(shop())).outward == frozenset()


@pytest.mark.parametrize(
    ("repo", "uri", "base"),
    [
        (
            "https://forge.invalid/a",
            "edit/main/content/pages/",
            "https://forge.invalid/a/edit/main/",
        ),
        ("https://forge.invalid/a/", "edit/main/docs/", "https://forge.invalid/a/edit/main/"),
        ("https://forge.invalid/a", "-/edit/main/", "https://forge.invalid/a/-/edit/main/"),
        (None, "https://x.invalid/edit/content/pages", "https://x.invalid/edit/"),
        ("https://forge.invalid/a", None, ""),
        (None, "edit/main/", ""),
        (None, "javascript://x/", ""),
        (None, None, ""),
    ],
)
def test_where_files_are_edited(
    tmp_path: Path, repo: str | None, uri: str | None, base: str
) -> None:
    config: Any = SimpleNamespace(
        repo_url=repo,
        edit_uri=uri,
        config_file_path=str(tmp_path / "mkdocs.yml"),
        docs_dir=str(tmp_path / "content/pages"),
    )
    assert edit_base(config) == base
