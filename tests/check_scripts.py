"""Lints the scripts of the pages and checks their types, by what stands in tests/scripts/.

    python tests/check_scripts.py           says what is wrong; exit 1 where something is
    python tests/check_scripts.py --fix     first writes them in the house's dialect where it can:
                                            `const` and `let`, short functions, short properties

Linter and type checker are programs in Python packages of the tests' environment, so that no Node
is needed. `page.d.ts` tells what the scripts hand to each other; a note such as
`/** @type {HTMLElement} */ (...)` tells what a page is known to have.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import sysconfig
from pathlib import Path

ROOT = Path(__file__).parents[1]
ASSETS = ROOT / "plugins" / "benchleaf" / "html" / "assets"
SETTINGS = ROOT / "tests" / "scripts"
ROUNDS = 8
"""A change may make room for the next one; so many rounds are more than any file has needed."""
GIVEN = re.compile(r"\bwindow\.(benchleaf\w+)(?:\.\w+)* = ")
"""Something that a script makes for others, or writes into."""


def scripts(folder: Path = ASSETS) -> list[Path]:
    return sorted(folder.glob("*.js"))


def program(name: str) -> str:
    """The path of a program of the environment; without it nothing passes."""
    found = shutil.which(name, path=sysconfig.get_path("scripts"))
    assert found, f"{name} is not in the environment of the tests: pip install -e '.[dev]'"
    return found


def ran(*command: str) -> tuple[str, int]:
    """What a checker prints, and its exit code; nothing is asked of a network."""
    known = {**os.environ, "NO_COLOR": "1", "DENO_NO_UPDATE_CHECK": "1",
             "DENO_DIR": str(Path(sys.prefix) / "benchleaf-deno")}  # fmt: skip
    done = subprocess.run(
        command, cwd=ROOT, env=known, capture_output=True, text=True, check=False, timeout=300
    )
    return done.stdout + done.stderr, done.returncode


def lint(paths: list[Path], *options: str) -> tuple[str, int]:
    settings = str(SETTINGS / "oxlint.json")
    return ran(program("oxlint"), "--config", settings, "--quiet", *options, *map(str, paths))


def types(paths: list[Path]) -> tuple[str, int]:
    settings = str(SETTINGS / "deno.json")
    return ran(program("deno"), "check", "--no-remote", "--quiet", "--config", settings,
               *map(str, paths))  # fmt: skip


def given_twice(paths: list[Path]) -> list[str]:
    """What more than one script puts on the window: each has one maker, and others read it."""
    makers: dict[str, set[str]] = {}
    for path in paths:
        for name in GIVEN.findall(path.read_text(encoding="utf-8")):
            makers.setdefault(name, set()).add(path.name)
    return [f"window.{name} is written by {', '.join(sorted(files))}"
            for name, files in sorted(makers.items()) if len(files) > 1]  # fmt: skip


def fix(paths: list[Path]) -> None:
    """In the house's dialect, until nothing changes any more."""
    for _ in range(ROUNDS):
        before = [path.read_bytes() for path in paths]
        lint(paths, "--fix")
        if before == [path.read_bytes() for path in paths]:
            return


def main() -> int:
    every = scripts()
    if "--fix" in sys.argv[1:]:
        fix(every)
    twice = given_twice(every)
    (style, styled), (typed, fits) = lint(every), types(every)
    print(style if styled else "", typed if fits else "", *twice, sep="\n")
    return int(bool(styled or fits or twice))


if __name__ == "__main__":
    sys.exit(main())
