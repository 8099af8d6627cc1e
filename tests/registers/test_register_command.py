"""`benchleaf register` in a shop whose revisions are given by hand: what it ends with."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf.cli import main

JOB = "jobs/vg-0010.yml"


def test_it_ends_with_0_once_all_is_registered_and_with_1_while_a_revision_must_advance(
    shop: Callable[..., Path], capsys: pytest.CaptureFixture[str]
) -> None:
    content = shop()
    assert main(["register", str(content)]) == 0
    assert "2 added" in capsys.readouterr().out
    assert main(["register", str(content)]) == 0
    assert "0 added" in capsys.readouterr().out
    path = content / JOB
    text = path.read_text(encoding="utf-8")
    assert text.count("feed: 0.15 mm/rev") == 1
    path.write_text(text.replace("feed: 0.15 mm/rev", "feed: 0.16 mm/rev"), encoding="utf-8")
    assert main(["register", str(content)]) == 1
    assert "A604" in capsys.readouterr().out
    assert main(["register", str(content), "--wording-only", "VG-0099"]) == 2
    assert "there is no job 'vg-0099'" in capsys.readouterr().err
