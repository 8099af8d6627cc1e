"""Field types, and what a record keeps of them."""

from __future__ import annotations

import json
from typing import Any

import pytest
from pydantic import TypeAdapter, ValidationError

from benchleaf.model import (
    FOLDERS,
    KINDS,
    Controls,
    Holding,
    Job,
    Manual,
    Shop,
    Term,
    files,
    name_of,
    references,
    texts,
)
from benchleaf.model.fields import DrillSize, Factor, Limits

DRILL: TypeAdapter[Any] = TypeAdapter(DrillSize)
FACTOR: TypeAdapter[Any] = TypeAdapter(Factor)
LIMITS: TypeAdapter[Any] = TypeAdapter(Limits)


@pytest.mark.parametrize(
    ("written", "millimetres"),
    # Number and letter drills by ANSI/ASME B94.11M: #7 is 0.2010 in, F is 0.2570 in.
    [("#7", 5.1054), ("# 7", 5.1054), ("F", 6.5278), ("f", 6.5278), ("1/4", 6.35),
     ("1/4 in", 6.35), ("8.5 mm", 8.5), ("#80", 0.3429)],
)  # fmt: skip
def test_a_drill_by_its_name_or_its_size(written: str, millimetres: float) -> None:
    size = DRILL.validate_python(written)
    assert size.value == pytest.approx(millimetres)
    assert size.text == written


@pytest.mark.parametrize("written", ["#0", "#81", "#", "#x", "Ä", "7", "AA", "1/3", "2/8", "-#7"])
def test_a_drill_that_there_is_not(written: str) -> None:
    with pytest.raises(ValidationError):
        DRILL.validate_python(written)


@pytest.mark.parametrize(
    "written", ["0", "-1", "0,18", "", "x", "inf", "nan", "1e999", "٣", "1_0", "0x1", "18 %"]
)
def test_a_factor_that_is_no_number_above_zero(written: str) -> None:
    with pytest.raises(ValidationError):
        FACTOR.validate_python(written)


def test_a_factor_is_a_plain_number() -> None:
    assert FACTOR.validate_python("0.18") == 0.18
    assert FACTOR.validate_python("24000") == 24000.0


@pytest.mark.parametrize("value", [["8 mm"], {"a": "8 mm"}, 8, 8.0, True])
def test_a_quantity_is_one_text(value: object) -> None:
    for adapter in (DRILL, LIMITS):
        with pytest.raises(ValidationError) as caught:
            adapter.validate_python(value)
        assert caught.value.errors()[0]["type"] == "quantity_shape"


def holding(**others: str) -> Holding:
    return Holding.model_validate(
        {"method": "vice", "how": "In the jaws.", "bolted_down": "Two bolts.", **others}
    )


def test_the_usual_margin_is_two() -> None:
    assert holding().margin == 2.0


def test_a_smaller_margin_has_a_reason() -> None:
    assert holding(margin="1.5", margin_reason="Tried by the setter.").margin == 1.5
    with pytest.raises(ValidationError):
        holding(margin="1.5")
    assert holding(margin="3").margin == 3.0


def test_a_margin_below_one_has_no_reason() -> None:
    with pytest.raises(ValidationError):
        holding(margin="0.9", margin_reason="It went well so far.")


@pytest.mark.parametrize(
    "method",
    ["hand", "Hand", "hands", "by hand", "held by hand", "hand-held", "handheld", "hand held",
     "by-hand", "both hands", "hand and stop", "by hand."],
)  # fmt: skip
def test_a_hand_is_no_way_of_holding_work(method: str) -> None:
    with pytest.raises(ValidationError) as caught:
        holding(method=method)
    assert caught.value.errors()[0]["type"] == "held_by_hand"


@pytest.mark.parametrize("method", ["vice", "clamps", "fixture"])
def test_the_ways_of_holding_work(method: str) -> None:
    assert holding(method=method).method.value == method


def test_records_are_frozen_and_know_their_keys() -> None:
    term = Term(id="Burr", word="burr", meaning="A sharp edge.")
    assert term.id == "burr"
    with pytest.raises(ValidationError):
        term.word = "other"  # type: ignore[misc]
    with pytest.raises(ValidationError):
        Term.model_validate({"id": "a", "word": "b", "meaning": "c", "more": "d"})


def test_a_text_is_never_blank() -> None:
    for blank in ("", "  ", "\n"):
        with pytest.raises(ValidationError):
            Term(id="a", word=blank, meaning="c")


def test_every_kind_has_a_name_and_a_place() -> None:
    assert tuple(kind for kind in KINDS if kind != "terms") == FOLDERS
    with pytest.raises(TypeError):
        name_of(Controls())


@pytest.mark.parametrize("kind", [*KINDS, "manual"])
def test_the_schema_of_every_kind_is_complete_json(kind: str) -> None:
    cls = Manual if kind == "manual" else KINDS[kind]
    schema = json.loads(json.dumps(cls.model_json_schema()))
    assert set(schema["properties"]) == set(cls.model_fields)
    assert schema["additionalProperties"] is False


def job() -> Job:
    one = {"point": "P [[term:burr]]", "reason": "R", "kind": "can injure"}
    return Job.model_validate(
        {
            "id": "VG-1", "title": "T", "revision": "1", "effective": "2026-03-02",
            "approved_by": "engineer", "change_note": "C", "makes": "M", "matters": "W",
            "machine": "DRILL", "tools": ["a", "b"], "know_first": ["VG-2"], "wear": ["glasses"],
            "take_off": ["gloves"],
            "part": "VG-R1", "takes": "Sawn", "leaves": "drilled",
            "steps": [
                {"id": "s", "title": "T", "key_points": [one], "hazards": ["h"],
                 "checks": [{"what": "D", "gauge": "g"}]},
            ],
            "if_wrong": [{"sign": "S", "do": ["stop"]}], "hand_on": "H",
        }
    )  # fmt: skip


def test_every_reference_of_a_job_with_its_path() -> None:
    assert set(references(job())) == {
        (("machine",), "machines", "drill"),
        (("part",), "parts", "vg-r1"),
        (("tools", 0), "tools", "a"),
        (("tools", 1), "tools", "b"),
        (("know_first", 0), "jobs", "vg-2"),
        (("steps", 0, "hazards", 0), "hazards", "h"),
        (("steps", 0, "checks", 0, "gauge"), "tools", "g"),
    }


def test_every_running_text_of_a_job_with_its_path() -> None:
    found = dict(texts(job()))
    assert found["steps", 0, "key_points", 0, "point"] == "P [[term:burr]]"
    assert found["if_wrong", 0, "do", 0] == "stop"
    assert found["wear", 0] == "glasses"
    assert ("title",) not in found
    assert ("takes",) not in found


def test_every_file_that_a_record_names_with_its_folder() -> None:
    picture = {"file": "burr.svg", "text": "A raised edge round a hole."}
    term = Term.model_validate({"id": "a", "word": "b", "meaning": "c", "picture": picture})
    assert list(files(term)) == [(("picture", "file"), "pictures", "burr.svg")]
    assert list(files(job())) == []


def test_a_shop_lists_every_record_in_the_order_of_the_manual() -> None:
    fields = {key: "x" for key, info in Manual.model_fields.items() if info.is_required()}
    term = Term(id="burr", word="burr", meaning="M")
    shop = Shop(Manual.model_validate(fields), jobs={"vg-1": job()}, terms={"burr": term})
    assert [(kind, record_id) for kind, record_id, _ in shop.every()] == [
        ("jobs", "vg-1"), ("terms", "burr"),
    ]  # fmt: skip
    assert shop.of_kind("terms") == {"burr": term}
