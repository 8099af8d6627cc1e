"""One job on several like machines: a job each, told apart where the machines differ."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from benchleaf import pipeline
from benchleaf.cli import main
from benchleaf.diagnose import Finding, Severity
from benchleaf.link import routes
from benchleaf.model import Crew, CrewFacts, Person
from benchleaf.people.crews import load_crew
from benchleaf.plan import Situation, State
from like_machines import FIRST, SECOND, put, second_drill, with_group

Base = dict[str, str]
Shop = Callable[..., Path]
HERE = Path(__file__).parents[1]
WHICH = (
    "it is a job of several machines; write which: VG-0010-BENCH-DRILL, VG-0010-BENCH-DRILL-2",
)


def load(shop: Shop, base: Base, *more: Mapping[str, str | None]) -> pipeline.Loaded:
    files = with_group(base)
    for one in more:
        files |= one
    return pipeline.load(shop(files))


def told(loaded: pipeline.Loaded, *severities: Severity) -> list[Finding]:
    return [one for one in loaded.findings if one.severity in severities]


def test_the_job_is_made_for_each_machine(shop: Shop, base_shop: Base) -> None:
    loaded = load(shop, base_shop)
    assert told(loaded, Severity.ERROR, Severity.STOP) == []
    jobs = loaded.shop.jobs
    assert {one: jobs[one].machine for one in jobs} == {
        FIRST: "bench-drill", SECOND: "bench-drill-2", "vg-0020": "bench-drill",
    }  # fmt: skip
    speeds = [loaded.sheets[one][0].row("spindle_speed") for one in (FIRST, SECOND)]
    assert [row.figure.text for row in speeds if row and row.figure] == ["1000 rpm", "1000 rpm"]
    assert loaded.shop.source_file("jobs", SECOND) == "jobs/vg-0010.yml"
    assert [one.id for one in loaded.shop.alike(FIRST)] == [FIRST, SECOND]
    assert loaded.shop.alike("vg-0020") == ()


def test_each_is_the_job_that_a_file_for_that_machine_would_make(
    shop: Shop, base_shop: Base
) -> None:
    made = load(shop, base_shop)
    written = base_shop["jobs/vg-0010.yml"]
    alone = pipeline.load(shop({
        **with_group(base_shop), "machine-groups/bench-drills.yml": None,
        "jobs/vg-0010.yml": None,
        f"jobs/{FIRST}.yml": put(written, "id: VG-0010", f"id: {FIRST}"),
        f"jobs/{SECOND}.yml": put(written, "id: VG-0010", f"id: {SECOND}",
            "machine: bench-drill", "machine: bench-drill-2",
            "operation_after: VG-0020", "operation_after: VG-0020"),
        "jobs/vg-0020.yml": base_shop["jobs/vg-0020.yml"].replace("VG-0010", FIRST),
    }))  # fmt: skip
    assert made.shop.jobs == alone.shop.jobs
    assert made.fingerprints == alone.fingerprints
    assert made.sheets == alone.sheets


def test_a_change_of_one_machine_moves_only_its_job(shop: Shop, base_shop: Base) -> None:
    before = load(shop, base_shop).fingerprints
    slower = second_drill(base_shop, "  - 1000 rpm\n", "  - 1100 rpm\n")
    after = load(shop, base_shop, slower).fingerprints
    assert {one for one in before if before[one] != after[one]} == {SECOND}


def test_a_sign_off_on_one_machine_is_none_on_another(shop: Shop, base_shop: Base) -> None:
    loaded = load(shop, base_shop)
    slower = load(shop, base_shop, second_drill(base_shop, "  - 1000 rpm\n", "  - 1100 rpm\n"))
    for job, states in ((FIRST, (State.CAN_DO, State.NOTHING)),
                        (SECOND, (State.NOTHING, State.CAN_DO))):  # fmt: skip
        mark = loaded.fingerprints[job][:8]
        person = Person.model_validate({
            "id": "op-07", "shift": "early",
            "can_do": [{"job": job, "revision": "2", "fingerprint": mark,
                        "judged": "2026-11-02", "judged_by": "tr-01"}],
        })  # fmt: skip
        assert standings(loaded, person) == states
        moved = (
            (State.CAN_DO, State.NOTHING) if job == FIRST else (State.NOTHING, State.TEACH_AGAIN)
        )
        assert standings(slower, person) == moved


def standings(loaded: pipeline.Loaded, person: Person) -> tuple[State, State]:
    shift: Any = {"id": "early", "name": "Early", "starts": "06:00", "hours": "8 h"}
    crew = Crew(CrewFacts.model_validate({"shifts": [shift]}), {person.id: person})
    now = Situation(loaded.shop, crew, loaded.fingerprints, date(2026, 11, 30))
    first, second = (now.standing(person, loaded.shop.jobs[one]).state for one in (FIRST, SECOND))
    return first, second


def test_who_was_signed_off_before_there_was_a_group_stays_so_on_that_machine(
    shop: Shop, base_shop: Base
) -> None:
    """The old number leads to the job on the machine that it was for, and it means the same."""
    register = {"revisions.yml": (HERE / "shop/revisions.yml").read_text(encoding="utf-8")}
    loaded = load(shop, base_shop, register)
    crew = load_crew(HERE / "crew", loaded.shop, loaded.content)
    assert crew.findings == ()
    assert crew.crew is not None
    person = crew.crew.people["op-01"]
    assert [one.job for one in person.can_do] == [FIRST]
    forgotten = load(shop, base_shop, register, {"forwards.yml": None})
    found = load_crew(HERE / "crew", forgotten.shop, forgotten.content).findings
    assert {one.help for one in found} == {WHICH}


SHORT = ("quill_travel: 55 mm", "quill_travel: 9 mm")


def test_where_one_machine_must_not_run_it_the_other_stays(shop: Shop, base_shop: Base) -> None:
    loaded = load(shop, base_shop, second_drill(base_shop, *SHORT))
    (stop,) = told(loaded, Severity.STOP)
    assert stop.text == (
        "do not run VG-0010-BENCH-DRILL-2 (guide-hole): the quill must travel 12.4 mm; "
        "Bench drill 2 has 9 mm"
    )
    assert loaded.sheets[FIRST][0].may_run
    assert not loaded.sheets[SECOND][0].may_run


def test_what_both_have_is_told_once_and_what_one_has_names_it(shop: Shop, base_shop: Base) -> None:
    job = str(with_group(base_shop)["jobs/vg-0010.yml"])
    both = load(shop, base_shop, {"jobs/vg-0010.yml": put(job, "tool: drill-8", "tool: drill-9")})
    (one,) = [one for one in both.findings if "'drill-9'" in one.text]
    assert (one.place.file, one.place.line) == ("content/jobs/vg-0010.yml", job_line(job, "tool: "))
    assert one.text.startswith("there is no")
    lacking = second_drill(base_shop, "efficiency: 0.8\n", "")
    (one,) = [one for one in load(shop, base_shop, lacking).findings if one.code == "S507"]
    assert one.text.startswith("VG-0010-BENCH-DRILL-2: ")


def job_line(text: str, begin: str) -> int:
    return next(n for n, line in enumerate(text.split("\n"), 1) if line.strip().startswith(begin))


def test_an_exception_that_one_machine_needs_is_needed(shop: Shop, base_shop: Base) -> None:
    """A line of the common text that only the other machine asks for is no mistake."""
    job = put(
        str(with_group(base_shop)["jobs/vg-0010.yml"]), "have_ready:\n",
        "not_met:\n  - hazard: belt\n    reason: The cover stays shut.\nhave_ready:\n",
    )  # fmt: skip
    hazard = put(base_shop["hazards/work-turns.yml"], "id: work-turns", "id: belt")
    belt = second_drill(base_shop, "hazards:\n", "hazards:\n  - belt\n")
    files: dict[str, str | None] = {"jobs/vg-0010.yml": job, "hazards/belt.yml": hazard}
    assert "V533" not in {one.code for one in load(shop, base_shop, files, belt).findings}
    assert "V533" in {one.code for one in load(shop, base_shop, files).findings}


def test_a_job_elsewhere_is_told_which_ones_there_are(shop: Shop, base_shop: Base) -> None:
    lists: dict[str, str | None] = {
        "onboarding/first-days.yml": base_shop["onboarding/first-days.yml"]
    }
    found = [one for one in load(shop, base_shop, lists).findings if one.code == "L301"]
    assert len(found) == 3
    for one in found:
        assert one.help == WHICH


def test_on_the_same_machine_a_job_of_a_group_keeps_its_short_name(
    shop: Shop, base_shop: Base
) -> None:
    text = base_shop["jobs/vg-0020.yml"].replace("for the fitters", "as in [[job:VG-0010#clamp]]")
    loaded = load(shop, base_shop, {"jobs/vg-0020.yml": text})
    last = loaded.shop.jobs["vg-0020"]
    assert (last.know_first, last.operation_before) == ((FIRST,), FIRST)
    assert last.hand_on.endswith(f"as in [[job:{FIRST}#clamp]].")
    assert loaded.shop.source_file("jobs", "vg-0020") == "jobs/vg-0020.yml"
    assert "vg-0020" not in loaded.shop.made
    assert loaded.shop.jobs[SECOND].operation_after == "vg-0020"


def test_the_states_lead_from_either_machine_to_the_next_job(shop: Shop, base_shop: Base) -> None:
    """Without a word of the jobs themselves; and the route has two operations, not three."""
    job = put(str(with_group(base_shop)["jobs/vg-0010.yml"]), "operation_after: VG-0020\n", "")
    last = put(base_shop["jobs/vg-0020.yml"], "operation_before: VG-0010\n", "",
               "know_first:\n  - VG-0010\n", "",
               "machine: bench-drill", "machine: bench-drill-2")  # fmt: skip
    loaded = load(shop, base_shop, {"jobs/vg-0010.yml": job, "jobs/vg-0020.yml": last})
    assert {one.code for one in told(loaded, Severity.ERROR, Severity.WARNING)} == {"A602"}
    jobs = loaded.shop.jobs
    assert [jobs[one].operation_after for one in (FIRST, SECOND)] == ["vg-0020", "vg-0020"]
    assert jobs["vg-0020"].operation_before == SECOND
    (route,) = routes(loaded.shop)
    assert [one.id for one in route.jobs] == [FIRST, SECOND, "vg-0020"]


@pytest.mark.parametrize(("name", "pairs", "code", "text"), [
    ("machine-groups/bench-drills.yml", ("machines:", "machins:"), "F201", "'machins' is no key"),
    ("machine-groups/bench-drills.yml", ("name:", "keeps_id: lathe\nname:"), "F208",
     "'lathe' is not among the machines of the group"),
    ("machine-groups/bench-drills.yml", ("bench-drill-2", "lathe"), "L301", "no 'lathe' among the"),
    ("machine-groups/bench-drills.yml", ("id: bench-drills", "id: drills"), "L301",
     "there is no 'bench-drills' among the machine groups"),
    ("jobs/vg-0010.yml", ("machine_group:", "machine: bench-drill\nmachine_group:"), "F211",
     "this job names a machine and 'machine_group' too"),
    ("jobs/vg-0010.yml", ("machine_group: bench-drills", "machine_grup: bench-drills"), "F201",
     "'machine_grup' is no key of a job"),
    ("jobs/vg-0010.yml", ("id: VG-0010\n", ""), "F202", "the job has no 'id'"),
])  # fmt: skip
def test_a_slip_is_told_once_and_hides_no_address(
    shop: Shop, base_shop: Base, name: str, pairs: tuple[str, str], code: str, text: str
) -> None:
    files = with_group(base_shop)
    loaded = load(shop, base_shop, {name: put(str(files[name]), *pairs)})
    errors = told(loaded, Severity.ERROR)
    assert [(one.code, text in one.text) for one in errors] == [(code, True)]
    assert {one.code for one in loaded.findings} & {"A601", "A605"} == set()


def test_a_job_may_keep_its_id_on_the_machine_it_was_always_done_on(
    shop: Shop, base_shop: Base
) -> None:
    """Then nothing of what was published moves: one job more is there, and that is all."""
    files = with_group(base_shop)
    group = str(files["machine-groups/bench-drills.yml"]) + "keeps_id: bench-drill\n"
    lists = base_shop["onboarding/first-days.yml"]
    last = base_shop["jobs/vg-0020.yml"].replace("for the fitters", "as in [[VG-0010#clamp]]")
    plain = {"machine-groups/bench-drills.yml": group, "onboarding/first-days.yml": lists,
             "jobs/vg-0020.yml": last}  # fmt: skip
    loaded = load(shop, base_shop, plain, {"forwards.yml": None})
    assert {one.code for one in loaded.findings} == {"A602"}
    alone = pipeline.load(shop({"jobs/vg-0020.yml": last}))
    assert set(loaded.shop.jobs) == {"vg-0010", SECOND, "vg-0020"}
    same = {one: loaded.shop.jobs[one] for one in alone.shop.jobs}
    assert same == alone.shop.jobs
    assert {one: loaded.fingerprints[one] for one in same} == alone.fingerprints
    assert [one.id for one in loaded.shop.alike("vg-0010")] == ["vg-0010", SECOND]
    moved = last.replace("machine: bench-drill", "machine: bench-drill-2")
    there = load(shop, base_shop, plain, {"jobs/vg-0020.yml": moved}).shop.jobs["vg-0020"]
    assert there.know_first == (SECOND,)


def test_two_groups_of_one_name_are_told(shop: Shop, base_shop: Base) -> None:
    also = str(with_group(base_shop)["machine-groups/bench-drills.yml"])
    loaded = load(shop, base_shop, {"machine-groups/drills.yml": also})
    grave = [(one.code, one.place.file) for one in loaded.findings if one.code != "A602"]
    drills = "content/machine-groups/drills.yml"
    assert grave == [("F210", drills), ("L303", drills)]


def test_a_shop_without_groups_and_families_is_handed_on_as_it_is(
    shop: Shop, base_shop: Base
) -> None:
    loaded = pipeline.load(shop())
    assert loaded.shop.made == {}
    assert replace(loaded.shop, made={}) == loaded.shop


def test_commands_for_one_job_ask_for_the_machine(
    shop: Shop, base_shop: Base, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    content = str(shop(with_group(base_shop)))
    assert main(["reckon", "VG-0010", "--content", content]) == 2
    assert "name one of them: VG-0010-BENCH-DRILL, VG-0010-B" in capsys.readouterr().err
    assert main(["give-out", "VG-0010", str(tmp_path / "x.xlsx"), "--content", content]) == 2
    assert "is a job of several machines" in capsys.readouterr().err
    assert not (tmp_path / "x.xlsx").exists()
