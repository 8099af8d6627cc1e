"""The `benchleaf` command: checks, schemas and the register of addresses, without a build."""

from __future__ import annotations

import argparse
import io
import os
import sys
from collections.abc import Sequence

from benchleaf.commands import (
    addresses,
    book,
    check,
    compare,
    explain,
    follow_up,
    hold,
    init,
    keys,
    layouts,
    may,
    new,
    reckon,
    register,
    release,
    schema,
    slips,
    take_in,
    tidy,
    timetable,
    verify,
)

COMMANDS = (
    init, check, hold, compare, schema, new, take_in, tidy, register, release, addresses,
    timetable, may, follow_up, book, slips, keys, layouts,
    verify, reckon, explain,
)  # fmt: skip
"""In the order in which the help lists them."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; 0 when all is well, 1 when there is something to mend, 2 for misuse."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):  # a console may not know every sign
            stream.reconfigure(errors="backslashreplace")
    options = _parsed(arguments)
    try:
        code: int = options.run(options)
        sys.stdout.flush()
    except BrokenPipeError:  # who reads has closed, as `head` does
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 1
    except OSError as error:  # a folder that may not be written, a full disk
        print(f"benchleaf: {error.filename or 'the file'}: {error.strerror}", file=sys.stderr)
        return 1
    return code


def _parsed(arguments: Sequence[str] | None) -> argparse.Namespace:
    """The options; inputs of `reckon` may stand before and after an option."""
    parser = _parser()
    options, rest = parser.parse_known_args(arguments)
    if rest and ("inputs" not in options or any(one.startswith("-") for one in rest)):
        parser.error(f"unrecognized arguments: {' '.join(rest)}")
    if rest:
        options.inputs += rest
    return options


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="benchleaf", description="Checks the breakdowns of a shop training manual."
    )
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    for one in COMMANDS:
        one.add(commands)
    return parser


if __name__ == "__main__":
    raise SystemExit(main())
