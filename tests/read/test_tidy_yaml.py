"""Files put in order: values and comments stay, twice is the same as once, doubt leaves them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf.cli import main
from benchleaf.read import document_of
from benchleaf.read.tidy import tidied_text
from running import examples

ROOT = Path(__file__).parents[2]
REAL = [
    path
    for pattern in ("content/jobs/tr-0[12]*.yml", "content/hazards/*.yml", "tests/shop/*/*.yml")
    for path in sorted(ROOT.glob(pattern))[::2]
]
"""Every second one: the library takes its time."""
MESSY = """\
# Head of the file
title:   Clamp the plate    # said shortly
wear:
- glasses
-   shoes


numbers: [ 010 , 3:1, 1e3,on ]
size: "#7"     
steps:
    -   id: a
        text: >-
            One line
            and another.
        # before the next key
        note: 'It''s so'
    - id: b
# The end
"""  # noqa: W291
TIDY = """\
# Head of the file
title: Clamp the plate      # said shortly
wear:
  - glasses
  - shoes


numbers: [010, 3:1, 1e3, on]
size: "#7"
steps:
  - id: a
    text: >-
      One line
      and another.
    # before the next key
    note: 'It''s so'
  - id: b
# The end
"""


def value(text: str) -> object:
    document, _ = document_of(text, "", "f.yml")
    assert document is not None
    return document.value


def test_a_messy_file_comes_out_in_order() -> None:
    assert tidied_text(MESSY) == TIDY
    assert value(TIDY) == value(MESSY)


@pytest.mark.parametrize("path", REAL, ids=lambda path: path.name)
def test_a_real_file_keeps_its_values_and_is_in_order_the_second_time(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    after = tidied_text(text)
    assert after is not None
    assert value(after) == value(text)
    assert after.count("#") == text.count("#")
    assert tidied_text(after) == after


KEYS = st.text("abcdefgh", min_size=1, max_size=5)
WORDS = st.text("ab 0123456789.:/#'\"-[]{}&*!%@,°", min_size=1, max_size=30).map(str.strip)
VALUES = st.recursive(
    WORDS.filter(bool),
    lambda inner: (
        st.lists(inner, min_size=1, max_size=3)
        | st.dictionaries(KEYS, inner, min_size=1, max_size=3)
    ),
    max_leaves=8,
)


@settings(max_examples=examples(40))
@given(
    st.dictionaries(KEYS, VALUES, min_size=1, max_size=4),
    st.integers(2, 6),
    st.sampled_from(["# a comment", "", "# one\n# two"]),
)
def test_meaning_and_comments_stay_and_twice_is_once(
    record: dict[str, object], indent: int, comment: str
) -> None:
    written = yaml.safe_dump(record, indent=indent, allow_unicode=True, width=40)
    lines = written.split("\n")
    tops = [at for at, line in enumerate(lines) if line[:1].isalpha()]
    text = "\n".join((*lines[: tops[-1]], comment, *lines[tops[-1] :])) if comment else written
    after = tidied_text(text)
    if after is None:  # left as it is: always allowed, never wrong
        return
    assert value(after) == value(text)
    assert all(line in after for line in comment.split("\n"))
    assert tidied_text(after) == after


def test_most_texts_are_put_in_order_and_not_left() -> None:
    texts = [f"a: {word}\nb:\n- {word}\n" for word in ("x", "010", "3:1", "on", "8.5 mm", "'#7'")]
    assert [text for text in texts if tidied_text(text) is None] == []


def test_the_command_changes_what_it_says(
    shop: Callable[..., Path], capsys: pytest.CaptureFixture[str]
) -> None:
    content = shop(
        {"terms.yml": "terms:\n-   id: burr\n    word: burr  # so\n    meaning: An edge.\n"}
    )
    assert main(["tidy", "--check", str(content)]) == 1
    assert "terms.yml would be put in order" in capsys.readouterr().out
    assert main(["tidy", str(content)]) == 0
    text = (content / "terms.yml").read_text(encoding="utf-8")
    assert text == "terms:\n  - id: burr\n    word: burr  # so\n    meaning: An edge.\n"
    assert main(["tidy", "--check", str(content)]) == 0


def test_a_file_that_cannot_be_read_is_left_and_told(
    shop: Callable[..., Path], capsys: pytest.CaptureFixture[str]
) -> None:
    content = shop({"terms.yml": "terms: [\n"})
    assert main(["tidy", str(content)]) == 1
    assert "error R107" in capsys.readouterr().out
    assert (content / "terms.yml").read_text(encoding="utf-8") == "terms: [\n"


def test_a_folder_that_is_not_there(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["tidy", str(tmp_path / "nowhere")]) == 2
    assert "there is no folder" in capsys.readouterr().err
