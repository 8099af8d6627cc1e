"""Families: one breakdown and a table of sizes make a job a row, as if each had its own file."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from benchleaf import pipeline
from benchleaf.cli import main
from like_machines import GROUP, second_drill
from running import examples

Base = dict[str, str]
Shop = Callable[..., Path]
Path_ = tuple[str | int, ...]
TWO = """\
  - {id: VG-0010, size: 8, drill: drill-8, thick: 6 mm}
  - {id: VG-0030, size: 9, drill: drill-9, thick: 5 mm}
"""


def leaves(value: Any, path: Path_ = ()) -> Iterator[Path_]:
    """Where each text of a record stands."""
    if isinstance(value, dict | list):
        items = value.items() if isinstance(value, dict) else enumerate(value)
        for key, one in items:
            yield from leaves(one, (*path, key))
    else:
        yield path


def as_family(job: dict[str, Any], cells: set[Path_]) -> str:
    """A job as a family of one row, these values in the row."""
    row: dict[str, Any] = {"id": job["id"]}

    def put(value: Any, path: Path_) -> Any:
        if path in cells:
            name = f"c{len(row)}"
            row[name] = value
            return f"[[row:{name}]]"
        if isinstance(value, dict):
            return {key: put(one, (*path, key)) for key, one in value.items()}
        if isinstance(value, list):
            return [put(one, (*path, at)) for at, one in enumerate(value)]
        return value

    inside = {key: put(one, (key,)) for key, one in job.items() if key != "id"}
    return yaml.safe_dump({"id": "plates", "job": inside, "rows": [row]}, sort_keys=False)


@pytest.fixture(scope="module")
def job(base_shop: Base) -> dict[str, Any]:
    """The first job as plain values, each as text."""
    loaded = yaml.load(base_shop["jobs/vg-0010.yml"], yaml.BaseLoader)
    assert isinstance(loaded, dict)
    return loaded


@settings(max_examples=examples(6), suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_a_family_of_one_row_is_the_job_written_by_hand(
    shop: Shop, base_shop: Base, job: dict[str, Any], data: st.DataObject
) -> None:
    every = [one for one in leaves(job) if one != ("id",)]
    lists: list[Path_] = [("tools",), ("steps", 0, "hazards")]
    cells = data.draw(st.sets(st.sampled_from([*every, *lists]), max_size=6))
    family = {"jobs/vg-0010.yml": None, "families/plates.yml": as_family(job, cells)}
    made, alone = pipeline.load(shop(family)), pipeline.load(shop())
    assert made.shop.jobs == alone.shop.jobs
    assert made.fingerprints == alone.fingerprints
    assert made.sheets == alone.sheets
    assert [(one.code, one.text) for one in made.findings] == [
        (one.code, one.text) for one in alone.findings
    ]


def test_its_pages_are_those_of_the_job_but_for_the_file_that_is_named(
    shop: Shop, job: dict[str, Any]
) -> None:
    cells: set[Path_] = {("makes",), ("tools",), ("set_ups", 0, "thickness")}
    family = {"jobs/vg-0010.yml": None, "families/plates.yml": as_family(job, cells)}
    made, alone = (
        {one.address: one for one in pipeline.plan_site(pipeline.load(each), edition="full").pages}
        for each in (shop(family), shop())
    )
    assert list(made) == list(alone)
    for address in ("jobs/vg-0010.html", "trainer/vg-0010-set-up.html", "engineer.html"):
        html = made[address].render().html
        assert "families/plates.yml" in html or address.startswith("trainer/")
        same = html.replace("content/families/plates.yml", "content/jobs/vg-0010.yml")
        assert same == alone[address].render().html, address


@pytest.fixture
def two(base_shop: Base) -> dict[str, str | None]:
    """The small shop with a family of two plates, of which VG-0010 is one."""
    text = base_shop["jobs/vg-0010.yml"]
    breakdown = text.replace("id: VG-0010\n", "").replace("operation_after: VG-0020", AFTER)
    for old, new in (
        ("  - drill-8\n", '  - "[[row:drill]]"\n'), ("tool: drill-8", 'tool: "[[row:drill]]"'),
        ("makes: One 8 mm hole", "makes: One [[row:size]] mm hole"),
        ("title: Guide hole, 8 mm through", "title: Guide hole, [[row:size]] mm through"),
        ("thickness: 6 mm", 'thickness: "[[row:thick]]"'),
        ("limits: 8 +0.1/-0 mm", "limits: 8 +0.1/-0 mm"),
    ):  # fmt: skip
        assert old in breakdown
        breakdown = breakdown.replace(old, new)
    inside = "".join(f"  {line}\n" if line else "\n" for line in breakdown.split("\n"))
    drill = base_shop["tools/drill-8.yml"].replace("drill-8", "drill-9").replace("8 mm", "9 mm")
    family = f"id: plates\njob:\n{inside}rows:\n{TWO}"
    return {"jobs/vg-0010.yml": None, "families/plates.yml": family, "tools/drill-9.yml": drill,
            "jobs/vg-0020.yml": base_shop["jobs/vg-0020.yml"].replace(
                "operation_before: VG-0010\n", "")}  # fmt: skip


LACKS = "row VG-0030 has no 'thick', and the breakdown shows it"
AFTER = "end_of_route: The plates go to the fitters."


def told(shop: Shop, files: dict[str, str | None], *pairs: str) -> list[tuple[str, str, str]]:
    """Code, what stands at its place, and text of each grave finding, the family put otherwise."""
    text = str(files["families/plates.yml"])
    for old, new in zip(pairs[::2], pairs[1::2], strict=True):
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    loaded = pipeline.load(shop({**files, "families/plates.yml": text}))
    lines = text.split("\n")
    return [
        (one.code, lines[one.place.line - 1][one.place.column - 1 :][:24], one.text)
        for one in loaded.findings
        if one.fails_check
    ]


def test_each_row_is_a_job_of_its_own(shop: Shop, two: dict[str, str | None]) -> None:
    loaded = pipeline.load(shop(two))
    assert [one for one in loaded.findings if one.fails_check] == []
    first, second = (loaded.shop.jobs[one] for one in ("vg-0010", "vg-0030"))
    assert first.makes == "One 8 mm hole through a rack plate."
    assert second.makes == "One 9 mm hole through a rack plate."
    assert second.tools == ("drill-9", "plug-gauge-8")
    assert loaded.fingerprints["vg-0010"] != loaded.fingerprints["vg-0030"]
    assert loaded.shop.source_file("jobs", "vg-0030") == "families/plates.yml"


def test_a_change_of_one_cell_moves_one_row_and_of_the_text_every_row(
    shop: Shop, two: dict[str, str | None]
) -> None:
    before = pipeline.load(shop(two)).fingerprints

    def moved(old: str, new: str) -> set[str]:
        text = str(two["families/plates.yml"])
        assert text.count(old) == 1
        after = pipeline.load(shop({**two, "families/plates.yml": text.replace(old, new)}))
        return {one for one in before if before[one] != after.fingerprints[one]}

    assert moved("thick: 5 mm", "thick: 4 mm") == {"vg-0030"}
    assert moved("Let fluid run on the drill.", "Let much fluid run.") == {"vg-0010", "vg-0030"}


@pytest.mark.parametrize(("pairs", "finding"), [
    (("drill-9, thick: 5 mm", "drill-9, thick: 5"),
     ("F206", "5}", "VG-0030: '5' has no unit (for 'thickness')")),
    (("drill: drill-9", "drill: drill-99"),
     ("L301", "drill-99, thick: 5 mm}", "VG-0030: there is no 'drill-99' among the tools")),
    ((", thick: 5 mm", ""),
     ("F212", "{id: VG-0030, size: 9, d", LACKS)),
    (("thick: 5 mm", "thickk: 5 mm"),
     ("F212", "{id: VG-0030, size: 9, d", LACKS)),
    (("thick: 5 mm", "thick: 5 mm, colour: red"),
     ("F212", "colour: red}", "row VG-0030 has 'colour', which nothing shows")),
    (("id: VG-0030", "id: VG-0010"),
     ("L303", "VG-0010, size: 9, drill:", "the id 'vg-0010' stands in two rows")),
    (("{id: VG-0030, ", "{"),
     ("F212", "{size: 9, drill: drill-9", "this row has no 'id'")),
    (("id: VG-0030", "id: VG-0020"),
     ("L303", "VG-0020, size: 9, drill:", "the id 'vg-0020' is used twice among the jobs")),
    (("Let fluid run on the drill.", "Let [[row:fluidd]] run on the drill."),
     ("F212", "Let [[row:fluidd]] run o", "'[[row:fluidd]]': no row has a column 'fluidd'")),
    (("job:\n", "job:\n  id: VG-0040\n"),
     ("F212", "id: VG-0040", "this breakdown is for several jobs: each row gives its own id")),
    (("rows:\n", "row:\n"), ("F201", "row:", "'row' is no key of a family")),
    (("  fluid: soluble-oil\n", "  fluid: soluble-oils\n"),
     ("L301", "soluble-oils", "there is no 'soluble-oils' among the fluids")),
])  # fmt: skip
def test_a_slip_is_one_message_at_its_place(
    shop: Shop,
    two: dict[str, str | None],
    pairs: tuple[str, str],
    finding: tuple[str, str, str],
) -> None:
    assert told(shop, two, *pairs) == [finding]


def test_without_quotes_a_cell_that_stands_alone_is_taken_too(
    shop: Shop, two: dict[str, str | None]
) -> None:
    family = str(two["families/plates.yml"]).replace('"[[row:drill]]"', "[[row:drill]]")
    assert family.count("[[row:drill]]") == 2
    plain = pipeline.load(shop({**two, "families/plates.yml": family}))
    assert plain.shop.jobs == pipeline.load(shop(two)).shop.jobs


def test_compare_tells_which_rows_a_change_moves(
    shop: Shop, two: dict[str, str | None], capsys: pytest.CaptureFixture[str]
) -> None:
    text = str(two["families/plates.yml"])
    changes = (
        ("Let fluid run on the drill.", "Let much fluid run."),
        ("thick: 5 mm", "thick: 4 mm"),
    )
    for (old, new), rows in zip(changes, (["VG-0010", "VG-0030"], ["VG-0030"]), strict=True):
        assert text.count(old) == 1
        now = shop({**two, "families/plates.yml": text.replace(old, new)})
        main(["compare", str(shop(two)), str(now)])
        printed = capsys.readouterr().out.split("JOBS\n")[1].split("\n\n")[0]
        assert [line.split()[0] for line in printed.split("\n")] == rows


def test_a_family_of_a_group_makes_a_job_for_each_row_and_machine(
    shop: Shop, base_shop: Base, two: dict[str, str | None]
) -> None:
    family = str(two["families/plates.yml"]).replace(
        "machine: bench-drill", "machine_group: drills"
    )
    group = GROUP.replace("id: bench-drills", "id: drills")
    files = {
        **two,
        **second_drill(base_shop),
        "families/plates.yml": family,
        "machine-groups/drills.yml": group,
    }
    loaded = pipeline.load(shop(files))
    made = loaded.shop.made
    assert list(made) == [
        f"{row}-{machine}" for row in ("vg-0010", "vg-0030")
        for machine in ("bench-drill", "bench-drill-2")
    ]  # fmt: skip
    assert {(one.family, one.group) for one in made.values()} == {("plates", "drills")}
    assert [one.id for one in loaded.shop.alike("vg-0030-bench-drill")] == list(made)[2:]
    dull = {**files, "tools/drill-9.yml": None}
    (one,) = [one for one in pipeline.load(shop(dull)).findings if "'drill-9'" in one.text]
    assert one.text == (
        "VG-0030-BENCH-DRILL, VG-0030-BENCH-DRILL-2: there is no 'drill-9' among the tools"
    )


def test_a_family_is_taken_over_like_any_job(
    shop: Shop, two: dict[str, str | None], capsys: pytest.CaptureFixture[str]
) -> None:
    """Its breakdown says no revision any more, and each row goes on with a number of its own."""
    content = shop(two)
    before = pipeline.load(content)
    assert main(["release", str(content), "--take-over"]) == 0
    assert "3 jobs are taken over" in capsys.readouterr().out
    after = pipeline.load(content)
    assert [one for one in after.findings if one.fails_check] == []
    assert after.ledger is not None
    assert after.shop.jobs == before.shop.jobs
    text, former = ((one / "families/plates.yml").read_text() for one in (content, shop(two)))
    gone = [line.split(":")[0] for line in former.split("\n") if line not in text.split("\n")]
    assert gone == ["  revision", "  effective", "  approved_by", "  change_note"]
