"""Footwell from a terminal: check a sheet, print expected readings, judge a job, practise.

`python -m footwell COMMAND --help` tells each command's options. With --json the answer is printed
as JSON in the shapes of footwell/schemas. What is wrong is one sentence on the error output, with
exit code 2.

Sample sheets lie in the folder fixtures/circuits of Footwell, for example
  python -m footwell expect fixtures/circuits/minibus-saloon-fan.json --control S1=2
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from typing import NoReturn

from pydantic import ValidationError

from footwell import RELEASE, service
from footwell.checks.check import EVERY_TOOL, NEEDS, VOLTS
from footwell.errors import FootwellError
from footwell.messages import Problem
from footwell.parts.base import EARTH
from footwell.terminal import commands
from footwell.terminal.files import TerminalError, places
from footwell.terminal.job import job
from footwell.terminal.practice import practice
from footwell.terminal.shapes import Refusal

REFUSED = 2


class _Parser(argparse.ArgumentParser):
    """A parser whose errors are sentences like all others."""

    def error(self, message: str) -> NoReturn:
        text = f"{message[:1].upper()}{message[1:]}. See {self.prog} --help."
        raise TerminalError(text)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; the exit code is 0, or 2 where something could not be done."""
    given = sys.argv[1:] if arguments is None else list(arguments)
    try:
        asked = parser().parse_args(given)
        answer, text = asked.command(asked)
        return _print(answer.model_dump_json(indent=2) + "\n" if asked.json else text)
    except FootwellError as error:
        problem = Problem(code=error.code, sentence=error.sentence, details=list(error.details))
    except ValidationError as error:
        problem = Problem(
            code="bad request", sentence="This could not be read.", details=places(error)
        )
    except KeyboardInterrupt:
        return 130
    except Exception as mistake:
        problem = service.mistake(mistake)
    return _refuse(problem, as_json="--json" in given)


def _refuse(problem: Problem, as_json: bool) -> int:
    if as_json:
        _print(Refusal(error=problem).model_dump_json(indent=2) + "\n")
    print(problem.sentence, file=sys.stderr)
    for line in problem.details:
        if line not in problem.sentence:
            print(f"  {line}", file=sys.stderr)
    return REFUSED


def _print(text: str) -> int:
    try:
        sys.stdout.write(text)
        sys.stdout.flush()
    except BrokenPipeError:
        # The reader has seen enough; without this Python would complain once more on its way out.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return 0


def parser() -> _Parser:
    """All commands with their options."""
    whole = _Parser(prog="footwell", description=__doc__, formatter_class=_Plain)
    whole.add_argument("--version", action="version", version=f"footwell {RELEASE}")
    group = whole.add_subparsers(title="commands", required=True, metavar="COMMAND")
    _add(group, "sheet", "check a circuit sheet", commands.sheet)
    expect = _add(group, "expect", "print every reading to expect", commands.expect)
    form = expect.add_mutually_exclusive_group()
    _json(form)
    form.add_argument("--csv", action="store_true", help="print CSV, one line a reading (RFC 4180)")
    _setup(expect)
    _faults(expect)
    _instrument(expect)
    expect.add_argument(
        "--explain", metavar="PLACE", help="say why this place reads so, such as X2.3.a"
    )
    expect.add_argument(
        "--black", default=EARTH, metavar="PLACE", help="black lead on; default: earth"
    )
    judged = _add(group, "job", "print belief and next check of a job", job, "FILE or - or a link")
    judged.add_argument("--job", help="which job, where a file holds several")
    _practice(_add(group, "practice", "simulate a fault and do the job", practice))
    network = _add(group, "netlist", "print the circuit for a SPICE simulator", commands.network)
    _setup(network)
    _faults(network)
    _instrument(network)
    network.add_argument("--red", metavar="PLACE", help="clip the instrument in, red on this place")
    network.add_argument("--black", default=EARTH, metavar="PLACE", help="black on; default: earth")
    wires = _add(
        group, "wires", "print a sheet's wires as a wiring list, or take one over", commands.wires
    )
    wires.add_argument(
        "--take", metavar="LIST", help="wiring list (CSV) to take over; prints the sheet with it"
    )
    wires.add_argument("--into", metavar="FILE", help="write to this file, whole or not at all")
    return whole


_Plain = argparse.RawDescriptionHelpFormatter


def _add(
    group: argparse._SubParsersAction[_Parser],
    name: str,
    title: str,
    command: Callable[[argparse.Namespace], tuple[object, str]],
    file: str = "sheet, such as those in fixtures/circuits; - for the input",
) -> _Parser:
    one = group.add_parser(name, help=title, description=f"{title[:1].upper()}{title[1:]}.")
    one.add_argument("file", metavar="FILE", help=file)
    if name != "expect":
        _json(one)
    one.set_defaults(command=command)
    return one


def _json(to: argparse._ActionsContainer) -> None:
    to.add_argument("--json", action="store_true", help="print JSON")


def _instrument(to: argparse.ArgumentParser) -> None:
    known = [*NEEDS, "look", "listen"]
    to.add_argument("--instrument", default=VOLTS, choices=known, help="default: volts")


def _many(to: argparse.ArgumentParser, option: str, example: str, title: str) -> None:
    to.add_argument(option, nargs="+", action="extend", default=[], metavar=example, help=title)


def _setup(to: argparse.ArgumentParser) -> None:
    _many(to, "--control", "S1=3", "position of a control; the others are at rest")
    _many(to, "--apart", "X4", "connector unplugged or part pulled out")
    _many(to, "--lamp", "X4=21", "lamp of so many watts in place of a load, at its plug")
    to.add_argument("--engine", choices=["off", "on"], default="off", help="default: off")


def _faults(to: argparse.ArgumentParser) -> None:
    _many(to, "--fault", "PART:MODE[@SIZE]", "such as R1:open or W9:high_resistance@0.2")


def _practice(to: argparse.ArgumentParser) -> None:
    _faults(to)
    _many(to, "--wiring", "X2=SLIP", "such as X2=mirrored or X2=exchanged:1,2")
    _many(to, "--renewed", "PART", "what the customer says was renewed")
    to.add_argument("--tools", default="meter", help=f"with commas: {', '.join(EVERY_TOOL)}")
    to.add_argument("--seed", type=int, help="draw scatter of readings and words; default: none")


if __name__ == "__main__":
    sys.exit(main())
