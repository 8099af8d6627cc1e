"""The `benchleaf` command: checks, schemas and the register of addresses, without a build."""

from __future__ import annotations

import argparse
import io
import os
import sys
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

from benchleaf import pipeline, questions, review
from benchleaf.commands import addresses, checking, compare, people, writing
from benchleaf.diagnose import CODES, report, suggestion
from benchleaf.registers import REGISTER, REVISIONS

_INPUTS_BESIDE_A_JOB = """\
benchleaf: '{}' beside a job: a job's figures come from its file
change the file, or give inputs to an operation: benchleaf reckon drilling ..."""


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
    checking.add(commands)
    compare.add(commands)
    writing.add(commands)
    register = commands.add_parser("register", help="add new page addresses and revisions")
    register.set_defaults(run=_register)
    register.add_argument(
        "content",
        nargs="?",
        type=Path,
        default=Path("content"),
        help="the content folder (default: content)",
    )
    register.add_argument(
        "--wording-only",
        action="append",
        default=[],
        metavar="JOB",
        help="declare that only the wording of this job changed (all: of every job); checked",
    )
    addresses.add(commands)
    people.add(commands)
    keys = commands.add_parser("keys", help="list the keys of a kind of record, for people")
    keys.add_argument("kind", metavar="KIND", help=", ".join(questions.schema_kinds()))
    keys.set_defaults(run=_keys)
    reckon = commands.add_parser(
        "reckon",
        help="reckon a job's set-ups, or an operation from inputs",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Reckon a job's set-ups (benchleaf reckon TR-0110), or an operation with no\n"
        "content files (benchleaf reckon drilling diameter='7/8 in' feed='0.008 in/rev').",
        epilog=questions.operations_help(),
    )
    reckon.add_argument("what", metavar="JOB|OPERATION")
    reckon.add_argument("inputs", nargs="*", metavar="NAME=VALUE")
    reckon.add_argument("--json", action="store_true", help="print JSON with stable keys")
    reckon.add_argument("--content", type=Path, default=Path("content"), help="for a job")
    reckon.set_defaults(run=_reckon)
    explain = commands.add_parser("explain", help="say what a code means and what to do")
    explain.add_argument("code", metavar="CODE", nargs="?")
    explain.set_defaults(run=_explain)
    return parser


def _register(options: argparse.Namespace) -> int:
    blocking, added = pipeline.register(options.content)
    if blocking:
        print(report(blocking))
        print("nothing was written: mend these first")
        return 1
    print(f"{added} added to {options.content / REGISTER}")
    return _register_revisions(options)


def _register_revisions(options: argparse.Namespace) -> int:
    jobs = [job_id.lower() for job_id in options.wording_only]
    known = pipeline.load(options.content).shop.jobs if jobs else {}
    jobs = list(known) if jobs == ["all"] else jobs
    unknown = next((one for one in jobs if one not in known), None)
    if unknown is not None:
        return _misuse(f"there is no job '{unknown}'", unknown, known)
    left, added = review.register_revisions(options.content, jobs)
    print(f"{added} added to {options.content / REVISIONS}")
    if left:
        print(report(left))
    return 1 if left else 0


def _keys(options: argparse.Namespace) -> int:
    return _about_kind(options.kind, questions.keys)


def _about_kind(kind: str, ask: Callable[[str], str | None]) -> int:
    """Print what is known of a kind of record, or the kinds there are."""
    text = ask(kind.lower())
    if text is None:
        return _misuse(f"there is no kind '{kind}'", kind, questions.schema_kinds())
    print(text)
    return 0


def _reckon(options: argparse.Namespace) -> int:
    pairs = [one.partition("=") for one in options.inputs]
    bad = next((name for name, sign, value in pairs if not (name and sign and value)), None)
    if bad is not None:
        print(f"benchleaf: '{bad}' is no input: write name='value unit'", file=sys.stderr)
        return 2
    names = [name.strip() for name, _, _ in pairs]
    twice = next((name for name in names if names.count(name) > 1), None)
    if twice is not None:
        print(f"benchleaf: {twice} is given twice", file=sys.stderr)
        return 2
    name = options.what.lower()
    if questions.is_operation(name):
        given = {key.strip(): value.strip() for key, _, value in pairs}
        answer = questions.reckon_operation(name, given, as_json=options.json)
    else:
        answer = questions.reckon_job(options.content, name, as_json=options.json)
        if pairs and not answer.problem:
            print(_INPUTS_BESIDE_A_JOB.format(options.inputs[0]), file=sys.stderr)
            return 2
    if answer.problem:
        print("\n".join((f"benchleaf: {answer.problem}", *answer.help)), file=sys.stderr)
        return 2
    print(answer.text)
    return 0 if answer.complete else 1


def _explain(options: argparse.Namespace) -> int:
    if options.code is None:
        print("\n".join(f"{code.id}  {code.title}" for code in CODES.values()))
        return 0
    code = CODES.get(options.code.upper())
    if code is None:
        return _misuse(f"there is no code '{options.code}'", options.code, CODES)
    print(f"{code.id}  {code.title}\nWhy it matters: {code.why}\nInstead: {code.instead}")
    return 0


def _misuse(problem: str, written: str, allowed: Iterable[str]) -> int:
    lines = suggestion(written, allowed)
    print("\n".join((f"benchleaf: {problem}", *lines)), file=sys.stderr)
    return 2


if __name__ == "__main__":
    raise SystemExit(main())
