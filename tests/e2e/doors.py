"""What stands on the first screen of a page, and the touches from home to a job's first step."""

from __future__ import annotations

from playwright.sync_api import Page

_SEEN = """css => { const one = Array.from(document.querySelectorAll(css)).find(
  found => found.getClientRects().length);
  if (!one) return false;
  const box = one.getBoundingClientRect();
  const x = box.left + box.width / 2, y = box.top + box.height / 2;
  if (box.top < -1 || box.bottom > innerHeight + 1) return false;
  const hit = document.elementFromPoint(x, y);
  return hit !== null && (one.contains(hit) || hit.contains(one)); }"""


def screens_high(page: Page) -> float:
    """How many screens the page is high."""
    return float(page.evaluate("document.documentElement.scrollHeight / innerHeight"))


def seen(page: Page, css: str) -> bool:
    """Whether the first such thing that is drawn stands whole on the screen, nothing over it."""
    return bool(page.evaluate(_SEEN, css))


def first_two_are_seen(page: Page) -> bool:
    """Whether who is called, and all four choices, come to stand on the screen by themselves."""
    wanted = (".bl-wrong__hurt", *(f".bl-wrong__choice:nth-child({n})" for n in range(1, 5)))
    for _ in range(50):  # a page may still be on its way there
        if all(seen(page, css) for css in wanted):
            return True
        page.wait_for_timeout(100)
    return False


def touches_to_first_step(page: Page, station: str, job: str) -> str:
    """From home to the first step of a job by touch: how many, or what is not on the screen."""
    ways = {
        f"main a[href='machines/{station}.html']": f"**/machines/{station}.html",
        f"main a[href='../jobs/{job}.html']": f"**/jobs/{job}.html",
        ".bl-ways-on [href='#bl-steps']": f"**/jobs/{job}.html#bl-steps",
        ".bl-steps-short li:first-child a": "**#follow",
    }
    for touch, (css, leads_to) in enumerate(ways.items(), 1):
        if not seen(page, css):
            return f"not on the screen at touch {touch}"
        page.locator(css).first.tap()
        page.wait_for_url(leads_to)
        if page.locator(".bl-step.bl-now").count():
            return f"{touch} touches"
    return "no step after four touches"
