"""What is no use from disk goes; everything else stays byte for byte."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchleaf.publish import tidy


def write(site: Path, name: str, data: bytes = b"x") -> Path:
    path = site / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)
    return path


@pytest.mark.parametrize(
    "name", ["404.html", "sitemap.xml", "sitemap.xml.gz", "assets/x.js.map", "deep/down/y.css.map"]
)
def test_a_file_that_is_no_use_goes(tmp_path: Path, name: str) -> None:
    path = write(tmp_path, name)
    tidy(tmp_path)
    assert not path.exists()


@pytest.mark.parametrize(
    "name", ["index.html", "jobs/404.html", "sheets/sitemap.xml", "map.html", "a.mapped", "x.js"]
)
def test_every_other_file_stays_as_it_is(tmp_path: Path, name: str) -> None:
    path = write(tmp_path, name, b"\xff\xfe bytes\n")
    tidy(tmp_path)
    assert path.read_bytes() == b"\xff\xfe bytes\n"


@pytest.mark.parametrize(
    ("name", "before", "after"),
    [
        ("x.js", b"go();\n//# sourceMappingURL=x.js.map\n", b"go();"),
        ("x.js", b"go();//# sourceMappingURL=x.js.map", b"go();"),
        ("x.js", b"go();\n//@ sourceMappingURL=x.js.map", b"go();"),
        ("a/x.css", b"p{}\n/*# sourceMappingURL=x.css.map */\n", b"p{}"),
        ("x.css", b"p{}/*# sourceMappingURL=x.css.map*/", b"p{}"),
        ("x.js", b"go();\n", b"go();\n"),
        ("x.js", b'say("//# sourceMappingURL=x.map");\ngo();\n',
         b'say("//# sourceMappingURL=x.map");\ngo();\n'),
    ],
)  # fmt: skip
def test_the_comment_that_points_to_a_map_goes_and_nothing_else(
    tmp_path: Path, name: str, before: bytes, after: bytes
) -> None:
    path = write(tmp_path, name, before)
    tidy(tmp_path)
    assert path.read_bytes() == after


def test_a_file_without_such_a_comment_is_not_written_anew(tmp_path: Path) -> None:
    path = write(tmp_path, "x.js", b"go();\n")
    before = path.stat().st_mtime_ns
    tidy(tmp_path)
    assert path.stat().st_mtime_ns == before


def test_tidying_twice_is_tidying_once(tmp_path: Path) -> None:
    write(tmp_path, "404.html")
    path = write(tmp_path, "x.js", b"go();\n//# sourceMappingURL=x.js.map")
    tidy(tmp_path)
    tidy(tmp_path)
    assert path.read_bytes() == b"go();"
    assert [each.name for each in tmp_path.iterdir()] == ["x.js"]
