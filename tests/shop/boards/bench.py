"""A small stand, boards for it, and the models with their own boards."""

from __future__ import annotations

import runpy
from dataclasses import replace
from functools import cache

from furniture import (
    CuttingWishes,
    MeasuredBoard,
    MitredBox,
    SteppedStand,
    Stock,
    TierRule,
)
from furniture.pieces import Piece
from furniture.shop.boards.cutting_job import CuttingJob
from furniture.shop.boards.job import cutting_job
from furniture.shop.boards.outcome import CuttingOutcome, outcome_of
from furniture.shop.cutting.plan import Rectangle
from furniture.shop.cutting.values import CuttingRequest
from tests.models import ROOT, piece_of

THICK = Stock(name="thick", species="white oak", thickness="19.7 mm", moisture="9 %")
THIN = Stock(name="thin", species="white oak", thickness="10.2 mm", moisture="9 %")
MODELS = ("herb_stand", "tea_box", "yarn_steps", "key_rack")


@cache
def stand() -> Piece:
    """A stand of two tiers; rough allowances 15 mm and 4 mm as the builder leaves them."""
    return SteppedStand(
        name="Small stand",
        thick=THICK,
        thin=THIN,
        base_width="260 mm",
        base_depth="180 mm",
        base_height="70 mm",
        post_width="80 mm",
        post_proud="24 mm",
        tiers=TierRule(
            count=2, width="220 mm", depth="110 mm", rise="120 mm", step_back_width="20 mm"
        ),
    ).build()


@cache
def box() -> Piece:
    """A mitred box of one stock."""
    return MitredBox(
        name="Box", rails=THICK, lid=THIN, width="240 mm", depth="160 mm", height="80 mm"
    ).build()


def board(**changes: object) -> MeasuredBoard:
    """A wide clear board of the thick stock with some of its figures changed."""
    usual: dict[str, object] = {
        "name": "A",
        "stock": "thick",
        "length": "1500 mm",
        "widths": "200 mm",
        "thickness": "19.7 mm",
    }
    return MeasuredBoard(**{**usual, **changes})


def thin_board(**changes: object) -> MeasuredBoard:
    """A wide clear board of the thin stock with some of its figures changed."""
    usual: dict[str, object] = {"name": "T", "stock": "thin", "thickness": "10.2 mm"}
    return board(**{**usual, **changes})


@cache
def job_of_model(name: str) -> CuttingJob:
    """The job of a model with its own boards and wishes."""
    namespace = runpy.run_path(str(ROOT / "models" / f"{name}.py"))
    wishes = namespace["WISHES"]
    assert isinstance(wishes, CuttingWishes)
    job = cutting_job(piece_of(name), namespace["BOARDS"], wishes, namespace["SHOP"].saw)
    limits = replace(job.request.limits, seconds=600.0)  # rounds end it, not the clock
    return replace(job, request=replace(job.request, limits=limits))


def by_itself(job: CuttingJob) -> CuttingRequest:
    """What the planner is asked where every part is cut by itself."""
    return job.request if job.commons is None else job.commons.apart.request


def places_of(outcome: CuttingOutcome) -> dict[str, tuple[str, Rectangle]]:
    """The board that each whole instance lies on, and where, by its name."""
    return {
        stretch.instance: (laid.placement.board, place)
        for laid in outcome.blanks
        for stretch, place in laid.places
    }


@cache
def outcome_of_model(name: str) -> CuttingOutcome:
    """The plan of a model with its own boards and wishes."""
    return outcome_of(job_of_model(name))
