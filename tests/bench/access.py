"""Every type of page and every state at every size in both lights: axe-core and measurements.

Usage: python tests/bench/access.py [--axe PATH/axe.min.js] [--some WORD]
Prints each fault with the places where it was found, then the least of each measure. Takes half an
hour on two cores; `--some WORD` looks only at addresses and states that hold the word.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from collections import defaultdict
from pathlib import Path

from playwright.sync_api import sync_playwright

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "e2e")]

from test_access import visits  # noqa: E402

import access  # noqa: E402
import get_browser  # noqa: E402
from build_demo import FLAGS, ROOT, mkdocs_build  # noqa: E402


def main() -> int:
    """Build both editions, look at everything, print what was found."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--axe", type=Path, default=access.AXE)
    parser.add_argument("--some", default="")
    wanted = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        demo, full = (_built(Path(folder, name), name) for name in ("kiosk", "full"))
        found = _look(demo, full, wanted.axe, wanted.some)
    return _report(found)


def _built(folder: Path, edition: str) -> Path:
    import os

    os.environ["BENCHLEAF_EDITION"] = edition
    done = mkdocs_build(ROOT, "--site-dir", str(folder / "site"))
    if done.returncode:
        sys.exit(done.stdout + done.stderr)
    return folder / "site"


def _look(demo: Path, full: Path, axe: Path, some: str) -> list[access.Look]:
    found = []
    with sync_playwright() as playwright:
        path = get_browser.browser()
        browser = playwright.chromium.launch(executable_path=path, args=list(FLAGS))
        for size in access.SIZES:
            for light in access.LIGHTS:
                page = access.open_at(browser, access.SIZES[size], light)
                for site, address, state in visits(demo, full):
                    if some not in f"{address} {state}":
                        continue
                    access.prepare(page, site, address, state)
                    name = f"{address} {state} {size} {light}"
                    part = access.PARTS.get(state, "")
                    found.append(access.look_at(page, name, part=part, script=axe))
                page.context.close()
        browser.close()
    return found


def _report(looks: list[access.Look]) -> int:
    faults: dict[str, list[str]] = defaultdict(list)
    for look in looks:
        for fault in look.faults + look.layout:
            faults[fault].append(look.name)
    for fault, names in sorted(faults.items()):
        print(f"{fault}\n    {len(names)} times, as on {names[0]}")
    print(f"{len(looks)} looks, {sum(len(look.faults) for look in looks)} faults found by axe")
    print("contrast left undecided by axe:", sum(look.contrast_left for look in looks))
    for kind in ("text", "signal"):
        least = min((one[0], one[2], look.name) for look in looks for one in look.texts
                    if one[1] == kind)  # fmt: skip
        print(f"least contrast of {kind}:", *least)
    kiosk = [look for look in looks if look.name.split()[-2] in access.KIOSKS]
    print("smallest letters:", *min((*one, look.name) for look in kiosk for one in look.letters))
    drawn = [(*one, look.name) for look in kiosk for one in access.letters_of_pictures(look)]
    print("smallest letters of a picture:", *min(drawn, default=("none",)))
    print("smallest target:", *min((*one, look.name) for look in looks for one in look.targets))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
