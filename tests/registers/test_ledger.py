"""The registers of a shop that is taken over: no line of them can be lost or altered unseen."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache
from pathlib import Path
from types import MappingProxyType

import pytest

from benchleaf import pipeline, registers
from benchleaf.cli import main
from benchleaf.diagnose import Finding
from benchleaf.model import JobChanges
from benchleaf.read import Contents, Document, document_of
from benchleaf.registers.chain import START, link, links
from benchleaf.registers.taking_over import without_state
from registering import take_over
from running import is_nightly

ROOT = Path(__file__).parents[2]
NAMES = ("addresses", "revisions", "history", "tally")
Texts = Mapping[str, str]
NONE: Mapping[str, JobChanges] = MappingProxyType({})


@lru_cache(maxsize=1)
def lessons() -> Mapping[str, JobChanges]:
    """Those of the demo."""
    return registers.read_changed(ROOT / "content", {})


def texts_of(content: Path) -> dict[str, str]:
    return {name: (content / f"{name}.yml").read_text(encoding="utf-8") for name in NAMES}


@lru_cache(maxsize=8)
def read(name: str, text: str) -> tuple[Document | None, tuple[Finding, ...]]:
    """A register as it is read; those that stay the same are read once."""
    return document_of(text, name, f"content/{name}.yml")


def found_in(
    texts: Texts, nowhere: Path, changes: Mapping[str, JobChanges] = NONE
) -> tuple[Finding, ...]:
    """What is found in registers of these texts, with no repository to ask.

    `changes` are the records of what revisions changed, which the tally counts too.
    """
    documents: list[Document] = []
    found: list[Finding] = []
    for name, text in texts.items():
        document, problems = read(name, text)
        found += problems
        if document is not None:
            documents.append(document)
    unread = tuple((name, name) for name in texts if name not in {one.kind for one in documents})
    contents = Contents(tuple(documents), unread, ())
    ledger, damage = registers.read_ledger(contents, nowhere)
    _, more = registers.addresses(contents.documents)
    tally = ledger.tally if ledger else None
    lessons = registers.check_changed(tally, changes, contents, nowhere, is_damaged=bool(damage))
    return (*found, *damage, *more, *lessons)


def altered(text: str) -> Iterator[tuple[str, str]]:
    """Every text that differs by one entry gone, shortened, written over, or out of its place."""
    lines = text.splitlines(keepends=True)
    for at, line in enumerate(lines):
        if line.startswith("#"):
            continue
        before, after = lines[:at], lines[at + 1 :]
        yield f"line {at + 1} gone", "".join((*before, *after))
        yield f"line {at + 1} shortened", "".join((*before, line[: len(line) // 2], "\n", *after))
        last_letter = re.compile(r"[a-z](?=[^a-z]*$)")
        other = last_letter.sub(lambda one: "b" if one[0] == "a" else "a", line.rstrip())
        yield f"line {at + 1} written over", "".join((*before, other, "\n", *after))
        if line.startswith("  - ") and after and after[0].startswith("  - "):
            yield f"line {at + 1} out of place", "".join((*before, after[0], line, *after[1:]))
        if line.startswith("  - "):
            yield f"line {at + 1} twice", "".join((*before, line, line, *after))


def test_the_registers_of_the_demo_are_whole(tmp_path: Path) -> None:
    assert found_in(texts_of(ROOT / "content"), tmp_path, lessons()) == ()


def unseen(
    texts: Texts,
    name: str,
    every: Mapping[str, str],
    nowhere: Path,
    changes: Mapping[str, JobChanges] = NONE,
) -> list[str]:
    """What nobody would be told of, among the texts that one register may have come to hold."""
    return [
        what
        for what, text in every.items()
        if not any(
            one.blocks_publishing and one.help
            for one in found_in({**texts, name: text}, nowhere, changes)
        )
    ]


@pytest.mark.parametrize("name", NAMES)
def test_no_line_is_lost_or_altered_unseen(
    name: str, shop: Callable[..., Path], tmp_path: Path
) -> None:
    content = shop()
    take_over(content)
    texts = texts_of(content)
    every = dict(altered(texts[name]))
    assert len(every) > 8
    assert unseen(texts, name, every, tmp_path) == []


@pytest.mark.parametrize("name", NAMES)
def test_no_line_of_the_demo_is_lost_unseen(name: str, tmp_path: Path) -> None:
    texts = texts_of(ROOT / "content")
    every = [(what, text) for what, text in altered(texts[name]) if what.endswith("gone")]
    shown = dict(every if is_nightly() or len(every) < 100 else every[::20])
    assert len(shown) > 2
    assert unseen(texts, name, shown, tmp_path, lessons()) == []


@pytest.mark.parametrize("name", NAMES)
def test_a_register_that_is_gone_is_told(name: str, tmp_path: Path) -> None:
    texts = texts_of(ROOT / "content")
    del texts[name]
    assert {one.code for one in found_in(texts, tmp_path)} & {"A603", "A606"}


def test_a_register_that_lost_its_tail_is_told_how_much(tmp_path: Path) -> None:
    texts = texts_of(ROOT / "content")
    lines = texts["revisions"].splitlines(keepends=True)
    (found,) = found_in({**texts, "revisions": "".join(lines[:-3])}, tmp_path, lessons())
    assert found.text == "the register of revisions is damaged: its last 3 entries are gone"


def test_a_link_binds_all_before_it() -> None:
    assert list(links(["a", "b"])) == [link(START, "a"), link(link(START, "a"), "b")]
    assert list(links(["b", "b"]))[1] != list(links(["a", "b"]))[1]


def test_nothing_else_changes_where_a_shop_is_taken_over(shop: Callable[..., Path]) -> None:
    content = shop()
    before = pipeline.load(content)
    take_over(content)
    after = pipeline.load(content)
    assert after.shop.jobs == before.shop.jobs
    assert after.fingerprints == before.fingerprints
    assert after.findings == before.findings == ()
    kept = [one for entries in after.revisions.by_job.values() for one in entries]
    assert {one.job for one in kept} == {"vg-0010", "vg-0020"}


def test_published_entries_keep_their_bytes(shop: Callable[..., Path]) -> None:
    content = shop()
    assert main(["register", str(content)]) == 0
    before = (content / "revisions.yml").read_text(encoding="utf-8").splitlines()
    assert main(["release", str(content), "--take-over"]) == 0
    after = (content / "revisions.yml").read_text(encoding="utf-8").splitlines()
    entries = [line for line in before if line.startswith("  - ")]
    bare = [re.sub(r', link: "[0-9a-f]{16}"\}$', "}", line) for line in after if line[:4] == "  - "]
    assert len(entries) == 2
    assert bare == entries


def test_a_shop_that_is_not_in_order_is_not_taken_over(
    shop: Callable[..., Path], capsys: pytest.CaptureFixture[str]
) -> None:
    content = shop()
    assert main(["register", str(content)]) == 0
    path = content / "jobs" / "vg-0010.yml"
    path.write_text(path.read_text(encoding="utf-8").replace("+0.1/-0", "+0.2/-0"))
    job = path.read_bytes()
    assert main(["release", str(content), "--take-over"]) == 1
    assert "A604" in capsys.readouterr().out
    assert path.read_bytes() == job
    assert not (content / "history.yml").exists()


def test_a_shop_that_is_not_taken_over_cannot_release(
    shop: Callable[..., Path], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["release", str(shop())]) == 2
    assert "take the shop over, once: benchleaf release --take-over" in capsys.readouterr().err


def test_a_shop_that_is_taken_over_registers_by_release_only(
    shop: Callable[..., Path], capsys: pytest.CaptureFixture[str]
) -> None:
    content = shop()
    take_over(content)
    assert main(["register", str(content)]) == 2
    assert "written by `benchleaf release`" in capsys.readouterr().err
    assert main(["release", str(content), "--take-over"]) == 2
    assert "taken over already" in capsys.readouterr().err


def test_a_branch_from_before_is_put_right_by_the_same_command(shop: Callable[..., Path]) -> None:
    content = shop()
    former = (content / "jobs" / "vg-0010.yml").read_text(encoding="utf-8")
    take_over(content)
    (content / "jobs" / "vg-0010.yml").write_text(former, encoding="utf-8")
    assert [one.code for one in pipeline.check(content)] == ["A611"]
    assert main(["release", str(content), "--take-over"]) == 0
    assert pipeline.check(content) == ()


def test_only_the_keys_of_the_revision_are_taken_out() -> None:
    text = (
        "id: VG-0010\n# a comment stays\nrevision: 2\nchange_note: >-\n  One\n\n  two\n"
        "history:\n  - revision: 1\n    note: First.\n- odd\nmakes: A hole\n"
    )
    assert without_state(text) == "id: VG-0010\n# a comment stays\nmakes: A hole\n"


def test_a_manual_without_jobs_begins_with_empty_registers(shop: Callable[..., Path]) -> None:
    content = shop(
        {f"jobs/vg-00{number}0.yml": None for number in (1, 2)}
        | {"addresses.yml": None, "onboarding/first-days.yml": None}
    )
    assert main(["release", str(content), "--take-over"]) == 0
    assert "history: []\n" in (content / "history.yml").read_text(encoding="utf-8")
    codes = {one.code for one in pipeline.check(content)}
    assert codes.isdisjoint({"A602", "A603", "A604", "A605", "A606"})


def test_a_revision_without_its_entry_is_told(shop: Callable[..., Path], tmp_path: Path) -> None:
    content = shop()
    take_over(content)
    loaded = pipeline.load(content)
    assert loaded.ledger is not None
    entries = [one for one, _ in loaded.ledger.entries if one.job != "vg-0020"]
    history = [one for one, _ in loaded.ledger.history]
    made = registers.register_texts(registers.Ledger(), loaded.registered, entries, history, {})
    texts = {name.removesuffix(".yml"): text for name, text in made.items()}
    (found,) = found_in(texts, tmp_path)
    assert found.text.endswith("it has no entry for revision A of VG-0020")
