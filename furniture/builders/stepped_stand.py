"""A stepped shelf stand: tiers carried by a post or two uprights over a mitred, lidded base box."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from furniture.builders.back_rail import RAILED_POST_RAILS, BackRail
from furniture.builders.ballast import Ballast
from furniture.builders.base_box import (
    BoxFigures,
    BoxGiven,
    flush_notes,
    place_front,
    read_box,
    read_rail_thicknesses,
)
from furniture.builders.bottom import BottomFixing, pinned
from furniture.builders.box_options import (
    END_RAILS,
    Closing,
    bottom_thickness,
    fixings_of,
    notes_of,
    read_additions,
    read_closing,
)
from furniture.builders.common import (
    ROUGH_LENGTH,
    ROUGH_WIDTH,
    Names,
    StockOf,
    read_rough,
    read_usual,
)
from furniture.builders.dowels import DowelFigures, Dowels, EndButts, read_dowels, row_height_mm
from furniture.builders.edges import (
    EdgeProfile,
    HiddenEdges,
    panel_hidden,
    rail_hidden,
    read_profiles,
    with_profiles,
)
from furniture.builders.feet import (
    Feet,
    feet_under,
    lifted,
    lifted_body,
    lifted_reference,
    lifted_surface,
)
from furniture.builders.fixings import Hardware
from furniture.builders.inside import inside_of
from furniture.builders.lid import (
    bottom_of,
    lid_of,
    place_in_rabbets,
    rabbet_joints,
    read_bottom_gap,
)
from furniture.builders.lid_fixing import Cleats, LidFixing, cleat_joints, place_cleats
from furniture.builders.lips import (
    Lip,
    LipFigures,
    lip_hidden,
    lip_joints,
    place_lips,
    read_lips,
    within_lips,
)
from furniture.builders.loads import Load, read_loads, sizes_of
from furniture.builders.openings import Opening, Vent, with_openings
from furniture.builders.panels import place_panel
from furniture.builders.post import POST_RAILS, PostStrips, post_names, read_strips
from furniture.builders.prefinish import Prefinish, read_prefinish
from furniture.builders.read_support import least_sides, read_support, read_tier_fit
from furniture.builders.rules import DesignReader, read_name, reader_of
from furniture.builders.support import Support
from furniture.builders.tiers import Tier, TierFigures, TierRule, tier_names
from furniture.builders.uprights import UPRIGHT_NAMES, UPRIGHT_RAILS, Uprights
from furniture.joints import Fit, Joint
from furniture.joints.fit import SLIP
from furniture.parts.faces import EDGES, ENDS, Arris, Face
from furniture.parts.part import Placed
from furniture.pieces import DrawnOut, Intent, Piece, compose
from furniture.rules import Rules, ShopRules
from furniture.rules.building import GREATEST_BOX_SIDE
from furniture.timber.stock import Stock, Timber
from furniture.units import REQUIRED, Given, Shown, as_given, millimetres, parameters


@parameters
class SteppedStand:
    """Tiers housed in a post, or between two uprights, that rises from a mitred box.

    Args:
        name: of the piece.
        thick: the stock of the base's rails and the post or uprights.
        thin: the stock of the lid and the tiers.
        bottom: the bottom's stock; left out, the base has none.
        base_width: outside, left to right.
        base_depth: outside, front to back.
        base_height: of the rails as cut; their tops are planed flush with the lid after glue-up.
        post_width: left to right; left out where there are uprights.
        post_proud: how far post or uprights stand above the top tier; `0 mm` trims them flush.
        back_rail: a full rail behind the post; left out, a stub stands on either side of it.
        post_strips: glues the post up from strips; left out, it is one board.
        uprights: two uprights instead of a post.
        tiers: a `TierRule`, or one `Tier` each from the lid up.
        dado_depth: in the post or uprights; a third of their thickness when left out.
        fit: how the tiers go into their dados.
        fit_clearance: the maker's own clearance, instead of the fit's.
        flush_allowance: what is planed off the rails after glue-up.
        rabbet_width: of the lid's rabbet, into the rail; half the rail's thickness when left out.
        lid_gap_along: at each end of the lid, along its grain, and beside the post.
        lid_gap_across: at each edge of the lid, across its grain; worked out from the species'
            seasonal movement when left out.
        bottom_gap: all round the bottom; what its own stock needs when left out.
        bottom_fixing: loose, pinned, or glued.
        lid_fixing: loose, glued, or on cleats.
        cleats: what a lid on cleats is held by; the usual ones when left out.
        dowels: across the end-grain butts of stubs and rails.
        lips: strips on the edges of tiers.
        openings: for cables and drains.
        vents: rows of bores or slots.
        feet: pads under the base; left out, it stands on its rails.
        ballast: a weight on the bottom of the box.
        hardware: what else is bought, such as felt pads or a strap to the wall.
        profiles: edge profiles.
        loads: what stands on the tiers and the lid.
        own_stock: a stock of its own for a named part.
        prefinish: a film finish put on the parts before they go together.
        rough_length: left on a blank's length.
        rough_width: left on a blank's width.
        shown: the unit that everything is shown in.
    """

    name: str = "stepped stand"
    thick: Stock = REQUIRED
    thin: Stock = REQUIRED
    bottom: Stock | None = None
    base_width: Given = REQUIRED
    base_depth: Given = REQUIRED
    base_height: Given = REQUIRED
    post_width: Given | None = None
    post_proud: Given = "0 mm"
    back_rail: BackRail | None = None
    post_strips: PostStrips | None = None
    uprights: Uprights | None = None
    tiers: TierRule | Sequence[Tier] = REQUIRED
    dado_depth: Given | None = None
    fit: Fit = SLIP
    fit_clearance: Given | None = None
    flush_allowance: Given = "0.5 mm"
    rabbet_width: Given | None = None
    lid_gap_along: Given = "0.5 mm"
    lid_gap_across: Given | None = None
    bottom_gap: Given | None = None
    bottom_fixing: BottomFixing = BottomFixing.LOOSE
    lid_fixing: LidFixing = LidFixing.LOOSE
    cleats: Cleats | None = None
    dowels: Dowels | None = None
    lips: Sequence[Lip] = ()
    openings: Sequence[Opening] = ()
    vents: Sequence[Vent] = ()
    feet: Feet | None = None
    ballast: Ballast | None = None
    hardware: Sequence[Hardware] = ()
    profiles: Sequence[EdgeProfile] = ()
    loads: Sequence[Load] = ()
    own_stock: Mapping[str, Stock] = field(default_factory=dict)
    prefinish: Prefinish | None = None
    rough_length: Given = ROUGH_LENGTH
    rough_width: Given = ROUGH_WIDTH
    shown: Shown = millimetres()

    def build(
        self, rules: ShopRules | None = None, thicknesses: Mapping[str, float] | None = None
    ) -> Piece:
        """The stand as a piece.

        Args:
            rules: the shop's own limits that differ from the usual ones.
            thicknesses: of instances as measured, by name, where not their stock's [mm].

        Raises:
            DesignError: with every problem of these parameters.
        """
        return _build(self, rules, thicknesses)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cast:
    """Which parts such a stand has, before any of their figures is read."""

    rails: tuple[str, ...]
    support: tuple[str, ...]
    panels: tuple[str, ...]
    tiers: tuple[str, ...]
    strips: int

    @property
    def names(self) -> Names:
        """All instances and the groups that other parameters may name."""
        group = "uprights" if self.support == UPRIGHT_NAMES else "post"
        groups = {"rails": self.rails, "tiers": self.tiers, group: self.support}
        return Names(
            instances=(*self.rails, *self.support, *self.panels, *self.tiers),
            groups=groups,
            level=(*self.panels, *self.tiers),
        )


def _build(
    stand: SteppedStand, rules: ShopRules | None, thicknesses: Mapping[str, float] | None
) -> Piece:
    reader = reader_of(stand.shown, rules)
    reader.names("", stand)
    name = read_name(reader, stand.name)
    cast = _read_cast(reader, stand)
    has_uprights = stand.uprights is not None
    stock = _read_stocks(reader, stand, cast)
    fit = read_tier_fit(reader, stand)
    box = _read_base(reader, stand, stock, cast)
    bottom = stock.timber("bottom")
    gap = read_bottom_gap(reader, stand.bottom_gap, box, bottom) if stand.bottom else 0.0
    support, steps = read_support(reader, stand, box, stock, fit, cast.strips)
    closing = read_closing(
        reader, stand, box, stock,
        free_depth=support.free_depth, free_beside=support.free_beside,
    )  # fmt: skip
    dowels = _read_dowels(reader, stand, box, support, stock)
    lips = read_lips(reader, stand.lips, cast.names, cast.tiers, stock.timber("lid"), has_uprights)
    additions = read_additions(reader, stand, box, cast.names)
    hidden = _hidden(cast, box, support, steps, lips)
    profiles = read_profiles(
        reader, stand.profiles, cast.names, hidden, support.shoulders(steps),
        thickness=stock.thickness,
    )  # fmt: skip
    surfaces = [support.lid_surface(), *(support.surface(step) for step in steps)]
    loads = read_loads(reader, stand.loads, ("lid", *cast.tiers), sizes_of(surfaces))
    finish = read_prefinish(reader, stand.prefinish)
    reader.raise_if_any()

    placed, joints = _frame(cast, support, steps, stock, gap, closing, dowels, reader.rules)
    by_name = {surface.instance: surface for surface in surfaces}
    for lip in lips:
        placed += place_lips(lip, by_name[lip.on], box.rough, has_uprights, reader.rules)
        joints += lip_joints(lip)
    pads, pad_joints, height = feet_under(additions.feet, box, placed, has_post=not has_uprights)
    placed += pads
    joints += pad_joints
    placed, openings = with_openings(reader, additions.holes, placed, joints)
    reader.raise_if_any()
    return compose(
        thicknesses=thicknesses,
        name=name,
        rules=reader.rules,
        placed=[lifted(with_profiles(each, profiles), height) for each in placed],
        joints=joints,
        shown=stand.shown,
        parameters=as_given(stand),
        loads=loads,
        fixed=[lifted_body(body, height) for body in closing.fixed],
        surfaces=[lifted_surface(within_lips(each, lips), height) for each in surfaces],
        references=[lifted_reference(each, height) for each in support.references(steps)],
        notes=[*flush_notes(box, stand.shown), *support.notes, *notes_of(closing, additions)],
        fixings=fixings_of(stand, closing, additions),
        finish=finish,
        intent=Intent(
            openings=openings,
            inside=inside_of(
                box,
                bottom_thickness=bottom_thickness(stand, stock),
                free_depth=support.free_depth,
                cleats=closing.cleats,
                ballast=closing.fixed,
                rules=reader.rules,
            ),
            base=(*cast.rails, *cast.panels),
            drawn_out=_drawn_out(box, has_uprights, reader.rules),
        ).lifted(height),
    )


def _drawn_out(box: BoxFigures, has_uprights: bool, rules: Rules) -> tuple[DrawnOut, ...]:
    """Which parameters draw the base out.

    A post stands at the back of its base, so that only the front moves with the depth. Between
    uprights the tiers grow with the width, which so gains nothing.
    """
    depth = DrawnOut(
        parameter="base_depth", now_mm=box.depth, most_mm=rules[GREATEST_BOX_SIDE], sides=("front",)
    )
    if has_uprights:
        return (depth,)
    width = DrawnOut(
        parameter="base_width", now_mm=box.width, most_mm=rules[GREATEST_BOX_SIDE],
        sides=("left", "right"), times=2.0,
    )  # fmt: skip
    return (depth, width)


def _read_dowels(
    reader: DesignReader, stand: SteppedStand, box: BoxFigures, support: Support, stock: StockOf
) -> DowelFigures | None:
    if stand.dowels is not None and stand.back_rail is not None:
        reader.refuse(
            "dowels", "dowels across end-grain butts", "nothing",
            "with a full back rail all corners are mitred: there is no such butt",
            "leave dowels out",
        )  # fmt: skip
        return None
    return read_dowels(reader, stand.dowels, box, support.thickness, bottom_thickness(stand, stock))


def _frame(
    cast: _Cast,
    support: Support,
    steps: Sequence[TierFigures],
    stock: StockOf,
    gap: float,
    closing: Closing,
    dowels: DowelFigures | None,
    rules: Rules,
) -> tuple[list[Placed], list[Joint]]:
    """Box, support, lid, bottom and tiers with their joints, in the order they are cut."""
    box, lid = support.box, lid_of(support)
    placed = [
        place_front(box, stock),
        *support.place_back(stock),
        place_in_rabbets(lid, box, stock),
        *(_place_tier(step, support, stock) for step in steps),
    ]
    is_glued = closing.lid is LidFixing.GLUED
    joints: list[Joint] = [
        *rabbet_joints(lid, cast.rails, is_glued),
        *support.lid_housings(is_glued=is_glued),
        *(joint for step in steps for joint in support.tier_joints(step)),
        *support.back_joints(EndButts(dowels=dowels)),
    ]
    if "bottom" in cast.panels:
        bottom = bottom_of(support, gap)
        placed.append(place_in_rabbets(bottom, box, stock))
        is_fixed = closing.bottom is BottomFixing.GLUED
        held = rabbet_joints(bottom, cast.rails, is_fixed)
        joints = [*pinned(held, closing.pins, END_RAILS), *joints]
    if closing.cleats is not None:
        cleats = place_cleats(closing.cleats, box, support.free_side_rail, rules)
        placed += cleats
        joints += cleat_joints(closing.cleats, cleats[0].part.blank.length_mm, rules)
    return placed, joints


def _read_cast(reader: DesignReader, stand: SteppedStand) -> _Cast:
    strips = read_strips(reader, stand.post_strips)
    has_uprights = stand.uprights is not None
    return _Cast(
        rails=_rails_of(stand),
        support=UPRIGHT_NAMES if has_uprights else post_names(strips),
        panels=("lid",) if stand.bottom is None else ("lid", "bottom"),
        tiers=tier_names(stand.tiers),
        strips=strips,
    )


def _rails_of(stand: SteppedStand) -> tuple[str, ...]:
    if stand.uprights is not None:
        return UPRIGHT_RAILS
    return POST_RAILS if stand.back_rail is None else RAILED_POST_RAILS


def _read_stocks(reader: DesignReader, stand: SteppedStand, cast: _Cast) -> StockOf:
    timbers = read_usual(reader, {"thick": stand.thick, "thin": stand.thin})
    usual: dict[str, Timber | None] = dict.fromkeys((*cast.rails, *cast.support), timbers["thick"])
    usual.update(dict.fromkeys(("lid", *cast.tiers), timbers["thin"]))
    if stand.bottom is not None:
        usual["bottom"] = read_usual(reader, {"bottom": stand.bottom})["bottom"]
    given_as = dict.fromkeys((*cast.rails, *cast.support), "thick")
    given_as.update(dict.fromkeys(("lid", *cast.tiers), "thin"), bottom="bottom")
    return StockOf(reader, usual, stand.own_stock, cast.names, given_as)


def _read_base(
    reader: DesignReader, stand: SteppedStand, stock: StockOf, cast: _Cast
) -> BoxFigures:
    rail = read_rail_thicknesses(reader, stock, cast.rails)
    return read_box(
        reader,
        BoxGiven(
            rails=stock.parameter("front rail"),
            width=("base_width", stand.base_width),
            depth=("base_depth", stand.base_depth),
            height=("base_height", stand.base_height),
            flush_allowance=stand.flush_allowance,
            rabbet_width=stand.rabbet_width,
            lid_gap_along=stand.lid_gap_along,
            lid_gap_across=stand.lid_gap_across,
            bottom_thickness=bottom_thickness(stand, stock),
            dowel_row=row_height_mm(reader, stand.dowels),
            least_sides=least_sides(
                stock,
                cast.support,
                rail,
                cast.strips,
                stand.back_rail is not None,
                reader.rules,
            ),
        ),
        rail,
        stock.timber("lid"),
        read_rough(reader, stand.rough_length, stand.rough_width),
    )


def _hidden(
    cast: _Cast,
    box: BoxFigures,
    support: Support,
    steps: Sequence[TierFigures],
    lips: Sequence[LipFigures],
) -> HiddenEdges:
    """Every arris where no profile may run, with the reason."""
    why = "this edge lies in a rabbet or a dado: a profile there would spoil the seat"
    found: dict[str, Mapping[Arris, str]] = dict(support.hidden(steps))
    rails = rail_hidden(box.flush_allowance, "bottom" in cast.panels)
    found.update(dict.fromkeys(cast.rails, rails))
    found["lid"] = {**panel_hidden(Face.BACK_SIDE, EDGES + ENDS, why), **found["lid"]}
    for name, edges in lip_hidden(lips).items():
        found[name] = {**found.get(name, {}), **edges}
    below = panel_hidden(Face.FACE_SIDE, EDGES + ENDS, why)
    found["bottom"] = {**below, **found.get("bottom", {})}
    return found


def _place_tier(step: TierFigures, support: Support, stock: StockOf) -> Placed:
    low, high = support.plan(step)
    return place_panel(
        step.name, stock.timber(step.name), low, high, step.bottom, support.box.rough
    )
