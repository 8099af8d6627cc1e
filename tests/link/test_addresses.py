"""Addresses: the same on every disk, relative to any page, and every one of them listed."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from urllib.parse import urljoin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf import link, pipeline
from benchleaf.link import address, index_address, relative
from benchleaf.model import FOLDERS, KINDS
from benchleaf.registers import forwarding
from running import examples


@pytest.mark.parametrize(
    ("kind", "record_id", "anchor", "expected"),
    [
        ("jobs", "tr-0140", None, "jobs/tr-0140.html"),
        ("jobs", "tr-0140", "ream", "jobs/tr-0140.html#ream"),
        ("tools", "drill-8", None, "tools/drill-8.html"),
        ("terms", "quill", None, "terms.html#quill"),
    ],
)
def test_the_address_of_a_record(
    kind: str, record_id: str, anchor: str | None, expected: str
) -> None:
    assert address(kind, record_id, anchor) == expected


def test_the_address_of_a_list() -> None:
    assert index_address("jobs") == "jobs/index.html"
    assert index_address("terms") == link.TERMS_PAGE == "terms.html"


@pytest.mark.parametrize(
    ("target", "here", "expected"),
    [
        ("jobs/a.html", "jobs/b.html", "a.html"),
        ("jobs/a.html#s", "jobs/b.html", "a.html#s"),
        ("jobs/a.html#s", "jobs/a.html", "#s"),
        ("jobs/a.html", "jobs/a.html", "a.html"),
        ("tools/a.html", "jobs/b.html", "../tools/a.html"),
        ("index.html", "jobs/b.html", "../index.html"),
        ("terms.html#quill", "terms.html", "#quill"),
        ("terms.html#quill", "index.html", "terms.html#quill"),
        ("jobs/a.html", "es/jobs/b.html", "../../jobs/a.html"),
        ("es/jobs/a.html#s", "es/jobs/b.html", "a.html#s"),
        ("assets/x.css", "pages/deep/er/a.html", "../../../assets/x.css"),
    ],
)
def test_a_link_as_seen_from_a_page(target: str, here: str, expected: str) -> None:
    assert relative(target, here) == expected


NAMES = st.from_regex(r"[a-z0-9]+(-[a-z0-9]+)?", fullmatch=True)
PAGES = st.lists(NAMES, min_size=1, max_size=4).map(lambda parts: "/".join(parts) + ".html")


@settings(max_examples=examples(40))
@given(PAGES, PAGES, st.none() | NAMES)
def test_a_relative_link_leads_to_its_target(here: str, page: str, anchor: str | None) -> None:
    target = f"{page}#{anchor}" if anchor else page
    there = relative(target, here)
    assert urljoin(f"https://disk/{here}", there) == f"https://disk/{target}"
    assert not there.startswith("/")


def test_every_address_of_the_small_shop_once(
    shop: Callable[..., Path], base_shop: dict[str, str]
) -> None:
    addresses = list(forwarding.promised(pipeline.load(shop()).shop))
    registered = re.findall(r"^  - (.*)$", base_shop["addresses.yml"], re.MULTILINE)
    assert len(set(addresses)) == len(addresses)
    assert set(addresses) == set(registered)
    assert {
        "index.html", "signal-words.html", "terms.html", "terms.html#quill", "tools/index.html",
        "jobs/vg-0010.html", "jobs/vg-0010.html#clamp", "jobs/vg-0010.html#guide-hole",
    } <= set(addresses)  # fmt: skip


def test_a_record_called_index_would_take_the_place_of_its_list(
    shop: Callable[..., Path], base_shop: dict[str, str]
) -> None:
    """tools/index.html is the list of tools; a tool with that id must be refused."""
    index = base_shop["tools/plug-gauge-8.yml"].replace("id: plug-gauge-8", "id: index")
    findings = pipeline.check(shop({"tools/index.yml": index}))
    assert any(finding.blocks_publishing for finding in findings)


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_has_a_list(kind: str) -> None:
    assert index_address(kind).endswith(".html")
    assert (kind in FOLDERS) == (index_address(kind) == f"{kind}/index.html")
