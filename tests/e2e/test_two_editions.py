"""Nothing of the trainer's, and of no person, is in any byte of the kiosk's edition."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from build_demo import MKDOCS_YML, SAID, forked_build

NOTE = "quizzlewick"  # stands in the note of a step for its trainer
PLANTED = "sorrelthwaite"  # what is set wrong on purpose
RIGHT = "fernwhistle"  # and put right
PROP = "mossgangle"  # what the lesson needs
CONTACT = "heatherclasp"  # where the trainer touches a hand
REASON = "brambleknot"  # why a warning is accepted: the engineer's
SHIFT = "thistledown"  # a shift of the crew
PERSON = "zq-990711"  # somebody's staff code
TRAINER = "zt-880622"
BREAKDOWN = "content/jobs/vg-0010.yml"
OWN_WORDS = ("one thing will be wrong", "pull by number", "spring balance", "hand contact")
"""What our own templates say to a trainer alone."""
SECRETS = (NOTE, PLANTED, RIGHT, PROP, CONTACT, REASON, SHIFT, PERSON, TRAINER, *OWN_WORDS)
CREW = Path(__file__).parents[1] / "crew"


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory, base_shop: dict[str, str]) -> Path:
    """A folder with both editions of the small shop, its crew beside it."""
    folder = tmp_path_factory.mktemp("editions")
    for name, text in base_shop.items():
        _write(folder / "content" / name, text)
    _mark_job(folder / BREAKDOWN)
    for path in sorted(CREW.rglob("*.yml")):
        text = path.read_text(encoding="utf-8").replace("Early shift", SHIFT)
        text = text.replace("op-01", PERSON).replace("tr-01", TRAINER)
        name = path.relative_to(CREW).as_posix().replace("op-01", PERSON)
        _write(folder / "crew" / name, text)
    for edition in ("kiosk", "full"):
        options = f"      edition: {edition}\n      crew_dir: crew\n"
        plugin = MKDOCS_YML.replace("  - benchleaf\n", f"  - benchleaf:\n{options}")
        _write(folder / "mkdocs.yml", plugin)
        done = forked_build(folder)
        assert done.returncode == 0, done.stderr
    return folder


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


def _mark_job(path: Path) -> None:
    job = yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)
    job["steps"][0]["trainer"] = f"Say the word {NOTE} first."
    job["steps"][0]["planted"] = {"what": f"A {PLANTED}.", "put_right": f"Put the {RIGHT} back."}
    job["steps"][0]["props"] = [f"A {PROP}"]
    job["steps"][0]["hand_contact"] = f"Only by {CONTACT}."
    job["accept"] = [{"code": "V506", "reason": f"The {REASON} holds them."}]
    _write(path, yaml.safe_dump(job, sort_keys=False, width=1000))


def _found(site: Path) -> dict[str, set[str]]:
    """Each secret, and the files whose name or bytes hold it, whatever the case."""
    found: dict[str, set[str]] = {secret: set() for secret in SECRETS}
    for path in site.rglob("*"):
        name = path.relative_to(site).as_posix()
        data = path.read_bytes().lower() if path.is_file() else b""
        for secret in SECRETS:
            if secret.encode() in data or secret in name.lower():
                found[secret].add(name)
    return found


def test_no_byte_of_the_kiosk_edition_is_the_trainers(both: Path) -> None:
    site = both / "site"
    assert len(list(site.rglob("*.html"))) > 20
    assert {secret: files for secret, files in _found(site).items() if files} == {}
    names = {path.name for path in site.rglob("*")}
    others = ("trainer", "engineer", "crew", "guide")
    assert not {name for name in names if name.startswith(others)}


def test_the_full_edition_holds_what_the_kiosk_must_not(both: Path) -> None:
    """Else the test above would search for words that nobody ever writes."""
    found = _found(both / "site-full")
    for secret in (NOTE, PLANTED, RIGHT, PROP, "one thing will be wrong", "pull by number",
                   "spring balance"):  # fmt: skip
        assert "trainer.html" in found[secret], secret
    for secret in (PLANTED, RIGHT, PROP, CONTACT, "hand contact"):
        assert "trainer/vg-0010-breakdown.html" in found[secret], secret
    assert "trainer/vg-0010-get-ready.html" in found[PROP]
    assert "trainer/vg-0010-try-out.html" in found[RIGHT]
    for secret in (SHIFT, PERSON, TRAINER):
        assert "timetable.html" in found[secret], secret


def test_the_kiosk_build_says_what_no_page_can_do(first_build: Path) -> None:
    said = (first_build / SAID).read_text(encoding="utf-8")
    assert "cannot clear the browser's Back history" in said
