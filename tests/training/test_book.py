"""Records made at the bench: what is taken in, what is refused, and what they come to."""

from __future__ import annotations

import errno
import itertools
import os
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml

from benchleaf import pipeline
from benchleaf.commands import book as book_command
from benchleaf.diagnose import report
from benchleaf.model import Crew, Person
from benchleaf.people import booking, crews
from running import examples, some

CREW = Path(__file__).parents[1] / "crew"
STEPS = {"clamp": 2, "drill": 4, "gauge": 1}
"""The steps of VG-0010 and their key points."""
JUDGE = """\
authorities:
  - {may: judge, given: 2026-01-05, until: 2026-12-31, proof: trainers' list}
"""
Values = dict[str, Any]


class Bench:
    """The small shop with its crew, and a place for files that a record page has saved."""

    def __init__(self, content: Path) -> None:
        self.content = content
        self.crew = Path(shutil.copytree(CREW, content.with_name("crew")))
        self.loaded = pipeline.load(content)
        self.mark = self.loaded.fingerprints["vg-0010"]
        self.count = itertools.count()

    def record(self, *rounds: int, **said: Any) -> Values:
        """A lesson of some rounds, all steps right in each; None takes a key out."""
        steps = [
            {"step": step, "of": points, "right": [one for one in rounds if one < 3]}
            | ({"points": points} if 3 in rounds else {})
            | ({"reasons": points} if 4 in rounds else {})
            for step, points in STEPS.items()
        ]
        values: Values = {
            "kind": "lesson", "person": "op-02", "by": "tr-01", "day": "2026-04-02",
            "begun": "10:00", "ended": "10:40", "page_made": "2026-03-30", "job": "VG-0010",
            "revision": 2, "fingerprint": self.mark, "steps": steps,
        }  # fmt: skip
        return {key: one for key, one in (values | said).items() if one is not None}

    def try_out(self, **said: Any) -> Values:
        """The rounds that op-02 has left, in one go, judged."""
        judged = {"kind": "try-out", "result": "can do it alone", "paper": "folder 2"}
        return self.record(2, 3, 4, **(judged | said))

    def of(self, kind: str, **said: Any) -> Values:
        """A record of another kind, of op-01, who is signed off."""
        bare = {"kind": kind, "person": "op-01", "steps": None, "begun": None, "ended": None}
        return self.record(**(bare | said))

    def file(self, values: Values) -> Path:
        path = self.content.with_name(f"saved-{next(self.count)}.yml")
        path.write_text(yaml.safe_dump(values, sort_keys=False), encoding="utf-8")
        return path

    def look(self, *values: Values) -> booking.Booking:
        files = [self.file(one) for one in values]
        return booking.look_at(files, self.crew, self.loaded)

    def book(self, *values: Values) -> list[str]:
        """Take in all of them; the names of their files."""
        found = self.look(*values)
        assert [report(one.findings) for one in found.given if one.is_refused] == []
        return [path.name for _, path in booking.write_records(found, self.crew)]

    def read(self) -> Crew:
        loaded = crews.load_crew(self.crew, self.loaded.shop, self.content)
        assert report(loaded.findings) == ""
        assert loaded.crew is not None
        return loaded.crew

    def person(self, code: str) -> Person:
        return self.read().people[code]

    def write(self, name: str, more: str) -> None:
        path = self.crew / name
        path.write_text(path.read_text(encoding="utf-8") + more, encoding="utf-8")


@pytest.fixture
def bench(shop: Callable[..., Path]) -> Bench:
    return Bench(shop())


def test_part_lessons_are_credited_and_a_try_out_signs_off(bench: Bench) -> None:
    pieces = [{"piece": 2, "time": "150 s", "gauge": "good"}]
    bench.book(bench.record(2, pieces=pieces))
    lesson = some(bench.person("op-02").learning)[0]
    assert (lesson.round, lesson.revision, lesson.trainer) == (2, None, "tr-01")
    assert [(one.piece, one.time.value) for one in lesson.timed][-1] == (6, 150)  # after the 4th
    before = crews.plan_people(bench.read(), bench.loaded)
    assert before is not None
    assert [one.kind.value for one in before.lessons if one.key == ("op-02", "vg-0010")]
    bench.book(bench.record(3, 4, kind="try-out", result="can do it alone", paper="folder 2",
                            day="2026-04-03"))  # fmt: skip
    person = bench.person("op-02")
    assert person.learning == ()
    signed = some(person.can_do)[0]
    assert str(signed.judged) == str(signed.last_done) == "2026-04-03"
    assert (signed.judged_by, signed.revision) == ("tr-01", "2")
    assert signed.fingerprint == bench.mark
    after = crews.plan_people(bench.read(), bench.loaded)
    assert after is not None
    assert not [one for one in after.lessons if one.key == ("op-02", "vg-0010")]


def test_what_was_done_moves_the_last_day_and_never_revives(bench: Bench) -> None:
    bench.book(bench.of("done", day="2026-04-04", said_by="op-01"))
    assert str(bench.person("op-01").can_do[0].last_done) == "2026-04-04"
    bench.book(bench.of("done", day="2026-04-03"))  # comes later, and was before
    assert str(bench.person("op-01").can_do[0].last_done) == "2026-04-04"
    seen = {"begun": "08:00", "ended": "08:20", "result": "more practice", "day": "2026-04-05"}
    bench.book(bench.of("check", **seen))
    assert str(bench.person("op-01").can_do[0].until) == "2026-04-04"
    refused = bench.look(bench.of("done", day="2026-04-06"))
    assert [one.code for one in refused.given[0].findings] == ["C749"]


def test_a_check_is_a_result_that_the_checks_to_come_go_by(bench: Bench) -> None:
    """What was stopped is missed, by its step; a look without a slip missed nothing."""
    seen = {"begun": "08:00", "ended": "08:20", "result": "can do it alone"}
    clean = [{"step": one, "of": points, "right": [1]} for one, points in STEPS.items()]
    slip = [one | ({"errors": 2} if one["step"] == "drill" else {}) for one in clean]
    before = len(bench.person("op-01").can_do[0].checks)
    bench.book(bench.of("check", **seen, day="2026-04-03", steps=slip))
    bench.book(bench.of("check", **seen, day="2026-04-02", steps=clean))
    looks = bench.person("op-01").can_do[0].checks[before:]
    assert [(str(one.day), one.by, one.result.value) for one in looks] == [
        ("2026-04-02", "tr-01", "nothing missed"), ("2026-04-03", "tr-01", "missed"),
    ]  # fmt: skip
    assert [(one.step, one.point) for one in looks[1].missed] == [("drill", None)]


MISTAKES: dict[str, tuple[Callable[[Bench], Values], str]] = {
    "in the future": (lambda at: at.try_out(day="2026-04-07"), "C720"),
    "before the revision was": (
        lambda at: at.try_out(day="2026-02-27", page_made="2026-02-20"), "C721"),
    "before its page was": (lambda at: at.try_out(day="2026-03-29"), "C741"),
    "by oneself": (lambda at: at.try_out(by="op-02"), "C722"),
    "by nobody known": (lambda at: at.try_out(by="tr-10"), "C723"),
    "of nobody known": (lambda at: at.record(1, person="op-20"), "C723"),
    "judged without authority": (lambda at: at.try_out(by="op-01"), "C724"),
    "judged before the authority": (lambda at: at.try_out(by="tr-01", day="2026-04-01"), "C724"),
    "what must be known first": (
        lambda at: at.of("try-out", person="op-02", job="VG-0020", begun="11:00", ended="11:30",
                         steps=[{"step": "deburr", "of": 1, "right": [1, 2], "points": 1,
                                 "reasons": 1}],
                         revision="A", fingerprint=at.loaded.fingerprints["vg-0020"],
                         result="can do it alone", paper="folder 2"), "C726"),
    "a piece of three seconds": (
        lambda at: at.record(2, pieces=[{"piece": 1, "time": "1 s"}]), "C745"),
    "without its revision": (lambda at: at.record(2, revision=None), "C740"),
    "without its fingerprint": (lambda at: at.record(2, fingerprint=None), "C740"),
    "without the day of its page": (lambda at: at.record(2, page_made=None), "F202"),
    "of another page": (lambda at: at.record(2, fingerprint="0" * 16), "C741"),
    "of a revision to come": (lambda at: at.record(2, revision=3), "C741"),
    "while away": (lambda at: at.record(2, day="2026-04-01"), "C742"),
    "a round left out": (lambda at: at.record(3), "C743"),
    "able with rounds left": (
        lambda at: at.record(2, kind="try-out", result="can do it alone", paper="x"), "C743"),
    "able without a signed paper": (lambda at: at.try_out(paper=None), "C743"),
    "able with a bad piece": (
        lambda at: at.try_out(pieces=[{"piece": 1, "gauge": "not good"}]), "C743"),
    "a fault left in": (
        lambda at: at.record(2, faults=[{"step": "clamp", "found": "true", "put_right": "false"}]),
        "C743"),
    "a step of another job": (lambda at: at.record(2, checks=["guage"]), "C746"),
    "more points than there are": (
        lambda at: at.record(2, steps=[{"step": one, "of": of, "points": 5}
                                       for one, of in STEPS.items()]), "C746"),
    "a correction of nothing": (
        lambda at: at.record(2, replaces="2026-04-02-op-02-0123456789ab"), "C747"),
    "done with no sign-off": (lambda at: at.of("done", person="op-02"), "C749"),
    "a job that there is not": (lambda at: at.record(2, job="VG-0011"), "L301"),
}  # fmt: skip


@pytest.fixture
def strict(bench: Bench) -> Bench:
    """A crew that records who may judge and teach, and who was away."""
    given = "given: 2026-04-02, until: 2026-12-31, proof: trainers' list"
    (bench.crew / "people" / "tr-01.yml").write_text(
        f"id: tr-01\nshift: early\nauthorities:\n  - {{may: judge, {given}}}\n", encoding="utf-8"
    )
    bench.write("people/op-02.yml", "absent:\n  - {first: 2026-04-01}\n")
    return bench


@pytest.mark.parametrize("mistake", MISTAKES)
def test_what_cannot_be_is_refused_with_its_reason(strict: Bench, mistake: str) -> None:
    make, code = MISTAKES[mistake]
    found = strict.look(make(strict))
    (one,) = found.given
    assert code in [each.code for each in one.findings], report(one.findings)
    assert all(each.help and each.place.file.startswith(str(one.file.parent))
               for each in one.findings), report(one.findings)  # fmt: skip
    assert list(booking.write_records(found, strict.crew)) == []
    assert not (strict.crew / "records").exists()


def test_the_right_ones_among_wrong_ones_are_taken_in(bench: Bench) -> None:
    good, bad = bench.file(bench.record(2)), bench.file(bench.record(3, day="2026-04-07"))
    answer = book_command.book([bad, good], bench.crew, bench.content)
    assert not answer.complete
    assert answer.text.split("\n")[0].startswith("taken in: 2026-04-02-op-02-")
    assert answer.text.endswith(f"refused: {bad}")
    assert bench.person("op-02").learning[0].round == 2


def test_the_same_is_once_and_copies_come_together_in_any_order(bench: Bench) -> None:
    """Two trainers book apart; whatever is copied where, what people can do is the same."""
    every = [
        bench.record(2), bench.record(3, day="2026-04-03"),
        bench.record(4, kind="try-out", result="can do it alone", paper="1", day="2026-04-04"),
        bench.of("done", day="2026-04-05"), bench.of("absence", day="2026-04-20", job=None,
                                                    revision=None, fingerprint=None),
    ]  # fmt: skip
    names = bench.book(*every)
    assert len(set(names)) == 5
    assert bench.book(*every) == names  # all were there
    whole, records = bench.read(), bench.crew / "records"
    assert len(list(records.iterdir())) == 5
    texts = {path.name: path.read_bytes() for path in records.iterdir()}
    for order in list(itertools.permutations(names))[:: 120 // examples(6)]:
        shutil.rmtree(records)
        records.mkdir()
        for name in order:
            (records / name).write_bytes(texts[name])
        (records / f"{names[0].removesuffix('.yml')} (1).yml").write_bytes(texts[names[0]])
        assert bench.read() == whole


def test_a_correction_replaces_and_the_former_file_stays(bench: Bench) -> None:
    (wrong,) = bench.book(bench.record(2))
    (right,) = bench.book(bench.record(2, begun="10:05", replaces=wrong, pieces=[
        {"piece": 1, "time": "140 s"}]))  # fmt: skip
    lesson = bench.person("op-02").learning[0]
    assert (lesson.round, lesson.timed[-1].time.text) == (2, "140 s")
    assert len(lesson.timed) == 4
    back = bench.of("taken back", person="op-02", replaces=right, job=None, revision=None,
                    fingerprint=None)  # fmt: skip
    bench.book(back)
    assert bench.person("op-02").learning[0].round == 1
    assert (bench.crew / "records" / wrong).is_file()


def test_a_record_that_was_changed_is_found(bench: Bench) -> None:
    (name,) = bench.book(bench.record(2))
    path = bench.crew / "records" / name
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace('begun: "10:00:00"', 'begun: "09:50:00"'), encoding="utf-8")
    findings = crews.load_crew(bench.crew, bench.loaded.shop, bench.content).findings
    assert [one.code for one in findings] == ["C748"]


def test_nobody_is_taught_what_is_on_hold(shop: Callable[..., Path]) -> None:
    hold = "job: VG-0010\nwhy: The stop is loose.\nday: 2026-04-01\nlift_by: production engineer\n"
    bench = Bench(shop({"holds/vg-0010-2026-04-01.yml": hold}))
    (one,) = bench.look(bench.record(2)).given
    assert [each.code for each in one.findings] == ["C744"]


def test_two_at_once_are_refused_and_a_merge_tells(bench: Bench) -> None:
    names = bench.book(bench.record(2))
    later = bench.of("check", begun="10:30", ended="10:50", day="2026-04-02",
                     result="can do it alone")  # fmt: skip
    (one,) = bench.look(later).given
    assert [each.code for each in one.findings] == ["C742"]
    other = Bench(shutil.copytree(bench.content, bench.content.parent / "other" / "content"))
    other.book(later)
    for path in (other.crew / "records").iterdir():
        shutil.copy(path, bench.crew / "records")
    merged = crews.load_crew(bench.crew, bench.loaded.shop, bench.content)
    assert [(each.code, each.severity.value) for each in merged.findings] == [("C742", "warning")]
    assert merged.crew is not None
    assert len(names) == 1


def test_a_cut_leaves_each_record_whole_or_out(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Ended before each call that reaches the disk; given again, all are there, each once."""
    if not hasattr(os, "fork"):
        pytest.skip("no fork here")
    every = [bench.record(2), bench.record(3, day="2026-04-03")]
    found = bench.look(*every)
    whole = {f"{one.record.name}.yml" for one in found.given if one.record}
    records, codes = bench.crew / "records", []
    for number in range(40):
        shutil.rmtree(records, ignore_errors=True)
        child = os.fork()
        if child == 0:
            _end_before(number, monkeypatch)
            list(booking.write_records(found, bench.crew))
            os._exit(0)
        codes.append(os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]))
        there = {path.name for path in records.glob("2*.yml")} if records.is_dir() else set()
        assert there <= whole
        assert bench.read()  # none is half written
        assert len(list(booking.write_records(found, bench.crew))) == 2
        assert {path.name for path in records.glob("2*.yml")} == whole
        if codes[-1] == 0:
            break
    assert codes[-1] == 0
    assert codes.count(9) > 4


def test_a_full_disk_is_told_and_nothing_is_half_there(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    found = bench.look(bench.record(2), bench.record(3, day="2026-04-03"))
    real, left = os.fsync, iter((True, True, False))  # the first file and its folder, then no more

    def full(descriptor: int) -> None:
        if not next(left, False):
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        real(descriptor)

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space left") as told:
        list(booking.write_records(found, bench.crew))
    monkeypatch.undo()
    assert str(told.value.filename).startswith(str(bench.crew / "records"))
    assert len(list((bench.crew / "records").iterdir())) == 1
    assert bench.person("op-02").learning[0].round == 2
    assert len(list(booking.write_records(found, bench.crew))) == 2


def _end_before(number: int, patch: pytest.MonkeyPatch) -> None:
    left = iter(range(number, -1, -1))
    for name in ("open", "fsync", "replace"):
        usual = getattr(os, name)

        def counted(*given: Any, _usual: Any = usual, **named: Any) -> Any:
            if next(left, 1) == 0:
                os._exit(9)
            return _usual(*given, **named)

        patch.setattr(os, name, counted)
