"""What a thing is drawn as in lists: said in its record, else taken from its words and its kind."""

from __future__ import annotations

import re
from enum import StrEnum


class Looks(StrEnum):
    """The outlines that there are. Machines stand first, then tools, materials and parts."""

    PILLAR_DRILL = "pillar drill"
    BENCH_GRINDER = "bench grinder"
    LATHE = "lathe"
    MILLING_MACHINE = "milling machine"
    SAW = "saw"
    HAND_PRESS = "hand press"
    BENCH = "bench"
    INSPECTION_TABLE = "inspection table"
    CELL = "cell"
    OTHER_MACHINE = "other machine"

    TWIST_DRILL = "twist drill"
    CENTRE_DRILL = "centre drill"
    REAMER = "reamer"
    TAP = "tap"
    COUNTERSINK = "countersink"
    COUNTERBORE = "counterbore"
    GRINDING_WHEEL = "grinding wheel"
    PLUG_GAUGE = "plug gauge"
    THREAD_GAUGE = "thread plug gauge"
    CALIPER = "caliper"
    STEP_GAUGE = "step gauge"
    TEMPLATE = "template"
    RULE = "rule"
    VICE = "machine vice"
    BENCH_VICE = "bench vice"
    V_BLOCK = "V-block"
    FIXTURE = "fixture"
    PARALLELS = "parallels"
    TOOL_HOLDER = "tool holder"
    TAP_GUIDE = "tap guide"
    WORK_HOLDER = "work holder"
    FILE = "file"
    BRUSH = "brush"
    CHUCK_KEY = "chuck key"
    MALLET = "mallet"
    TAP_WRENCH = "tap wrench"
    TORQUE_HANDLE = "torque handle"
    CENTRE_PUNCH = "centre punch"
    LOCK_AND_TAG = "lock and tag"
    WHEEL_DRESSER = "wheel dresser"
    OTHER_TOOL = "other tool"

    STEEL = "steel in section"
    CAST_IRON = "cast iron in section"
    ALUMINIUM = "aluminium in section"
    BRASS = "brass in section"
    PLASTIC = "plastic in section"

    PLATE = "plate"
    ROUND_BAR = "round bar"
    TUBE = "tube"
    BLOCK = "block"
    CASTING = "casting"


_MACHINE_WORDS: tuple[tuple[str, Looks], ...] = (
    ("grinder", Looks.BENCH_GRINDER),
    ("lathe", Looks.LATHE),
    ("mill|milling", Looks.MILLING_MACHINE),
    ("saw", Looks.SAW),
    ("drill|drilling", Looks.PILLAR_DRILL),
    ("press", Looks.HAND_PRESS),
    ("inspection", Looks.INSPECTION_TABLE),
    ("cell", Looks.CELL),
    ("bench", Looks.BENCH),
)

_TOOL_WORDS: tuple[tuple[str, Looks], ...] = (
    ("tap guide|tapping centre", Looks.TAP_GUIDE),
    ("tap wrench", Looks.TAP_WRENCH),
    ("torque (?:handle|wrench)", Looks.TORQUE_HANDLE),
    ("chuck key", Looks.CHUCK_KEY),
    ("thread (?:plug )?gauge", Looks.THREAD_GAUGE),
    ("plug gauge", Looks.PLUG_GAUGE),
    ("gap gauge|step gauge|feeler", Looks.STEP_GAUGE),
    ("template|square", Looks.TEMPLATE),
    ("calipers?|micrometer", Looks.CALIPER),
    ("rule", Looks.RULE),
    ("bench vice|bench vise", Looks.BENCH_VICE),
    ("(?:pin|bar|work) holder", Looks.WORK_HOLDER),
    ("holder|collet|arbor", Looks.TOOL_HOLDER),
    ("v-block|vee block", Looks.V_BLOCK),
    ("fixture|jig", Looks.FIXTURE),
    ("parallels?", Looks.PARALLELS),
    ("vice|vise", Looks.VICE),
    ("lock", Looks.LOCK_AND_TAG),
    ("dresser", Looks.WHEEL_DRESSER),
    ("(?:grinding )?wheel", Looks.GRINDING_WHEEL),
    ("file", Looks.FILE),
    ("brush", Looks.BRUSH),
    ("mallet|hammer", Looks.MALLET),
    ("centre punch|center punch", Looks.CENTRE_PUNCH),
    ("centre drill|center drill", Looks.CENTRE_DRILL),
    ("counterbore", Looks.COUNTERBORE),
    ("countersink", Looks.COUNTERSINK),
    ("reamer", Looks.REAMER),
    ("tap", Looks.TAP),
    ("drill", Looks.TWIST_DRILL),
)

_PART_WORDS: tuple[tuple[str, Looks], ...] = (
    ("casting|bracket", Looks.CASTING),
    ("tube|pipe", Looks.TUBE),
    ("block", Looks.BLOCK),
    ("round|pin|shaft|rod|spindle", Looks.ROUND_BAR),
    ("plate|flat|sheet|strip|stay", Looks.PLATE),
)

_MATERIAL_WORDS: tuple[tuple[str, Looks], ...] = (
    ("iron", Looks.CAST_IRON),
    ("steel", Looks.STEEL),
    ("aluminium|aluminum", Looks.ALUMINIUM),
    ("brass|bronze|copper", Looks.BRASS),
    ("acetal|nylon|plastic|polymer", Looks.PLASTIC),
)

WORDS = {
    "machines": _MACHINE_WORDS,
    "tools": _TOOL_WORDS,
    "parts": _PART_WORDS,
    "materials": _MATERIAL_WORDS,
}
"""For each kind of record the words that tell what it looks like; the first that fits counts."""


def by_words(kind: str, *said: str) -> Looks | None:
    """What the words of a record call it; the first text that says anything counts.

    >>> by_words("tools", "Twist drill 8.5 mm")
    <Looks.TWIST_DRILL: 'twist drill'>
    >>> by_words("tools", "Drill vice").value
    'machine vice'
    >>> by_words("parts", "Vent thing") is None
    True
    """
    for text in said:
        for pattern, looks in WORDS[kind]:
            if re.search(rf"\b(?:{pattern})\b", text, re.IGNORECASE):
                return looks
    return None
