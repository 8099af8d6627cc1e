"""Effects besides figures: signal words, routes of parts, and records that follow a new id."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from benchleaf.link import routes
from benchleaf.model import Hazard, Shop, Trait, has_along, references

from .area import Area
from .change import Change, ChangeKind, Effect, EffectKind


def with_following(changes: Sequence[Change], was: Shop, now: Shop) -> list[Change]:
    """The changes with every such effect."""
    words, ways = dict(_signal_words(was, now)), list(_routes(was, now))
    more = [[*_word_of(one, words), *_ways_of(one, ways), *_names(one, now)] for one in changes]
    shares = Counter(effect for effects in more for effect in effects)
    return [
        replace(change, effects=(*change.effects, *(_marked(one, shares) for one in effects)))
        for change, effects in zip(changes, more, strict=True)
    ]


def _marked(effect: Effect, shares: Counter[Effect]) -> Effect:
    """The effect, saying so where several changes share it."""
    return replace(effect, together=shares[effect] > 1)


def _signal_words(was: Shop, now: Shop) -> Iterator[tuple[str, Effect]]:
    for hazard_id, hazard in now.hazards.items():
        before = was.hazards.get(hazard_id)
        if isinstance(before, Hazard) and before.signal_word is not hazard.signal_word:
            yield (
                hazard_id,
                Effect(
                    EffectKind.SIGNAL_WORD,
                    ("hazards", hazard_id),
                    "signal word",
                    before.signal_word.value,
                    hazard.signal_word.value,
                ),
            )


def _word_of(change: Change, words: dict[str, Effect]) -> Iterator[Effect]:
    kind, record_id = change.record
    is_told = kind == "hazards" and record_id in words
    if is_told and has_along(Hazard, change.difference.path, Trait.GIVES_SIGNAL_WORD):
        yield words[record_id]


def _routes(was: Shop, now: Shop) -> Iterator[tuple[Effect, frozenset[str]]]:
    """Each part whose jobs or their order changed, with the jobs on either side."""
    olds, news = ({one.id: one for one in routes(side)} for side in (was, now))
    for part in sorted({*olds, *news}):
        before, after = (
            [job.id for job in side[part].jobs] if part in side else [] for side in (olds, news)
        )
        if before != after:
            number = (news.get(part) or olds[part]).part.number
            texts = [" → ".join(one.upper() for one in side) or None for side in (before, after)]
            place = f"route of part {number}"
            effect = Effect(EffectKind.ROUTE, ("parts", part), place, texts[0], texts[1])
            yield effect, frozenset((*before, *after))


def _ways_of(change: Change, ways: Sequence[tuple[Effect, frozenset[str]]]) -> Iterator[Effect]:
    kind, job_id = change.record
    if kind != "jobs":
        return
    is_part = change.difference.path[:1] in (("part",), ("takes",), ("leaves",))
    if change.area in (Area.ROUTE, Area.JOB) or is_part:
        yield from (effect for effect, jobs in ways if job_id in jobs)


def _names(change: Change, now: Shop) -> Iterator[Effect]:
    """Records that name a renamed record by its new id."""
    if change.kind is not ChangeKind.RENAMED or change.difference.path != ("id",):
        return
    for kind, record_id, record in now.every():
        if any((wanted, name) == change.record for _, wanted, name in references(record)):
            yield Effect(EffectKind.NAMED_BY, (kind, record_id), "", change.before, change.after)
