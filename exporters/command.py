"""The command line of a model script: `python models/NAME.py --out DIR`."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import NoReturn, Protocol

from exporters.packet import Output, Packet, PacketSettings, write_packet
from exporters.target import check_target
from furniture.checks.finding import Finding, Sense, Verdict
from furniture.errors import DesignError, KnifewallError
from furniture.pieces import Piece, timbers_of
from furniture.shop.boards import CuttingWishes, MeasuredBoard, cutting_job, problems_of_boards
from furniture.shop.boards.outcome import CuttingOutcome

PAPERS = ("A4", "A3", "Letter", "Tabloid")
GivenBoards = Sequence[MeasuredBoard] | Path | str
DONE, REFUSED, CHECK_FAILED = 0, 1, 2


class Design(Protocol):
    """Anything that can be built into a piece, such as a `SteppedStand`."""

    def build(self) -> Piece: ...


def main(
    design: Design | Piece,
    arguments: Sequence[str] | None = None,
    *,
    boards: GivenBoards = (),
    wishes: CuttingWishes | None = None,
) -> NoReturn:
    """Writes the packet of a design and leaves with the exit code of `run`.

    Args:
        design: what to build, or a piece already composed.
        arguments: of the command line; none takes those of this process.
        boards: to cut it from, as a list or the path of a CSV file; none says what to buy.
        wishes: what the cutting has to keep to; none takes what shops do.
    """
    given = sys.argv[1:] if arguments is None else arguments
    sys.exit(run(design, given, boards=boards, wishes=wishes))


def run(
    design: Design | Piece,
    arguments: Sequence[str],
    *,
    boards: GivenBoards = (),
    wishes: CuttingWishes | None = None,
) -> int:
    """The exit code: 0 written, 1 refused with nothing changed, 2 a check failed under --strict.

    Args:
        design: what to build, or a piece already composed.
        arguments: of the command line, without the script's name.
        boards: to cut it from, as a list or the path of a CSV file; none says what to buy.
        wishes: what the cutting has to keep to; none takes what shops do.
    """
    try:
        options = _options(arguments)
        piece = _built(design, boards)
        check_target(options.out)
        outputs = frozenset(options.only or Output)
        cutting = None
        if Output.CUTTING in outputs:
            from exporters.cutting.planning import planned

            cutting = planned(cutting_job(piece, boards, wishes))
        settings = PacketSettings(
            outputs=outputs,
            paper=options.paper,
            dated=options.date,
            revision=options.revision,
        )
        packet = write_packet(piece, options.out, settings, cutting)
    except _HelpAsked:
        return DONE
    except KnifewallError as error:
        print(error, file=sys.stderr)
        return REFUSED
    except OSError as error:
        print(f"the packet cannot be written: {error.strerror or error}", file=sys.stderr)
        return REFUSED
    _report(piece, packet, cutting, options.out)
    failed = any(each.verdict is Verdict.FAIL for each in packet.findings)
    return CHECK_FAILED if failed and options.strict else DONE


def _built(design: Design | Piece, boards: GivenBoards) -> Piece:
    """The piece; what is wrong with the boards is said together with what is wrong with it."""
    if isinstance(design, Piece):
        return design
    try:
        return design.build()
    except DesignError as error:
        raise DesignError((*error.problems, *problems_of_boards(boards))) from error


class _CommandError(KnifewallError, ValueError):
    """A command line that cannot be understood."""


class _HelpAsked(Exception):  # noqa: N818 - not an error
    """The help was printed and nothing else is wanted."""


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        raise _CommandError(f"{message}\n{self.format_usage().strip()}")

    def exit(self, status: int = 0, message: str | None = None) -> NoReturn:
        raise _HelpAsked


def _options(arguments: Sequence[str]) -> argparse.Namespace:
    parser = _Parser(description="Writes the packet that this piece is built from.")
    parser.add_argument("--out", type=Path, required=True, metavar="DIR", help="folder to write")
    parser.add_argument(
        "--only",
        type=_output,
        action="append",
        metavar="WHAT",
        help=f"write only this ({', '.join(each.value for each in Output)}); may be given again",
    )
    parser.add_argument("--paper", choices=PAPERS, help="of the sheets; A4 or Letter when left out")
    parser.add_argument(
        "--date", type=_date, default=date.today(), help="in the title blocks; today when left out"
    )
    parser.add_argument("--revision", default="-", help="in the title blocks")
    parser.add_argument("--strict", action="store_true", help="leave with 2 when a check fails")
    return parser.parse_args(list(arguments))


def _output(text: str) -> Output:
    try:
        return Output(text)
    except ValueError as error:
        allowed = ", ".join(each.value for each in Output)
        raise argparse.ArgumentTypeError(f"{text!r} is not one of: {allowed}") from error


def _date(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise argparse.ArgumentTypeError(f"{text!r} is not a date like 2026-03-14") from error


def _report(
    piece: Piece, packet: Packet, cutting: CuttingOutcome | None, target: Path
) -> None:
    """A short table: the worst finding of every check, and what was assumed."""
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    console = Console(width=None if sys.stdout.isatty() else 110)
    if packet.weighed is not None:
        console.print(f"{piece.name}: {packet.weighed.whole.mass_kg:.2f} kg", highlight=False)
    for timber in timbers_of(piece):
        if timber.moisture_is_assumed:
            line = f"{timber.name}: moisture not given, {timber.moisture_pct:g} % assumed"
            console.print(Text(line))
    if packet.findings:
        table = Table(box=None, pad_edge=False)
        for heading in ("check", "worst case", "value", "limit", "verdict"):
            table.add_column(heading, justify="right" if heading in ("value", "limit") else "left")
        for each in worst_of_each(packet):
            limit = "" if each.limit is None else f"{each.limit:.3g} {each.unit}"
            value = "" if each.value is None else f"{each.value:.3g} {each.unit}"
            table.add_row(Text(each.check), Text(each.subject), value, limit, each.verdict.value)
        console.print(table)
        for each in worst_of_each(packet):
            if each.verdict is not Verdict.OK and each.advice:
                console.print(Text(f"{each.verdict.value}: {each.check}, {each.subject}"))
                console.print(Text(f"  {each.advice}"))
        console.print(
            "The checks guide; local codes and tests decide. A piece that children can reach "
            "is fixed to the wall.",
            highlight=False,
        )
    if cutting is not None:
        from exporters.cutting import cutting_lines

        for line in cutting_lines(cutting):
            console.print(Text(line))
    console.print(Text(f"{len(packet.files)} files in {target}"))


def worst_of_each(packet: Packet) -> list[Finding]:
    """For every check its worst finding: the gravest verdict, then the least room to its limit."""
    order = {Verdict.FAIL: 0, Verdict.CAUTION: 1, Verdict.OK: 2}
    worst: dict[str, Finding] = {}
    for each in packet.findings:
        known = worst.get(each.check)
        if known is None or (order[each.verdict], _room(each)) < (
            order[known.verdict],
            _room(known),
        ):
            worst[each.check] = each
    return list(worst.values())


def _room(finding: Finding) -> float:
    """How far a value is inside its limit, as a share of it; infinite when there is none."""
    if finding.value is None or finding.limit is None or finding.sense is None or not finding.limit:
        return float("inf")
    share = finding.value / finding.limit - 1
    return share if finding.sense is Sense.AT_LEAST else -share
