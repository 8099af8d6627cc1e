"""`benchleaf hold`: stop a job at once, or let it go again."""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from benchleaf import pipeline, registers
from benchleaf.diagnose import report, suggestion
from benchleaf.model import lift_command, same_role
from benchleaf.model.ids import normal_id
from benchleaf.registers import HOLDS, Held
from benchleaf.write import write_together

from .answer import Answer, give

_EPILOG = """\
Hold it:  benchleaf hold TR-0120 --why "The work stop has come loose." --by "shift lead"
Lift it:  benchleaf hold TR-0120 --lift --by "production engineer" --why "A new stop is fitted."
List all: benchleaf hold

The next build says *do not run* on every page, sheet and plan of the job. Its revision and its
fingerprint stay. Screens, cards and copies made before know nothing of it: tell people yourself."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What is to be held or lifted, and by whom."""

    jobs: tuple[str, ...]
    why: str | None = None
    by: str | None = None
    lift_by: str | None = None
    file: str | None = None
    """The name of one hold, where several stand for the job."""


def add(commands: Any) -> None:
    """Add the command to the parser."""
    hold = commands.add_parser(
        "hold",
        help="stop a job now: the next build says do not run, until a named role lifts it",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        epilog=_EPILOG,
    )
    hold.add_argument("jobs", nargs="*", metavar="JOB", help="such as TR-0120; none to list holds")
    hold.add_argument("--why", metavar="TEXT", help="why nobody may run it, or why it may again")
    hold.add_argument("--by", metavar="ROLE", help="who holds or lifts it: a role, not a name")
    hold.add_argument(
        "--lift-by", metavar="ROLE", help="the one role that may lift it (default: who approved it)"
    )
    hold.add_argument("--lift", action="store_true", help="let the job go again")
    hold.add_argument("--file", metavar="NAME", help="which hold to lift, where several stand")
    hold.add_argument("--content", type=Path, default=Path("content"), metavar="FOLDER")
    hold.set_defaults(run=_hold)


def _hold(options: argparse.Namespace) -> int:
    if not options.content.is_dir():
        cure = ("name it: --content FOLDER",)
        return give(Answer(problem=f"there is no folder {options.content}/", help=cure))
    asked = Asked(tuple(options.jobs), options.why, options.by, options.lift_by, options.file)
    act = lift_jobs if options.lift else hold_jobs if asked.jobs else None
    if act is None:
        return give(listed(options.content))
    return give(act(options.content, asked, date.today()))


def listed(content: Path) -> Answer:
    """Every hold: those that stand first, then those that were lifted."""
    holds = sorted(pipeline.load(content).holds, key=lambda one: (not one.stands, one.order))
    if not holds:
        return Answer(text="no job is or was on hold")
    return Answer(text="\n".join(line for one in holds for line in _lines(one)))


def _lines(one: Held) -> Iterator[str]:
    hold, lifted = one.hold, one.hold.lifted
    yield f"{hold.job.upper()} {hold.reason}"
    if lifted is None:
        yield f"    stands; {lift_command(hold.job.upper(), hold.lift_by)}"
    elif one.stands:
        yield f"    stands: {lifted.by} could not lift it"
    else:
        why = f": {lifted.why}" if lifted.why else ""
        yield f"    lifted on {lifted.day} by {lifted.by}{why}"
    yield f"    {one.file}"


def hold_jobs(content: Path, asked: Asked, today: date) -> Answer:
    """Hold jobs; all of them, or none where something is amiss."""
    if not (asked.why or "").strip():
        name = asked.jobs[0].upper()
        cure = f'benchleaf hold {name} --why "what is wrong, in a sentence for the operator"'
        return Answer(problem="a hold needs its reason", help=(cure,))
    loaded = pipeline.load(content)
    unknown = _unknown_job(loaded, asked.jobs) or _unknown_role(loaded, asked)
    if unknown:
        return unknown
    texts: dict[Path, str | bytes | None] = {}
    told: list[str] = []
    for written in dict.fromkeys(one.strip().lower() for one in asked.jobs):
        lift_by = asked.lift_by or _approver(loaded, written)
        if not lift_by:
            problem = f"nobody approved {written.upper()}, so that nobody is known who may lift it"
            return Answer(problem=problem, help=('name a role: --lift-by "production engineer"',))
        path = _free(content / HOLDS, f"{written}-{today}")
        text = registers.hold_text(written, asked.why or "", today, asked.by, lift_by)
        held, problems = registers.read_hold(text, f"{content.name}/{HOLDS}/{path.name}")
        if held is None:
            return Answer(problem="nothing was written", help=tuple(report(problems).split("\n")))
        texts[path] = text
        told += [f"{written.upper()} is {held.hold.reason}", f"    {path}"]
    write_together(content, texts)
    return Answer("\n".join((*told, *_what_now(loaded, content))))


def _what_now(loaded: pipeline.Loaded, content: Path) -> Iterator[str]:
    """What a file in a folder cannot do by itself."""
    errors = sum(one.blocks_publishing for one in loaded.findings)
    if errors:
        some = "an error stands" if errors == 1 else f"{errors} errors stand"
        yield f"no build will tell it yet, for {some} in {content}/: benchleaf check"
    yield "no screen, card or copy knows of it before the next build: tell people now"


def lift_jobs(content: Path, asked: Asked, today: date) -> Answer:
    """Lift holds; all that are named, or none where something is amiss."""
    role = (asked.by or "").strip()
    if not asked.jobs or not role:
        cure = 'benchleaf hold TR-0120 --lift --by "production engineer"'
        return Answer(problem="to lift a hold takes a job and the role that lifts it", help=(cure,))
    loaded = pipeline.load(content)
    texts: dict[Path, str | bytes | None] = {}
    told: list[str] = []
    for written in dict.fromkeys(one.strip().lower() for one in asked.jobs):
        found = _standing(loaded, written, asked.file)
        one = _the_one(found, written, role)
        if isinstance(one, Answer):
            return one
        text = registers.lifted_text(one.source.document.text, role, today, asked.why)
        after, problems = registers.read_hold(text, one.file)
        if after is None or after.stands:
            lines = tuple(report(problems).split("\n")) if problems else ()
            return Answer(problem=f"{one.file} must be mended first (A622)", help=lines)
        texts[content / HOLDS / Path(one.file).name] = text
        told.append(f"the hold of {written.upper()} is lifted, from the next build on: {one.file}")
        told += [f"{written.upper()} is still {each.hold.reason}"
                 for each in _standing(loaded, written) if each is not one]  # fmt: skip
    write_together(content, texts)
    return Answer("\n".join(told))


def _standing(loaded: pipeline.Loaded, written: str, file: str | None = None) -> list[Held]:
    """The holds that stand for a job; those of all its machines, and of its former numbers."""
    jobs = {written, *registers.jobs_held(loaded.shop, written)}
    return [
        one
        for one in sorted(loaded.holds, key=lambda held: held.order)
        if one.stands
        and jobs & {one.hold.job, *registers.jobs_held(loaded.shop, one.hold.job)}
        and (file is None or Path(one.file).stem == Path(file).stem)
    ]


def _the_one(found: Sequence[Held], written: str, role: str) -> Held | Answer:
    """The one hold that this role may lift, or why there is none."""
    name = written.upper()
    if not found:
        return Answer(problem=f"no such hold stands for {name}", help=("list: benchleaf hold",))
    own = [one for one in found if same_role(one.hold.lift_by, role)]
    if not own:
        others = dict.fromkeys(one.hold.lift_by for one in found)
        problem = (
            f"the {role} may not lift this hold of {name}: only the {' or the '.join(others)} may"
        )
        return Answer(problem=problem, help=tuple(f"{one.file}: {one.hold.why}" for one in found))
    if len(own) > 1:
        lines = (f"--file {Path(one.file).stem}: {one.hold.why}" for one in own)
        return Answer(problem=f"{len(own)} holds stand for {name}: name one", help=tuple(lines))
    return own[0]


def _unknown_job(loaded: pipeline.Loaded, jobs: Sequence[str]) -> Answer | None:
    shop = loaded.shop
    known = [*shop.jobs, *shop.renamed, *(one.written for one in shop.made.values() if one.group)]
    known += [name for kind, name in loaded.places.unbuilt if kind == "jobs"]  # it has an error
    for one in jobs:
        try:
            is_known = normal_id(one) in known
        except ValueError:
            is_known = False
        if not is_known:
            names = sorted({each.upper() for each in known})
            return Answer(problem=f"there is no job '{one}'", help=suggestion(one.upper(), names))
    return None


def _unknown_role(loaded: pipeline.Loaded, asked: Asked) -> Answer | None:
    """A role that nobody has could lift nothing; a shop with a broken file may know others."""
    shop = loaded.shop
    wanted = (
        (asked.by, registers.holding_roles(shop), "hold a job"),
        (asked.lift_by, registers.lifting_roles(shop), "lift a hold"),
    )
    for role, known, act in wanted:
        cure = registers.unknown_role(role, known) if role is not None else ()
        if cure and not loaded.places.unbuilt:
            return Answer(problem=f"'{role}' is no role that may {act} in this shop", help=cure)
    return None


def _approver(loaded: pipeline.Loaded, written: str) -> str:
    """The role that approved a job: it may lift a hold where nobody says otherwise."""
    jobs = (loaded.shop.jobs[one] for one in registers.jobs_held(loaded.shop, written))
    return next((job.approved_by for job in jobs if job.approved_by), "")


def _free(folder: Path, stem: str) -> Path:
    """A name that no file has yet."""
    names = (stem, *(f"{stem}-{number}" for number in range(2, 1000)))
    return next(path for one in names if not (path := folder / f"{one}.yml").exists())
