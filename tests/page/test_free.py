"""Free pages: links by id in Markdown, code left alone, and the place of each link."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchleaf.html.free import free_pages, links_in, with_links
from benchleaf.html.values import Link


def target(inside: str) -> tuple[str, str]:
    """As the engine asks: source files, and nothing for what is not known."""
    known = {
        "VG-0020": ("jobs/vg-0020.md", "VG-0020 Deburr"),
        "term:burr": ("terms.md#burr", "burr"),
    }
    return known.get(inside, ("", inside))


@pytest.mark.parametrize(
    ("text", "here", "expected"),
    [
        ("See [[VG-0020]].", "safety.html", "See [VG-0020 Deburr](jobs/vg-0020.md)."),
        ("See [[VG-0020]].", "more/safety.html", "See [VG-0020 Deburr](../jobs/vg-0020.md)."),
        ("[[VG-0020]][[term:burr]]", "x.html",
         "[VG-0020 Deburr](jobs/vg-0020.md)[burr](terms.md#burr)"),
        ("# The [[term:burr]]", "x.html", "# The [burr](terms.md#burr)"),
        ("- [[term:burr]]", "x.html", "- [burr](terms.md#burr)"),
    ],
)  # fmt: skip
def test_a_link_by_id_becomes_an_ordinary_link(text: str, here: str, expected: str) -> None:
    assert with_links(text, here, target) == expected


@pytest.mark.parametrize("text", ["[[VG-0030]]", "[[]]", "[VG-0020]", "[[VG-0020", "[[a\nb]]", ""])
def test_what_is_no_link_stays_as_it_is(text: str) -> None:
    assert with_links(text, "x.html", target) == text


@pytest.mark.parametrize(
    "code",
    [
        "`[[VG-0020]]`",
        "`a [[VG-0020]] b`",
        "```\n[[VG-0020]]\n```",
        "```yaml\nhand_on: [[VG-0020]]\n\nmore: `x`\n```",
        "~~~\n[[VG-0020]]\n~~~",
        "``a ` [[VG-0020]]``",
    ],
)
def test_code_is_left_alone(code: str) -> None:
    text = f"Before [[term:burr]].\n\n{code}\n\nAfter [[term:burr]]."
    link = "[burr](terms.md#burr)"
    assert with_links(text, "x.html", target) == f"Before {link}.\n\n{code}\n\nAfter {link}."
    assert [found for _, _, found in links_in(text)] == ["[[term:burr]]", "[[term:burr]]"]


def test_the_place_of_each_link() -> None:
    text = "[[a]]\n\nSee [[b]] and [[c]].\n```\n[[no]]\n```\n  `[[no]]` [[d]]\n"
    assert list(links_in(text)) == [
        (1, 1, "[[a]]"), (5, 3, "[[b]]"), (15, 3, "[[c]]"), (12, 7, "[[d]]"),
    ]  # fmt: skip


def test_no_link_no_place() -> None:
    assert list(links_in("`[[no]]` and [no]")) == []


def test_a_page_is_called_by_its_first_heading(tmp_path: Path) -> None:
    (tmp_path / "more").mkdir()
    (tmp_path / "b-side.md").write_text("No heading.\n", encoding="utf-8")
    (tmp_path / "a.md").write_text("Words.\n\n# Shift start #\n\n# Second\n", encoding="utf-8")
    (tmp_path / "more" / "c.md").write_text("## Small\n# Big\n", encoding="utf-8")
    (tmp_path / "notes.txt").write_text("# no page\n", encoding="utf-8")
    assert list(free_pages(tmp_path)) == [
        Link("a.html", "Shift start"), Link("b-side.html", "B side"), Link("more/c.html", "Big"),
    ]  # fmt: skip


def test_no_folder_no_pages(tmp_path: Path) -> None:
    assert list(free_pages(tmp_path / "nowhere")) == []


def test_a_page_in_another_encoding_is_no_crash(tmp_path: Path) -> None:
    (tmp_path / "a.md").write_bytes("# Prüfen\n".encode("latin-1"))
    (one,) = free_pages(tmp_path)
    assert one.words.startswith("Pr")
