"""Every printed form of one comparison, as golden files; and what each form promises."""

from __future__ import annotations

import base64
import json
import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from benchleaf.cli import main
from benchleaf.commands import sides
from benchleaf.diff import NO_CREW, Report

TESTS = Path(__file__).parents[1]
GOLDEN = TESTS / "golden" / "compare"
JOB = "jobs/vg-0010.yml"
SUFFIX = {"text": "txt", "markdown": "md", "json": "json", "html": "html"}
Shop = Callable[..., Path]
Edited = Callable[..., dict[str, str]]


@pytest.fixture
def changed(shop: Shop, edited: Edited) -> Path:
    """The small shop with a bit of everything changed."""
    return shop(
        edited(
            JOB,
            "A plate that lies crooked gets a crooked hole.",
            "A plate that lies askew | <b>gets</b> a crooked hole.",
            "  - id: gauge\n", "  - id: gauge-hole\n",
            "    stand: In front of the table, feet apart.\n",
            "    stand: In front of the table, feet apart.\n    right: It does not move.\n",
            "revision: 2", "revision: 3",
            "effective: 2026-03-02", "effective: 2026-05-01",
            "Safety glasses with side shields.", "A face shield over safety glasses.",
            "        kind: can injure\n      - point: Let fluid run on the drill.\n"
            "        reason: It keeps the lips cool, and carries the chips away.\n"
            "        kind: makes or breaks the job\n",
            "        kind: can injure\n",
        )
        | edited("machines/bench-drill.yml", "  - 1000 rpm\n", "  - 900 rpm\n",
                 "rated_thrust: 4 kN", "rated_thrust: 1.5 kN")
        | edited("materials/mild-steel.yml", "kd_torque: 24000", "kd_torque: 26000")
        | edited("hazards/work-turns.yml", "accident_if_not_avoided: could\n"
                 "harm_if_accident: could", "accident_if_not_avoided: will\n"
                 "harm_if_accident: will")
        | edited("terms.yml", "The sharp edge a drill leaves round a hole.",
                 "The sharp rim that a drill leaves round a hole.")
        | edited("manual.yml", "shop: Lower Fen Vent Gear", "shop: Upper Fen Vent Gear")
        | {"revisions.yml": (TESTS / "shop" / "revisions.yml").read_text(encoding="utf-8")}
        | {"tools/deburrer.yml": "id: deburrer\nname: Hand deburrer\nkind: hand tool\n"
           "what: A hooked blade on a handle.\n"}
    )  # fmt: skip


@pytest.fixture
def report(changed: Path) -> Report:
    asked = sides.Asked(changed, old=str(TESTS / "shop"), crew=TESTS / "crew", on=date(2026, 4, 6))
    reviewed = sides.compare(asked)
    assert reviewed.report is not None
    return reviewed.report


def printed(report: Report, form: str, changed: Path) -> str:
    """The print, with fixed names for the folders of this run and for fingerprints.

    Those change with every figure that the reckoning shows; other tests look at them.
    """
    text = sides.FORMATS[form](report)
    for path, name in ((changed, "new"), (TESTS / "shop", "old")):
        for written in (str(path), str(path).replace("_", "\\_").replace("-", "-")):
            text = text.replace(written, name)
    return re.sub(r"\b(?:[0-9a-f]{64}|[0-9a-f]{8})\b", "(fingerprint)", text)


@pytest.mark.parametrize("form", SUFFIX)
def test_every_form_prints_exactly_what_is_expected(
    form: str, report: Report, changed: Path, golden: Callable[[Path, str], None]
) -> None:
    golden(GOLDEN / f"expected.{SUFFIX[form]}", printed(report, form, changed))


def test_json_has_the_promised_keys(report: Report) -> None:
    data = json.loads(sides.FORMATS["json"](report))
    keys = {"record", "place", "kind", "before", "after", "consequence"}
    assert data["changes"]
    assert all(keys <= set(one) for one in data["changes"])
    assert {one["consequence"] for one in data["changes"]} == {
        "nobody runs it", "teach again before next run", "tell", "nothing",
    }  # fmt: skip


def test_the_page_asks_for_nothing_and_runs_nothing(report: Report) -> None:
    html = sides.FORMATS["html"](report)
    assert not re.search(r"<script|<link|\bsrc=|\bhref=|url\(|style=|https?://", html)
    assert "img-src data:;" in html
    assert "&lt;b&gt;gets&lt;/b&gt;" in html
    assert "<b>gets</b>" not in html


def test_markdown_of_a_text_is_not_taken_for_markup(report: Report) -> None:
    text = sides.FORMATS["markdown"](report)
    assert r"askew \| \<b\>gets\</b\> a crooked hole" in text


def test_markdown_says_whether_a_crew_was_looked_at(report: Report) -> None:
    told = sides.FORMATS["markdown"](report).partition("### People\n\n")[2]
    assert told.startswith("- **")
    assert NO_CREW not in told
    for due, wanted in (((), "Nobody in the crew is signed off for these jobs."), (None, NO_CREW)):
        text = sides.FORMATS["markdown"](replace(report, due=due))
        assert text.partition("### People\n\n")[2].splitlines()[0] == wanted
    bare = replace(report, comparison=replace(report.comparison, changes=()))
    assert "### People" not in sides.FORMATS["markdown"](bare)


def test_a_limit_that_breaks_is_told_as_such(report: Report) -> None:
    text = sides.FORMATS["text"](report)
    assert "LIMIT NEWLY BROKEN" in text
    assert "1 limit newly broken" in report.summary()


@pytest.mark.parametrize("form", SUFFIX)
def test_no_change_reads_as_such(form: str, shop: Shop, capsys: pytest.CaptureFixture[str]) -> None:
    content = shop()
    assert main(["compare", str(content), str(content), "--format", form]) == 0
    assert "No change of meaning." in capsys.readouterr().out


def test_a_side_with_errors_is_not_compared(
    shop: Shop, edited: Edited, capsys: pytest.CaptureFixture[str]
) -> None:
    bad = shop(edited("terms.yml", "word: burr", "wrod: burr"))
    assert main(["compare", str(shop()), str(bad)]) == 1
    captured = capsys.readouterr()
    assert captured.out == ""
    assert "content/terms.yml:3:5: error F201" in captured.err
    assert captured.err.endswith("1 error: nothing was compared\n")


def test_errors_that_hide_no_record_are_noted(shop: Shop, edited: Edited) -> None:
    bad = shop(edited(JOB, "hazards:\n  - work-turns\nhave", "hazards:\n  - noise\nhave"))
    reviewed = sides.compare(sides.Asked(bad, old=str(shop())))
    assert reviewed.report is not None
    assert "has errors (L301)" in reviewed.report.notes[0]


def test_a_crew_with_errors_is_told(shop: Shop, tmp_path: Path) -> None:
    (tmp_path / "crew").mkdir()
    reviewed = sides.compare(sides.Asked(shop(), old=str(shop()), crew=tmp_path / "crew"))
    assert reviewed.report is None
    assert reviewed.findings


# Pictures and lists

SVG = '<svg xmlns="http://www.w3.org/2000/svg" width="{0}" height="30"><path d="M0 0h{0}"/></svg>\n'


@pytest.fixture
def repainted(shop: Shop, edited: Edited) -> tuple[Path, Path]:
    """A picture of the same name drawn anew, one by another file, and a preface with lists."""
    name, field = "pictures/clamped-plate.svg", "      file: clamped-plate.svg\n"
    listed = "# Before you start\n\nOff with:\n\n- gloves\n- rings\n\n1. Look\n2. Ask {}\n"
    picture = "    picture:\n      file: {}\n      text: The drill.\n    right: A steady hiss"
    old = {**edited(JOB, "    right: A steady hiss", picture.format("first.svg"))}
    new = {**edited(JOB, "    right: A steady hiss", picture.format("second.svg"))}
    assert field in old[JOB]
    olds = {**old, name: SVG.format(40), "pages/safety.md": listed.format("once.")}
    news = {**new, name: SVG.format(50), "pages/safety.md": listed.format("twice.") + "3. Wait\n"}
    more = {"pictures/first.svg": SVG.format(60), "pictures/second.svg": SVG.format(70)}
    return shop({**olds, **more}), shop({**news, **more})


def of(repainted: tuple[Path, Path], form: str) -> str:
    old, new = repainted
    report = sides.compare(sides.Asked(new, old=str(old))).report
    assert report is not None
    return sides.FORMATS[form](report)


def test_a_replaced_picture_is_seen_before_and_after(repainted: tuple[Path, Path]) -> None:
    html = of(repainted, "html")
    found = re.findall(r'src="data:image/svg\+xml;base64,([^"]+)"', html)
    widths = [re.findall(rb'width="(\d+)"', base64.b64decode(one))[0] for one in found]
    assert sorted(widths) == [b"40", b"50", b"60", b"70"]
    assert widths.index(b"40") + 1 == widths.index(b"50")
    assert widths.index(b"60") + 1 == widths.index(b"70")
    assert not re.search(r'\bsrc="(?!data:image/)', html)


@pytest.mark.parametrize("form", ["text", "markdown"])
def test_without_a_link_both_files_are_named_with_their_size(
    form: str, repainted: tuple[Path, Path]
) -> None:
    text = of(repainted, form).replace("\\", "")
    sizes = [len(SVG.format(one)) for one in (40, 50, 60, 70)]
    names = ("clamped-plate.svg", "clamped-plate.svg", "first.svg", "second.svg")
    for name, width, size in zip(names, (40, 50, 60, 70), sizes, strict=True):
        assert f"{name}, {width} x 30 pixels, {size} bytes" in text
    assert "![" not in text, "a forge shows no file that lies in no revision"


def test_a_picture_too_large_for_the_page_is_named(
    repainted: tuple[Path, Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sides, "MOST_SHOWN", 10)
    html = of(repainted, "html")
    assert "<img" not in html
    assert html.count("(too large to show here)") == 4


def test_the_lists_of_a_preface_stay_lists(repainted: tuple[Path, Path]) -> None:
    html = of(repainted, "html")
    assert "<ul><li>Ask <del>once.</del></li></ul>" in re.sub(r"\s*\n", "", html)
    assert "<ul><li>Ask <ins>twice.</ins></li><li><ins>Wait</ins></li></ul>" in re.sub(
        r"\s*\n", "", html
    )
    markdown = of(repainted, "markdown")
    assert "  - before:\n    2. Ask once.\n  - after:\n    2. Ask twice.\n    3. Wait\n" in markdown
    text = of(repainted, "text")
    assert "      - 2. Ask once.\n      + 2. Ask twice.\n      + 3. Wait\n" in text
