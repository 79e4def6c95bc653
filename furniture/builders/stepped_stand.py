"""A stepped shelf stand: tiers carried by a post or two uprights over a mitred, lidded base box."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import field

from furniture.builders.back_panel import BACK_PANEL, BackPanel, read_back_stock
from furniture.builders.back_rail import RAILED_POST_RAILS, BackRail
from furniture.builders.ballast import Ballast
from furniture.builders.base_box import (
    BoxFigures,
    BoxGiven,
    flush_notes,
    read_box,
    read_rail_thicknesses,
)
from furniture.builders.bottom import BottomFixing
from furniture.builders.box_options import (
    bottom_thickness,
    fixings_of,
    has_lid,
    lid_grain,
    notes_of,
    of_the_lid,
    read_additions,
    read_closing,
)
from furniture.builders.brackets import Bracket
from furniture.builders.built_again import StandAgain
from furniture.builders.carried import base_depth_of, deepest_base, read_tier_fit
from furniture.builders.common import (
    Names,
    StockOf,
    read_rough,
    read_usual,
)
from furniture.builders.cord_clips import CordClip, read_cord_clips, with_cord_clips
from furniture.builders.cord_notches import (
    CordNotch,
    cord_notes,
    read_cord_notches,
    with_cord_notches,
)
from furniture.builders.dowels import DowelFigures, Dowels, read_dowels, row_height_mm
from furniture.builders.edges import (
    EdgeProfile,
    read_profiles,
    with_profiles,
)
from furniture.builders.feet import (
    Feet,
    feet_height_mm,
    feet_under,
    lifted,
    lifted_body,
    lifted_reference,
    lifted_surface,
)
from furniture.builders.fixings import Hardware
from furniture.builders.flap import FLAP, Flap, Turning, read_flap, turning_of
from furniture.builders.inside import inside_of
from furniture.builders.lid import lid_of, place_in_rabbets, read_bottom_gap
from furniture.builders.lid_fixing import Cleats, LidFixing
from furniture.builders.lips import Lip
from furniture.builders.loads import Load, read_loads, sizes_of
from furniture.builders.opening_cuts import with_openings
from furniture.builders.openings import Opening, Vent
from furniture.builders.panel_grain import PanelGrain
from furniture.builders.post import POST_RAILS, PostStrips, post_names, read_strips
from furniture.builders.prefinish import Prefinish, read_prefinish
from furniture.builders.read_support import (
    least_sides,
    read_support,
    whole_depths,
)
from furniture.builders.rules import DesignReader, read_name, reader_of
from furniture.builders.stand_frame import Cast, drawn_out, frame_of, hidden_of
from furniture.builders.stand_refusals import refuse_unheld
from furniture.builders.support import Support
from furniture.builders.tier_cleats import TierCleat
from furniture.builders.tier_parts import and_tier_parts, read_tier_parts
from furniture.builders.tier_rules import Tier, TierLine, TierRule, tier_names
from furniture.builders.uprights import UPRIGHT_NAMES, UPRIGHT_RAILS, Uprights
from furniture.joints import Fit
from furniture.joints.fit import SLIP
from furniture.pieces import Intent, Piece, compose
from furniture.rules import ShopRules
from furniture.timber.stock import Stock, Timber
from furniture.units import (
    REQUIRED,
    Given,
    Shown,
    as_given,
    millimetres,
    parameters,
)


@parameters
class SteppedStand:
    """Tiers housed in a post, or between two uprights, that rises from a mitred box.

    Args:
        name: of the piece.
        thick: the stock of the base's rails and the post or uprights.
        thin: the stock of the lid and the tiers.
        bottom: the bottom's stock (default: no bottom).
        base_width: outside, left to right.
        base_depth: outside, front to back (default: the overall depth).
        base_height: of the rails as cut; their tops are planed flush with the lid after glue-up.
        overall_height: from the floor to the top of post or uprights; tiers that are given no rise
            share it (default: what the parts add up to).
        overall_depth: from the back to the front of base and tiers; a base or tiers that are given
            no depth reach as far (default: what they add up to).
        post_width: left to right; not with uprights.
        post_proud: how far post or uprights stand above the top tier; `0 mm` trims them flush.
        back_rail: a full rail behind the post (default: a stub on either side of it).
        post_strips: glues the post up from strips (default: one board).
        uprights: two uprights instead of a post (default: a post).
        back_panel: a back behind the tiers, between uprights or on a post (default: none).
        tiers: a `TierRule` by an even step, a `TierLine` by straight lines from base to top, or
            one `Tier` each from the lid up.
        dado_depth: in the post or uprights (default: a third of their thickness).
        fit: how the tiers go into their dados.
        fit_clearance: your own clearance, which overrides the fit's (default: the fit's).
        flush_allowance: what is planed off the rails after glue-up.
        rabbet_width: of the lid's rabbet, into the rail (default: half the rail's thickness).
        lid_gap_along: at each end of the lid, along its grain, and beside the post.
        lid_gap_across: at each edge of the lid, across its grain (default: by the species' seasonal
            movement).
        bottom_gap: all round the bottom (default: what its stock needs).
        bottom_fixing: loose, pinned, or glued (default: pinned).
        lid_fixing: loose, glued, or on cleats; `LidFixing.NONE` leaves the box open above, with
            its rails' tops where the lid's would be, and without a bottom it is a plinth.
        cleats: what a lid on cleats is held by (default: the usual ones).
        flap: the front of a glued lid on hinges, which opens before the tiers (default: none).
        dowels: across the end-grain butts of stubs and rails (default: none).
        lips: strips on the edges of tiers.
        brackets: wedges under tiers, against the front of the post or between the uprights.
        tier_cleats: pairs of strips under the ends of tiers, screwed to both uprights.
        openings: for cables and drains.
        cord_notches: at tiers' edges, into which a cord is laid.
        cord_clips: bought, under tiers at their edges, which hold a cord.
        vents: rows of holes or slots.
        feet: pads under the base (default: it stands on its rails).
        ballast: a weight on the bottom of the box (default: none).
        hardware: what else is bought, such as felt pads or a strap to the wall.
        profiles: edge profiles.
        loads: what stands on the tiers and the lid.
        own_stock: a stock of its own for a named part, such as `{"lid": THICK}`.
        own_grain: which way the grain of a named level part runs, such as
            `{"tiers": PanelGrain.ACROSS}` (default: along, from left to right).
        prefinish: a film finish put on the parts before they go together (default: none).
        rough_length: extra length left on each rough part (default: 15 mm, or 5/8 in for a piece in
            inches).
        rough_width: extra width left on each rough part (default: 4 mm or 3/16 in).
        shown: the unit that everything is shown in.
    """

    name: str = "stepped stand"
    thick: Stock = REQUIRED
    thin: Stock = REQUIRED
    bottom: Stock | None = None
    base_width: Given = REQUIRED
    base_depth: Given | None = None
    base_height: Given = REQUIRED
    overall_height: Given | None = None
    overall_depth: Given | None = None
    post_width: Given | None = None
    post_proud: Given = "0 mm"
    back_rail: BackRail | None = None
    post_strips: PostStrips | None = None
    uprights: Uprights | None = None
    back_panel: BackPanel | None = None
    tiers: TierRule | TierLine | Sequence[Tier] = REQUIRED
    dado_depth: Given | None = None
    fit: Fit = SLIP
    fit_clearance: Given | None = None
    flush_allowance: Given = "0.5 mm"
    rabbet_width: Given | None = None
    lid_gap_along: Given = "0.5 mm"
    lid_gap_across: Given | None = None
    bottom_gap: Given | None = None
    bottom_fixing: BottomFixing | None = None
    lid_fixing: LidFixing = LidFixing.LOOSE
    cleats: Cleats | None = None
    flap: Flap | None = None
    dowels: Dowels | None = None
    lips: Sequence[Lip] = ()
    brackets: Sequence[Bracket] = ()
    tier_cleats: Sequence[TierCleat] = ()
    openings: Sequence[Opening] = ()
    cord_notches: Sequence[CordNotch] = ()
    cord_clips: Sequence[CordClip] = ()
    vents: Sequence[Vent] = ()
    feet: Feet | None = None
    ballast: Ballast | None = None
    hardware: Sequence[Hardware] = ()
    profiles: Sequence[EdgeProfile] = ()
    loads: Sequence[Load] = ()
    own_stock: Mapping[str, Stock] = field(default_factory=dict)
    own_grain: Mapping[str, PanelGrain] = field(default_factory=dict)
    prefinish: Prefinish | None = None
    rough_length: Given | None = None
    rough_width: Given | None = None
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


_OF_BOXES = {
    "hinged_lid": "write flap=Flap(hinge=Hinge(...)) and lid_fixing=LidFixing.GLUED",
    "sliding_lid": "leave it out: what stands on the base leaves its lid nowhere to slide",
}
"""What is looked for here since a box has it."""


def _build(
    stand: SteppedStand, rules: ShopRules | None, thicknesses: Mapping[str, float] | None
) -> Piece:
    reader = reader_of(stand.shown, rules)
    reader.names("", stand, _OF_BOXES)
    name = read_name(reader, stand.name)
    cast = _read_cast(reader, stand)
    has_uprights = stand.uprights is not None
    names = and_tier_parts(cast.names, stand)
    stock = _read_stocks(reader, stand, cast, names)
    fit = read_tier_fit(reader, stand)
    box = _read_base(reader, stand, stock, cast)
    bottom = stock.timber("bottom")
    gap = 0.0
    if stand.bottom is not None:
        grain = stock.grain("bottom")
        gap = read_bottom_gap(reader, stand.bottom_gap, box, bottom, grain)
    additions = read_additions(reader, stand, box, cast.names)
    feet = feet_height_mm(stand.feet, additions.feet)
    support, steps = read_support(reader, stand, box, stock, fit, cast.strips, feet)
    refuse_unheld(reader, stand, stock, support)
    closing = read_closing(
        reader, stand, box, stock,
        free_depth=support.free_depth, free_beside=support.free_beside,
    )  # fmt: skip
    dowels = _read_dowels(reader, stand, box, support, stock)
    parts = read_tier_parts(
        reader, stand, cast.names, support, steps, stock, has_uprights, thicknesses
    )
    cords = read_cord_notches(
        reader, stand.cord_notches, cast.names, cast.tiers, support.tier_edges
    )
    clips = read_cord_clips(
        reader, stand.cord_clips, cast.names, cast.tiers, support.tier_edges, stock.thickness
    )
    profiles = read_profiles(
        reader, stand.profiles, names, parts.hidden(hidden_of(cast, box, support, steps)),
        support.shoulders(steps), thickness=lambda name: parts.room(stock, name), grain=stock.grain,
    )  # fmt: skip
    flap = read_flap(reader, stand.flap, closing.lid, support, steps, stock)
    carriers = [support.lid_surface()] if box.has_lid else []
    if flap is not None:
        carriers = flap.surfaces(carriers[0])
    is_known = all(stock.timber(name) is not None for name in (*cast.rails, *cast.support))
    hung = None
    if flap is not None and is_known:
        whole = [*support.place_back(stock), place_in_rabbets(lid_of(support), box, stock)]
        hung = flap.read_hung(reader, whole, box, stock, cast.names)
    if stand.bottom is not None and not box.has_lid:
        carriers.append(support.bottom_surface(bottom_thickness(stand, stock)))
    surfaces = [*carriers, *(support.surface(step) for step in steps)]
    on = tuple(surface.instance for surface in carriers) + cast.tiers
    loads = read_loads(reader, stand.loads, on, sizes_of(surfaces), cast.names.lying)
    finish = read_prefinish(reader, stand.prefinish)
    reader.raise_if_any()

    placed, joints = frame_of(cast, support, steps, stock, gap, closing, dowels, reader.rules)
    turning = Turning()
    if flap is not None and hung is not None:
        placed, joints = flap.parted(placed, joints, box, stock.timber(FLAP))
        placed, turning = turning_of(hung, placed, stand.shown)
        joints += turning.joints
    placed = parts.added(
        placed, surfaces, box.rough, has_uprights, stand.shown.is_inch
    )  # fmt: skip
    joints += parts.joints
    pads, pad_joints, height = feet_under(additions.feet, box, placed, has_post=not has_uprights)
    placed += pads
    joints += pad_joints
    placed = with_cord_notches(reader, cords, placed, joints, stock.grain)
    placed, openings = with_openings(reader, additions.holes, placed, joints, stock.grain)
    clipped = with_cord_clips(reader, clips, placed, joints, stock.grain, surfaces)
    reader.raise_if_any()
    return compose(
        thicknesses=thicknesses,
        name=name,
        rules=reader.rules,
        placed=[lifted(with_profiles(each, profiles), height) for each in clipped.placed],
        joints=joints,
        shown=stand.shown,
        parameters=as_given(stand),
        loads=loads,
        fixed=[lifted_body(body, height) for body in closing.fixed],
        surfaces=[lifted_surface(parts.within(each), height) for each in surfaces],
        references=[lifted_reference(each, height) for each in support.references(steps)],
        notes=[
            *flush_notes(box, stand.shown, cast.rails),
            *support.notes,
            *support.back_panel_notes(steps),
            *parts.notes,
            *cord_notes(cords),
            *clipped.notes,
            *notes_of(closing, additions, cast.names, stock.timber("bottom")),
            *turning.notes,
        ],
        fixings=[*fixings_of(closing, additions), *clipped.fixings, *turning.fixings],
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
            drawn_out=drawn_out(box, has_uprights, deepest_base(reader, stand), reader.rules),
            proportion=support.proportion(steps, reader.rules),
            bearable=parts.bearable,
            again=StandAgain(stand=stand, names=cast.names, rules=rules, thicknesses=thicknesses),
            opens=turning.opens,
            fitted=tuple(clipped.fitted),
        ).lifted(height),
    )


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


def _read_cast(reader: DesignReader, stand: SteppedStand) -> Cast:
    strips = read_strips(reader, stand.post_strips)
    has_uprights = stand.uprights is not None
    return Cast(
        rails=_rails_of(stand),
        support=UPRIGHT_NAMES if has_uprights else post_names(strips),
        panels=(
            *(("lid",) if has_lid(stand) else ()),
            *((FLAP,) if stand.flap is not None else ()),
            *(("bottom",) if stand.bottom is not None else ()),
        ),
        tiers=tier_names(stand.tiers),
        strips=strips,
        back=() if stand.back_panel is None else (BACK_PANEL,),
    )


def _rails_of(stand: SteppedStand) -> tuple[str, ...]:
    if stand.uprights is not None:
        return UPRIGHT_RAILS
    return POST_RAILS if stand.back_rail is None else RAILED_POST_RAILS


def _read_stocks(reader: DesignReader, stand: SteppedStand, cast: Cast, names: Names) -> StockOf:
    timbers = read_usual(reader, {"thick": stand.thick, "thin": stand.thin})
    usual: dict[str, Timber | None] = dict.fromkeys((*cast.rails, *cast.support), timbers["thick"])
    usual.update(dict.fromkeys(("lid", FLAP, *cast.tiers), timbers["thin"]))
    if stand.bottom is not None:
        usual["bottom"] = read_usual(reader, {"bottom": stand.bottom})["bottom"]
    if stand.back_panel is not None:
        usual[BACK_PANEL] = read_back_stock(reader, stand.back_panel)
    given_as = dict.fromkeys((*cast.rails, *cast.support), "thick")
    given_as.update(dict.fromkeys(("lid", FLAP, *cast.tiers), "thin"), bottom="bottom")
    given_as[BACK_PANEL] = "back_panel.stock"
    return StockOf(reader, usual, stand.own_stock, names, given_as, stand.own_grain)


def _read_base(reader: DesignReader, stand: SteppedStand, stock: StockOf, cast: Cast) -> BoxFigures:
    rail = read_rail_thicknesses(reader, stock, cast.rails)
    width, depth = least_sides(
        stock, cast.support, rail, cast.strips, stand.back_rail is not None, reader.rules
    )
    deepest = math.inf
    if stand.base_depth is None:
        shallowest, deepest = whole_depths(reader, stand, stock, cast.support, rail)
        depth = max(depth, shallowest)
    return read_box(
        reader,
        BoxGiven(
            rails=stock.parameter("front rail"),
            width=("base_width", stand.base_width),
            depth=base_depth_of(stand),
            height=("base_height", stand.base_height),
            flush_allowance=stand.flush_allowance,
            rabbet_width=stand.rabbet_width,
            lid_gap_along=stand.lid_gap_along,
            lid_gap_across=stand.lid_gap_across,
            bottom_thickness=bottom_thickness(stand, stock),
            has_lid=has_lid(stand),
            of_the_lid=of_the_lid(stand),
            lid_grain=lid_grain(reader, stand, stock),
            dowel_row=row_height_mm(reader, stand.dowels),
            least_sides=(width, depth),
            most_depth=deepest,
        ),
        rail,
        stock.timber("lid"),
        read_rough(reader, stand.rough_length, stand.rough_width),
    )
