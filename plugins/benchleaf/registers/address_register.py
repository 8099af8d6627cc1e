"""The register of every address ever published: append-only, checked at every build."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping

from benchleaf.diagnose import Finding, Place, Severity, nearest
from benchleaf.link.addresses import address as job_address

from .forwards import job_of_sheet

BESIDE = "# revisions.yml belongs beside it: where it is gone, it was lost.\n"
"""Who finds this register alone knows by it that the other one was there."""
HEADING = (
    "# Every address this manual has published. Written by `benchleaf register`, never by hand:\n"
    "# addresses are only ever added, so that no list, card or bookmark breaks.\n"
)


def check_register(
    registered: Mapping[str, Place],
    planned: Collection[str],
    register_file: str,
    forwarded: Collection[str] = (),
) -> Iterable[Finding]:
    """Findings for addresses that are gone (error) and for new ones (warning).

    `forwarded` are those that are gone and lead on to a living address.
    """
    planned_set = set(planned)
    gone = [one for one in registered if one not in planned_set and one not in forwarded]
    for old, others in _with_their_page(gone).items():
        yield _gone(old, others, registered[old], planned_set - set(registered))
    new = [one for one in planned if one not in registered]
    if new and not gone:  # a renamed id looks new, and must not be registered
        is_first = not registered
        yield unregistered(new, register_file, "benchleaf register", is_first=is_first)


def _with_their_page(gone: Iterable[str]) -> dict[str, list[str]]:
    """Each address that is gone with those that go wherever it goes: a page with its own."""
    found: dict[str, list[str]] = {}
    listed = list(gone)
    pages = {one for one in listed if "#" not in one}
    for one in listed:
        page = _page_of(one)
        if page != one and page in pages:
            found.setdefault(page, []).append(one)
        else:
            found.setdefault(one, [])
    return {one: found[one] for one in listed if one in found}


def _page_of(address: str) -> str:
    """The page that an anchor stands on, or the job from which a sheet is printed."""
    job_id = job_of_sheet(address)
    return job_address("jobs", job_id) if job_id else address.partition("#")[0]


def _gone(old: str, others: list[str], place: Place, new: set[str]) -> Finding:
    near = nearest(old, new)
    hint = (f"was it renamed to '{near}'? published ids never change",) if near else ()
    count = f"{len(others)} other{'' if len(others) == 1 else 's'}"
    also = f", and {count} with it" if others else ""
    follow = (f"that takes the {count} along: steps, set-ups and sheets",) if others else ()
    return Finding(
        "A601",
        Severity.ERROR,
        place,
        f"the published address '{old}' is gone{also}",
        (
            *hint,
            "put the id back",
            f"or forward it in forwards.yml: {{old: '{old}', new: ...}}",
            *follow,
        ),
    )


def unregistered(
    new: list[str], register_file: str, command: str, *, is_first: bool = False
) -> Finding:
    """New addresses, and the command that registers them; `is_first` where none ever was."""
    some = ", ".join(new[:3]) + (" and more" if len(new) > 3 else "")
    never = "nothing was ever registered here, so nothing is kept from changing yet"
    first = (never,) if is_first else ()
    count = f"{len(new)} address{'' if len(new) == 1 else 'es'}"
    return Finding(
        "A602",
        Severity.WARNING,
        Place(register_file),
        f"{count} not in the register yet: {some}",
        (*first, f"run `{command}`, and commit the file with your change"),
    )


def register_text(
    registered: Iterable[str], planned: Iterable[str], *, has_other: bool = False
) -> str:
    """The register file: what was there, in its order, then what is new.

    It says whether the register of revisions stands beside it.
    """
    lines = dict.fromkeys((*registered, *planned))
    return (
        HEADING
        + (BESIDE if has_other else "")
        + "addresses:\n"
        + "".join(f"  - {line}\n" for line in lines)
    )
