"""A photograph with marks in a real browser: the right copy, and each mark on its place."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image

from build_demo import forked_build
from visitor import Visitor

MARKED = """\
file: vice.jpg
      marks:
        - {mark: ring, at: {across: 1000, down: 500}, radius: 200}
        - {mark: arrow, at: {across: 1000, down: 500}, tail: {across: 200, down: 300}}
        - {mark: number, at: {across: 300, down: 900}, number: 2}
"""
PAGE = "jobs/vg-0010.html"
MIDDLES = """() => [...document.querySelectorAll(".bl-marked")].filter(one => one.offsetParent)
    .map(one => {
        const box = one.querySelector("img").getBoundingClientRect();
        const ring = one.querySelector(".bl-marks__ring").getBoundingClientRect();
        return [box.width, (ring.left + ring.right) / 2 - (box.left + box.right) / 2,
                (ring.top + ring.bottom) / 2 - (box.top + box.bottom) / 2];
    })"""
"""Of each marked picture that shows: its width, and how far the ring in its middle lies off."""


@pytest.fixture
def site(built: Path) -> Path:
    """The small shop with a photograph that lies on its side, marked, in its clamping step."""
    exif = Image.Exif()
    exif[0x0112], exif[0x013B] = 6, "WHO TOOK IT"
    path = built / "content/pictures/vice.jpg"
    Image.new("RGB", (1000, 2000), (150, 160, 150)).save(path, exif=exif)
    assert b"WHO TOOK IT" in path.read_bytes()
    job = built / "content/jobs/vg-0010.yml"
    text = job.read_text(encoding="utf-8")
    assert "file: clamped-plate.svg\n" in text
    job.write_text(text.replace("file: clamped-plate.svg\n", MARKED), encoding="utf-8")
    done = forked_build(built)
    assert done.returncode == 0, done.stderr
    return built / "site"


def _middles(visitor: Visitor) -> list[list[float]]:
    found: list[list[float]] = visitor.page.evaluate(MIDDLES)
    return found


def test_a_marked_photograph_from_camera_to_kiosk(
    site: Path, visit: Callable[..., Visitor]
) -> None:
    published = {path.parent.name: path for path in site.rglob("vice.jpg")}
    assert set(published) == {"pictures-480", "pictures-960", "pictures"}
    assert all(b"WHO TOOK IT" not in path.read_bytes() for path in published.values())
    chosen = {}
    for size in ((390, 844), (1080, 1920)):
        visitor = visit(size)
        visitor.page.goto((site / PAGE).as_uri() + "#clamp")
        picture = visitor.page.locator(".bl-marked img")
        picture.scroll_into_view_if_needed()
        visitor.page.wait_for_function(
            "() => { const one = document.querySelector('.bl-marked img');"
            " return one.complete && one.naturalWidth > 0; }"
        )
        chosen[size[0]] = picture.evaluate("one => one.currentSrc.split('/').slice(-2)[0]")
        (page_box,) = _middles(visitor)
        assert page_box[1:] == pytest.approx([0, 0], abs=1.5)
        picture.click()
        visitor.page.locator(".bl-large .bl-marked").wait_for()
        for box in _middles(visitor):
            assert box[1:] == pytest.approx([0, 0], abs=1.5)
        assert max(box[0] for box in _middles(visitor)) >= page_box[0]
    assert chosen == {390: "pictures-480", 1080: "pictures-960"}


def test_marks_stay_on_their_place_in_print(site: Path, visit: Callable[..., Visitor]) -> None:
    visitor = visit((1080, 1920))
    visitor.page.emulate_media(media="print")
    visitor.page.goto((site / PAGE).as_uri())
    (box,) = _middles(visitor)
    assert box[0] > 200
    assert box[1:] == pytest.approx([0, 0], abs=1.5)
