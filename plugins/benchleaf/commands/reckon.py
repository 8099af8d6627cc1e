"""`benchleaf reckon`: a job's set-ups, or an operation from inputs."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from benchleaf.compute import (
    held_reasons,
    printed,
    printed_json,
    reasons_not_to_run,
    set_up_sheets,
    with_holds,
)
from benchleaf.compute.reckon import OPERATIONS, InputError, reckon
from benchleaf.diagnose import suggestion
from benchleaf.model import Units
from benchleaf.pipeline import load

from .answer import Answer, give, misuse
from .shop_units import units_here

_INPUTS_BESIDE_A_JOB = """\
'{}' beside a job: a job's figures come from its file
change the file, or give inputs to an operation: benchleaf reckon drilling ..."""


def add(commands: Any) -> None:
    """Add the command to the parser."""
    command = commands.add_parser(
        "reckon",
        help="reckon a job's set-ups, or an operation from inputs",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Reckon a job's set-ups (benchleaf reckon TR-0110), or an operation with no\n"
        "content files (benchleaf reckon drilling diameter='7/8 in' feed='0.008 in/rev').",
        epilog=printed.operations_help(),
    )
    command.add_argument("what", metavar="JOB|OPERATION")
    command.add_argument("inputs", nargs="*", metavar="NAME=VALUE")
    command.add_argument(
        "--format", choices=("text", "json"), default="text", help="what to print (default: text)"
    )
    command.add_argument(
        "--json",
        action="store_const",
        const="json",
        dest="format",
        help="the same as --format json",
    )
    command.add_argument(
        "--units", choices=tuple(Units), type=Units,
        help="units that stand first (default: those of the shop, else metric)",
    )  # fmt: skip
    command.add_argument("--content", type=Path, default=Path("content"), help="for a job")
    command.set_defaults(run=_reckon)


def _reckon(options: argparse.Namespace) -> int:
    pairs = [one.partition("=") for one in options.inputs]
    bad = next((name for name, sign, value in pairs if not (name and sign and value)), None)
    if bad is not None:
        return misuse(f"'{bad}' is no input: write name='value unit'")
    names = [name.strip() for name, _, _ in pairs]
    twice = next((name for name in names if names.count(name) > 1), None)
    if twice is not None:
        return misuse(f"{twice} is given twice")
    name, as_json = options.what.lower(), options.format == "json"
    if name in OPERATIONS:
        given = {key.strip(): value.strip() for key, _, value in pairs}
        units = options.units or units_here(options.content)
        return give(reckon_operation(name, given, as_json=as_json, units=units))
    answer = reckon_job(options.content, name, as_json=as_json, units=options.units)
    if pairs and not answer.problem:
        return misuse(_INPUTS_BESIDE_A_JOB.format(options.inputs[0]))
    return give(answer)


def reckon_job(
    content: Path, job_id: str, *, as_json: bool = False, units: Units | None = None
) -> Answer:
    """The set-up workings of one job, in the units that its readers have first or those asked."""
    shop = load(content).shop
    job = shop.jobs.get(job_id.lower())
    on_each = shop.on_each_machine(job_id.lower())
    if job is None and on_each:
        names = ", ".join(one.upper() for one in on_each)
        text = f"{job_id.upper()} is a job of several machines"
        return Answer(problem=text, help=(f"name one of them: {names}",))
    if job is None:
        known = [*(one.upper() for one in shop.jobs), *OPERATIONS]
        return Answer(
            problem=f"'{job_id}' is no job of {content}/ and no operation",
            help=suggestion(job_id, known, what="jobs and operations"),
        )
    sheets = with_holds(shop, job.id, set_up_sheets(shop, job, units))
    stopped = reasons_not_to_run(shop, job.id, sheets)
    if as_json:
        text = printed_json.job_json(job, sheets, on_hold=bool(held_reasons(shop, job.id)))
    elif sheets:
        number = job.id.upper()
        lines = (line for one in sheets for line in printed.sheet_lines(number, one.as_read))
        text = "\n".join(lines)
    else:
        held = (f"  DO NOT RUN: {one}" for one in stopped)
        text = "\n".join((f"{job.id.upper()} has no set-ups", *held))
    return Answer(text, complete=not stopped)


def reckon_operation(
    name: str, given: Mapping[str, str], *, as_json: bool = False, units: Units = Units.METRIC
) -> Answer:
    """What follows from inputs such as `diameter: 7/8 in`, with no content files."""
    operation = OPERATIONS[name]
    try:
        reckoning = reckon(operation, given, Units.METRIC if as_json else units)
    except InputError as error:
        wrong = next((one for one in given if one not in operation.inputs), None)
        near = suggestion(wrong, operation.inputs, what="inputs") if wrong else (error.cure,)
        return Answer(problem=error.problem, help=near)
    text = (
        printed_json.reckoning_json(reckoning)
        if as_json
        else "\n".join(printed.reckoning_lines(reckoning))
    )
    in_order = reckoning.within_limits and reckoning.covers_all
    return Answer(text, complete=bool(reckoning.results) and in_order)
