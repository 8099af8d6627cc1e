"""The script files that hold the meanings of terms."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

from benchleaf import pipeline
from benchleaf.html.meanings import meaning_files
from benchleaf.html.site_facts import ASSETS_ADDRESS
from benchleaf.model import Term

HEAD, TAIL = "Object.assign(benchleafTerms, ", ");\n"


def _plain(text: str) -> str:
    return text


def _entries(script: str) -> dict[str, list[str]]:
    assert script.startswith(HEAD)
    assert script.endswith(TAIL)
    entries: dict[str, list[str]] = json.loads(script[len(HEAD) : -len(TAIL)])
    return entries


def test_every_term_is_in_the_file_of_its_first_letter(shop: Callable[..., Path]) -> None:
    loaded = pipeline.load(shop())
    scripts = dict(pipeline.plan_site(loaded).texts)
    assert set(loaded.shop.terms) == {key for text in scripts.values() for key in _entries(text)}
    for term in loaded.shop.terms.values():
        name = f"{ASSETS_ADDRESS}/terms/{term.id[0]}.js"
        assert _entries(scripts[name])[term.id] == [term.word, term.meaning]


def test_links_and_markup_of_a_meaning_become_words(
    shop: Callable[..., Path], edited: Callable[..., dict[str, str]]
) -> None:
    files = edited("terms.yml", "The sharp edge a", "The *sharp* edge of [[VG-0010]] a")
    loaded = pipeline.load(shop(files))
    scripts = dict(pipeline.plan_site(loaded).texts)
    title = loaded.shop.jobs["vg-0010"].title
    (meaning,) = (text for name, text in scripts.items() if name.endswith("/b.js"))
    assert _entries(meaning)["burr"][1].startswith(f"The sharp edge of VG-0010 {title} a")


def test_no_sign_in_a_meaning_ends_the_script() -> None:
    nasty = 'a"b\\c</script>\u2028d\u00e9</SCRIPT><!--'
    files = meaning_files([Term(id="burr", word="burr", meaning=nasty)], _plain)
    text = files["terms/b.js"]
    assert text.isascii()
    assert text.count("\n") == 1
    assert _entries(text)["burr"] == ["burr", " ".join(nasty.split())]


def test_a_page_needs_a_small_part_of_1000_terms() -> None:
    """One touch loads one file: a tenth of all at most, even where a letter is a favourite."""
    words = [f"{letter}{n:03d}" for letter in "abcdefghiklmnoprstuvw" for n in range(48)]
    meaning = "One of the hard faces that grip. A vice has two jaws and a chuck has three."
    terms = [Term(id=word, word=word, meaning=meaning) for word in words]
    sizes = [len(text) for text in meaning_files(terms, _plain).values()]
    assert len(words) > 1000
    assert max(sizes) < 8_000
