"""Permanent addresses: KIND/ID.html#ANCHOR, lower case, the same on every disk."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from benchleaf.model import FOLDERS, Shop

from .routes import routes

TERMS_PAGE = "terms.html"
HOME_PAGE = "index.html"
TRAINER_PAGE, ENGINEER_PAGE = "trainer.html", "engineer.html"
FIND_PAGE = "find.html"
SEE_PAGE = "see.html"
WRONG_PAGE = "wrong.html"
TIMETABLE_PAGE = "timetable.html"
WATCHING_PAGE = "watching.html"
SIGNAL_WORDS_PAGE = "signal-words.html"
OPERATION_PAGES = (
    "drilling",
    "tapping",
    "reaming",
    "countersinking",
    "counterboring",
    "clearance-hole",
    "fit",
    "holding",
    "drill-life",
    "rate",
    "learning-curve",
)
"""Operations with a page of their own, whatever the shop."""
CHART_PAGES = ("tap-drills", "drill-sizes", "clearance-holes", "fits")
"""Charts that every shop has; those of a machine come and go with its record."""
JOB_LISTS = ("part", "material", "hazard", "order")
"""The ways, besides by machine, in which all jobs are listed."""
SHEETS = ("breakdown", "card", "try-out", "get-ready", "set-up")
"""The sheets that are printed from a breakdown, in the order in which a trainer needs them."""
CHANGED_SHEET = "changed"
"""The sheet of a short lesson; only jobs whose changes are written down have one."""
GUIDE_PAGES = ("index", "engineer", "trainer", "kiosk", "security", "upkeep")
"""Pages of the guide to Benchleaf itself, whatever the shop; the first leads to the others."""
GUIDE_PAGE = "guide/index.html"
_FULL_ONLY = (
    TRAINER_PAGE,
    ENGINEER_PAGE,
    TIMETABLE_PAGE,
    WATCHING_PAGE,
    "trainer/",
    "lessons/",
    *(f"guide/{name}.html" for name in GUIDE_PAGES),
)
"""How the addresses begin that the reader's edition never holds."""
EVERY_ANCHORS = ("main", "top")
"""Anchors of the document around every page, and of its title."""
JOB_ANCHORS = (
    *EVERY_ANCHORS,
    *("follow", "makes", "know-first", "wear", "machine-controls", "hazards", "have-ready"),
    *("set-up", "steps", "if-wrong", "hand-on", "sheets", "revision"),
)
"""Anchors of a job's page, besides those of its steps and set-ups."""
LIST_ANCHORS = (*EVERY_ANCHORS, "jobs", "lessons", "order", "pull")
"""Anchors of the pages on which each job is an anchor: the trainer's and the engineer's."""
OWN_BEGINNING = "bl-"
"""How other ids of our own begin, those of scripts too; in what is derived stands a double hyphen,
which no id of a record may hold."""


def is_kept(anchor: str, anchors: Collection[str] = EVERY_ANCHORS) -> bool:
    """True for what no step, term or job may be called, on a page with these anchors.

    >>> is_kept("sheets", JOB_ANCHORS), is_kept("bl-values"), is_kept("ream", JOB_ANCHORS)
    (True, True, False)
    """
    return anchor in anchors or anchor.startswith(OWN_BEGINNING)


def address(kind: str, record_id: str, anchor: str | None = None) -> str:
    """The address of a record, or of a place on its page.

    >>> address("jobs", "tr-0140", "ream")
    'jobs/tr-0140.html#ream'
    >>> address("terms", "quill")
    'terms.html#quill'
    """
    if kind == "terms":
        return f"{TERMS_PAGE}#{record_id}"
    page = f"{kind}/{record_id}.html"
    return f"{page}#{anchor}" if anchor else page


def index_address(kind: str) -> str:
    """The page that lists all records of a kind."""
    return TERMS_PAGE if kind == "terms" else f"{kind}/index.html"


def job_list_address(way: str) -> str:
    """The page that lists all jobs in one of the ways.

    >>> job_list_address("part")
    'jobs-by-part.html'
    """
    return f"jobs-by-{way}.html"


def sheet_address(job_id: str, sheet: str) -> str:
    """A sheet that is printed from a job's breakdown.

    >>> sheet_address("tr-0140", "card")
    'trainer/tr-0140-card.html'
    """
    return f"trainer/{job_id}-{sheet}.html"


def lesson_address(job_id: str) -> str:
    """The short lesson of what changed in a job.

    >>> lesson_address("tr-0140")
    'lessons/tr-0140.html'
    """
    return f"lessons/{job_id}.html"


def guide_address(name: str) -> str:
    """A page of the guide to Benchleaf itself.

    >>> guide_address("kiosk")
    'guide/kiosk.html'
    """
    return f"guide/{name}.html"


def is_sheet(address_: str) -> bool:
    """True for a sheet that is printed from a breakdown.

    >>> is_sheet("trainer/tr-0140-card.html"), is_sheet("trainer.html")
    (True, False)
    """
    return address_.startswith("trainer/")


def free_page_address(name: str) -> str:
    """The address of a free page by its file name.

    >>> free_page_address("safety.md")
    'safety.html'
    """
    return name.removesuffix(".md") + ".html"


def is_full_only(address_: str) -> bool:
    """True for a page that only the edition for trainers and engineers holds."""
    return address_.startswith(_FULL_ONLY)


def relative(target: str, here: str) -> str:
    """`target` as seen from the page `here`, so that everything opens from disk.

    >>> relative("terms.html#quill", "jobs/tr-0140.html")
    '../terms.html#quill'
    """
    page, _, anchor = target.partition("#")
    if page == here and anchor:
        return f"#{anchor}"
    folder = here[: here.rfind("/") + 1]
    if folder and target.startswith(folder):
        return target[len(folder) :]
    return "../" * here.count("/") + target


def every_address(shop: Shop, charts: Iterable[str] = CHART_PAGES) -> Iterator[str]:
    """Every address that lists, cards and symbols may point to, in the order of the manual.

    `charts` are the ids of all charts, those of the machines too.
    """
    yield from (HOME_PAGE, FIND_PAGE, SEE_PAGE, WRONG_PAGE, SIGNAL_WORDS_PAGE, TERMS_PAGE)
    yield from (job_list_address(way) for way in JOB_LISTS)
    yield index_address("parts")
    yield from (address("parts", route.id) for route in routes(shop))
    for kind in FOLDERS:
        if kind == "parts":  # above
            continue
        yield index_address(kind)
        for record_id in shop.of_kind(kind):
            yield address(kind, record_id)
            if kind == "jobs":
                yield from _inside_job(shop, record_id)
    yield from (address("terms", term_id) for term_id in shop.terms)
    yield from (index_address(kind) for kind in ("operations", "charts"))
    yield from (address("operations", name) for name in OPERATION_PAGES)
    yield from (address("charts", name) for name in charts)
    yield from (free_page_address(name) for name in shop.pages)
    yield from (TRAINER_PAGE, ENGINEER_PAGE, TIMETABLE_PAGE, WATCHING_PAGE)
    yield from (guide_address(name) for name in GUIDE_PAGES)
    yield from (sheet_address(job_id, sheet) for job_id in shop.jobs for sheet in SHEETS)
    for job_id in shop.changes:
        if job_id in shop.jobs:
            yield from (lesson_address(job_id), sheet_address(job_id, CHANGED_SHEET))


def _inside_job(shop: Shop, job_id: str) -> Iterator[str]:
    job = shop.jobs[job_id]
    for step in job.steps:
        yield address("jobs", job_id, step.id)
    for set_up in job.set_ups:
        yield address("jobs", job_id, set_up.id)
