"""Counts the steps that show a picture: their own, a drawn scene, or none; and what scenes weigh.

Usage: python tests/bench/scenes.py [CONTENT]
One line a job, then the sums. "Own" is what steps showed before scenes were drawn.
"""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path

from benchleaf import pipeline
from benchleaf.compute import set_up_sheets
from benchleaf.drawings.scenes import scene_of, scenes_of

ROOT = Path(__file__).parents[2]


def main() -> int:
    """Count every step of the demo, or of another content folder."""
    content = Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "content"
    shop = pipeline.load(content).shop
    total: Counter[str] = Counter()
    acts: Counter[str] = Counter()
    for job in shop.jobs.values():
        sheets = set_up_sheets(shop, job)
        drawn = scenes_of(shop, job, sheets)
        here = Counter(steps=len(job.steps), own=sum(one.picture is not None for one in job.steps))
        here["scene"] = sum(one is not None for one in drawn.scenes)
        here["neither"] = here["steps"] - here["own"] - here["scene"]
        injuring = [
            one for step in job.steps for one in step.key_points if one.kind == "can injure"
        ]
        here["can injure"] = len(injuring)
        here["with a pair"] = sum(one.so is not None for one in injuring)
        here["bytes"] = len(drawn.lines) + sum(len(one.svg) for one in drawn.scenes if one)
        here["bytes"] += sum(len(one) for step in drawn.pairs for one in step if one)
        acts.update(step.scene.value for step in job.steps if step.scene)
        lost = [one.id for one in job.steps if one.scene and not scene_of(shop, job, one, sheets)]
        print(job.id, _said(here), f"not drawn: {', '.join(lost)}" if lost else "")
        total += here
    print("all", _said(total))
    print("acts", ", ".join(f"{name} {count}" for name, count in acts.most_common()))
    return 0


def _said(counts: Counter[str]) -> str:
    return ", ".join(f"{name} {count}" for name, count in counts.items())


if __name__ == "__main__":
    sys.exit(main())
