"""Stands to measure: by the builder up to its range, and composed from parts and joints past it."""

from __future__ import annotations

from furniture import SteppedStand, Stock, TierRule
from furniture.joints import DadoJoint
from furniture.parts.blank import Blank
from furniture.parts.part import Part, Placed
from furniture.parts.placement import Placement
from furniture.parts.vectors import BACK, LEFT, RIGHT, UP
from furniture.pieces import Piece, compose
from furniture.shop.cutting.values import CuttingRequest
from furniture.timber.stock import Timber, read_stock
from furniture.units import Reader

THICK = Stock(name="thick", species="white oak", thickness="19.7 mm", moisture="9 %")
THIN = Stock(name="thin", species="white oak", thickness="10.2 mm", moisture="9 %")


def built_stand(tiers: int) -> Piece:
    """A stepped stand of so many tiers, each of another size."""
    return SteppedStand(
        name=f"stand of {tiers}",
        thick=THICK,
        thin=THIN,
        base_width="340 mm",
        base_depth="230 mm",
        base_height="84 mm",
        post_width="90 mm",
        post_proud="24 mm",
        tiers=TierRule(
            count=tiers,
            width="330 mm",
            depth="180 mm",
            rise="120 mm",
            step_back_width="4 mm",
            step_back_depth="3 mm",
        ),
    ).build()


def planning_jobs() -> dict[str, CuttingRequest]:
    """Stands' parts on boards with zones, as the planner is asked for them."""
    from tests.shop.boards.bench import job_of_model
    from tests.shop.cutting.bench import stand

    return {
        "herb stand, its 5 boards": job_of_model("herb_stand").request,
        "tea box, its 2 boards": job_of_model("tea_box").request,
        "14 parts, 3 boards, tapering": stand(),
    }


def composed_stand(shelves: int) -> Piece:
    """A bare post with so many shelves, every tenth of another width: past the builder's range."""
    thick, thin = _timber(THICK), _timber(THIN)
    rise, depth, post_width = 60.0, 7.0, 90.0
    post = Part(
        name="post",
        blank=Blank(
            length_mm=rise * (shelves + 1), width_mm=post_width, thickness_mm=thick.thickness_mm
        ),
        timber=thick,
    )
    placed = [
        Placed(
            instance="post",
            part=post,
            placement=Placement(
                origin=(post_width, thick.thickness_mm, 0.0), x_axis=UP, y_axis=LEFT
            ),
        )
    ]
    for index in range(shelves):
        width = 200.0 + 10.0 * (index % 10)
        blank = Blank(length_mm=width, width_mm=80.0 + depth, thickness_mm=thin.thickness_mm)
        placed.append(
            Placed(
                instance=f"shelf {index + 1}",
                part=Part(name=f"shelf {index % 10 + 1}", blank=blank, timber=thin),
                placement=Placement(
                    origin=((post_width - width) / 2, depth - blank.width_mm, rise * (index + 1)),
                    x_axis=RIGHT,
                    y_axis=BACK,
                ),
            )
        )
    joints = [DadoJoint(into="post", incoming=each.instance) for each in placed[1:]]
    return compose(name=f"stand of {shelves}", placed=placed, joints=joints)


def _timber(stock: Stock) -> Timber:
    timber = read_stock(Reader(), "stock", stock)
    assert timber is not None
    return timber
