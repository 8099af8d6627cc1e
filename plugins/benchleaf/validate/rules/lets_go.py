"""V560: what is entered as holding, or as a stop on the feed, does not let go without a sign."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.compute.feed_stop import gives_way
from benchleaf.compute.grip import metal_of
from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import DrillingSetUp

from ..case import JobCase
from ..rule import JobRule
from .wording import told, words

CODE = Code(
    "V560",
    "What holds the work or the feed gives way",
    why=(
        "A weight, a tape, a magnet or suction lets go all at once, and no clamp force shows it. A "
        "spring, a depth stop or a hand does not keep a drill from drawing itself in."
    ),
    instead=(
        "Hold the work with vice, clamps, fixture or stop. As a stop on the feed enter what forces "
        "the feed, such as a feed by power."
    ),
    bad=(
        Sample(
            """
            # The work only lies there.
            - file: jobs/vg-0010.yml
              find: "how: The plate lies on parallels in the drill vice, long edges in the jaws."
              put: "how: Its own weight keeps the plate on the table."
            """,
            """
            content/jobs/vg-0010.yml:23:8: error V560 the work is held by its weight, or lies
                    loose
                name vice, clamps, fixture or stop, and enter what they resist
            """,
        ),
        Sample(
            """
            # Suction.
            - file: jobs/vg-0010.yml
              find: "how: The plate lies on parallels in the drill vice, long edges in the jaws."
              put: "how: Vacuum holds the plate on its fixture."
            """,
            """
            content/jobs/vg-0010.yml:23:8: warning V560 magnet, suction, tape or glue lets go
                    all at once, and nothing shows it beforehand
                hold the work with vice, clamps, fixture or stop
                where it does not fit this job: accept: [{code: V560, reason: ...}]
            """,
        ),
        Sample(
            """
            # A hand is no stop on the feed.
            - file: jobs/vg-0010.yml
              find: "    start_clearance: 3 mm"
              put: |2
                    start_clearance: 3 mm
                    feed_stop:
                      how: Your hand holds the lever back.
                      feed: 0.15 mm/rev
                      source: entered for the tests
            """,
            """
            content/jobs/vg-0010.yml:52:12: error V560 this is no stop on the feed: a drill
                    that draws itself in overcomes it
                enter what forces the feed, such as a feed by power; or take feed_stop out
                it is not counted: the work is judged as without it
            """,
        ),
    ),
    good="""
        # The feed runs by power.
        - file: jobs/vg-0010.yml
          find: "    start_clearance: 3 mm"
          put: |2
                start_clearance: 3 mm
                feed_stop:
                  how: The feed runs by power, and its clutch is tried by hand each morning.
                  feed: 0.15 mm/rev
                  source: entered for the tests
    """,
)

_LIES = words(
    r"own weight|weight of the (?:work|plate|block|casting)|"
    r"(?:lies?|lying|stands?|sits?|left) (?:loose|free)"
)
_LETS_GO = words(r"magnet\w*|vacuum|suction|(?:double-sided |adhesive )?tape|glued?|wax")
_MAGNET = words(r"magnet\w*")
_MAGNETIC = ("steel", "grey cast iron")


def check(case: JobCase) -> Iterator[Finding]:
    """Findings about words of holdings, and about stops on the feed."""
    for path, held in case.holdings:
        if told(held.how, _LIES):
            yield Finding(
                CODE.id,
                Severity.ERROR,
                case.place(*path, "how"),
                "the work is held by its weight, or lies loose",
                ("name vice, clamps, fixture or stop, and enter what they resist",),
            )
        elif told(held.how, _MAGNET) and _is_no_iron(case):
            yield Finding(
                CODE.id,
                Severity.ERROR,
                case.place(*path, "how"),
                "a magnet does not hold this material",
                ("hold the work with vice, clamps, fixture or stop",),
            )
        elif told(held.how, _LETS_GO):
            yield from case.practice(
                CODE,
                (*path, "how"),
                "magnet, suction, tape or glue lets go all at once, and nothing shows it "
                "beforehand",
                "hold the work with vice, clamps, fixture or stop",
            )
    yield from _feed_stops(case)


def _is_no_iron(case: JobCase) -> bool:
    material = case.shop.material_of(case.job)
    return material is not None and metal_of(material) not in _MAGNETIC


def _feed_stops(case: JobCase) -> Iterator[Finding]:
    for index, one in enumerate(case.job.set_ups):
        stop = one.feed_stop if isinstance(one, DrillingSetUp) else None
        if stop is not None and gives_way(stop):
            yield Finding(
                CODE.id,
                Severity.ERROR,
                case.place("set_ups", index, "feed_stop", "how"),
                "this is no stop on the feed: a drill that draws itself in overcomes it",
                (
                    "enter what forces the feed, such as a feed by power; or take feed_stop out",
                    "it is not counted: the work is judged as without it",
                ),
            )


RULE = JobRule(check, (CODE,))
