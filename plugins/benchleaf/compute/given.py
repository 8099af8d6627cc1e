"""Reads what is given to `benchleaf reckon`: texts like `7/8 in` to values in their domain."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from benchleaf.formulas import clearance_holes, drill_sizes, fits
from benchleaf.formulas.jaw_friction import JAW_FRICTION, METAL_FACTOR
from benchleaf.formulas.learning_curve import MOST_PIECES, PERCENT_RANGE
from benchleaf.formulas.quantities import KINDS, QuantityError, parse_quantity
from benchleaf.formulas.spread import CLAMP, CUTS
from benchleaf.formulas.threads import thread

from .domains import DOMAINS, Domain
from .operation import Elements, Feeds, Given, Input, Observed, Operation, Trials

_PERCENT = (40.0, 100.0)
"""Percentages of thread that anybody wants; a share such as 0.75 is a slip."""
_DRILL_MM = (0.1, 100.0)


class InputError(ValueError):
    """Something given that cannot be taken; `cure` says what to give instead."""

    def __init__(self, problem: str, cure: str) -> None:
        super().__init__(problem)
        self.problem = problem
        self.cure = cure


def value_of(operation: Operation, name: str, text: str) -> Given:
    """What a text says for an input; raises InputError, also outside its domain."""
    known = operation.inputs.get(name)
    if known is None:
        raise InputError(f"'{name}' is no input of {operation.name}", "")
    value = _read(name, known, text, zero=name in operation.zero_unless_given)
    domain = DOMAINS.get(name)
    if isinstance(value, float) and domain is not None and not domain.holds(value):
        raise InputError(f"{name}: '{text}' is outside {domain.text}", domain.why)
    return value


def _read(name: str, known: Input, text: str, *, zero: bool) -> Given:
    try:
        reader = _READERS.get(known.kind)
        return reader(text) if reader else _quantity(known.kind, text, zero=zero)
    except QuantityError as error:
        raise InputError(f"{name}: {error.problem}", error.cure) from error
    except ValueError as error:
        raise InputError(f"{name}: '{text}' cannot be taken", str(error)) from error


def _quantity(kind: str, text: str, *, zero: bool = False) -> float:
    value = parse_quantity(text, kind).value
    if value == 0 and not zero:
        raise QuantityError(f"'{text}' is zero", f"a {KINDS[kind].name} is above zero here")
    return value


def _drill(text: str) -> float:
    if drill_sizes.is_known(text):
        return drill_sizes.diameter_mm(text)
    value = _quantity("length", text)
    if not _DRILL_MM[0] <= value <= _DRILL_MM[1]:
        raise QuantityError(f"'{text}' is no size of a drill", "0.1 mm to 100 mm")
    return value


def _class(text: str) -> str:
    fits.limits(text, 20.0)
    return text


def _error(text: str) -> float:
    """How far off: to which side does not matter, and nothing is as good as anything."""
    return _quantity("length", text.strip().lstrip("+-−"), zero=True)


def _hole_class(text: str) -> str:
    if not text[:1].isupper():
        raise ValueError("the class of a hole begins with a capital, like H7")
    return _class(text)


def _shaft_class(text: str) -> str:
    if not text[:1].islower():
        raise ValueError("the class of a shaft begins with a small letter, like g6")
    return _class(text)


def _series(text: str) -> str:
    if text not in clearance_holes.HOLE_SERIES:
        raise ValueError(f"write one of {', '.join(clearance_holes.HOLE_SERIES)}")
    return text


def _percent(text: str) -> float:
    low, high = _PERCENT
    value = _number(text.removesuffix("%").strip())
    if not low <= value <= high:
        raise QuantityError(
            f"'{text}' is no percentage of thread", f"write {low:g} to {high:g}, such as 75"
        )
    return value


def _number_within(low: float, high: float, cure: str) -> Callable[[str], float]:
    def read(text: str) -> float:
        bare = text.removesuffix("%").strip()
        value = 0.0 if bare == "0" else _number(bare)
        if not low <= value <= high:
            raise ValueError(cure)
        return value

    return read


def _count(text: str) -> float:
    if not text.isascii() or not text.isdigit() or not 1 <= int(text) <= MOST_PIECES:
        raise ValueError(f"write a whole number from 1 to {MOST_PIECES}")
    return float(text)


def _pairs(text: str, example: str) -> list[tuple[str, str]]:
    """`1: 5 min, 3: 4 min` as pairs."""
    pairs = [part.partition(":") for part in text.split(",")]
    if not all(sign for _, sign, _ in pairs):
        raise ValueError(f"write {example}")
    return [(one.strip(), other.strip()) for one, _, other in pairs]


def _believed(kind: str, text: str, domain: Domain, share: float = 1.0) -> float:
    """A quantity inside its domain, which is told in `share` of the kind's own unit."""
    value = _quantity(kind, text) / share
    if not domain.holds(value):
        raise ValueError(f"'{text}' is outside {domain.text}: {domain.why}")
    return value


def _observed(text: str) -> Observed:
    """`1: 5 min, 3: 4 min`."""
    pairs = _pairs(text, "each piece as number: time, like 1: 5 min, 3: 4 min")
    pieces = tuple(int(_count(number)) for number, _ in pairs)
    times = tuple(_believed("time", time, DOMAINS["basic"]) for _, time in pairs)
    return Observed(text, pieces, times)


def _two_pieces(text: str) -> Observed:
    found = _observed(text)
    if len(found.pieces) != 2 or found.pieces[0] == found.pieces[1]:
        raise ValueError("write two pieces, like 1: 5 min, 8: 3 min; more are observed")
    return found


def _minutes(text: str) -> float:
    return _believed("time", text, DOMAINS["life"], 60.0)


def _trials(text: str) -> Trials:
    """`25 m/min: 40 min, 32 m/min: 12 min`."""
    pairs = _pairs(text, "each trial as speed: life, like 25 m/min: 40 min, 32 m/min: 12 min")
    speeds = tuple(_believed("cutting speed", one, DOMAINS["cutting_speed"]) for one, _ in pairs)
    lives = tuple(_minutes(life) for _, life in pairs)
    if len(pairs) != 2 or speeds[0] == speeds[1] or lives[0] == lives[1]:
        raise ValueError("write two trials, at two speeds and with two lives")
    return Trials(text, speeds, lives)


def _feeds(text: str) -> Feeds:
    """`0.1 mm/rev, 0.16 mm/rev`."""
    domain = DOMAINS["feed"]
    return Feeds(text, tuple(_believed("feed", one.strip(), domain) for one in text.split(",")))


def _text(text: str) -> str:
    folded = " ".join(text.split())
    if len(folded) > 200 or len(folded) < 5:
        raise ValueError("write in a few words where it was tried, up to 200 letters")
    return folded


def _one_of(*known: str) -> Callable[[str], str]:
    def read(text: str) -> str:
        if text not in known:
            raise ValueError(f"write one of {', '.join(known)}")
        return text

    return read


_WORK = tuple(dict.fromkeys(work for work, _ in JAW_FRICTION))
_JAWS = tuple(dict.fromkeys(jaws for _, jaws in JAW_FRICTION))


def _elements(text: str) -> Elements:
    """`12 s, 4 s x 2`."""
    pairs = [part.partition(" x ") for part in text.split(",")]
    times = tuple(_believed("time", time.strip(), DOMAINS["basic"]) for time, _, _ in pairs)
    return Elements(text, times, tuple(_number(often.strip() or "1") for _, _, often in pairs))


def _number(text: str) -> float:
    if "," in text:
        raise QuantityError(f"'{text}' has a comma", f"write '{text.replace(',', '.')}'")
    try:
        value = float(text)
    except ValueError:
        raise QuantityError(f"'{text}' is no number", "write a plain number, no unit") from None
    if not 0 < value < float("inf"):
        raise ValueError("write a number above zero")
    return value


_READERS: Mapping[str, Callable[[str], Given]] = MappingProxyType(
    {
        "thread": thread,
        "class": _class,
        "hole class": _hole_class,
        "shaft class": _shaft_class,
        "series": _series,
        "percent": _percent,
        "number": _number,
        "drill": _drill,
        "error": _error,
        "count": _count,
        "learning": _number_within(*PERCENT_RANGE, "write 51 to 100, such as 80"),
        "allowance": _number_within(0.0, 100.0, "write 0 to 100, such as 12"),
        "timed pieces": _observed,
        "times": _elements,
        "two pieces": _two_pieces,
        "trials": _trials,
        "life": _minutes,
        "feeds": _feeds,
        "text": _text,
        "work surface": _one_of(*_WORK),
        "jaw surface": _one_of(*_JAWS),
        "metal": _one_of(*METAL_FACTOR),
        "known by": _one_of(*CLAMP),
        "wetness": _one_of("wet", "dry"),
        "cut": _one_of(*CUTS),
    }
)
"""Kinds of input that are no plain quantity."""
