"""What a workbook says of each column, and what may be chosen there, is what it said."""

from __future__ import annotations

import pytest

from benchleaf.model import FOLDERS, class_of
from benchleaf.workbooks.helps import helps
from kept import Kept

IDS = {kind: (f"{kind}-1", f"{kind}-2") for kind in FOLDERS}


@pytest.mark.parametrize("kind", FOLDERS)
def test_the_help_of_each_column(kind: str, kept: Kept) -> None:
    found = helps(class_of(kind), IDS)
    assert found
    kept("helps", {kind: "\n".join(f"{key}: {one}" for key, one in found.items())})
