"""The manual's own facts, and the shop: every record, indexed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType
from typing import Annotated, Any, NamedTuple

from pydantic import AfterValidator, Field
from pydantic_core import PydanticCustomError

from benchleaf.formulas.unit_order import Units

from .changes import JobChanges
from .crew import CrewFacts, Person
from .first_help import FirstHelp
from .fluid import Fluid
from .handing_on import handed_on
from .hazard import Hazard
from .hold import Hold
from .ids import Text, Title
from .job import Job
from .made_from import Family, MachineGroup, Made, MadeFrom, same_work
from .marks import Area, Example, Order
from .notice import ChangeNotice
from .onboarding import Onboarding
from .part import Part, PartCopy, WorkPiece
from .picture import PictureFile
from .record import Record
from .retraining import Retraining
from .server import Server
from .teaching import Teaching
from .term import Term
from .things import Machine, Material, Tool
from .walk import files


class Paper(StrEnum):
    """The paper that a shop prints on."""

    A4 = "a4"
    LETTER = "letter"


def _pedal_key(written: str) -> str:
    """A pedal must never answer a hazard: it sends no key that presses a button."""
    if written.strip().lower() in _KEYS_OF_BUTTONS:
        raise PydanticCustomError("pedal_key", "'{value}' presses buttons", {"value": written})
    return written


_KEYS_OF_BUTTONS = frozenset(("enter", "return", "numpadenter", "", "space", "spacebar", "tab"))
"""Names of the keys that press the button which has the focus, or bring the focus to one."""

PedalKey = Annotated[str, AfterValidator(_pedal_key)]


class Kiosk(Record):
    """How the screen beside the machine behaves."""

    idle_minutes: Annotated[int, Example("3")] = Field(default=3, ge=0, le=240)
    """After so many minutes without a touch a page goes home; 0 for never."""
    steps_idle_minutes: Annotated[int, Example("30")] = Field(default=30, ge=0, le=480)
    """The same while a job is followed step by step, since both hands are on the work."""
    idle_everywhere: Annotated[bool, Example("false")] = False
    """True to go home in the full edition too."""
    copy_days: Annotated[int, Example("30")] = Field(default=30, ge=0, le=3660)
    """A copy older than so many days says so on every page; 0 for never."""
    pedal_next: Annotated[PedalKey | None, Example("F13")] = None
    """The key that a reading pedal sends for one screen on, such as `F13`. Off when left out.
    Enter, the space bar and Tab are refused: they press the button that has the focus.

    Never place a reading pedal near a pedal of the machine: a foot finds the wrong one.
    """
    pedal_back: Annotated[PedalKey | None, Example("F14")] = None
    """The key that a reading pedal sends for one screen back."""


class Manual(Record):
    """Facts of the whole manual."""

    about = Area.SHOP

    shop: Annotated[str, Example("Tarn Row Works")]
    """The shop's name."""
    title: Annotated[Title, Example("Machine shop training manual")]
    """The manual's title, on every page."""
    welcome: Annotated[Text, Example("Welcome. Take all the time you need.")]
    """A sentence or two for the newcomer."""
    ask: Annotated[Text, Example("Ask your trainer first.")]
    """Whom to ask for help."""
    call: Annotated[Text, Area.EMERGENCY, Example("Call the shift lead.")]
    """Whom to call when something goes wrong."""
    emergency: Annotated[
        Text, Area.EMERGENCY, Example("Press the emergency stop, and shout for help.")
    ]
    """What to do in an emergency, by the shop's own plan."""
    caution: Annotated[
        Text,
        Area.EMERGENCY,
        Example("The machine maker's instructions and local codes come first."),
    ]
    """The usual caution: the maker's instructions, local codes and licensed practice rule."""
    do_not_run: Annotated[
        Text, Area.EMERGENCY, Example("Do not start the machine. Call the shift lead.")
    ]
    """What to do when a job says do not run."""
    server: Server | None = None
    """Where the shop's own network serves the manual, ending in /; left out where none does."""
    preface: Annotated[str | None, Area.PREFACE, Example("safety.md")] = None
    """The free page that must be read and explained back first, such as `safety.md`."""
    first_help: Annotated[FirstHelp, Area.NAMES] = FirstHelp()
    """What search puts before all results where plain words ask for help."""
    own_words: Annotated[tuple[str, ...], Area.CHECKS_ONLY, Order.FREE, Example("tote")] = Field(
        default=()
    )
    """Words of the shop that must have a glossary entry."""
    roles: Annotated[tuple[str, ...], Area.CHECKS_ONLY, Order.FREE, Example("shift lead")] = Field(
        default=()
    )
    """Roles that may hold a job and lift a hold, besides those that approve something.

    Who signs in a list for new people may hold one, too."""
    review_months: Annotated[Annotated[int, Field(ge=1, le=120)] | None, Example("12")] = None
    """Months after which a breakdown is read again at the machine; left out for no such rule."""
    units: Annotated[Units, Area.SCREEN, Example("inch")] = Units.METRIC
    """The units that stand first on every page: `metric` or `inch`; the others stand second.

    It moves no limit and no meaning: all is reckoned as it was written.
    """
    paper: Annotated[Paper, Area.SCREEN, Example("letter")] = Paper.A4
    """The paper that pages and sheets are printed on: `a4` or `letter`."""
    kiosk: Annotated[Kiosk, Area.SCREEN] = Kiosk()
    """How the screen beside the machine behaves."""
    retraining: Annotated[Retraining, Area.RULE] = Retraining()
    """When a change asks for new teaching, where the shop's rule is not the usual one."""
    teaching: Annotated[Teaching, Area.RULE] = Teaching()
    """Rules for planning lessons, re-checks and follow-up."""


KINDS: Mapping[str, type[Record]] = MappingProxyType(
    {
        "jobs": Job,
        "parts": Part,
        "machines": Machine,
        "materials": Material,
        "tools": Tool,
        "fluids": Fluid,
        "hazards": Hazard,
        "onboarding": Onboarding,
        "terms": Term,
    }
)
"""Every kind of record that has an id, in the order of the manual."""

ALONE: Mapping[str, type[Record]] = MappingProxyType(
    {
        "manual": Manual,
        "machine-group": MachineGroup,
        "family": Family,
        "notice": ChangeNotice,
        "hold": Hold,
        "crew": CrewFacts,
        "person": Person,
    }
)
"""Kinds of record that stand in no folder of the content."""


def class_of(kind: str) -> type[Record]:
    """The class of a kind of record that there is."""
    return KINDS.get(kind) or ALONE[kind]


FOLDERS = tuple(kind for kind in KINDS if kind != "terms")
"""Kinds with a folder of files; terms share one file."""


class OpenLine(NamedTuple):
    """A line of a free page that is not written yet."""

    line: int
    column: int
    text: str


@dataclass(frozen=True, slots=True)
class Shop:
    """Every record of the shop by id."""

    manual: Manual
    jobs: Mapping[str, Job] = field(default_factory=dict)
    parts: Mapping[str, Part] = field(default_factory=dict)
    machines: Mapping[str, Machine] = field(default_factory=dict)
    materials: Mapping[str, Material] = field(default_factory=dict)
    tools: Mapping[str, Tool] = field(default_factory=dict)
    fluids: Mapping[str, Fluid] = field(default_factory=dict)
    hazards: Mapping[str, Hazard] = field(default_factory=dict)
    onboarding: Mapping[str, Onboarding] = field(default_factory=dict)
    terms: Mapping[str, Term] = field(default_factory=dict)
    pictures: Mapping[str, PictureFile] = field(default_factory=dict)
    """Every readable file below content/pictures/, by its name there."""
    sheets: Mapping[str, int] = field(default_factory=dict)
    """Every file below content/sheets/ and its bytes."""
    pages: tuple[str, ...] = ()
    """Every free page below content/pages/, by its name there, such as `safety.md`."""
    copied: Mapping[str, PartCopy] = field(default_factory=dict)
    """What jobs say of their part themselves, by the job's id, where it has no record."""
    open_pages: Mapping[str, tuple[OpenLine, ...]] = field(default_factory=dict)
    """Those of them with lines that are not written yet, and which."""
    page_texts: Mapping[str, str] = field(default_factory=dict)
    """The text of each free page that can be read."""
    changes: Mapping[str, JobChanges] = field(default_factory=dict)
    """What each revision changed, by job, as far as it was written down."""
    drafts: Mapping[str, str] = field(default_factory=dict)
    """The present fingerprint of each job whose present state is not released yet."""
    numbers: Mapping[str, frozenset[str]] = field(default_factory=dict)
    """Every revision that was ever released, by job; empty where job files say their own."""
    renamed: Mapping[str, str] = field(default_factory=dict)
    """The id that a job once had -> the one it has now; the oldest of a job first."""
    made: Made = field(default_factory=dict)
    """Where each job comes from that has no file of its own."""
    holds: Mapping[str, tuple[Hold, ...]] = field(default_factory=dict)
    """The holds that stand, by job: nobody may run it, whatever it means."""

    def first_id(self, job_id: str) -> str:
        """The id by which a job was known first: what stands for it in a meaning."""
        return next((old for old, new in self.renamed.items() if new == job_id), job_id)

    @classmethod
    def of(
        cls,
        manual: Manual,
        records: Mapping[str, Mapping[str, Record]],
        **files: Any,
    ) -> Shop:
        """The shop with the records of each kind, put in the order of their ids."""
        by_id: dict[str, Any] = {
            kind: dict(sorted(found.items())) for kind, found in records.items()
        }
        by_id["jobs"] = handed_on(by_id.get("jobs", {}), files.get("made"))
        return cls(manual, **by_id, **files)

    def piece(self, job: Job) -> WorkPiece | None:
        """The part of a job as the job meets it."""
        part = self.parts.get(job.part or "")
        return WorkPiece(part, part.state(job.takes), part.state(job.leaves)) if part else None

    def material_of(self, job: Job) -> Material | None:
        """The material that a job works on."""
        part = self.parts.get(job.part or "")
        return self.materials.get(part.material) if part else None

    def source_file(self, kind: str, record_id: str) -> str:
        """The file that holds a record, below the content folder."""
        made = self.made.get(record_id) if kind == "jobs" else None
        return made.file if made is not None else f"{kind}/{record_id}.yml"

    def alike(self, job_id: str) -> tuple[Job, ...]:
        """A job of a group on each of its machines, itself among them; none for any other."""
        made = self.made.get(job_id, MadeFrom("", ""))
        if not made.group:
            return ()
        return tuple(one for one in self.jobs.values() if same_work(self.made, one.id, job_id))

    def on_each_machine(self, written: str) -> tuple[str, ...]:
        """The ids of a job of a group, from the id that its file says; none for any other."""
        return tuple(
            job_id for job_id, made in self.made.items() if made.group and made.written == written
        )

    def of_kind(self, kind: str) -> Mapping[str, Record]:
        """The records of one kind, by id."""
        records: Mapping[str, Record] = getattr(self, kind)
        return records

    def every(self) -> Iterator[tuple[str, str, Record]]:
        """Kind, id and record of everything, in the order of the manual."""
        for kind in KINDS:
            for record_id, record in self.of_kind(kind).items():
                yield kind, record_id, record

    def named_files(self) -> tuple[tuple[str, str], ...]:
        """Folder and name of every file that a record names, each once, in order."""
        named = {(folder, name) for *_, record in self.every() for _, folder, name in files(record)}
        return tuple(sorted(named))


def name_of(record: Record) -> str:
    """The words a link to the record shows."""
    if isinstance(record, Part):
        return f"{record.number} {record.name}"
    for attribute in ("title", "name", "word"):
        text = getattr(record, attribute, None)
        if isinstance(text, str):
            return text
    raise TypeError(f"{type(record).__name__} has no name")
