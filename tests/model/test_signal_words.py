"""The signal word of every combination of the three inputs.

The table holds facts of ANSI Z535.6-2006, Annex C4.1, and the definitions of ANSI Z535.4-2007,
4.14.1 to 4.14.4: harm of minor or moderate kind is CAUTION at every probability, no injury is
NOTICE at every probability, and death or serious injury is DANGER only where both the accident
and the harm will happen. The four rows for death or serious injury are from memory of the Annex.
"""

from __future__ import annotations

from itertools import product

import pytest

from benchleaf.model import Certainty, Controls, Hazard, Severity, SignalWord, signal_word

SERIOUS, MINOR, NONE = (
    "death or serious injury", "minor or moderate injury", "no injury",
)  # fmt: skip
TABLE = {
    # worst credible harm, accident if not avoided, harm if accident: word
    (SERIOUS, "will", "will"): "DANGER",
    (SERIOUS, "will", "could"): "WARNING",
    (SERIOUS, "could", "will"): "WARNING",
    (SERIOUS, "could", "could"): "WARNING",
    (MINOR, "will", "will"): "CAUTION",
    (MINOR, "will", "could"): "CAUTION",
    (MINOR, "could", "will"): "CAUTION",
    (MINOR, "could", "could"): "CAUTION",
    (NONE, "will", "will"): "NOTICE",
    (NONE, "will", "could"): "NOTICE",
    (NONE, "could", "will"): "NOTICE",
    (NONE, "could", "could"): "NOTICE",
}


def test_the_table_holds_every_combination() -> None:
    assert set(TABLE) == set(product(map(str, Severity), map(str, Certainty), map(str, Certainty)))


@pytest.mark.parametrize(("inputs", "word"), TABLE.items(), ids=" / ".join)
def test_the_word_follows_from_the_three_inputs(inputs: tuple[str, str, str], word: str) -> None:
    severity, accident, harm = inputs
    computed = signal_word(Severity(severity), Certainty(accident), Certainty(harm))
    assert computed is SignalWord(word)


@pytest.mark.parametrize(("inputs", "word"), TABLE.items(), ids=" / ".join)
def test_a_hazard_computes_its_word(inputs: tuple[str, str, str], word: str) -> None:
    severity, accident, harm = inputs
    hazard = Hazard(
        id="h", title="H", severity=Severity(severity), accident_if_not_avoided=Certainty(accident),
        harm_if_accident=Certainty(harm), what="W", avoid=("A",), controls=Controls(),
    )  # fmt: skip
    assert hazard.signal_word.value == word


def test_a_word_cannot_be_typed() -> None:
    assert "signal_word" not in Hazard.model_fields
    with pytest.raises(ValueError, match="signal_word"):
        Hazard.model_validate({"signal_word": "DANGER"})


def test_words_rank_gravest_first() -> None:
    by_rank = sorted(SignalWord, key=lambda word: word.rank)
    assert [word.value for word in by_rank] == ["DANGER", "WARNING", "CAUTION", "NOTICE"]


def test_only_words_about_injury_carry_the_alert_symbol() -> None:
    assert {word.value for word in SignalWord if word.has_alert_symbol} == {
        "DANGER", "WARNING", "CAUTION",
    }  # fmt: skip


def test_a_graver_input_never_gives_a_milder_word() -> None:
    harm_order, sure_order = list(Severity), list(Certainty)
    for (s1, a1, h1), (s2, a2, h2) in product(product(Severity, Certainty, Certainty), repeat=2):
        graver = (
            harm_order.index(s1) <= harm_order.index(s2)
            and sure_order.index(a1) <= sure_order.index(a2)
            and sure_order.index(h1) <= sure_order.index(h2)
        )
        if graver:
            assert signal_word(s1, a1, h1).rank <= signal_word(s2, a2, h2).rank
