"""The command line of a model script: `python models/NAME.py --out DIR`."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn, Protocol

from exporters.packet import Output, Packet, PacketSettings, write_packet
from exporters.report.terminal import (
    GUIDANCE_SHORT,
    advice_of,
    counts_of,
    first_of_all,
    rows_of,
)
from exporters.report.unbroken import HELD
from exporters.target import check_target
from furniture.checks.finding import Verdict
from furniture.checks.of_piece.reading import shown_by
from furniture.checks.of_piece.setting import Place, read_setting
from furniture.errors import DesignError, KnifewallError, Problem
from furniture.pieces import Piece, timbers_of
from furniture.shop.boards import CuttingWishes, MeasuredBoard, cutting_job, problems_of_boards
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.units import Shown

if TYPE_CHECKING:
    from rich.console import Console

DXF_FLAVOURS = ("R2018", "R2000", "R12")
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
    place: Place | str | None = None,
) -> NoReturn:
    """Writes the packet of a design and leaves with the exit code of `run`.

    Args:
        design: what to build, or a piece already composed.
        arguments: of the command line; none takes those of this process.
        boards: to cut it from, as a list or the path of a CSV file; none says what to buy.
        wishes: what the cutting has to keep to; none takes what shops do.
        place: where the piece will stand; none takes a heated house and its floor.
    """
    given = sys.argv[1:] if arguments is None else arguments
    sys.exit(run(design, given, boards=boards, wishes=wishes, place=place))


def run(
    design: Design | Piece,
    arguments: Sequence[str],
    *,
    boards: GivenBoards = (),
    wishes: CuttingWishes | None = None,
    place: Place | str | None = None,
) -> int:
    """The exit code: 0 written, 1 refused with nothing changed, 2 a check failed under --strict.

    Args:
        design: what to build, or a piece already composed.
        arguments: of the command line, without the script's name.
        boards: to cut it from, as a list or the path of a CSV file; none says what to buy.
        wishes: what the cutting has to keep to; none takes what shops do.
        place: where the piece will stand; none takes a heated house and its floor.
    """
    try:
        options = _options(arguments)
        piece = _built(design, boards, place)
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
            dxf=options.dxf,
            setting=read_setting(place),
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
    except KeyboardInterrupt:
        print("\nstopped by hand: nothing was written, the last packet stays", file=sys.stderr)
        return REFUSED
    _report(piece, packet, cutting, options.out, checked=Output.CHECKS in outputs)
    failed = any(each.verdict is Verdict.FAIL for each in packet.findings)
    return CHECK_FAILED if failed and options.strict else DONE


def _built(design: Design | Piece, boards: GivenBoards, place: Place | str | None) -> Piece:
    """The piece; what is wrong with boards or place is said together with what is wrong with it."""
    problems: list[Problem] = []
    piece = None
    try:
        piece = design if isinstance(design, Piece) else design.build()
    except DesignError as error:
        shown = getattr(design, "shown", None)
        as_shown = shown if isinstance(shown, Shown) else None
        problems += [*error.problems, *problems_of_boards(boards, as_shown)]
    try:
        read_setting(place)
    except DesignError as error:
        problems += error.problems
    if piece is None or problems:
        raise DesignError(problems)
    return piece


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
    parser = _Parser(
        description="Writes everything that this piece is built from into a folder.",
        epilog=_EXIT_CODES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    what = parser.add_argument_group("what to write")
    what.add_argument(
        "--out", type=Path, required=True, metavar="DIR",
        help="the folder: new, empty, or with the last packet, which is replaced",
    )  # fmt: skip
    what.add_argument(
        "--only", type=_output, action="append", metavar="WHAT",
        help=f"only this, and the rest of the last packet goes: {_OUTPUTS}; may be given again",
    )  # fmt: skip
    sheets = parser.add_argument_group("the sheets")
    sheets.add_argument(
        "--paper", choices=PAPERS, metavar="PAPER",
        help=f"{', '.join(PAPERS)}; left out: A4, or Letter for a piece in inches",
    )  # fmt: skip
    sheets.add_argument(
        "--date", type=_date, default=date.today(), metavar="YYYY-MM-DD",
        help="in the title blocks; left out: today",
    )  # fmt: skip
    sheets.add_argument(
        "--revision", default="-", metavar="TEXT", help="in the title blocks; left out: a dash"
    )
    sheets.add_argument(
        "--dxf", choices=DXF_FLAVOURS, default=DXF_FLAVOURS[0], metavar="FLAVOUR",
        help=f"of the drawing files: {', '.join(DXF_FLAVOURS)}; left out: {DXF_FLAVOURS[0]}",
    )  # fmt: skip
    checks = parser.add_argument_group("checks")
    checks.add_argument(
        "--strict", action="store_true",
        help="leave with 2 when a check fails or a part has no place on the boards",
    )  # fmt: skip
    return parser.parse_args(list(arguments))


_OUTPUTS = ", ".join(each.value for each in Output)
_EXIT_CODES = """\
Ctrl-C while the cutting plan is looked for takes the best plan so far.

leaves with
  0  the packet is written, whatever the checks say
  1  refused: nothing is written, the last packet stays as it was
  2  written, but a check fails or a part has no place (with --strict only)
"""


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
    piece: Piece,
    packet: Packet,
    cutting: CuttingOutcome | None,
    target: Path,
    *,
    checked: bool,
) -> None:
    """What has no place first of all, then the worst finding of every check, and the plan."""
    from rich.console import Console
    from rich.text import Text

    console = Console(width=None if sys.stdout.isatty() else 110)
    if cutting is not None:
        from exporters.cutting import left_out_report

        for line in left_out_report(cutting):
            console.print(Text(line, style="bold red"))
    if packet.weighed is not None:
        console.print(
            f"{piece.name}: {shown_by(piece).mass(packet.weighed.whole.mass_kg)}", highlight=False
        )
    for timber in timbers_of(piece):
        if timber.moisture_is_assumed:
            line = f"{timber.name}: moisture not given, {timber.moisture_pct:g} % assumed"
            console.print(Text(line))
    if checked:
        with console.capture() as captured:
            _report_findings(console, piece, packet)
        console.file.write(captured.get().replace(HELD, " "))
    if cutting is not None:
        from exporters.cutting import cutting_lines

        for line in cutting_lines(cutting):
            console.print(Text(line))
    console.print(Text(f"{len(packet.files)} files in {target}"))


def _report_findings(console: Console, piece: Piece, packet: Packet) -> None:
    """What is not in order with its advice, gravest first; the rest counted."""
    from rich.table import Table
    from rich.text import Text

    show = shown_by(piece)
    console.print(Text(first_of_all(packet.groups, show)))
    rows = rows_of(packet.groups, show)
    if rows:
        table = Table(box=None, pad_edge=False)
        for heading in ("verdict", "check", "worst case", "found", "asked"):
            table.add_column(heading)
        for row in rows:
            table.add_row(*(Text(cell) for cell in row))
        console.print(table)
    for what, advice in advice_of(packet.groups):
        console.print(Text(what))
        console.print(Text(f"  {advice}"))
    for line in counts_of(packet.groups):
        console.print(Text(line))
    console.print(Text(GUIDANCE_SHORT))
