"""V508 to V512: hands, gloves, loose vices, steps without hazards, the stop first."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding, Severity
from benchleaf.model import Holding, Job

from ..case import JobCase
from .wording import says, told, words

# A hand wheel, a left-hand clamp and a handle are no hands.
_HAND = words(r"(?<!-)hands?(?!-| ?wheel)|fingers?|fists?")
_HOLD = words(r"hold|holds|holding|held|grips?|gripped|stead(?:y|ies|ied)|press|presses|pressed")
_WORK = words(r"plates?|work|workpiece|parts?|pieces?|bars?|tubes?|blocks?|pins?|brackets?")
_CUT = r"(?:drill|ream|tap|countersink|counterbore|cut|turn)(?:s|ing)?"
_TOOL = r"(?:drill|reamer|tap|countersink|counterbore|spindle|cutter|tool)"
_CUTTING = words(
    rf"while (?:you |it )?{_CUT}|while the {_TOOL} {_CUT}|as (?:you|it) {_CUT}|against the {_TOOL}"
)
_LOOSE = words(r"(?:stands?|lies?|sits?|is|are|left) (?:loose|free)|(?:loose|free) on")
_UNFIXED = words(r"unbolted|not (?:bolted|fixed|clamped)")
_GLOVES = words(r"gloves?")
_NO_GLOVES = words(r"(?:no|never|without) (?:\w+ )?gloves?")
_CARRY = words(r"carry(?:ing)?|handling|lift(?:ing)?|only for|wash(?:ing)?|mixing|deburr(?:ing)?")
_STOP = words(r"stop|isolator|switch(?:ed)? off|let go|step back|stand (?:back|clear)")

Path = tuple[str | int, ...]


def check(case: JobCase) -> Iterator[Finding]:
    """Findings about what could hurt somebody though every field is filled in."""
    for path, held in _holdings(case.job):
        yield from _held(case, held, path)
    if case.machine is not None and case.machine.spindle_speeds:
        yield from _gloves(case)
    if case.drills:
        yield from _by_hand(case)
        yield from _no_hazard(case)
    yield from _stop_first(case)


def _holdings(job: Job) -> Iterator[tuple[Path, Holding]]:
    if job.holding is not None:
        yield ("holding",), job.holding
    for index, set_up in enumerate(job.set_ups):
        if set_up.holding is not None:
            yield ("set_ups", index, "holding"), set_up.holding


def _held(case: JobCase, held: Holding, path: Path) -> Iterator[Finding]:
    """A hand in the words of the holding is an error: no exception is accepted."""
    if told(held.how, _HAND, _HOLD):
        yield Finding(
            "V508",
            Severity.ERROR,
            case.place(*path, "how"),
            "the holding is done by a hand",
            ("work that turns takes the hand with it: name vice, clamps, fixture or stop",),
        )
    if told(held.bolted_down, _LOOSE) or says(held.bolted_down, _UNFIXED):
        yield Finding(
            "V509",
            Severity.ERROR,
            case.place(*path, "bolted_down"),
            "the vice, clamps or fixture are not fixed to the table",
            ("a loose vice is swung round with the work in it: say how it is bolted down",),
        )


def _by_hand(case: JobCase) -> Iterator[Finding]:
    for number, step in enumerate(case.job.steps):
        for index, point in enumerate(step.key_points):
            if told(point.point, _HAND, _HOLD, _WORK, _CUTTING):
                yield from case.practice(
                    "V508",
                    ("steps", number, "key_points", index, "point"),
                    "here a hand holds the work while the tool cuts",
                    "hold it with vice, clamps, fixture or stop, and keep hands away",
                )


def _gloves(case: JobCase) -> Iterator[Finding]:
    for index, line in enumerate(case.job.wear):
        kept_off = says(line, _CARRY) or says(line, _NO_GLOVES)
        if says(line, _GLOVES) and not kept_off:
            yield from case.practice(
                "V510",
                ("wear", index),
                "gloves are to be worn at a spindle",
                "gloves are caught by a spindle: take them off, or say that they are for carrying",
            )
    if not any(says(line, _GLOVES) for line in case.job.take_off):
        yield from case.practice(
            "V510",
            ("take_off",),
            "nothing says that gloves come off at the spindle",
            "add gloves to take_off",
        )


def _no_hazard(case: JobCase) -> Iterator[Finding]:
    cutting = {set_up.id for set_up in case.job.set_ups}
    for number, step in enumerate(case.job.steps):
        if step.set_up in cutting and not step.hazards:
            yield from case.practice(
                "V511",
                ("steps", number),
                f"step '{step.id}' uses the set-up and has no hazard message",
                "name the hazards that bite in this step",
            )


def _stop_first(case: JobCase) -> Iterator[Finding]:
    for index, trouble in enumerate(case.job.if_wrong):
        stops = [number for number, line in enumerate(trouble.do) if says(line, _STOP)]
        if stops and stops[0] > 0:
            yield from case.practice(
                "V512",
                ("if_wrong", index, "do", 0),
                "the stop does not come first when this goes wrong",
                "put the stop first, then whom to call",
            )
