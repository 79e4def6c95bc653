"""Whole runs as their ends are printed, kept as text: `python -m tests.exporters.console` keeps
them anew, for a maker's eye to read what has changed."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import cache, partial
from pathlib import Path
from typing import Any

from exporters.facts import CHECKING, facts_of
from exporters.no_break import NO_BREAK
from exporters.run_report import Run, Told, ending
from exporters.settings import Output, PacketSettings
from exporters.watch.script import given_by
from furniture import Load, SteppedStand, Tier
from furniture.checks.of_piece.setting import read_setting
from furniture.pieces import Piece
from furniture.shop.boards import cutting_job
from furniture.shop.boards.outcome import CuttingOutcome, outcome_of
from furniture.shop.tools.reading import usual_or
from tests.models import NAMES, ROOT, piece_of
from tests.shop.boards.bench import THICK, THIN, board, outcome_of_model, stand, thin_board

KEPT = Path(__file__).resolve().parent / "console"
WIDTHS = (80, 110)
"""Columns of a usual screen, and of a wide one."""


def run_of(
    piece: Piece, cutting: CuttingOutcome | None, place: Any = None, shop: Any = None
) -> Run:
    """A run of one piece as the command makes it, as if its packet stood in out/piece."""
    settings = PacketSettings(
        outputs=frozenset({Output.CHECKS, Output.CUTTING}),
        dated=date(2026, 1, 1),
        setting=read_setting(place),
        shop=usual_or(shop, piece.shown),
    )
    facts = facts_of(piece, settings, cutting, CHECKING)
    return Run(
        pieces=(Told(piece=piece, weighed=facts.weighed, groups=facts.groups),),
        cutting=cutting,
        of_boards=(),
        files=("sheets.pdf", "checks.pdf"),
        target=Path("out/piece"),
    )


@cache
def of_model(name: str) -> Run:
    """A model on its own boards."""
    more = given_by(ROOT / "models" / f"{name}.py").more
    return run_of(piece_of(name), outcome_of_model(name), more.get("place"), more.get("shop"))


@cache
def that_falls() -> Run:
    """A narrow stand with all its load far in front."""
    load = Load(
        on="tier 1", mass="6 kg", footprint=("120 mm", "60 mm"), centre_height="80 mm", name="urn"
    )
    piece = SteppedStand(
        name="Falling stand",
        thick=THICK,
        thin=THIN,
        base_width="260 mm",
        base_depth="120 mm",
        base_height="70 mm",
        post_width="80 mm",
        post_proud="24 mm",
        tiers=[Tier(width="220 mm", depth="240 mm", rise="260 mm")],
        loads=[load],
    ).build()
    return run_of(piece, outcome_of(cutting_job(piece, [board(), thin_board(widths="260 mm")])))


@cache
def without_boards() -> Run:
    """A stand for which nobody has listed a board."""
    return run_of(stand(), outcome_of(cutting_job(stand())))


@cache
def with_parts_left_out() -> Run:
    """A stand on a board that is too narrow for some of it."""
    job = cutting_job(stand(), [board(), thin_board(widths="60 mm")])
    return run_of(stand(), outcome_of(job))


RUNS: dict[str, Callable[[], Run]] = {
    **{name: partial(of_model, name) for name in NAMES},
    "that_falls": that_falls,
    "without_boards": without_boards,
    "with_parts_left_out": with_parts_left_out,
}


def lines_of(ended: Run, columns: int = WIDTHS[0]) -> list[str]:
    """The lines that a run ends with."""
    lines = [line for each in ending(ended, columns) for line in each.lines(columns)]
    return [line.replace(NO_BREAK, " ") for line in lines]


def kept_file(name: str, columns: int) -> Path:
    """Where the lines of a run are kept."""
    return KEPT / f"{name}-{columns}.txt"


def main() -> None:
    """Keeps all runs as they end today, and nothing else."""
    KEPT.mkdir(exist_ok=True)
    for path in KEPT.iterdir():
        path.unlink()
    for name, run in RUNS.items():
        for columns in WIDTHS:
            text = "\n".join(lines_of(run(), columns)) + "\n"
            kept_file(name, columns).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
