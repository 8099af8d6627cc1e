"""V811: a sentence that names a figure of its job says the same figure. A house rule."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from benchleaf.diagnose import Code, Finding, Related, Sample, Severity
from benchleaf.model import KeyPath, texts
from benchleaf.model.said import Said, figures_said, has_figure
from benchleaf.model.textlinks import TEXT_LINK

from ..case import JobCase
from ..claims import Around, arounds, is_about, is_disowned, names_claimed
from ..job_figures import Known, known_figures
from ..rule import JobRule
from .sentence_length import sentences

CODE = Code(
    "V811",
    "A sentence says another figure than its job",
    why=(
        "House rule. A learner who reads two speeds sets one of them. Nobody sees that a sentence "
        "is stale when the set-up is changed."
    ),
    instead=(
        "Mend whichever is wrong, or show the figure itself by a link: `[[figure:set-up#row]]` "
        "never goes stale."
    ),
    bad=(
        Sample(
            """
            # A speed that the set-up does not have.
            - file: jobs/vg-0010.yml
              find: It keeps the lips cool, and carries the chips away.
              put: It keeps the lips cool. The drill turns at 1500 rpm.
            """,
            """
            content/jobs/vg-0010.yml:76:17: error V811 '1500 rpm' is said here, and the job
                    says Spindle speed to set: 1000 rpm
                mend whichever is wrong, or show the figure itself: [[figure:set-up#row]]
                where both are right: accept: [{code: V811, reason: ...}]
                see also content/jobs/vg-0010.yml:43:5: Spindle speed to set: 1000 rpm
            """,
        ),
        Sample(
            """
            # A gauge with another end than the limits of its check.
            - file: jobs/vg-0010.yml
              find: The go end enters by its own weight, the no-go end does not.
              put: The go end of 8.2 mm enters by its own weight.
            """,
            """
            content/jobs/vg-0010.yml:98:14: error V811 '8.2 mm' is said here, and the job
                    says Diameter of the guide hole: 8 +0.1/-0 mm
                mend whichever is wrong, or show the figure itself: [[figure:set-up#row]]
                where both are right: accept: [{code: V811, reason: ...}]
                see also content/jobs/vg-0010.yml:96:17: Diameter of the guide hole: 8 +0.1/-0
                    mm
            """,
        ),
        Sample(
            """
            # A drill that the job has not.
            - file: jobs/vg-0010.yml
              find: In front of the table, feet apart.
              put: In front of the table. Fit the 5/16 in drill in the chuck.
            """,
            """
            content/jobs/vg-0010.yml:64:12: error V811 '5/16 in' is said here, and the job
                    says 8 mm drill, size: 8 mm
                mend whichever is wrong, or show the figure itself: [[figure:set-up#row]]
                where both are right: accept: [{code: V811, reason: ...}]
                see also content/tools/drill-8.yml:5:7: 8 mm drill, size: 8 mm
            """,
        ),
    ),
    good="""
        # The same speed, a distance that is none of the job's, and what would be wrong.
        - file: jobs/vg-0010.yml
          find: It keeps the lips cool, and carries the chips away.
          put: The drill turns at 1000 rpm. Keep your hands 100 mm away. At 1500 rpm the lips burn.
    """,
)

_NOT_SAID_OF_THIS = ("change_note", "history", "accept", "planted", "props", "sign", "piece_rate")
"""Keys whose texts tell what was, what is wrong on purpose, or what can go wrong."""
_ALMOST = 0.1
"""How far off a figure may be that is told as `about`: a tenth, which no learner sets by."""


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each figure in a sentence that differs from the job's own of that name."""
    if not case.job.set_ups and not any(step.checks for step in case.job.steps):
        return
    said = [
        (path, sentence)
        for path, text in _said(case)
        for sentence in sentences(text)
        if has_figure(sentence)
    ]
    known = known_figures(case.shop, case.job, tuple(case.sheets)) if said else ()
    for path, sentence in said:
        yield from _of_sentence(case, known, path, sentence)


def _said(case: JobCase) -> Iterator[tuple[KeyPath, str]]:
    """Every text of the job that tells how it is done, without its links."""
    job = case.job
    titles: list[tuple[KeyPath, str]] = [
        (("steps", at, "title"), step.title) for at, step in enumerate(job.steps)
    ]
    titles += [(("set_ups", at, "title"), one.title) for at, one in enumerate(job.set_ups)]
    for path, text in (*titles, *texts(job)):
        if has_figure(text) and not any(part in _NOT_SAID_OF_THIS for part in path):
            yield path, TEXT_LINK.sub(lambda link: "_" * len(link[0]), text)


def _of_sentence(
    case: JobCase, known: Sequence[Known], path: KeyPath, sentence: str
) -> Iterator[Finding]:
    for around in arounds(sentence, figures_said(sentence)):
        named = _named(case, known, path, around, sentence)
        share = _ALMOST if is_about(around) else 0.0
        is_other = named and not any(one.agrees(around.said, share) for one in named)
        if is_other and not case.accepts(CODE, path):
            yield _finding(case, path, around.said, named)


def _named(
    case: JobCase, known: Sequence[Known], path: KeyPath, around: Around, sentence: str
) -> list[Known]:
    """The figures of the job that the sentence means."""
    names = names_claimed(around, sentence)
    if set(names) & {"go", "no-go"}:
        return [_end(one, names[0]) for one in known if one.is_limits and _is_hole(one)]
    for name in names:
        found = [one for one in known if one.name == name and one.kind == around.said.kind]
        if found:
            return _of_this_set_up(case, found, path, sentence)
    return [one for one in known if one.is_limits and _says_check(one, around)]


def _of_this_set_up(case: JobCase, found: list[Known], path: KeyPath, sentence: str) -> list[Known]:
    """Those of the step's own set-up, unless the sentence speaks of another tool."""
    index = path[1] if len(path) > 1 and path[0] in ("steps", "set_ups") else None
    if not isinstance(index, int):
        return found
    steps, set_ups = case.job.steps, case.job.set_ups
    set_up = steps[index].set_up if path[0] == "steps" else set_ups[index].id
    own = [one for one in found if one.set_up == set_up]
    operation = next((one.operation for one in set_ups if one.id == set_up), "")
    others = _TOOL_WORDS - {_TOOL_OF.get(operation, "")}
    is_other = set(re.findall(r"[a-z]+", sentence.lower())) & others
    return own if own and not is_other else found


_TOOL_OF = {
    "drilling": "drill",
    "reaming": "reamer",
    "tapping": "tap",
    "countersinking": "countersink",
    "counterboring": "counterbore",
}
_TOOL_WORDS = {"reamer", "countersink", "counterbore"}
"""Words that name one tool only: `drill` and `tap` are said of much else."""


def _end(known: Known, end: str) -> Known:
    """The one limit of a check that an end of its gauge has."""
    size = known.low if end == "go" else known.high
    return Known(known.name, known.kind, size, size, known.shown, known.record, known.path,
                 is_inch=known.is_inch)  # fmt: skip


_HOLE = re.compile(r"\b(?:holes?|seats?|bore|diameter|mouth)\b", re.IGNORECASE)
_PLACE = re.compile(r"\b(?:from|edge|length|depth|wall|how far|over|across)\b", re.IGNORECASE)


def _is_hole(known: Known) -> bool:
    """True for the width of a hole, which has a gauge with a GO and a NO-GO end."""
    return _HOLE.search(known.shown) is not None and not _PLACE.search(known.shown)


_SMALL = frozenset(
    re.findall(
        r"\w+",
        """a an the of on in at to by from and or is are be each every both its it this that one two
        first off tenth how much far diameter width size length across over out same must may""",
    )
)
_MEASURING = frozenset(
    re.findall(
        r"\w+",
        """diameter width size good finished measure gauge reject plate wider smaller larger than
        sure check see distance lie stand""",
    )
)
"""Words about measuring, which make nothing else of what a check is about."""
_JUST_BEFORE = re.compile(
    r"\b(?:is|are|be|measures?|than|reads?|shows?|stands?|lies?|"
    r"(?:diameter|width|size|length) of .* of)\s*$"
)
_HAVE = re.compile(r"^(?:\w+ )?(?:let|leave|have|see that)\s*$")
_OF_SOMETHING_ELSE = re.compile(r"^\s*(?:apart|away|above|below|beyond|past|drill|of travel)\b")


def _says_check(known: Known, around: Around) -> bool:
    """True where the sentence holds all the words of a check, and tells the figure of them."""
    is_before = _JUST_BEFORE.search(around.left)
    if around.said.kind != "length" or not (is_before or _HAVE.search(around.left)):
        return False
    wanted = _words(known.shown.partition(":")[0])
    if len(wanted) < 2 or is_disowned(around) or _OF_SOMETHING_ELSE.match(around.right):
        return False
    if is_before:
        said = _words(around.left)
        return wanted <= said and len(said - wanted - _MEASURING) <= (len(wanted) > 2)
    return wanted <= _words(around.right)


def _words(text: str) -> set[str]:
    words = re.findall(r"[a-z]+", text.lower())
    return {word.removesuffix("s") for word in words if len(word) > 2 and word not in _SMALL}


def _finding(case: JobCase, path: KeyPath, said: Said, named: Sequence[Known]) -> Finding:
    nearest = min(named, key=lambda one: abs(one.low - said.low))
    related = Related(case.places.of(*nearest.record, nearest.path), nearest.shown)
    return Finding(
        CODE.id,
        Severity.ERROR,
        case.place(*path),
        f"'{said.text}' is said here, and the job says {nearest.shown}",
        (
            "mend whichever is wrong, or show the figure itself: [[figure:set-up#row]]",
            f"where both are right: accept: [{{code: {CODE.id}, reason: ...}}]",
        ),
        (related,),
    )


RULE = JobRule(check, (CODE,))
