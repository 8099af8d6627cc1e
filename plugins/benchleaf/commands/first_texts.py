"""The words of the files that a new manual begins with."""

from __future__ import annotations

from benchleaf.model import OPEN_MARK

SETTINGS = """\
# What the site engine needs to know. The manual itself is written in content/.
site_name: {name}
docs_dir: content/pages
theme:
  name: material
plugins:
  - benchleaf:
      edition: !ENV [BENCHLEAF_EDITION, kiosk]
      crew_dir: !ENV [BENCHLEAF_CREW_DIR, ""]
"""

REQUIREMENTS = """\
# The tool that the checks install. Where no index has it, put its wheel into wheels/.
benchleaf=={version}
"""

IGNORED = """\
.venv/
site/
site-full/
.site-*/
"""

ATTRIBUTES = """\
# The same line ends on every computer, so that a comparison shows what somebody changed.
* text=auto eol=lf
*.png binary
*.jpg binary
*.jpeg binary
*.gif binary
*.webp binary
*.pdf binary
*.whl binary
"""

_INSTALL = "python -m pip install --find-links wheels -r requirements.txt"
CHECKS = {
    ".github/workflows/manual.yml": f"""\
# Reads every file of the manual and builds it, at each change.
name: manual
on: [push, pull_request]
jobs:
  check:
    runs-on: ubuntu-latest
    steps:
      - uses: actions/checkout@v4
        with:
          fetch-depth: 0
      - uses: actions/setup-python@v5
        with:
          python-version: "3.12"
      - run: {_INSTALL}
      - run: benchleaf tidy --check
      - run: benchleaf check --format annotations
      - run: mkdocs build
""",
    ".gitlab-ci.yml": f"""\
# Reads every file of the manual and builds it, at each change.
manual:
  image: python:3.12
  variables:
    GIT_DEPTH: "0"
  script:
    - {_INSTALL}
    - benchleaf tidy --check
    - benchleaf check
    - mkdocs build
  after_script:
    - benchleaf check --format code-quality > code-quality.json || true
  artifacts:
    when: always
    reports:
      codequality: code-quality.json
""",
}
"""The checks of two forges, by the file in which each looks for them."""

STATION_OPEN = (
    "The limits on its plate, such as speeds, power, thrust, travel and chuck, and who says so.",
    "Its guards, and what is looked at before the first start of a shift.",
    "Its hazards. Write each by: benchleaf new hazard ID",
)
PLACE_OPEN = (
    "What moves, presses, heats or shines there, and what keeps hands and eyes safe from it.",
    "What is looked at before the first piece of a shift.",
    "Its hazards. Write each by: benchleaf new hazard ID",
)
JOB_OPEN = (
    "The hazards of this job, each at the step in which it bites.",
    "Its tools and gauges, its part, and how the work is held.",
    "Its set-up figures (set_ups), and the limits of what is checked.",
)
PLACE_JOB_OPEN = (
    *JOB_OPEN[:2],
    "The limits of what is checked, each with its gauge.",
)
"""What no text can stand for. The reader takes a line out when it is given, or where none is."""

_MACHINES = f"""\
A stop button and an emergency stop only send a signal. A signal can fail, and somebody else can give another one. Neither of them is an isolation.

- {OPEN_MARK} For each station: where stop, emergency stop and isolator are. A station with no drive has none.
- {OPEN_MARK} Who may switch an isolator, who locks it, and by which procedure."""  # noqa: E501
_PLACES = f"""\
Air, a spring or a raised weight still pushes when nobody touches it. A valve that is shut can be opened by somebody else.

- {OPEN_MARK} For each station: what pushes, heats or shines there, where it is cut off, and how you see that nothing is left.
- {OPEN_MARK} Who may cut it off, who locks it, and by which procedure.
- {OPEN_MARK} For a machine, where there is one: where stop, emergency stop and isolator are. The first two are no isolation."""  # noqa: E501


def preface(*, is_driven: bool) -> str:
    """The first safety preface; where the first station has no drive, it speaks of none."""
    if is_driven:
        return _PREFACE.format(job="start a machine", first="the stop", still=_MACHINES, help=(
            "Never start a machine to free somebody. You will not be blamed for stopping a machine."
        ))  # fmt: skip
    return _PREFACE.format(job="begin a job", first="what you cut off", still=_PLACES, help=(
        "Never start or move anything to free somebody, unless the shop's plan says so. "
        "You will not be blamed for stopping."
    ))  # fmt: skip


_PREFACE = f"""\
# Safety: read this first

You are new here. Nobody expects you to be fast. We expect you to be careful, and to ask.

Your trainer reads this page with you. Then you explain it back in your own words. Only after that do you {{job}}.

## Before your hands go in

{OPEN_MARK} The words that you teach for it, in their order, from {{first}} to the hands.

## Stopped is not safe yet

{{still}}

## Always

- Let a vice, clamp or fixture hold the work. A hand never does.
- Never tie, tape or block a guard or an interlock.
- {OPEN_MARK} What everybody wears, and from where on.
- {OPEN_MARK} What comes off or is tied back, and before what.
- {OPEN_MARK} How chips and dust are taken away, and when.

## If something goes wrong

Keep your hands out. {{help}}

{OPEN_MARK} What to press, what to switch off, whom to call and how, and where the emergency plan hangs.

## What this manual is, and is not

This manual helps you learn. It does not replace the machine maker's instructions, local codes and laws, or licensed practice. Where they say something else, they rule. Stop, and ask.
"""  # noqa: E501
