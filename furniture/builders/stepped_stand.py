"""A stepped shelf stand: tiers housed in a post that rises from a mitred, lidded base box."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from furniture.builders.base_box import (
    LEAST_BEARING_MM,
    BoxFigures,
    BoxGiven,
    corner,
    lid_joint,
    place_front_and_sides,
    place_panel,
    place_rail,
    read_box,
    read_rail_thicknesses,
)
from furniture.builders.common import (
    OUTER_TOP,
    ROUGH_LENGTH,
    ROUGH_WIDTH,
    EdgeProfile,
    Load,
    Names,
    StockOf,
    read_loads,
    read_profiles,
    read_rough,
    read_usual,
    with_profiles,
)
from furniture.builders.mitred_box import flush_notes
from furniture.builders.tiers import (
    LEAST_WOOD_BETWEEN_MM,
    Tier,
    TierFigures,
    TierRoom,
    TierRule,
    read_tiers,
    tier_names,
)
from furniture.joints import ButtJoint, DadoJoint, Fit, Joint, RabbetJoint, own_fit
from furniture.joints.fit import NAMED_FITS, SLIP
from furniture.parts.blank import Blank
from furniture.parts.cuts import Cut, Notch
from furniture.parts.faces import Face
from furniture.parts.part import Part, Placed
from furniture.parts.placement import Placement
from furniture.parts.vectors import BACK, UP
from furniture.pieces import Piece, Reference, Surface, compose
from furniture.timber.stock import Stock, Timber
from furniture.units import REQUIRED, Given, Reader, Shown, as_given, millimetres, parameters

RAILS = ("front rail", "left side rail", "right side rail", "left stub", "right stub")

LEAST_STUB_MM = 40.0
"""Shortest stub, long point to square end [mm]. Own rule: shorter is unsafe to mitre."""
DADO_SHARE, LEAST_DADO_SHARE, GREATEST_DADO_SHARE = 1 / 3, 1 / 8, 1 / 2
"""Depth of a dado as a share of the post's thickness: usual, least and greatest.
Common practice, no source: a third is usual, and half the thickness stays behind it."""
LEAST_DADO_MM = 3.0


@parameters
class SteppedStand:
    """A post standing between two stubs at the back of a box, with tiers housed in it.

    Args:
        name: of the piece.
        thick: the stock of the base's rails and the post.
        thin: the stock of the lid and the tiers.
        base_width: outside, left to right.
        base_depth: outside, front to back.
        base_height: of the rails as cut; their tops are planed flush with the lid after glue-up.
        post_width: left to right.
        post_proud: how far the post stands above the top tier; `0 mm` trims it flush.
        tiers: a `TierRule`, or one `Tier` each from the lid up.
        dado_depth: in the post; a third of its thickness when left out.
        fit: how the tiers go into their dados.
        fit_clearance: the maker's own clearance, instead of the fit's.
        flush_allowance: what is planed off the rails after glue-up.
        rabbet_width: of the lid's rabbet, into the rail; half the rail's thickness when left out.
        lid_gap_along: at each end of the lid, along its grain, and beside the post.
        lid_gap_across: at each edge of the lid, across its grain; worked out from the species'
            seasonal movement when left out.
        profiles: edge profiles.
        loads: what stands on the tiers and the lid.
        own_stock: a stock of its own for a named part.
        rough_length: left on a blank's length.
        rough_width: left on a blank's width.
        shown: the unit that everything is shown in.
    """

    name: str = "stepped stand"
    thick: Stock = REQUIRED
    thin: Stock = REQUIRED
    base_width: Given = REQUIRED
    base_depth: Given = REQUIRED
    base_height: Given = REQUIRED
    post_width: Given = REQUIRED
    post_proud: Given = "0 mm"
    tiers: TierRule | Sequence[Tier] = REQUIRED
    dado_depth: Given | None = None
    fit: Fit = SLIP
    fit_clearance: Given | None = None
    flush_allowance: Given = "0.5 mm"
    rabbet_width: Given | None = None
    lid_gap_along: Given = "0.5 mm"
    lid_gap_across: Given | None = None
    profiles: Sequence[EdgeProfile] = ()
    loads: Sequence[Load] = ()
    own_stock: Mapping[str, Stock] = field(default_factory=dict)
    rough_length: Given = ROUGH_LENGTH
    rough_width: Given = ROUGH_WIDTH
    shown: Shown = millimetres()

    def build(self) -> Piece:
        """The stand as a piece.

        Raises:
            DesignError: with every problem of these parameters.
        """
        return _build(self)


@dataclass(frozen=True, slots=True, kw_only=True)
class _PostFigures:
    """The post [mm]: `front` is the distance of its front face from the box's front."""

    width: float
    thickness: float
    length: float
    proud: float
    dado_depth: float
    front: float
    left: float


def _build(stand: SteppedStand) -> Piece:
    reader = Reader(stand.shown)
    reader.names("", stand)
    tiers = tier_names(stand.tiers)
    names = Names(
        instances=(*RAILS, "post", "lid", *tiers), groups={"rails": RAILS, "tiers": tiers}
    )
    timbers = read_usual(reader, {"thick": stand.thick, "thin": stand.thin})
    usual: dict[str, Timber | None] = dict.fromkeys((*RAILS, "post"), timbers["thick"])
    usual.update(dict.fromkeys(("lid", *tiers), timbers["thin"]))
    stock = StockOf(reader, usual, stand.own_stock, names)
    rough = read_rough(reader, stand.rough_length, stand.rough_width)
    box = read_box(
        reader,
        BoxGiven(
            width=("base_width", stand.base_width),
            depth=("base_depth", stand.base_depth),
            height=("base_height", stand.base_height),
            flush_allowance=stand.flush_allowance,
            rabbet_width=stand.rabbet_width,
            lid_gap_along=stand.lid_gap_along,
            lid_gap_across=stand.lid_gap_across,
        ),
        read_rail_thicknesses(reader, stock, RAILS),
        stock.timber("lid"),
        rough,
    )
    fit = _read_fit(reader, stand)
    post_width = _read_post_width(reader, stand, box)
    thickness = [stock.thickness(name) for name in tiers]
    clearance = [fit.clearance_mm(each) for each in thickness]
    room = TierRoom(post_width=post_width, base_width=box.width, lid_top=box.lid_top)
    steps = read_tiers(reader, stand.tiers, room, thickness, clearance)
    post = _read_post(reader, stand, box, stock, post_width, steps, clearance)
    _check_lid_at_post(reader, box, post)
    profiles = read_profiles(reader, stand.profiles, names)
    _refuse_planed_profiles(reader, stand)
    loads = read_loads(reader, stand.loads, ("lid", *tiers))
    reader.raise_if_any()

    placed = [
        *place_front_and_sides(box, stock),
        *_place_stubs(box, post, stock),
        _place_post(post, box, stock),
        _place_lid(box, post, stock),
        *(_place_tier(step, box, post, stock) for step in steps),
    ]
    return compose(
        name=stand.name,
        placed=[with_profiles(each, profiles) for each in placed],
        joints=_joints(box, post, steps, fit),
        shown=stand.shown,
        parameters=as_given(stand),
        loads=loads,
        surfaces=_surfaces(box, post, steps),
        references=_references(box, post, steps),
        notes=[
            *flush_notes(box, stand.shown),
            "trim the top of the post last, to the top tier as it stands",
        ],
    )


def _read_fit(reader: Reader, stand: SteppedStand) -> Fit:
    if stand.fit_clearance is not None:
        return own_fit(
            reader.length(
                "fit_clearance",
                stand.fit_clearance,
                at_least=0.0,
                at_most=0.5,
                why="beyond half a millimetre a housing no longer holds its shelf upright",
            )
        )
    if not isinstance(stand.fit, Fit):
        named = ", ".join(fit.name.upper() for fit in NAMED_FITS)
        reader.refuse("fit", repr(stand.fit), named, "a fit sets the clearance", "write SLIP")
        return SLIP
    return stand.fit


def _read_post_width(reader: Reader, stand: SteppedStand, box: BoxFigures) -> float:
    most = box.width - 2 * LEAST_STUB_MM
    return reader.length(
        "post_width",
        stand.post_width,
        at_least=30.0,
        at_most=math.inf if math.isnan(most) else most,
        why=f"a post carries the tiers and leaves each stub {LEAST_STUB_MM:g} mm long",
    )


def _read_post(
    reader: Reader,
    stand: SteppedStand,
    box: BoxFigures,
    stock: StockOf,
    width: float,
    steps: Sequence[TierFigures],
    clearance: Sequence[float],
) -> _PostFigures:
    thickness = stock.thickness("post")
    proud = reader.length(
        "post_proud",
        stand.post_proud,
        at_least=0.0,
        at_most=600.0,
        why="the post is trimmed flush with the top tier or stands above it",
    )
    least = (clearance[-1] if clearance else 0.0) + LEAST_WOOD_BETWEEN_MM
    if proud > 0 and not math.isnan(least):
        reader.limit(
            "post_proud",
            proud,
            at_least=least,
            why="less wood above the top dado is short grain: leave more, or trim flush with 0 mm",
        )
    if stand.dado_depth is None:
        depth = (
            max(LEAST_DADO_MM, round(thickness * DADO_SHARE * 2) / 2)
            if thickness > 0
            else thickness
        )
    else:
        depth = reader.length(
            "dado_depth",
            stand.dado_depth,
            at_least=LEAST_DADO_MM
            if math.isnan(thickness)
            else max(LEAST_DADO_MM, LEAST_DADO_SHARE * thickness),
            at_most=math.inf if math.isnan(thickness) else GREATEST_DADO_SHARE * thickness,
            why="half the post's thickness stays behind a dado (common practice)",
        )
    return _PostFigures(
        width=width,
        thickness=thickness,
        length=(steps[-1].top if steps else math.nan) + proud,
        proud=proud,
        dado_depth=depth,
        front=box.depth - thickness,
        left=(box.width - width) / 2,
    )


def _check_lid_at_post(reader: Reader, box: BoxFigures, post: _PostFigures) -> None:
    bearing = post.dado_depth - box.gap_across
    reader.limit(
        "dado_depth less lid_gap_across",
        bearing,
        at_least=LEAST_BEARING_MM,
        why="the lid's back edge must stay in the post's lowest dado, gap and all",
        remedy=lambda nearest: (
            f"cut the dados {box.gap_across + nearest:.1f} mm deep, or close the gap"
        ),
    )
    reader.limit(
        "base_depth",
        post.front,
        at_least=60.0,
        why="the box needs some lid in front of the post",
        remedy=lambda nearest: f"deepen the base by {nearest - post.front:.1f} mm",
    )


def _refuse_planed_profiles(reader: Reader, stand: SteppedStand) -> None:
    for index, profile in enumerate(stand.profiles):
        is_on_rails = isinstance(profile, EdgeProfile) and profile.on in ("rails", *RAILS)
        if is_on_rails and OUTER_TOP in tuple(profile.edges):
            reader.refuse(
                f"profiles[{index}].edges",
                "the rail's outer top edge",
                "its outer bottom edge",
                "rail tops are planed flush after glue-up, which would take the profile off",
                "leave it out, and shape that edge after planing",
            )


def _place_stubs(box: BoxFigures, post: _PostFigures, stock: StockOf) -> list[Placed]:
    """Named ends are left as seen from outside, so the left stub's is its square inner end."""
    length = post.left
    return [
        place_rail("left stub", "left stub", stock, box, length, BACK, (length, box.depth, 0.0)),
        place_rail(
            "right stub", "right stub", stock, box, length, BACK, (box.width, box.depth, 0.0)
        ),
    ]


def _place_post(post: _PostFigures, box: BoxFigures, stock: StockOf) -> Placed:
    timber = stock.timber("post")
    assert timber is not None, "stocks were read before parts are placed"
    blank = Blank(length_mm=post.length, width_mm=post.width, thickness_mm=post.thickness)
    placement = Placement(
        origin=(post.left + post.width, box.depth, 0.0), x_axis=UP, y_axis=(-1.0, 0.0, 0.0)
    )
    part = Part(name="post", blank=blank, timber=timber, rough=box.rough)
    return Placed(instance="post", part=part, placement=placement)


def lid_step_mm(box: BoxFigures, post_front: float, dado_depth: float) -> float:
    """How far the lid's back edge at the post lies behind that at the stubs [mm].

    Negative: the lid is notched at the post. Positive: it has a tongue there.
    """
    return (post_front + dado_depth) - (box.depth - box.wall)


def _place_lid(box: BoxFigures, post: _PostFigures, stock: StockOf) -> Placed:
    wall, gap = box.wall, box.gap_across
    left, right = wall + box.gap_along, box.width - wall - box.gap_along
    back = box.depth - wall - gap
    step = lid_step_mm(box, post.front, post.dado_depth)
    cuts: tuple[Cut, ...] = ()
    if step < -1e-9:
        cuts = (
            Notch(
                edge=Face.BACK_EDGE,
                start_mm=post.left - box.gap_along - left,
                length_mm=post.width + 2 * box.gap_along,
                depth_mm=-step,
            ),
        )
    elif step > 1e-9:
        shoulder = post.left + box.gap_along - left
        cuts = tuple(
            Notch(edge=Face.BACK_EDGE, start_mm=start, length_mm=shoulder, depth_mm=step)
            for start in (0.0, right - left - shoulder)
        )
        back += step
    return place_panel(
        "lid",
        stock.timber("lid"),
        (left, wall + gap),
        (right, back),
        box.rabbet_floor,
        box.rough,
        cuts,
    )


def _place_tier(step: TierFigures, box: BoxFigures, post: _PostFigures, stock: StockOf) -> Placed:
    left = (box.width - step.width) / 2
    return place_panel(
        step.name,
        stock.timber(step.name),
        (left, post.front - step.depth),
        (left + step.width, post.front + post.dado_depth),
        step.bottom,
        box.rough,
    )


def _joints(
    box: BoxFigures, post: _PostFigures, steps: Sequence[TierFigures], fit: Fit
) -> list[Joint]:
    step = lid_step_mm(box, post.front, post.dado_depth)
    return [
        *(lid_joint(rail, box.gap_along) for rail in ("left side rail", "right side rail")),
        lid_joint("front rail", box.gap_across),
        *(
            RabbetJoint(into=stub, incoming="lid", gap_mm=box.gap_across, inset_mm=max(0.0, step))
            for stub in ("left stub", "right stub")
        ),
        DadoJoint(
            into="post",
            incoming="lid",
            fit=fit,
            bottom_gap_mm=box.gap_across,
            inset_mm=max(0.0, -step),
        ),
        *(DadoJoint(into="post", incoming=tier.name, fit=fit) for tier in steps),
        corner("front rail", "left side rail"),
        corner("front rail", "right side rail"),
        corner("left stub", "left side rail"),
        corner("right stub", "right side rail"),
        ButtJoint(into="post", incoming="left stub"),
        ButtJoint(into="post", incoming="right stub"),
    ]


def _surfaces(box: BoxFigures, post: _PostFigures, steps: Sequence[TierFigures]) -> list[Surface]:
    inset = box.wall + box.gap_along
    lid = Surface(
        instance="lid",
        low=(inset, box.wall + box.gap_across),
        high=(box.width - inset, post.front),
        top_mm=box.lid_top,
    )
    middle = box.width / 2
    return [
        lid,
        *(
            Surface(
                instance=step.name,
                low=(middle - step.width / 2, post.front - step.depth),
                high=(middle + step.width / 2, post.front),
                top_mm=step.top,
            )
            for step in steps
        ),
    ]


def _references(
    box: BoxFigures, post: _PostFigures, steps: Sequence[TierFigures]
) -> list[Reference]:
    """Heights from the floor, projections from the post's front face, widths edge to edge."""
    middle = box.width / 2
    found = [
        Reference(what="rails as cut", start=(0.0, 0.0, 0.0), end=(0.0, 0.0, box.height)),
        Reference(what="lid top", start=(0.0, 0.0, 0.0), end=(0.0, 0.0, box.lid_top)),
        Reference(
            what="post width",
            start=(post.left, box.depth, post.length),
            end=(post.left + post.width, box.depth, post.length),
        ),
    ]
    for step in steps:
        left, front = middle - step.width / 2, post.front - step.depth
        found += [
            Reference(
                what=f"{step.name} top", start=(left, front, 0.0), end=(left, front, step.top)
            ),
            Reference(
                what=f"{step.name} width",
                start=(left, front, step.top),
                end=(left + step.width, front, step.top),
            ),
            Reference(
                what=f"{step.name} projection",
                start=(middle, post.front, step.top),
                end=(middle, front, step.top),
            ),
        ]
    return found
