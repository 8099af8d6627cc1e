"""`benchleaf tidy --parts`: copies of a part in jobs become a record, and nothing else changes."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.cli import main
from benchleaf.read.tidy import tidied_text

Shop = Callable[..., Path]
Edited = Callable[..., dict[str, str]]
J1, J2 = "jobs/vg-0010.yml", "jobs/vg-0020.yml"
STATES = {
    J1: "part: vg-r1\ntakes: sawn\nleaves: drilled\n",
    J2: "part: vg-r1\ntakes: drilled\nleaves: deburred\n",
}
COPY = (
    "part:\n  number: VG-R1\n  # as on the drawing\n  name: Rack plate\n"
    "  drawing: VG-R1 sheet 1  # the small one\n"
    "  material: mild-steel\n  stock: sawn flat bar, 40 x 6 mm\n"
)


@pytest.fixture
def copied(shop: Shop, edited: Edited) -> Callable[..., Path]:
    """`copied(first, second)` is the small shop with these copies in its jobs, and no record."""

    def make(first: str = f"{COPY}  mass: 0.2 kg\n", second: str = COPY) -> Path:
        jobs = edited(J1, STATES[J1], first) | edited(J2, STATES[J2], second)
        return shop({"parts/vg-r1.yml": None, **jobs})

    return make


def test_the_jobs_name_a_record_and_mean_the_same(
    copied: Callable[..., Path], capsys: pytest.CaptureFixture[str]
) -> None:
    content = copied()
    before = pipeline.load(content)
    assert [one.code for one in before.findings] == ["V406"]
    assert main(["tidy", "--parts", str(content)]) == 0
    after = pipeline.load(content)
    assert [one.code for one in after.findings] == ["V410"], "what each leaves is still to be told"
    assert after.fingerprints == before.fingerprints
    assert "1 part has a record, 0 findings" in capsys.readouterr().out
    assert main(["tidy", "--parts", str(content)]) == 0
    assert "all in order" in capsys.readouterr().out
    text = (content / J1).read_text(encoding="utf-8")
    assert "part: vg-r1\ntakes: as-it-arrives\n" in text
    assert "# as on the drawing" in text
    assert "# the small one" in text
    assert "# What the part is called" in text, "what stands above the next key stays there"
    record = (content / "parts/vg-r1.yml").read_text(encoding="utf-8")
    assert tidied_text(record) == record


def test_the_mass_stands_in_the_state_where_one_job_gives_none(
    copied: Callable[..., Path],
) -> None:
    content = copied()
    main(["tidy", "--parts", str(content)])
    shop = pipeline.load(content).shop
    masses = {one.id: shop.piece(one) for one in shop.jobs.values()}
    assert masses["vg-0010"]
    assert masses["vg-0010"].mass
    assert masses["vg-0010"].mass.text == "0.2 kg"
    assert masses["vg-0020"]
    assert masses["vg-0020"].mass is None


def test_each_form_in_which_it_arrives_is_a_state(copied: Callable[..., Path]) -> None:
    content = copied(COPY, COPY.replace("40 x 6 mm", "40 x 6 mm, drilled"))
    before = pipeline.load(content).fingerprints
    assert main(["tidy", "--parts", str(content)]) == 0
    after = pipeline.load(content)
    assert [one.looks_like for one in after.shop.parts["vg-r1"].states] == [
        "sawn flat bar, 40 x 6 mm", "sawn flat bar, 40 x 6 mm, drilled",
    ]  # fmt: skip
    assert after.fingerprints == before


def test_copies_that_disagree_stay(
    copied: Callable[..., Path], capsys: pytest.CaptureFixture[str]
) -> None:
    content = copied(second=COPY.replace("sheet 1", "sheet 2"))
    files = {path: path.read_bytes() for path in content.rglob("*.yml")}
    assert main(["tidy", "--parts", str(content)]) == 1
    assert "V401" in capsys.readouterr().out
    assert {path: path.read_bytes() for path in content.rglob("*.yml")} == files


def test_check_writes_nothing(
    copied: Callable[..., Path], capsys: pytest.CaptureFixture[str]
) -> None:
    content = copied()
    files = {path: path.read_bytes() for path in content.rglob("*.yml")}
    assert main(["tidy", "--parts", "--check", str(content)]) == 1
    said = capsys.readouterr().out
    assert "would be written" in said
    assert "would have a record" in said
    assert {path: path.read_bytes() for path in content.rglob("*.yml")} == files


def test_a_job_that_cannot_be_read_holds_all_back(
    copied: Callable[..., Path], capsys: pytest.CaptureFixture[str]
) -> None:
    content = copied(second=COPY.replace("  drawing", "  drawign"))
    assert main(["tidy", "--parts", str(content)]) == 1
    said = capsys.readouterr().out
    assert "F201" in said
    assert "nothing was written" in said
    assert not (content / "parts").is_dir() or not list((content / "parts").iterdir())


def test_a_copy_on_one_line_is_taken_over_too(copied: Callable[..., Path]) -> None:
    flow = (
        "part: {number: VG-R1, name: Rack plate, drawing: VG-R1 sheet 1, "
        "material: mild-steel, stock: bar}\n"
    )
    content = copied(flow, flow)
    assert main(["tidy", "--parts", str(content)]) == 0
    assert pipeline.load(content).findings == ()
