"""L301: every id in a field names a record that exists."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from benchleaf.diagnose import Code, Finding, Place, Sample, Severity, suggestion
from benchleaf.model import KINDS, Record, Shop, name_of, references
from benchleaf.model.ids import near_id

from ..places import Places
from ..rule import RecordRule

CODE = Code(
    "L301",
    "A reference points nowhere",
    why="The reader would meet a dead link, or a job without its machine.",
    instead="Name a record that exists, or write the record.",
    bad=(
        Sample(
            """
            # A mistyped fluid.
            - file: jobs/vg-0010.yml
              find: "fluid: soluble-oil"
              put: "fluid: soluble-oils"
            """,
            """
            content/jobs/vg-0010.yml:20:8: error L301 there is no 'soluble-oils' among the fluids
                did you mean 'soluble-oil'?
                the fluids: soluble-oil
            """,
        ),
        Sample(
            """
            # A hazard among the tools.
            - file: jobs/vg-0010.yml
              find: |
                tools:
                  - drill-8
              put: |
                tools:
                  - drill-8
                  - work-turns
            """,
            """
            content/jobs/vg-0010.yml:19:5: error L301 there is no 'work-turns' among the tools
                'work-turns' is one of the hazards
                the tools: drill-8, plug-gauge-8
            """,
        ),
        Sample(
            """
            # A list leads to a page, a step and a hazard that are not there.
            - file: onboarding/first-days.yml
              find: |2
                        step: clamp
              put: |2
                        step: clmap
            - file: onboarding/first-days.yml
              find: |2
                      - hazard: work-turns
                        done_when: explained back
              put: |2
                      - hazard: work-turn
                        done_when: explained back
                      - page: how-to-read.md
                        done_when: read
            """,
            """
            content/onboarding/first-days.yml:25:17: error L301 there is no 'work-turn'
                    among the hazards
                did you mean 'work-turns'?
                the hazards: work-turns
            content/onboarding/first-days.yml:27:15: error L301 there is no page
                    'how-to-read.md' among the pages
                the pages: safety.md
            content/onboarding/first-days.yml:30:15: error L301 job VG-0010 has no step 'clmap'
                did you mean 'clamp'?
                steps: clamp, drill, gauge
            """,
        ),
        Sample(
            """
            # A machine that is not there.
            - file: jobs/vg-0020.yml
              find: "machine: bench-drill"
              put: "machine: lathe"
            """,
            """
            content/jobs/vg-0020.yml:9:10: error L301 there is no 'lathe' among the machines
                the machines: bench-drill
                or begin its file: benchleaf new machine lathe
            """,
        ),
        Sample(
            """
            # A link in the manual's own text.
            - file: manual.yml
              find: Ask your trainer.
              put: Ask your [[trainer]].
            """,
            """
            content/manual.yml:4:6: error L301 '[[trainer]]': there is no 'trainer' among the jobs
                the jobs: vg-0010, vg-0020
            """,
        ),
        Sample(
            """
            # A link on a free page.
            - file: pages/safety.md
              find: Gloves off,
              put: Gloves off at the [[machine:lathe]],
            """,
            """
            content/pages/safety.md:3:19: error L301 '[[machine:lathe]]': there is no
                    'lathe' among the machines
                the machines: bench-drill
            """,
        ),
        Sample(
            """
            # A link of a kind that there is not.
            - file: jobs/vg-0010.yml
              find: "[[tool:plug-gauge-8]]"
              put: "[[gauge:plug-gauge-8]]"
            """,
            """
            content/jobs/vg-0010.yml:91:16: error L301 '[[gauge:plug-gauge-8]]' is no link
                write [[TR-0140]] for a job, [[kind:id]] for others, with #step for a step
                kinds: job, part, machine, material, tool, fluid, hazard, onboarding, term
            """,
        ),
        Sample(
            """
            # A link to a step that the job has not.
            - file: jobs/vg-0010.yml
              find: "[[VG-0020#deburr]]"
              put: "[[VG-0020#debur]]"
            """,
            """
            content/jobs/vg-0010.yml:104:10: error L301 '[[VG-0020#debur]]': job VG-0020 has
                    no step or set-up 'debur'
                did you mean 'deburr'?
                steps and set-ups: deburr
            """,
        ),
        Sample(
            """
            # A figure of a set-up that the job has not, and one on the page of a tool.
            - file: jobs/vg-0010.yml
              find: It keeps the lips cool, and carries the chips away.
              put: It keeps the lips cool down to [[figure:guide-holes#depth-stop]].
            - file: tools/drill-8.yml
              find: A short twist drill of high-speed steel.
              put: A short twist drill of high-speed steel, for [[figure:guide-hole#feed]].
            """,
            """
            content/jobs/vg-0010.yml:76:17: error L301 '[[figure:guide-holes#depth-stop]]':
                    this job has no set-up 'guide-holes'
                did you mean 'guide-hole'?
                set-ups of this job: guide-hole
            content/tools/drill-8.yml:4:7: error L301 '[[figure:guide-hole#feed]]': only a
                    job's own sentences can show a figure
                write the figure out, or link to the job that has it: [[TR-0140]]
            """,
        ),
        Sample(
            """
            # A figure that the set-up does not show.
            - file: jobs/vg-0010.yml
              find: It keeps the lips cool, and carries the chips away.
              put: It keeps the lips cool down to [[figure:guide-hole#depth-stopp]].
            """,
            """
            content/jobs/vg-0010.yml:76:17: error L301 '[[figure:guide-hole#depth-stopp]]':
                    set-up 'guide-hole' shows no figure 'depth-stopp'
                did you mean 'depth-stop'?
                its figures: cutter-power, cutting-speed, cutting-speed-range, depth-stop,
                    ease-off, ease-to, exit-at-feed, exit-torque, feed, feed-rate, held-down,
                    holding and 16 more
            """,
        ),
        Sample(
            """
            # A link in text that leads nowhere.
            - file: machines/bench-drill.yml
              find: "[[term:quill]]"
              put: "[[term:quil]]"
            """,
            """
            content/machines/bench-drill.yml:3:7: error L301 '[[term:quil]]': there is no
                    'quil' among the terms
                did you mean 'quill'?
                the terms: burr, quill, rack-plate
            """,
        ),
    ),
    good="""
        # References to records that exist.
        - file: jobs/vg-0010.yml
          find: "[[tool:plug-gauge-8]]"
          put: "[[tools:Plug-Gauge-8]]"
    """,
)


def check(
    shop: Shop, places: Places, kind: str, record_id: str, record: Record
) -> Iterator[Finding]:
    """A finding for each reference that points nowhere."""
    for path, wanted_kind, wanted in references(record):
        if not exists(shop, places, wanted_kind, wanted):
            found = dangling(shop, wanted_kind, wanted, places.of(kind, record_id, path))
            begin = f"or begin its file: benchleaf new {wanted_kind.removesuffix('s')} {wanted}"
            is_new = len(found.help) == 1 and not _has_file(places, wanted_kind, wanted)
            yield replace(found, help=(*found.help, begin)) if is_new else found


def _has_file(places: Places, kind: str, record_id: str) -> bool:
    """True where a file has that name, though its record is called otherwise."""
    named = (source.document.name for (of, _), source in places.sources.items() if of == kind)
    return any(name.endswith(f"/{record_id}.yml") for name in named)


def exists(shop: Shop, places: Places, kind: str, record_id: str) -> bool:
    """True for a record that is there, also where it is there with mistakes of its own."""
    return record_id in shop.of_kind(kind) or places.is_unbuilt(kind, record_id)


def dangling(shop: Shop, kind: str, record_id: str, place: Place, *, written: str = "") -> Finding:
    """The finding, with the nearest id, also of another kind."""
    text = f"{written}there is no '{record_id}' among the {kind}"
    elsewhere = tuple(
        f"'{record_id}' is one of the {other}"
        for other in KINDS
        if record_id in shop.of_kind(other)
    )
    known = shop.of_kind(kind)
    made = [one.upper() for one in shop.on_each_machine(record_id)]
    if kind == "jobs" and made:
        which = (f"it is a job of several machines; write which: {', '.join(made)}",)
        return Finding(CODE.id, Severity.ERROR, place, text, which)
    named = tuple(
        f"'{one}' has that name: write its id"
        for one, record in known.items()
        if near_id(name_of(record).lower()) == record_id
    )
    help_lines = (*elsewhere, *named, *suggestion(record_id, known, what=f"the {kind}"))
    return Finding(CODE.id, Severity.ERROR, place, text, help_lines)


RULE = RecordRule(check, (CODE,))
