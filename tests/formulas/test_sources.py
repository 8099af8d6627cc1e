"""The list of sources."""

import re
from pathlib import Path

import pytest

from benchleaf import formulas
from benchleaf.formulas.sources import SOURCES, SourceStatus, source
from running import for_each

FOLDER = Path(formulas.__file__).parent


@for_each("key", sorted(SOURCES))
def test_a_source_is_cited_on_one_plain_line(key: str) -> None:
    each = source(key)
    assert each.key == key
    assert each.title
    assert each.where
    assert not re.search(r"https?:|www\.|\n", f"{each.title}, {each.where}")


def test_memory_is_owned_up_to() -> None:
    recalled = {key for key, each in SOURCES.items() if each.status is SourceStatus.MEMORY}
    assert recalled == {
        "mh31-table-3", "mh31-table-4", "mh31-table-6", "shaw-oxford", "clamp-spread", "iec-60034",
    }  # fmt: skip


def test_an_unknown_key_lists_the_known_ones() -> None:
    with pytest.raises(ValueError, match=r"source key is 'mh32'; it must be one of .*statics"):
        source("mh32")


def test_constants_name_keys_that_exist() -> None:
    text = "".join(path.read_text("utf-8") for path in FOLDER.glob("*.py"))
    named = set(re.findall(r"\(source ([\w.-]+),", text))
    assert len(named) >= 3
    assert named <= set(SOURCES)


def test_the_list_cannot_be_changed() -> None:
    with pytest.raises(TypeError):
        SOURCES["mine"] = source("statics")  # type: ignore[index]
