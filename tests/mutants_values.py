"""Puts a wrong value, which stands outside of functions, in place of the sound one everywhere.

The wrong module is run beside the sound one, and what it names otherwise is put where the sound
thing stands: in every module that took it over by its name, as a usual value of a function, and
in what holds it. A class is never put in anew, since records of the former one are about; where
nothing is found to differ, a run of its own in a copy must tell (`mutate.py`).
"""

from __future__ import annotations

import functools
import gc
import sys
from pathlib import Path
from types import CodeType, FunctionType, ModuleType
from typing import Any

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "plugins" / "benchleaf"
SMALL = (int, float, str, bool, type(None))
"""Values that may be the same object by chance."""


def module_of(file: str) -> ModuleType:
    parts = ("benchleaf", *Path(file).with_suffix("").parts)
    name = ".".join(parts).removesuffix(".__init__")
    return sys.modules.get(name) or __import__(name, fromlist=["x"])


def values_moved(file: str, source: str) -> dict[str, tuple[Any, Any]]:
    """What the module names otherwise when it is wrong: the sound value, and the wrong one."""
    module = module_of(file)
    wrong: dict[str, Any] = {"__name__": module.__name__, "__package__": module.__package__,
                             "__file__": module.__file__}  # fmt: skip
    exec(compile(source, str(PACKAGE / file), "exec"), wrong)
    return {
        name: (old, wrong[name])
        for name, old in vars(module).items()
        if name in wrong and not name.startswith("__") and _differ(old, wrong[name])
    }


def _differ(old: object, new: object) -> bool:
    if isinstance(old, (type, FunctionType, ModuleType)) or type(old) is not type(new):
        return False
    return bool(old != new) and repr(old) != repr(new)


def put_in_values(file: str, source: str) -> int:
    """The wrong values stand everywhere from now on; how many places took one."""
    try:
        moved = values_moved(file, source)
    except Exception:
        return 0
    done = 0
    for name, (old, new) in moved.items():
        for module in [one for one in sys.modules.values() if isinstance(one, ModuleType)]:
            if vars(module).get(name) is old:
                setattr(module, name, new)
                done += 1
        if not isinstance(old, SMALL):
            done += _within_others(old, new)
        for thing in gc.get_objects():
            if isinstance(thing, FunctionType) and thing.__defaults__:
                thing.__defaults__ = tuple(new if one is old else one for one in thing.__defaults__)
    for thing in gc.get_objects():
        if isinstance(thing, functools._lru_cache_wrapper):
            thing.cache_clear()
    return done


def _within_others(old: object, new: object) -> int:
    """In dictionaries and lists; what holds it for good stays as it is."""
    done = 0
    for holder in gc.get_referrers(old):
        if isinstance(holder, dict):
            for key, value in list(holder.items()):
                if value is old and key not in ("old", "new"):
                    holder[key] = new
                    done += 1
        elif isinstance(holder, list):
            holder[:] = [new if one is old else one for one in holder]
            done += 1
    return done


def users_of(file: str, source: str) -> set[tuple[str, int]]:
    """File and first line of each function of the package that names what has moved."""
    try:
        names = set(values_moved(file, source))
    except Exception:
        return set()
    found: set[tuple[str, int]] = set()
    here = f"{PACKAGE}/"
    for thing in gc.get_objects():
        if isinstance(thing, FunctionType) and thing.__code__.co_filename.startswith(here):
            for code in _inside(thing.__code__):
                if names.intersection(code.co_names):
                    found.add((code.co_filename.removeprefix(here), code.co_firstlineno))
    return found


def _inside(code: CodeType) -> list[CodeType]:
    """A function and all that stands in it."""
    found = [code]
    for one in code.co_consts:
        if isinstance(one, CodeType):
            found += _inside(one)
    return found
