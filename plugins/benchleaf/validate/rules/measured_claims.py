"""V561: a force or a friction that is called measured says how it was measured."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.compute.grip import grip_of
from benchleaf.diagnose import Code, Finding, Sample
from benchleaf.model import Clamping, ForceKnownBy, KeyPath

from ..case import JobCase
from ..rule import JobRule
from .wording import says, words

CODE = Code(
    "V561",
    "What is called measured does not say how",
    why=(
        "The lowest of ten measured forces may fall short by a tenth, a force by feel by a third. "
        "One that is only called measured makes the work look held better than it is."
    ),
    instead=(
        "Say in source how the clamp force was measured, and in friction_source how the friction "
        "was tried; or leave force_known_by and friction out."
    ),
    bad=(
        Sample(
            """
            # The maker's figure is no measurement on this holding.
            - file: jobs/vg-0010.yml
              find: "    source: jaw force entered for the tests, not measured"
              put: |2-
                    force_known_by: lowest measured
                    work_surface: unmachined
                    source: the catalogue of the vice's maker
            """,
            """
            content/jobs/vg-0010.yml:30:21: warning V561 the clamp force is called the lowest
                    measured, and its source tells of no measurement
                say in source with what it was measured, and how often; or take force_known_by
                    out, which counts it as by feel
                where it does not fit this job: accept: [{code: V561, reason: ...}]
            """,
        ),
        Sample(
            """
            # A book is no trial.
            - file: jobs/vg-0010.yml
              find: "friction: 0.15"
              put: |-
                friction: 0.2
                    friction_source: a handbook, steel on steel, wet
            """,
            """
            content/jobs/vg-0010.yml:28:22: warning V561 the friction is above the table's,
                    and friction_source tells of no trial
                say how it was tried with this work and these jaws; or take friction out, for
                    the table's
                where it does not fit this job: accept: [{code: V561, reason: ...}]
            """,
        ),
    ),
    good="""
        # Measured, and it says with what.
        - file: jobs/vg-0010.yml
          find: "    source: jaw force entered for the tests, not measured"
          put: |2-
                force_known_by: lowest measured
                work_surface: unmachined
                source: the lowest of ten pulls on the shop's load cell
    """,
)

_MEASURED = words(
    r"measur\w*|load cells?|force gauges?|dynamometers?|(?:lowest|least|smallest) of|trials?|tried|"
    r"tests?|tested|pulls?|pulled|slips?|slipped|ten|twelve|twenty"
)
_NOT = words(
    r"not (?:yet )?(?:measured|tried|tested)|unmeasured|never (?:measured|tried)|guess\w*|"
    r"estimat\w*|felt|handbook|catalogue|textbook|(?:published|maker's) table"
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each force and friction that only calls itself measured."""
    material = case.shop.material_of(case.job)
    for path, held in case.holdings:
        if held.clamping is None:
            continue
        if _force_is_claimed(held.clamping):
            yield from case.practice(
                CODE,
                (*path, "clamping", "force_known_by"),
                "the clamp force is called the lowest measured, and its source tells of no "
                "measurement",
                "say in source with what it was measured, and how often; or take force_known_by "
                "out, which counts it as by feel",
            )
        yield from _without_source(case, path, held.clamping)
        grip, source = grip_of(held, case.job, material), held.clamping.friction_source
        if grip.is_measured and grip.dry > grip.table and not _is_told(source or ""):
            yield from case.practice(
                CODE,
                (*path, "clamping", "friction_source"),
                "the friction is above the table's, and friction_source tells of no trial",
                "say how it was tried with this work and these jaws; or take friction out, for the "
                "table's",
            )


def _without_source(case: JobCase, path: KeyPath, one: Clamping) -> Iterator[Finding]:
    """A spread of the shop's own that nobody has a source for counts only where it is wider."""
    told = {
        "force_spread": (one.force_spread, one.force_spread_source),
        "friction_spread": (one.friction_spread, one.friction_spread_source),
    }
    for key, (percent, source) in told.items():
        if percent is not None and source is None:
            yield from case.practice(
                CODE,
                (*path, "clamping", key),
                f"{key} {percent:g} has no source: the published spread is taken where it is wider",
                f"say in {key}_source how it was measured; or take it out",
            )


def _force_is_claimed(clamping: Clamping) -> bool:
    return clamping.force_known_by is ForceKnownBy.LOWEST and not _is_told(clamping.source)


def _is_told(source: str) -> bool:
    return says(source, _MEASURED) and not says(source, _NOT)


RULE = JobRule(check, (CODE,))
