"""Rules that span records, one a module: its code, samples, check, and `RULE`, which says its kind.

Every module here that has a `RULE` is found by itself. A rule on records looks at one record of
any kind, a rule on jobs at one job; so these can be shared among processes. A rule on the shop
needs all of it at once.
"""

from collections.abc import Iterator
from importlib import import_module
from pkgutil import iter_modules

from ..rule import JobRule, RecordRule, Rule, ShopRule


def _rules() -> Iterator[Rule]:
    for name in sorted(one.name for one in iter_modules(__path__)):
        rule = getattr(import_module(f"{__name__}.{name}"), "RULE", None)
        if isinstance(rule, Rule):
            yield rule


RULES: tuple[Rule, ...] = tuple(_rules())
RECORD_RULES = tuple(rule for rule in RULES if isinstance(rule, RecordRule))
JOB_RULES = tuple(
    sorted((rule for rule in RULES if isinstance(rule, JobRule)), key=lambda rule: rule.is_last)
)
SHOP_RULES = tuple(rule for rule in RULES if isinstance(rule, ShopRule))
