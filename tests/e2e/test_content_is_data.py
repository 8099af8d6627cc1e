"""Content is data: whatever a text field holds comes out as text, and nothing in it ever runs."""

from __future__ import annotations

import re
import types
from collections.abc import Callable, Iterator
from html.parser import HTMLParser
from pathlib import Path
from typing import Annotated, Any, Union, get_args, get_origin

import pytest
import yaml
from pydantic.fields import FieldInfo

from benchleaf import pipeline
from benchleaf.model import KINDS, Manual, Picture, Record, stands_at
from benchleaf.model.accepted import Accepted
from benchleaf.model.hazard import WrongAnswers
from benchleaf.model.ids import RunningText, ShortText
from benchleaf.model.job import Revised
from benchleaf.model.marks import Area, Each, Example, Order, Trait
from benchleaf.model.piece_rate import PieceRate
from benchleaf.model.setup import FeedStop, PositiveStop
from benchleaf.model.stations import GrindingWheel, Spindle
from benchleaf.model.teaching_aids import HandsInside, NotMet, Tray
from benchleaf.model.things import TappingFactors, TaylorConstants
from benchleaf.model.torque_limit import TorqueLimit
from build_demo import KIOSK, MKDOCS_YML, forked_build

ATTACK = (
    "{} <script>window.ran=1</script><img src=x onerror=window.ran=1> "
    "[go](javascript:window.ran=1) <a href='javascript:window.ran=1'>go</a> "
    '</title></style></textarea>--> " onmouseover="window.ran=1" <b onclick="window.ran=1">b</b> '
    "<iframe srcdoc='<script>parent.ran=1</script>'></iframe> {{{{ 1234567 * 7 }}}} &lt;i&gt;"
)
SHORT_ATTACK = "{} <script>window.ran=1</script>"
OTHER_ATTACKS = {
    "WrongAnswers.answers": "{} </template><svg onload=ran=1></svg><a href=javascript:ran=1>m</a>"
}
"""In words of its own: a wrong answer that shares most words with a control is refused."""
ALSO_AN_ADDRESS = {"Part.number"}
"""Its letters and digits name a file, which must not grow too long for a disk."""
SAME_AS = {"CuttingSpeed.tool_material": "Tool.tool_material"}
"""Two texts that must be equal, or no speed is found."""
NOT_FREE = {
    "Manual.preface",
    "Manual.own_words",
    "Accepted.code",
    "CuttingSpeed.operation",
    "Item.page",
    "FirstHelp.page",
}
"""Names of a file, of terms, of codes: what they may hold is checked."""
NEEDED: dict[type[Record], dict[str, Any]] = {
    Picture: {"file": "clamped-plate.svg"},
    Accepted: {"code": "V505"},
    Revised: {"revision": "1", "effective": "2025-03-03"},
    TappingFactors: {"kc": "2100", "tap_factor": "1.5"},
    FeedStop: {"feed": "0.4 mm/rev"},
    TorqueLimit: {"torque": "60 N m", "kind": "breaking"},
    PositiveStop: {"rated_force": "2 kN", "arm": "90 mm"},
    TaylorConstants: {"exponent": "0.12", "c": "40 m/min"},
    PieceRate: {"elements": [{"time": "26 s"}], "allowances": [{"percent": "5"}]},
    HandsInside: {"doing": "servicing", "protected_by": "lock"},
    NotMet: {"hazard": "elsewhere"},
    WrongAnswers: {"approved": "2026-03-09"},
    Tray: {"kind": "tote", "rows": "1", "in_a_row": "4", "diameter": "8 mm", "gap": "2 mm"},
    Spindle: {"id": "left", "efficiency": "0.8"},
    GrindingWheel: {"work_rest_gap": "3 mm", "tongue_gap": "6 mm", "wheel_rated_speed": "4000 rpm"},
}
"""What a record cannot be without, besides text."""
MORE_SET_UPS = {
    "tap": {"operation": "tapping", "thread": "M8", "hole": "through", "thread_length": "6 mm",
            "turned_by": "tap wrench"},
    "reamer": {"operation": "reaming", "tolerance": "H7", "depth": "6 mm"},
    "countersink": {"operation": "countersinking", "hole_diameter": "8 mm", "mouth": "10 mm"},
    "counterbore": {"operation": "counterboring", "screw": "M8"},
}  # fmt: skip
"""A set-up for each further kind of tool."""
NEVER_SHOWN_TO_READERS = {
    "Step.trainer", "Step.props", "Step.hand_contact",
    "PlantedFault.what", "PlantedFault.put_right",
    "Accepted.reason", "PieceRate.source",
}  # fmt: skip
OUR_ADDRESSES = re.compile(r"^(?![a-z][a-z0-9+.-]*:|//)", re.IGNORECASE)


class _Attacker:
    """Fills the text fields of a record's document, and notes which fields those were."""

    def __init__(self) -> None:
        self.filled: set[str] = set()

    def fill(self, model: type[Record], document: dict[str, Any]) -> dict[str, Any]:
        """`document` with every text field of `model` set; other fields stay as they are."""
        for name, field in model.model_fields.items():
            label = f"{model.__name__}.{name}"
            if label in NOT_FREE or not stands_at(model, name, document.get("kind", "machine")):
                continue
            value = self._value(_kind(field), document.get(name), label)
            if value is not None:
                document[name] = value
        return document

    def _value(self, kind: Any, now: Any, label: str) -> Any:
        kind = _without_none(kind)
        if _is_text(kind):
            self.filled.add(label)
            usual = SHORT_ATTACK if label in ALSO_AN_ADDRESS else ATTACK
            attack = OTHER_ATTACKS.get(label, usual)
            return attack.format(SAME_AS.get(label, label))
        if kind is Picture:
            return self.fill(Picture, {**NEEDED[Picture], **(now or {})})
        if get_origin(kind) is tuple:
            return self._items(get_args(kind)[0], now, label)
        return self._nested(kind, now)

    def _items(self, kind: Any, now: Any, label: str) -> Any:
        if _is_text(kind):
            return [self._value(kind, None, label)]
        items = now or [None]
        made = [self._value(kind, item, label) for item in items]
        return now if None in made else made

    def _nested(self, kind: Any, now: Any) -> Any:
        for model in _inside(kind):
            if not (isinstance(model, type) and issubclass(model, Record)):
                continue
            if now is None and not _needs_text_only(model) and model not in NEEDED:
                continue
            if now is not None and not set(now) <= set(model.model_fields):
                continue
            return self.fill(model, {**NEEDED.get(model, {}), **(now or {})})
        return now


SAYS_NO_LIMIT = (RunningText, ShortText, Area, Each, Example, Order, Trait)
"""Marks that leave a text free to be anything."""


def _kind(field: FieldInfo) -> Any:
    """The type of a field, with the marks that pydantic keeps apart."""
    marked = field.annotation is str and field.metadata
    return Annotated[str, *field.metadata] if marked else field.annotation


def _without_none(kind: Any) -> Any:
    if get_origin(kind) in (Union, types.UnionType):
        rest = [one for one in get_args(kind) if one is not type(None)]
        return rest[0] if len(rest) == 1 else kind
    return kind


def _is_text(kind: Any) -> bool:
    if get_origin(kind) is Annotated:
        base, *marks = get_args(kind)
        return base is str and all(isinstance(mark, SAYS_NO_LIMIT) for mark in marks)
    return kind is str


def _needs_text_only(model: type[Record]) -> bool:
    return all(
        _is_text(_kind(field)) or not field.is_required() for field in model.model_fields.values()
    )


def _attacked(content: Path) -> set[str]:
    """Fill every record of a content folder, and name the fields that were filled."""
    attacker = _Attacker()
    _add_set_ups(content)
    _add_hazard(content)
    _add_stations(content)
    for kind, model in KINDS.items():
        for path in sorted((content / kind).glob("*.yml")):
            document = yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)
            _write(path, attacker.fill(model, document))
    terms = content / "terms.yml"
    entries = yaml.load(terms.read_text(encoding="utf-8"), yaml.BaseLoader)["terms"]
    _write(terms, {"terms": [attacker.fill(KINDS["terms"], one) for one in entries[:1]]})
    manual = content / "manual.yml"
    document = yaml.load(manual.read_text(encoding="utf-8"), yaml.BaseLoader)
    document.pop("own_words")
    _write(manual, attacker.fill(Manual, document))
    return attacker.filled


def _add_set_ups(content: Path) -> None:
    path = content / "jobs/vg-0010.yml"
    job = yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)
    for kind, set_up in MORE_SET_UPS.items():
        job["set_ups"].append({**set_up, "id": f"with-{kind}", "title": "t", "tool": f"a-{kind}"})
        job["tools"].append(f"a-{kind}")
        tool = {"id": f"a-{kind}", "name": "t", "kind": kind, "what": "t", "size": "8 mm"}
        _write(content / f"tools/a-{kind}.yml", tool)
    _write(path, job)


def _add_hazard(content: Path) -> None:
    """One more hazard of the machine, which no step names: a job may say that it is not met."""
    hazard = content / "hazards/work-turns.yml"
    text = hazard.read_text(encoding="utf-8").replace("id: work-turns", "id: elsewhere")
    (content / "hazards/elsewhere.yml").write_text(text, encoding="utf-8")
    path = content / "machines/bench-drill.yml"
    machine = yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)
    machine["hazards"].append("elsewhere")
    _write(path, machine)


def _add_stations(content: Path) -> None:
    """A bench, and a machine with two spindles: some keys stand at these alone."""
    facts = {"name": "t", "what": "t", "where": "t"}
    bench = {"id": "a-bench", "kind": "bench", **facts}
    twin = {"id": "a-twin", "kind": "machine with several spindles", **facts}
    _write(content / "machines/a-bench.yml", bench)
    controls = dict.fromkeys(("start", "stop", "emergency_stop", "isolation"), "t")
    _write(content / "machines/a-twin.yml", {**twin, "controls": controls})


def _write(path: Path, document: dict[str, Any]) -> None:
    text = yaml.safe_dump(document, width=100_000, sort_keys=False)
    path.write_text(text, encoding="utf-8")


class _Scan(HTMLParser):
    """Every way in which a page could run something, and the words that it shows."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.faults: list[str] = []
        self.words: list[str] = []
        self._in_script = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = {key: value or "" for key, value in attrs}
        self._in_script = tag == "script"
        self.faults += [f"<{tag} {key}>" for key in found if key.startswith("on")]
        self.faults += [f"<{tag}>" for _ in "." if tag in ("iframe", "object", "embed", "base")]
        if tag == "script" and not found.get("src", "").split("../")[-1].startswith("assets/"):
            self.faults.append(f"<script {found}>")
        for key in ("href", "src", "action", "formaction", "srcdoc", "style"):
            value = found.get(key)
            if value is not None and (key == "style" or not OUR_ADDRESSES.match(value.strip())):
                self.faults.append(f"<{tag} {key}={value!r}>")

    def handle_data(self, data: str) -> None:
        self.words.append(data)
        if self._in_script and data.strip():
            self.faults.append(f"inline script {data[:40]!r}")


@pytest.fixture(scope="module")
def attacked(
    tmp_path_factory: pytest.TempPathFactory, base_shop: dict[str, str]
) -> tuple[Path, set[str]]:
    """The small shop with every text field attacked, built; and the names of those fields."""
    folder = tmp_path_factory.mktemp("attacked")
    for name, text in base_shop.items():
        if name == "addresses.yml":  # terms are taken out, so published addresses would be gone
            continue
        path = folder / "content" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    filled = _attacked(folder / "content")
    (folder / "content/pages/notes.md").write_text(
        "# Notes\n\nSee [[VG-0010]], [[machine:bench-drill]] and [[term:burr]].\n", encoding="utf-8"
    )
    (folder / "mkdocs.yml").write_text(MKDOCS_YML, encoding="utf-8")
    done = forked_build(folder)
    assert done.returncode == 0, done.stderr
    return folder, filled


def _pages(folder: Path) -> Iterator[tuple[str, str]]:
    """Every page of the kiosk's edition as built, and every article of the full edition."""
    for path in sorted((folder / "site").rglob("*.html")):
        yield f"site/{path.relative_to(folder / 'site')}", path.read_text(encoding="utf-8")
    loaded = pipeline.load(folder / "content")
    for planned in pipeline.plan_site(loaded, edition="full").pages:
        yield planned.address, planned.render().html


def _text_fields(model: type[Record], seen: set[type[Record]]) -> Iterator[str]:
    if model in seen:
        return
    seen.add(model)
    for name, field in model.model_fields.items():
        for one in _inside(_kind(field)):
            if _is_text(one):
                yield f"{model.__name__}.{name}"
            elif isinstance(one, type) and issubclass(one, Record):
                yield from _text_fields(one, seen)


def _inside(kind: Any) -> Iterator[Any]:
    yield kind
    if get_origin(kind) is Annotated:
        kind = get_args(kind)[0]
    for one in get_args(kind):
        yield from _inside(one)


def test_every_text_field_of_every_kind_is_attacked(attacked: tuple[Path, set[str]]) -> None:
    seen: set[type[Record]] = set()
    models: tuple[type[Record], ...] = (*KINDS.values(), Manual)
    every = {label for model in models for label in _text_fields(model, seen)}
    assert len(every) > 80
    assert sorted(every - attacked[1] - NOT_FREE) == []


def test_no_page_holds_anything_that_runs(attacked: tuple[Path, set[str]]) -> None:
    shown: set[str] = set()
    for name, html in _pages(attacked[0]):
        scan = _Scan()
        scan.feed(html)
        scan.close()
        assert scan.faults == [], name
        words = "".join(scan.words)
        assert "8641969" not in words, name
        shown |= {label for label in attacked[1] if label in words and name.startswith("site/")}
    assert "Job.matters" in shown
    assert shown.isdisjoint(NEVER_SHOWN_TO_READERS)


def test_nothing_runs_in_the_browser(
    attacked: tuple[Path, set[str]], visit: Callable[..., Any]
) -> None:
    visitor = visit(KIOSK)
    site = attacked[0] / "site"
    a_page_of_each_kind = {path.parent: path for path in sorted(site.glob("*/*.html"))}.values()
    for path in (*a_page_of_each_kind, site / "index.html", site / "terms.html"):
        page = visitor.open(site, path.relative_to(site).as_posix())
        assert page.evaluate("window.ran") is None, path.name
    page = visitor.open(site, "notes.html")
    page.locator("main a[href='terms.html#burr']").tap()
    meaning = page.locator(".bl-meaning__text")
    meaning.wait_for()
    assert "<script>window.ran=1</script>" in meaning.inner_text()
    assert page.evaluate("window.ran") is None
    assert visitor.strays == []
