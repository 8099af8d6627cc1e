"""`benchleaf check` runs where no site engine is installed, and does not wait for one to load."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

SHOP = Path(__file__).parents[1] / "shop"
PROGRAM = """
import sys
from benchleaf.cli import main
code = main({arguments!r})
loaded = sorted(name for name in sys.modules if name.split(".")[0] in {{"mkdocs", "material"}})
sys.exit(f"loaded: {{loaded}}" if loaded else code)
"""


@pytest.mark.parametrize(
    "arguments", [["check", str(SHOP)], ["schema", "job"], ["explain", "F205"]], ids=lambda a: a[0]
)
def test_a_command_loads_no_site_engine(arguments: list[str]) -> None:
    ran = subprocess.run(
        [sys.executable, "-c", PROGRAM.format(arguments=arguments)],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert (ran.returncode, ran.stderr) == (0, "")
