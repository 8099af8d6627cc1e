"""The walk of one job in another browser, where one is installed."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from firefox import PROGRAM, Firefox

from build_demo import KIOSK, demo_shop

JOB = "tr-0110"
NEXT = """const now = document.querySelector('.bl-now.bl-asks');
  const right = [...document.querySelectorAll('.bl-now [data-control]')].map(
    one => one.dataset.control);
  document.querySelectorAll('[data-press]').forEach(one => one.removeAttribute('data-press'));
  const answers = (now ? [...now.querySelectorAll('.bl-answer, .bl-ack')] : []).filter(
    one => one.checkVisibility({visibilityProperty: true}));
  const one = answers.find(each => right.includes(each.textContent)) || answers.find(
    each => each.matches('.bl-ack')) || document.querySelector("[data-do='next']");
  if (one.hidden) return '';
  one.setAttribute('data-press', '');
  return document.querySelector('.bl-bottom__count').textContent;"""
"""Mark what is pressed next; where one is, or nothing at the end."""
SAYS_DAMAGED = """const one = document.querySelector('.bl-seal');
  return one.checkVisibility() ? one.textContent : '';"""


@pytest.mark.skipif(not PROGRAM, reason="no Firefox is installed here")
def test_the_walk_of_one_job_in_firefox(demo: Path, tmp_path: Path) -> None:
    job = demo_shop().jobs[JOB]
    (tmp_path / "profile").mkdir()
    with Firefox(tmp_path / "profile", KIOSK) as browser:
        browser.open((demo / f"jobs/{JOB}.html").as_uri())
        assert browser.run("return document.querySelector('h1').textContent").endswith(job.title)
        browser.open((demo / f"jobs/{JOB}.html").as_uri() + "#follow")
        browser.wait("return document.documentElement.classList.contains('bl-stepping')")
        browser.run("window.benchleafFollow.again = 0")
        seen: list[str] = []
        for _ in range(60):
            at = browser.run(NEXT)
            if not at:
                break
            seen.append(at)
            browser.press("[data-press]")
        steps = dict.fromkeys(one[:6] for one in seen if one.startswith("Step"))
        assert list(steps) == [f"Step {n}" for n in range(1, len(job.steps) + 1)]
        assert browser.run("return document.querySelector('.bl-extra h2').textContent") == (
            "You have seen every step"
        )
        browser.press(".bl-top [data-tool='search']")
        browser.run(
            "const box = document.getElementById('bl-search-input'); box.value = 'tr120';"
            "box.dispatchEvent(new Event('input', {bubbles: true}));"
        )
        browser.wait("return document.querySelector('.bl-found')?.textContent.includes('TR-0120')")
        assert not browser.run(SAYS_DAMAGED)
        for name in ("index.html", "safety.html", f"machines/{job.machine}.html", "see.html"):
            browser.open((demo / name).as_uri())
            assert not browser.run(SAYS_DAMAGED), name
        damaged = Path(shutil.copytree(demo, tmp_path / "damaged"))
        sheet = damaged / "assets/benchleaf/steps.css"
        sheet.write_bytes(sheet.read_bytes()[:9000])
        browser.open((damaged / f"jobs/{JOB}.html").as_uri())
        assert browser.run(SAYS_DAMAGED).endswith("steps.css is not whole, or of another build")
        browser.open((damaged / "index.html").as_uri())  # which needs no such sheet
        assert not browser.run(SAYS_DAMAGED)
