"""Real mistakes, made by hand in the small shop: what a newcomer is told, kept word for word.

A mistake is a file tests/mistakes/NAME.yml in the form of the cases (`copy` makes a file like
another); what is printed stands beside it in NAME.txt. Read a message as somebody who meets it
for the first time: it must say where, what, and what to write.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml
from test_cases import apply

from benchleaf import pipeline
from benchleaf.diagnose import report, summary

FOLDER = Path(__file__).parents[1] / "mistakes"
MISTAKES = sorted(FOLDER.glob("*.yml"))


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda path: path.stem)
def test_a_mistake_is_told_so_that_it_can_be_mended(
    mistake: Path, shop: Callable[..., Path], golden: Callable[[Path, str], None]
) -> None:
    content = shop()
    for edit in yaml.safe_load(mistake.read_text(encoding="utf-8")):
        if "copy" in edit:
            (content / edit["file"]).write_bytes((content / edit["copy"]).read_bytes())
        else:
            apply(content, edit)
    findings = pipeline.check(content)
    golden(mistake.with_suffix(".txt"), f"{report(findings)}\n{summary(findings)}\n")


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda path: path.stem)
def test_the_first_message_is_about_the_mistake_and_has_a_cure(mistake: Path) -> None:
    first, *_ = re.split(r"^(?=\S)", mistake.with_suffix(".txt").read_text("utf-8"), flags=re.M)[1:]
    assert re.match(r"content/\S+?:\d+:\d+: (error|warning) [A-Z]\d{3} ", first)
    assert len(first.strip().split("\n")) > 1


def test_there_are_twenty_and_more() -> None:
    assert len(MISTAKES) >= 20
    assert {path.stem for path in FOLDER.glob("*.txt")} == {path.stem for path in MISTAKES}
