"""What search shows before all results: the shop's own words, and only places that are there."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from benchleaf import pipeline
from benchleaf.search import first_help
from benchleaf.search.help_first import TITLES

LAST = "preface: safety.md"


def test_a_shop_adds_words_and_names_its_page(
    shop: Callable[..., Path], edited: Callable[..., dict[str, str]]
) -> None:
    own = f"{LAST}\nfirst_help:\n  page: safety.md#before-you-start\n  hurt:\n    - plaster"
    loaded = pipeline.load(shop(edited("manual.yml", LAST, own)))
    assert loaded.findings == ()
    made = first_help(loaded.shop, str)
    stop, page = "machines/bench-drill.html", "safety.html#before-you-start"
    told = made.told({stop, page})
    kinds = dict(told["kinds"])  # type: ignore[call-overload]
    assert list(kinds) == list(TITLES.values())
    assert {"blood*", "plaster"} <= set(kinds["Somebody is hurt or caught"])
    assert "plaster" not in kinds["Fire or smoke"]
    assert told["places"] == [[page, "Safety page"]]
    assert told["stops"] == [[f"{stop}#controls", "Bench drill"]]
    assert told["emergency"] == loaded.shop.manual.emergency
    assert made.told(set())["places"] == made.told(set())["stops"] == []
    both = made.told({"wrong.html", page})["places"]
    assert [one[0] for one in both] == ["wrong.html", page]  # type: ignore[attr-defined]
