"""Where the words of the trade are met, and the findings about them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.diagnose import Finding, Severity
from benchleaf.link import Use, term_uses

Edited = Callable[..., dict[str, str]]
Found = Callable[..., tuple[Finding, ...]]
Uses = Callable[..., dict[str, tuple[Use, ...]]]
JOB = "jobs/vg-0010.yml"


@pytest.fixture
def uses(shop: Callable[..., Path]) -> Uses:
    def find(files: dict[str, str] | None = None) -> dict[str, tuple[Use, ...]]:
        loaded = pipeline.load(shop(files))
        return term_uses(loaded.shop, loaded.terms)

    return find


def test_a_use_names_the_record_and_the_step(uses: Uses) -> None:
    found = uses()
    # the gauge step's reason speaks of the burr; VG-0020 of it in makes and matters
    assert Use("jobs", "vg-0010", "gauge") in found["burr"]
    assert Use("jobs", "vg-0020") in found["burr"]


def test_each_use_is_told_once(uses: Uses) -> None:
    for found in uses().values():
        assert len(set(found)) == len(found)


def test_a_terms_own_meaning_is_no_use_of_it_and_another_terms_is(
    uses: Uses, edited: Edited
) -> None:
    files = edited(
        "terms.yml", "The sharp edge a drill leaves round a hole.",
        "A burr is the sharp edge that a quill never leaves.",
    )  # fmt: skip
    found = uses(files)
    assert Use("terms", "burr") not in found["burr"]
    assert Use("terms", "burr") in found["quill"]


def test_a_title_is_no_running_text(uses: Uses, edited: Edited) -> None:
    files = edited("jobs/vg-0020.yml", "makes: A rack plate without a burr at its guide hole.",
                   "makes: A part.", "matters: A burr lifts", "matters: An edge lifts")  # fmt: skip
    assert Use("jobs", "vg-0020") not in uses(files).get("burr", ())


def test_v411_a_term_that_is_used_nowhere(found: Found, edited: Edited) -> None:
    term = "terms:\n  - id: arbor\n    word: arbor\n    meaning: A short shaft.\n"
    (finding,) = [one for one in found(edited("terms.yml", "terms:\n", term)) if one.code == "V411"]
    assert (finding.severity, finding.place.line) == (Severity.WARNING, 3)
    assert "'arbor'" in finding.text


@pytest.mark.parametrize(
    "text", ["Push on the ARBOR.", "Two arbors.", "The **arbor**.", "The shaft piece."]
)
def test_v411_any_form_of_the_term_is_a_use(found: Found, edited: Edited, text: str) -> None:
    term = (
        "terms:\n  - id: arbor\n    word: arbor\n    meaning: A short shaft.\n"
        "    variants:\n      - shaft piece\n"
    )
    files = edited("terms.yml", "terms:\n", term) | edited(
        JOB, "Let fluid run on the drill.", f"Let fluid run on the drill. {text}"
    )
    assert "V411" not in {one.code for one in found(files)}


def test_v412_a_word_of_the_shops_own_list_without_an_entry(found: Found, edited: Edited) -> None:
    files = edited("manual.yml", "  - rack plate\n", "  - rack plate\n  - vent gear\n")
    (finding,) = found(files)
    assert (finding.code, finding.severity) == ("V412", Severity.WARNING)
    assert "'vent gear'" in finding.text
    assert finding.place.file == "content/manual.yml"


@pytest.mark.parametrize("word", ["Rack plates", "spindle sleeve", "QUILL"])
def test_v412_any_form_of_an_entry_will_do(found: Found, edited: Edited, word: str) -> None:
    assert found(edited("manual.yml", "  - rack plate\n", f"  - {word}\n")) == ()


def test_v412_a_word_inside_a_longer_one_is_not_it(found: Found, edited: Edited) -> None:
    files = edited("manual.yml", "  - rack plate\n", "  - quill lock\n")
    assert [one.code for one in found(files)] == ["V412"]
