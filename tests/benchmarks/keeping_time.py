"""How long a plan and all that follows from it take beside the seconds that its maker gives.

Each case is planned as a run plans it, its reasons and all, and its sheets are laid out. What
counts is the time of the process, so that a machine that is busy otherwise tells the same.
"""

from __future__ import annotations

import argparse
import random
import resource
import time
from collections.abc import Sequence
from dataclasses import dataclass

from exporters.cutting.report import boards_answer
from exporters.cutting.sheets import cutting_sheets
from exporters.sheets import SheetSettings
from furniture.errors import DesignError
from furniture.shop.boards.cutting_job import CuttingJob
from furniture.shop.boards.outcome import CuttingOutcome, outcome_of
from furniture.shop.cutting.values import (
    Board,
    CutPart,
    CuttingRequest,
    Limits,
    MatchGroup,
    MatchRule,
    Saw,
    Station,
    Zone,
    ZoneKind,
)
from furniture.units import millimetres
from tests.exporters.board_samples import lone_copy
from tests.models import piece_of
from tests.shop.cutting.zones import rectangular_zone

ALLOWED = 1.2
"""Of the seconds given, at most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """How many there are of each: unlike ones, unless they are alike. faults: on each board."""

    parts: int
    boards: int
    faults: int
    is_alike: bool = False
    is_scarce: bool = False
    matches: int = 0

    @property
    def name(self) -> str:
        """Its figures in a row."""
        words = [f"{self.parts} parts", f"{self.boards} boards", f"{self.faults} faults"]
        words += ["alike"] * self.is_alike + ["too little wood"] * self.is_scarce
        return ", ".join(words + [f"{self.matches} matches"] * (self.matches > 0))


CASES = (
    *(
        Case(parts=parts, boards=boards, faults=faults)
        for parts in (2, 30, 500)
        for boards in (1, 20, 500)
        for faults in (0, 20, 500)
    ),
    *(Case(parts=parts, boards=boards, faults=0, is_alike=True)
      for parts, boards in ((30, 20), (500, 20), (500, 500))),
    *(Case(parts=parts, boards=boards, faults=faults, is_scarce=True)
      for parts, boards, faults in ((30, 20, 20), (500, 20, 500), (500, 500, 500))),
    Case(parts=500, boards=500, faults=40),  # as many faults in all as are planned round
    Case(parts=500, boards=40, faults=500),
    Case(parts=30, boards=20, faults=5, matches=8),
    Case(parts=500, boards=500, faults=20, matches=60),
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Took:
    """Seconds for the plan, of the process and of the clock, and for its sheets and words [s]."""

    plan: float
    clock: float
    sheets: float
    sheets_clock: float
    missing: int


def job_of(case: Case, seconds: float) -> CuttingJob:
    """The case as a job with so many seconds [s]."""
    dice = random.Random(str(case))
    boards = tuple(_board(dice, number, case) for number in range(case.boards))
    parts = tuple(_parts(dice, case))
    names = [part.name for part in parts]
    matches = tuple(
        MatchGroup(
            name=f"match {number}", rule=dice.choice((MatchRule.IN_SEQUENCE, MatchRule.SAME_BOARD)),
            members=tuple(names[3 * number : 3 * number + 3]), price=5.0,
        )
        for number in range(case.matches)
    )  # fmt: skip
    saw = Saw(
        kerf_mm=3.2, end_trim_mm=10, shortest_rip_mm=300, narrowest_rip_mm=50,
        shortest_crosscut_mm=200, off_faults_mm=3, usable_length_mm=200,
    )  # fmt: skip
    request = CuttingRequest(
        boards=boards, parts=parts, matches=matches, saw=saw, limits=Limits(seconds=seconds)
    )
    return CuttingJob(
        request=request,
        boards=boards,
        copies={
            part.name: tuple(
                lone_copy(f"{part.name} {copy + 1}", part.length_mm)
                for copy in range(part.quantity)
            )
            for part in parts
        },
        sequences={},
        stocks=dict.fromkeys(names, "oak"),
        species={"oak": "oak"},
        currency="EUR",
        shown=millimetres(0.1),
    )


def _board(dice: random.Random, number: int, case: Case) -> Board:
    length, width = (
        (1800, 180) if case.is_alike else (dice.randint(900, 2400), dice.randint(120, 260))
    )
    if case.is_scarce:
        length //= 3
    zones: list[Zone] = []
    for fault in range(case.faults):
        size = dice.uniform(3, 12)
        x, y = dice.uniform(0, length - size), dice.uniform(0, width - 25 - size)
        if fault % 5 == 4:
            outline = ((x, y), (x + size, y + size / 3), (x + size / 2, y + size))
            zones.append(Zone(name=f"z{fault}", kind=ZoneKind.CHECK, outline=outline))
        else:
            kind = dice.choice((ZoneKind.KNOT, ZoneKind.SAPWOOD, ZoneKind.STAIN))
            zones.append(
                rectangular_zone(name=f"z{fault}", kind=kind, x=x, y=y, length=size, width=size)
            )
    far = width if case.is_alike else width - dice.randint(0, 20)
    return Board(
        name=f"B{number}", length_mm=length, thickness_mm=22.0, species="oak",
        stations=(Station(at_mm=0, width_mm=width), Station(at_mm=length, width_mm=far)),
        price=20.0 if case.is_alike else float(dice.randint(10, 60)), zones=tuple(zones),
    )  # fmt: skip


def _parts(dice: random.Random, case: Case) -> Sequence[CutPart]:
    count, copies = (max(1, case.parts // 25), 25) if case.is_alike else (case.parts, 1)
    return [
        CutPart(
            name=f"part {number}", quantity=copies, thickness_mm=20.0, species="oak",
            length_mm=dice.randint(60, 700), width_mm=dice.randint(30, 115),
            length_allowance_mm=15.0, width_allowance_mm=4.0, least_width_allowance_mm=1.5,
        )
        for number in range(count)
    ]  # fmt: skip


def took(case: Case, seconds: float) -> Took:
    """How long it takes with so many seconds given [s]."""
    job, piece = job_of(case, seconds), piece_of("key_rack")
    began, clock = time.process_time(), time.monotonic()
    outcome: CuttingOutcome = outcome_of(job)
    plan, planned = time.process_time() - began, time.monotonic() - clock
    began, clock = time.process_time(), time.monotonic()
    boards_answer(outcome)
    cutting_sheets(piece, outcome, SheetSettings(), 1)
    sheets, laid = time.process_time() - began, time.monotonic() - clock
    missing = sum(each.copies for each in outcome.plan.unplaced) if outcome.plan else 0
    return Took(plan=plan, clock=planned, sheets=sheets, sheets_clock=laid, missing=missing)


def main(arguments: Sequence[str]) -> int:
    """Print how long each case takes; 1 where one takes more than is allowed."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks time", description=__doc__)
    parser.add_argument("--seconds", type=float, default=5.0)
    parser.add_argument("--clock", action="store_true", help="on a quiet machine: the real clock")
    parser.add_argument("--only", type=int, nargs="*", help="numbers of cases")
    options = parser.parse_args(arguments)
    if not options.clock:
        time.monotonic = time.process_time  # a busy machine does not shorten the search
    took(Case(parts=30, boards=3, faults=0, is_alike=True), options.seconds)  # compiles
    over = 0
    for number, case in enumerate(CASES):
        if options.only and number not in options.only:
            continue
        try:
            found = took(case, options.seconds)
        except DesignError as refused:
            print(f"{number:3d} {case.name:52s} refused: {refused.problems[0].parameter}")
            continue
        share = found.plan / options.seconds
        over += share > ALLOWED
        most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024**2
        late = " OVER" if share > ALLOWED else ""
        print(
            f"{number:3d} {case.name:52s} plan {found.plan:6.2f} s ({found.clock:6.2f} by the"
            f" clock) {share:5.2f}{late}; words and sheets {found.sheets:6.2f} s"
            f" ({found.sheets_clock:6.2f}); {found.missing} without a place; {most:.2f} GB",
            flush=True,
        )
    return 1 if over else 0
