"""The command line of a model script: `python models/NAME.py --out DIR`."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

from exporters.batch import Batch, BuiltBatch, built
from exporters.designs import Design, piece_of
from exporters.exchange.stops import Ended, ends_raised
from exporters.options import CommandError, HelpAsked, options_of
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
from furniture.shop.tools.reading import rules_of_shop, usual_or
from furniture.units import Shown, millimetres

if TYPE_CHECKING:
    from exporters.photo import PhotoWood

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
    # A packet is made of values without rings: looking for them less often saves a tenth of a run.
    gc.set_threshold(50_000, 20, 50)
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
        options = options_of(arguments)
        if options.watch:
            return _watched(options)
        rules = rules_of_shop(shop, rules)
        if options.compare is not None:
            more = {"wishes": wishes, "shop": shop, "place": place, "rules": rules}
            return _compared(design, options, boards, more)
        work = _built(design, boards, shop, place, rules)
        job = None
        if options.job is not None:
            from exporters.job import boards_left, going_on

            on_hand = usual_or(shop, work.shown)
            if isinstance(design, Batch) and isinstance(work, BuiltBatch):
                from exporters.batch_job import batch_going_on

                begun = batch_going_on(
                    design, work, options.job, options.out, boards, rules, on_hand
                )
                work, boards = begun.batch, begun.boards
            elif not isinstance(design, Batch):
                job = going_on(design, options.job, options.out, boards, rules, on_hand)
                work, boards = job.piece, boards_left(boards, job)
        settings = PacketSettings(
            outputs=frozenset(options.only or Output),
            paper=options.paper,
            parts_on=options.parts_on,
            dated=options.date,
            revision=options.revision,
            dxf=options.dxf,
            setting=read_setting(place, rules),
            shop=usual_or(shop, work.shown),
            job=job,
        )
        if options.job_template is not None:
            from exporters.job import write_template

            write_template(options.job_template, work, boards, options.out)
    except HelpAsked:
        return DONE
    except KnifewallError as error:
        print(error, file=sys.stderr)
        return REFUSED
    with ends_raised():
        return _written(work, boards, wishes, shop, settings, options)


def _watched(options: argparse.Namespace) -> int:
    from exporters.watch import watch

    script = getattr(sys.modules["__main__"], "__file__", None)
    if script is None:
        raise CommandError("--watch follows a script: run it as `python NAME.py --watch`")
    with ends_raised():
        return watch(Path(script), options.job)


def _compared(
    design: Design | Piece | Batch, options: argparse.Namespace, boards: GivenBoards,
    more: Mapping[str, Any],
) -> int:  # fmt: skip
    from exporters.compare import CompareError, compare, variants_given

    if isinstance(design, Batch):
        raise CompareError("--compare shows one piece and its variants; run that piece alone")
    try:
        path = compare(variants_given(design, options.variants), options.compare, boards=boards,
                       **more)  # fmt: skip
    except OSError as error:
        raise CompareError(f"{options.compare} cannot be written: {error.strerror}") from error
    if not options.quiet:
        print(f"{path}: {1 + len(options.variants)} side by side")
    return DONE


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
            work, settings = _told_against(work, settings, options)
            is_asked = Output.CUTTING in settings.outputs
            cutting = (
                _planned(work, boards, wishes, shop, is_quiet=options.quiet) if is_asked else None
            )
            if cutting is not None:
                settings = replace(settings, photos=_photos(boards, cutting))
            if cutting is not None and isinstance(work, BuiltBatch):
                from exporters.batch_copies import parted_by_wood

                work, cutting = parted_by_wood(work, cutting)
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


def _photos(boards: GivenBoards, cutting: CuttingOutcome) -> Mapping[str, PhotoWood]:
    from exporters.photo.files import photos_beside

    return photos_beside(boards, cutting.job.boards)


def _told_against(
    work: Piece | BuiltBatch, settings: PacketSettings, options: argparse.Namespace
) -> tuple[Piece | BuiltBatch, PacketSettings]:
    """The settings with the earlier packet, read before anything is put in its place."""
    from exporters.revision.run import batch_told_against, told_against

    if isinstance(work, BuiltBatch):
        return batch_told_against(work, settings, options.out, options.against), settings
    return told_against(work, settings, options.out, options.against)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Made:
    """What was written and is told of it, whether a check failed, what is told of boards alone."""

    files: tuple[str, ...]
    told: tuple[Told, ...]
    failed: bool
    of_boards: tuple[Group, ...] = ()
    of_job: tuple[str, ...] = ()


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
            target=options.out, of_job=made.of_job,
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
    from exporters.revision.run import changes_in

    told = Told(
        piece=piece,
        weighed=facts.weighed,
        groups=groups if is_checked else None,
        changes=changes_in(facts),
    )
    return _Made(files=tuple(packet.files), told=(told,), failed=_has_failed(groups))


def _batch_made(
    batch: BuiltBatch,
    settings: PacketSettings,
    cutting: CuttingOutcome | None,
    claim: Claim,
    *,
    is_strict: bool,
) -> _Made:
    from exporters.batch_packet import board_groups, found_of, put_batch
    from exporters.revision.run import changes_in

    of_boards = board_groups(cutting, settings)
    found = found_of(batch, settings, cutting, of_boards, is_strict)
    files = put_batch(batch, found, of_boards, cutting, settings, claim)
    told = tuple(
        Told(
            piece=each.member.piece,
            weighed=each.facts.weighed,
            groups=each.groups if is_strict or Output.CHECKS in settings.outputs else None,
            copies=each.member.count,
            changes=_named(each.member.piece, changes_in(each.facts)),
        )
        for each in found
    )
    failed = _has_failed(of_boards) or any(_has_failed(each.groups or ()) for each in told)
    return _Made(
        files=tuple(files), told=told, failed=failed, of_boards=of_boards, of_job=batch.told
    )


def _named(piece: Piece, lines: Sequence[str]) -> tuple[str, ...]:
    """What is told of one piece of several, under its name."""
    return (f"{piece.name}:", *(f"  {line}" for line in lines)) if lines else ()


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
