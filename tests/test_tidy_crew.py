"""`benchleaf tidy --crew`: fingerprints that the register has go, and nobody stands otherwise."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.cli import main
from benchleaf.people.crews import load_crew, plan_people

CREW = Path(__file__).parent / "crew"
SHOP = Path(__file__).parent / "shop"


def test_what_the_register_has_goes_and_what_it_has_not_stays(
    shop: Callable[..., Path], capsys: pytest.CaptureFixture[str]
) -> None:
    content = shop()
    shutil.copy(SHOP / "revisions.yml", content)
    crew = Path(shutil.copytree(CREW, content.with_name("crew")))
    loaded = pipeline.load(content)
    mark = loaded.fingerprints["vg-0010"][:8]
    file = crew / "people" / "op-01.yml"
    bare = file.read_text(encoding="utf-8")
    known = bare.replace(
        "revision: 2\n", f"revision: 2\n    # as signed\n    fingerprint: {mark}\n"
    )

    def stands() -> object:
        found = plan_people(load_crew(crew, loaded.shop, content).crew, loaded)
        assert found is not None
        return {key: (one.state, one.why) for key, one in found.standings.items()}

    command = ["tidy", "--crew", str(crew), str(content)]
    file.write_text(known, encoding="utf-8")
    before = stands()
    assert main([*command, "--check"]) == 1
    assert file.read_text(encoding="utf-8") == known
    assert main(command) == 0
    assert file.read_text(encoding="utf-8") == bare.replace(
        "revision: 2\n", "revision: 2\n    # as signed\n"
    )
    assert stands() == before
    assert "1 fingerprint gone, 0 left" in capsys.readouterr().out
    file.write_text(known.replace(mark, "00000000"), encoding="utf-8")
    assert main(command) == 1
    assert "nobody can tell what they were taught" in capsys.readouterr().out
    assert "00000000" in file.read_text(encoding="utf-8")
