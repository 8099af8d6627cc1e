"""Bytes to text: encodings, line ends, and what a file may not hold at all."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from benchleaf.diagnose import Finding, Place
from benchleaf.read import read_document
from benchleaf.read.text_file import BYTES_AT_MOST, read_text


def read(folder: Path, data: bytes) -> tuple[str | None, tuple[Finding, ...]]:
    path = folder / "f.yml"
    path.write_bytes(data)
    return read_text(path, "f.yml")


def test_a_byte_order_mark_is_passed_over(tmp_path: Path) -> None:
    assert read(tmp_path, b"\xef\xbb\xbfid: a\n") == ("id: a\n", ())


def test_the_place_is_the_same_with_and_without_a_byte_order_mark(tmp_path: Path) -> None:
    for start in (b"", b"\xef\xbb\xbf"):
        _, (finding,) = read(tmp_path, start + b"a:\tb\n")
        assert finding.place == Place("f.yml", 1, 3)


def test_windows_line_ends_make_no_difference(tmp_path: Path) -> None:
    assert read(tmp_path, b"a: 1\r\nb: 2\r\n") == ("a: 1\nb: 2\n", ())


def test_places_count_windows_lines_right(tmp_path: Path) -> None:
    path = tmp_path / "f.yml"
    path.write_bytes(b"a: 1\r\nb: 2\r\na: 3\r\n")
    _, (finding,) = read_document(path, "tools", "f.yml")
    assert (finding.code, finding.place) == ("R108", Place("f.yml", 3, 1))


def test_a_byte_that_is_not_utf8_is_named_with_its_place(tmp_path: Path) -> None:
    text, (finding,) = read(tmp_path, "a: 1\nb: 20 °C\n".encode("latin-1"))
    assert text is None
    assert (finding.code, finding.place) == ("R102", Place("f.yml", 2, 7))
    assert "0xB0" in finding.text


def test_the_column_of_a_wrong_byte_counts_characters(tmp_path: Path) -> None:
    _, (finding,) = read(tmp_path, "a: ±±".encode() + b"\xb0\n")
    assert finding.place == Place("f.yml", 1, 6)


def test_utf16_is_refused(tmp_path: Path) -> None:
    text, (finding,) = read(tmp_path, "id: a\n".encode("utf-16"))
    assert text is None
    assert finding.code == "R102"


@pytest.mark.parametrize(
    "character",
    ["\0", "\x01", "\x07", "\x08", "\x0b", "\x0c", "\x1b", "\x7f", "\x80", "\x9f",
     "\u202a", "\u202e", "\u2066", "\u2069"],
)  # fmt: skip
def test_a_character_nobody_can_see_is_refused_by_its_place(tmp_path: Path, character: str) -> None:
    path = tmp_path / "f.yml"
    path.write_bytes(f"a: 1\nb: c{character}d\n".encode())
    document, findings = read_document(path, "tools", "f.yml")
    assert document is not None
    assert (document.value, document.echoes) == ({"a": "1"}, frozenset({1}))
    assert [(each.code, each.place) for each in findings] == [("R107", Place("f.yml", 2, 5))]


@pytest.mark.parametrize("sign", ["\r", "\x85", "\u2028", "\u2029"])
def test_signs_that_only_yaml_takes_for_a_line_end_do_not_shift_the_lines(
    tmp_path: Path, sign: str
) -> None:
    """An editor does not count them, so a place after one would name the wrong line."""
    path = tmp_path / "f.yml"
    path.write_bytes(f"a: 1{sign}b: 2\nc: 3\nc: 4\n".encode())
    document, findings = read_document(path, "tools", "f.yml")
    is_cut = document is None or document.echoes is not None
    assert (is_cut and findings[0].code == "R107") or findings[0].place.line == (
        4 if sign == "\r" else 3
    )


@pytest.mark.parametrize(
    "text", ["°±µ×÷ØΩ", "½ 1⁄4 5″", "’“”–—…", "Grüße, naïve, žluťoučký", "日本"]
)
def test_signs_of_a_shop_and_of_other_languages_are_welcome(tmp_path: Path, text: str) -> None:
    assert read(tmp_path, f"a: {text}\n".encode()) == (f"a: {text}\n", ())


def test_each_run_of_tabs_is_one_finding(tmp_path: Path) -> None:
    text, findings = read(tmp_path, b"a:\n\t\t- b\tc\n")
    assert text is None
    assert [(each.code, each.place.line, each.place.column) for each in findings] == [
        ("R106", 2, 1),
        ("R106", 2, 6),
    ]


CONFLICT = "a: 1\n<<<<<<< ours\nb: 2\n=======\nb: 3\n>>>>>>> theirs\n"


def test_a_merge_conflict_is_found_at_each_marker(tmp_path: Path) -> None:
    text, findings = read(tmp_path, CONFLICT.encode())
    assert text is None
    assert [(each.code, each.place.line) for each in findings] == [
        ("R105", 2), ("R105", 4), ("R105", 6),
    ]  # fmt: skip


def test_a_conflict_with_the_common_ancestor_is_found(tmp_path: Path) -> None:
    text = CONFLICT.replace("=======\n", "||||||| base\nb: 0\n=======\n")
    assert [each.place.line for each in read(tmp_path, text.encode())[1]] == [2, 4, 6, 8]


def test_a_conflict_is_found_whatever_the_line_ends(tmp_path: Path) -> None:
    data = CONFLICT.replace("\n", "\r\n").encode()
    assert [each.code for each in read(tmp_path, data)[1]] == ["R105"] * 3


def test_half_a_conflict_is_found(tmp_path: Path) -> None:
    assert [each.code for each in read(tmp_path, b"<<<<<<< ours\nb: 2\n")[1]] == ["R105"]


@pytest.mark.parametrize(
    "text", ["# Words\n# =======\n", "a: =======\n", "========\n", "a: <<<<<<< not at the start\n"]
)
def test_what_only_looks_like_a_conflict(tmp_path: Path, text: str) -> None:
    assert read(tmp_path, text.encode()) == (text, ())


def test_one_row_of_equals_signs_alone_is_no_conflict(tmp_path: Path) -> None:
    assert read(tmp_path, b"a: |\n  Words\n=======\n")[1] == ()


def test_a_file_of_the_greatest_length_is_read_and_one_byte_more_is_not(tmp_path: Path) -> None:
    start = b"a: 1\n#"
    assert read(tmp_path, start + b"x" * (BYTES_AT_MOST - len(start)))[1] == ()
    text, (finding,) = read(tmp_path, start + b"x" * (BYTES_AT_MOST - len(start) + 1))
    assert text is None
    assert finding.code == "R103"
    assert "1,000,001" in finding.text


def test_a_folder_named_like_a_file_cannot_be_read(tmp_path: Path) -> None:
    (tmp_path / "f.yml").mkdir()
    text, (finding,) = read_text(tmp_path / "f.yml", "f.yml")
    assert text is None
    assert (finding.code, finding.place) == ("R101", Place("f.yml"))


def test_a_link_to_itself_cannot_be_read(tmp_path: Path) -> None:
    (tmp_path / "f.yml").symlink_to("f.yml")
    text, (finding,) = read_text(tmp_path / "f.yml", "f.yml")
    assert text is None
    assert finding.code == "R101"


def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "f.yml")
    text, (finding,) = read_text(tmp_path / "f.yml", "f.yml")
    assert text is None
    assert finding.code == "R101"


def test_a_file_that_refuses_to_be_opened(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(_: Path) -> bytes:
        raise PermissionError(13, "Permission denied")

    (tmp_path / "f.yml").write_text("a: 1\n")
    monkeypatch.setattr(Path, "read_bytes", refuse)
    text, (finding,) = read_text(tmp_path / "f.yml", "f.yml")
    assert text is None
    assert finding.code == "R101"
    assert "Permission denied" in finding.text
