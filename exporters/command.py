"""The command line of a model script: `python models/NAME.py --out DIR`."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import NoReturn

from exporters.batch import Batch, BuiltBatch, built
from exporters.designs import Design, piece_of
from exporters.exchange.stops import Ended, ends_raised
from exporters.packet import facts_for, judged, put_packet
from exporters.run_report import Run, Told, report
from exporters.settings import Output, PacketSettings
from exporters.target import Claim, Owner, claimed
from furniture.checks.finding import Verdict
from furniture.checks.of_piece import Group
from furniture.checks.of_piece.setting import Place, read_setting
from furniture.errors import DesignError, KnifewallError, Problem
from furniture.pieces import Piece
from furniture.rules import ShopRules
from furniture.shop.boards import (
    CuttingWishes,
    MeasuredBoard,
    cutting_job,
    job_of_lots,
    problems_of_boards,
)
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.tools import Shop
from furniture.shop.tools.reading import usual_or
from furniture.units import Shown, millimetres

DXF_FLAVOURS = ("R2018", "R2000", "R12")
PAPERS = ("A4", "A3", "Letter", "Tabloid")
GivenBoards = Sequence[MeasuredBoard] | Path | str
DONE, REFUSED, CHECK_FAILED = 0, 1, 2


def main(
    design: Design | Piece | Batch,
    arguments: Sequence[str] | None = None,
    *,
    boards: GivenBoards = (),
    wishes: CuttingWishes | None = None,
    shop: Shop | None = None,
    place: Place | str | None = None,
    rules: ShopRules | None = None,
) -> NoReturn:
    """Writes the packet of a design and leaves with the exit code of `run`.

    Args:
        design: what to build, a piece already composed, or a `Batch` of several.
        arguments: of the command line; none takes those of this process.
        boards: to cut it from, as a list or the path of a CSV file; none says what to buy.
        wishes: what the cutting has to keep to; none takes what shops do.
        shop: what is on hand, the saw and its limits too; none takes a usual small shop.
        place: where the piece will stand; none takes a heated house and its floor.
        rules: the shop's own limits that differ from the usual ones.
    """
    given = sys.argv[1:] if arguments is None else arguments
    code = run(design, given, boards=boards, wishes=wishes, shop=shop, place=place, rules=rules)
    sys.exit(code)


def run(
    design: Design | Piece | Batch,
    arguments: Sequence[str],
    *,
    boards: GivenBoards = (),
    wishes: CuttingWishes | None = None,
    shop: Shop | None = None,
    place: Place | str | None = None,
    rules: ShopRules | None = None,
) -> int:
    """The exit code: 0 written, 1 refused with nothing changed, 2 a check failed under --strict.

    Args:
        design: what to build, a piece already composed, or a `Batch` of several.
        arguments: of the command line, without the script's name.
        boards: to cut it from, as a list or the path of a CSV file; none says what to buy.
        wishes: what the cutting has to keep to; none takes what shops do.
        shop: what is on hand, the saw and its limits too; none takes a usual small shop.
        place: where the piece will stand; none takes a heated house and its floor.
        rules: the shop's own limits that differ from the usual ones.
    """
    try:
        options = _options(arguments)
        work = _built(design, boards, shop, place, rules)
        job = None
        if options.job is not None:
            from exporters.job import boards_left, going_on

            on_hand = usual_or(shop, work.shown)
            job = going_on(design, options.job, options.out, boards, rules, on_hand)
            work, boards = job.piece, boards_left(boards, job)
        settings = PacketSettings(
            outputs=frozenset(options.only or Output),
            paper=options.paper,
            dated=options.date,
            revision=options.revision,
            dxf=options.dxf,
            setting=read_setting(place, rules),
            shop=usual_or(shop, work.shown),
            job=job,
        )
        if options.job_template is not None and isinstance(work, Piece):
            from exporters.job import write_template

            write_template(options.job_template, work, boards, options.out)
    except _HelpAsked:
        return DONE
    except KnifewallError as error:
        print(error, file=sys.stderr)
        return REFUSED
    with ends_raised():
        return _written(work, boards, wishes, shop, settings, options)


def _written(
    work: Piece | BuiltBatch,
    boards: GivenBoards,
    wishes: CuttingWishes | None,
    shop: Shop | None,
    settings: PacketSettings,
    options: argparse.Namespace,
) -> int:
    """The exit code of a run whose command line and design are in order."""
    claim, failed = None, False
    try:
        owner = Owner(slug=work.slug, name=work.name)
        with claimed(options.out, owner, replaces_another=options.replace) as claim:
            settings = _told_against(work, settings, options)
            is_asked = Output.CUTTING in settings.outputs
            cutting = (
                _planned(work, boards, wishes, shop, is_quiet=options.quiet) if is_asked else None
            )
            made = (
                _batch_made(work, settings, cutting, claim, is_strict=options.strict)
                if isinstance(work, BuiltBatch)
                else _made(work, settings, cutting, claim, is_strict=options.strict)
            )
            failed = made.failed
        _tell(made, cutting, options)
    except KnifewallError as error:
        print(error, file=sys.stderr)
        return REFUSED
    except OSError as error:
        print(f"the packet cannot be written: {error.strerror or error}", file=sys.stderr)
        return REFUSED
    except KeyboardInterrupt as stop:
        who = "ended by the system" if isinstance(stop, Ended) else "stopped by hand"
        if claim is None or not claim.is_put:
            print(f"\n{who}: nothing was written, the last packet stays", file=sys.stderr)
            return REFUSED
        print(f"\n{who} when the new packet stood in its place", file=sys.stderr)
    return CHECK_FAILED if failed and options.strict else DONE


def _told_against(
    work: Piece | BuiltBatch, settings: PacketSettings, options: argparse.Namespace
) -> PacketSettings:
    """The settings with the earlier packet, read before anything is put in its place."""
    if options.against is None:
        return settings
    if isinstance(work, BuiltBatch):
        raise _CommandError("--against tells one piece against its packet; run that piece alone")
    from exporters.revision.against import compared

    measured = None if settings.job is None else settings.job.job.measured
    against = compared(options.against, work, settings.shop.saw, options.revision, measured)
    return replace(settings, against=against)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Made:
    """What was written and is told of it, whether a check failed, what is told of boards alone."""

    files: tuple[str, ...]
    told: tuple[Told, ...]
    failed: bool
    of_boards: tuple[Group, ...] = ()


def _planned(
    work: Piece | BuiltBatch,
    boards: GivenBoards,
    wishes: CuttingWishes | None,
    shop: Shop | None,
    *,
    is_quiet: bool,
) -> CuttingOutcome:
    from exporters.cutting.planning import planned

    saw = None if shop is None else shop.saw
    told = sys.stderr if sys.stderr.isatty() and not is_quiet else None
    if isinstance(work, BuiltBatch):
        return planned(job_of_lots(work.lots, boards, wishes, work.shown, saw), told)
    return planned(cutting_job(work, boards, wishes, saw), told)


def _tell(made: _Made, cutting: CuttingOutcome | None, options: argparse.Namespace) -> None:
    """What the run found, printed; a reader who has gone, such as `head`, hears no more of it."""
    try:
        ended = Run(
            pieces=made.told, cutting=cutting, of_boards=made.of_boards, files=made.files,
            target=options.out,
        )  # fmt: skip
        report(ended, is_quiet=options.quiet)
        sys.stdout.flush()
    except BrokenPipeError:
        # What is still held back must not fail once more when the process ends.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _made(
    piece: Piece,
    settings: PacketSettings,
    cutting: CuttingOutcome | None,
    claim: Claim,
    *,
    is_strict: bool,
) -> _Made:
    facts = facts_for(piece, settings, cutting)
    groups = facts.groups
    is_checked = Output.CHECKS in settings.outputs or is_strict
    if is_checked and Output.CHECKS not in settings.outputs:
        groups = judged(piece, settings, cutting)
    packet = put_packet(facts, claim)
    told = Told(
        piece=piece,
        weighed=facts.weighed,
        groups=groups if is_checked else None,
        changes=_changes(piece, settings),
    )
    return _Made(files=tuple(packet.files), told=(told,), failed=_has_failed(groups))


def _changes(piece: Piece, settings: PacketSettings) -> Sequence[str]:
    told: tuple[str, ...] = ()
    if settings.job is not None:
        from exporters.job import job_lines

        told = tuple(job_lines(settings.job))
    if settings.against is None:
        return told
    from exporters.revision.report import change_lines

    return (*told, *change_lines(settings.against, piece))


def _batch_made(
    batch: BuiltBatch,
    settings: PacketSettings,
    cutting: CuttingOutcome | None,
    claim: Claim,
    *,
    is_strict: bool,
) -> _Made:
    from exporters.batch_packet import board_groups, found_of, put_batch

    of_boards = board_groups(cutting, settings)
    found = found_of(batch, settings, of_boards, is_strict)
    files = put_batch(batch, found, of_boards, cutting, settings, claim)
    told = tuple(
        Told(
            piece=each.member.piece,
            weighed=each.facts.weighed,
            groups=each.groups if is_strict or Output.CHECKS in settings.outputs else None,
            copies=each.member.count,
        )
        for each in found
    )
    failed = _has_failed(of_boards) or any(_has_failed(each.groups or ()) for each in told)
    return _Made(files=tuple(files), told=told, failed=failed, of_boards=of_boards)


def _has_failed(groups: Sequence[Group]) -> bool:
    return any(each.verdict is Verdict.FAIL for group in groups for each in group.findings)


def _built(
    design: Design | Piece | Batch,
    boards: GivenBoards,
    shop: Shop | None,
    place: Place | str | None,
    rules: ShopRules | None,
) -> Piece | BuiltBatch:
    """The piece; what is wrong with boards, shop or place is said together with what is with it."""
    problems: list[Problem] = []
    work: Piece | BuiltBatch | None = None
    given = getattr(design, "shown", None)
    shown = given if isinstance(given, Shown) else None
    try:
        work = built(design, place, rules) if isinstance(design, Batch) else piece_of(design, rules)
    except DesignError as error:
        problems += [*error.problems, *problems_of_boards(boards, shown)]
    try:
        read_setting(place, rules)
    except DesignError as error:
        problems += error.problems
    try:
        usual_or(shop, shown or millimetres())
    except DesignError as error:
        problems += error.problems
    if work is None or problems:
        raise DesignError(dict.fromkeys(problems))
    return work


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
        description="Writes drawings, tables, checks and cutting plan of this piece into a folder.",
        epilog=_EXIT_CODES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    what = parser.add_argument_group("what to write")
    what.add_argument(
        "--out", type=_folder, required=True, metavar="DIR",
        help="the folder: new, empty, or with an earlier packet of this piece, which is replaced",
    )  # fmt: skip
    what.add_argument(
        "--replace", action="store_true",
        help="let the packet of another piece that stands there go for this one",
    )  # fmt: skip
    what.add_argument(
        "--only", type=_output, action="append", metavar="WHAT",
        help="write only this, and delete the other files of the earlier packet:"
        f" {_OUTPUTS}; may be repeated",
    )  # fmt: skip
    what.add_argument(
        "--against", type=_folder, metavar="DIR",
        help="tell each part against an earlier packet of this piece, such as the one that is"
        " replaced: as it is, trim, recut, make new; what changed carries the next letter",
    )  # fmt: skip
    what.add_argument(
        "--quiet", action="store_true",
        help="say nothing but what fails and what has no place on the boards",
    )  # fmt: skip
    job = parser.add_argument_group("a job in the middle")
    job.add_argument(
        "--job", type=_folder, metavar="FILE",
        help="what is done and measured already, in TOML; the rest follows from it",
    )  # fmt: skip
    job.add_argument(
        "--job-template", type=_folder, metavar="FILE",
        help="write such a file to fill in, with everything that can be measured; it must be new",
    )  # fmt: skip
    sheets = parser.add_argument_group("the sheets")
    sheets.add_argument(
        "--paper", choices=PAPERS, metavar="PAPER",
        help=f"{', '.join(PAPERS)}; default: A4, or Letter for a piece in inches",
    )  # fmt: skip
    sheets.add_argument(
        "--date", type=_date, default=date.today(), metavar="YYYY-MM-DD",
        help="date in the title blocks (default: today)",
    )  # fmt: skip
    sheets.add_argument(
        "--revision", type=_line, default="-", metavar="TEXT",
        help="revision in the title blocks; default: a dash, or with --against the next letter"
        " where something changed",
    )  # fmt: skip
    sheets.add_argument(
        "--dxf", choices=DXF_FLAVOURS, default=DXF_FLAVOURS[0], metavar="VERSION",
        help=f"version of the drawing files: {', '.join(DXF_FLAVOURS)}"
        f" (default: {DXF_FLAVOURS[0]})",
    )  # fmt: skip
    checks = parser.add_argument_group("checks")
    checks.add_argument(
        "--strict", action="store_true",
        help="check whatever --only says; exit with 2 if a check fails, or if cutting is"
        " written and a part has no place on the boards",
    )  # fmt: skip
    return parser.parse_args(list(arguments))


_OUTPUTS = ", ".join(each.value for each in Output)
_EXIT_CODES = """\
While a cutting plan is looked for, Ctrl-C stops and uses the best one so far.

exit code
  0  the packet is written, whatever the checks say
  1  refused: nothing is written, the earlier packet stays as it was
  2  written, but a check fails or a part has no place (with --strict only)

A file of the packet that you have changed is kept beside the new one, with "(yours)" in its name.
"""


def _output(text: str) -> Output:
    try:
        return Output(text)
    except ValueError as error:
        allowed = ", ".join(each.value for each in Output)
        raise argparse.ArgumentTypeError(f"{text!r} is not one of: {allowed}") from error


def _folder(text: str) -> Path:
    if not text.strip():
        raise argparse.ArgumentTypeError("it is empty; write . for the folder you are in")
    return Path(_line(text))


def _line(text: str) -> str:
    """A text of letters that print; another could neither be drawn nor told on a terminal."""
    odd = next((each for each in text if not each.isprintable()), None)
    if odd is not None:
        raise argparse.ArgumentTypeError(f"{text!a} holds {odd!a}, which cannot be printed")
    return text


def _date(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise argparse.ArgumentTypeError(f"{text!r} is not a date like 2026-03-14") from error
