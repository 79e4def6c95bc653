"""A stepped stand without a box: its tiers housed in a post that stands on a plain foot board."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field

from furniture.builders.back_panel import BACK_PANEL, BackPanel, read_back_stock
from furniture.builders.brackets import Bracket
from furniture.builders.built_again import StandAgain
from furniture.builders.carried import Carried, base_depth_of, deepest_base, read_tier_fit
from furniture.builders.common import Names, StockOf, read_rough, read_usual
from furniture.builders.cord_clips import CordClip, read_cord_clips, with_cord_clips
from furniture.builders.cord_notches import (
    CordNotch,
    cord_notes,
    read_cord_notches,
    with_cord_notches,
)
from furniture.builders.dowels import EndButts
from furniture.builders.edges import EdgeProfile, read_profiles, with_profiles
from furniture.builders.fixings import Hardware, read_hardware
from furniture.builders.foot_board import (
    FOOT,
    POST,
    FootGiven,
    read_foot_board,
    read_footed_post,
)
from furniture.builders.footed_uprights import read_footed_uprights
from furniture.builders.lips import Lip
from furniture.builders.loads import Load, read_loads, sizes_of
from furniture.builders.opening_cuts import with_openings
from furniture.builders.openings import Opening, bushings_of, opening_notes, read_openings
from furniture.builders.panel_grain import PanelGrain
from furniture.builders.prefinish import Prefinish, read_prefinish
from furniture.builders.rules import DesignReader, read_name, reader_of
from furniture.builders.stand_frame import drawn_out, place_tier
from furniture.builders.support import Support
from furniture.builders.tier_cleats import TierCleat
from furniture.builders.tier_parts import and_tier_parts, read_tier_parts
from furniture.builders.tier_rules import Tier, TierLine, TierRule, tier_names
from furniture.builders.uprights import UPRIGHT_NAMES, Uprights
from furniture.joints import Fit
from furniture.joints.fit import SLIP
from furniture.pieces import Intent, Piece, compose
from furniture.rules import ShopRules
from furniture.timber.stock import Stock
from furniture.units import REQUIRED, Given, Shown, as_given, millimetres, parameters, said


@parameters
class FootedStand:
    """Tiers on a post, or between two uprights, tenoned into a foot board: there is no box at all.

    Args:
        name: of the piece.
        thick: the stock of the post.
        thin: the stock of the tiers.
        foot: the foot board's stock (default: the post's).
        base_width: of the foot board, left to right, along its grain.
        base_depth: of the foot board, front to back (default: the overall depth).
        behind_post: foot board behind the post or the uprights; `0 mm` has them flush.
        tenon: how deep a tenon goes in (default: two thirds of the foot board).
        overall_height: from the floor to the top of the post; tiers that are given no rise share it
            (default: what the parts add up to).
        overall_depth: from the back of the foot board to the front of board and tiers; a tier that
            is given no depth reaches as far (default: what they add up to).
        post_width: left to right; not with uprights.
        uprights: two uprights instead of a post (default: a post).
        beside_uprights: foot board beside either upright (default: 20 mm, or as much as keeps the
            board's end whole beside its mortise).
        post_proud: how far the post stands above the top tier; `0 mm` trims it flush.
        back_panel: a back between the uprights, or on the post over the board behind it (default:
            none).
        tiers: a `TierRule` by an even step, a `TierLine` by straight lines from the foot board to
            the top, or one `Tier` each from the foot board up.
        dado_depth: in the post (default: a third of its thickness).
        fit: how the tiers go into their dados.
        fit_clearance: your own clearance, which overrides the fit's (default: the fit's).
        lips: strips on the edges of tiers.
        brackets: wedges under tiers, against the front of the post or between the uprights.
        tier_cleats: pairs of strips under the ends of tiers, screwed to both uprights.
        openings: for cables and drains.
        cord_notches: at tiers' edges, into which a cord is laid.
        cord_clips: bought, under tiers at their edges, which hold a cord.
        hardware: what else is bought, such as felt pads or a strap to the wall.
        profiles: edge profiles.
        loads: what stands on the tiers and the foot board.
        own_stock: a stock of its own for a named part, such as `{"tier 1": THICK}`.
        own_grain: which way the grain of a named level part runs, such as
            `{"tiers": PanelGrain.ACROSS}` (default: along, from left to right).
        prefinish: a film finish put on the parts before they go together (default: none).
        rough_length: extra length left on each rough part (default: 15 mm, or 5/8 in for a piece in
            inches).
        rough_width: extra width left on each rough part (default: 4 mm or 3/16 in).
        shown: the unit that everything is shown in.
    """

    name: str = "footed stand"
    thick: Stock = REQUIRED
    thin: Stock = REQUIRED
    foot: Stock | None = None
    base_width: Given = REQUIRED
    base_depth: Given | None = None
    behind_post: Given = "20 mm"
    tenon: Given | None = None
    overall_height: Given | None = None
    overall_depth: Given | None = None
    post_width: Given | None = None
    uprights: Uprights | None = None
    beside_uprights: Given | None = None
    post_proud: Given = "0 mm"
    back_panel: BackPanel | None = None
    tiers: TierRule | TierLine | Sequence[Tier] = REQUIRED
    dado_depth: Given | None = None
    fit: Fit = SLIP
    fit_clearance: Given | None = None
    lips: Sequence[Lip] = ()
    brackets: Sequence[Bracket] = ()
    tier_cleats: Sequence[TierCleat] = ()
    openings: Sequence[Opening] = ()
    cord_notches: Sequence[CordNotch] = ()
    cord_clips: Sequence[CordClip] = ()
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


def _build(
    stand: FootedStand, rules: ShopRules | None, thicknesses: Mapping[str, float] | None
) -> Piece:
    reader = reader_of(stand.shown, rules)
    reader.names("", stand)
    name = read_name(reader, stand.name)
    tiers = tier_names(stand.tiers)
    back = () if stand.back_panel is None else (BACK_PANEL,)
    has_uprights = stand.uprights is not None
    standing = UPRIGHT_NAMES if has_uprights else (POST,)
    groups = {"tiers": tiers, **({"uprights": standing} if has_uprights else {})}
    names = Names(instances=(FOOT, *standing, *tiers, *back), groups=groups, level=(FOOT, *tiers))
    own = and_tier_parts(names, stand)
    stock = _read_stocks(reader, stand, own, standing, tiers)
    rough = read_rough(reader, stand.rough_length, stand.rough_width)
    given = FootGiven(
        width=stand.base_width, depth=base_depth_of(stand), behind=stand.behind_post,
        tenon=stand.tenon, post_width=stand.post_width, back_panel=stand.back_panel,
    )  # fmt: skip
    deep = stock.thickness(POST)
    if isinstance(stand.uprights, Uprights):
        deep = reader.peek(stand.uprights.depth)
    box, behind = read_foot_board(reader, given, stock, rough, deep)
    fit = read_tier_fit(reader, stand)
    thickness = [stock.thickness(each) for each in tiers]
    carried = Carried(
        reader=reader, given=stand, box=box, fit=fit, thickness=thickness,
        clearance=[fit.clearance_mm(each) for each in thickness], feet=0.0,
    )  # fmt: skip
    support: Support
    if has_uprights:
        _refuse_of_a_post(reader, stand)
        support, steps = read_footed_uprights(
            carried, stand.uprights, stand.beside_uprights, stand.tenon, stand.back_panel, stock,
            behind,
        )  # fmt: skip
    else:
        support, steps = read_footed_post(carried, given, stock, behind)
    parts = read_tier_parts(reader, stand, names, support, steps, stock, has_uprights, thicknesses)
    cords = read_cord_notches(reader, stand.cord_notches, names, tiers, support.tier_edges)
    clips = read_cord_clips(
        reader, stand.cord_clips, names, tiers, support.tier_edges, stock.thickness
    )
    openings = reader.several("openings", stand.openings, Opening, "Opening(...)")
    holes = read_openings(reader, openings, (), names)
    stated = tuple(each for each in openings if isinstance(each, Opening))
    hardware = read_hardware(reader, stand.hardware, names)
    profiles = read_profiles(
        reader,
        stand.profiles,
        own,
        parts.hidden(support.hidden(steps)),
        support.shoulders(steps),
        thickness=lambda name: parts.room(stock, name),
        grain=stock.grain,
    )
    surfaces = [support.lid_surface(), *(support.surface(step) for step in steps)]
    loads = read_loads(reader, stand.loads, (FOOT, *tiers), sizes_of(surfaces), names.lying)
    finish = read_prefinish(reader, stand.prefinish)
    reader.raise_if_any()

    placed = [
        *support.place_back(stock),
        *(place_tier(step, support, stock) for step in steps),
        *support.back_panel(stock),
    ]
    joints = [
        *support.back_panel_joints(steps),  # the dados end in its rabbets
        *(joint for step in steps for joint in support.tier_joints(step)),
        *support.back_joints(EndButts(dowels=None)),
        *parts.joints,
    ]
    placed = parts.added(
        placed, surfaces, rough, has_uprights, stand.shown.is_inch
    )  # fmt: skip
    placed = with_cord_notches(reader, cords, placed, joints, stock.grain)
    placed, through = with_openings(reader, holes, placed, joints, stock.grain)
    clipped = with_cord_clips(reader, clips, placed, joints, stock.grain, surfaces)
    reader.raise_if_any()
    return compose(
        thicknesses=thicknesses,
        name=name,
        rules=reader.rules,
        placed=[with_profiles(each, profiles) for each in clipped.placed],
        joints=joints,
        shown=stand.shown,
        parameters=as_given(stand),
        loads=loads,
        surfaces=[parts.within(each) for each in surfaces],
        references=support.references(steps),
        notes=[
            *support.notes,
            *support.back_panel_notes(steps),
            *parts.notes,
            *cord_notes(cords),
            *clipped.notes,
            *opening_notes(stated, names),
        ],
        fixings=[*bushings_of(stated, holes), *hardware, *clipped.fixings],
        finish=finish,
        intent=Intent(
            openings=through,
            base=(FOOT,),
            drawn_out=drawn_out(box, has_uprights, deepest_base(reader, stand), reader.rules),
            proportion=support.proportion(steps, reader.rules),
            bearable=parts.bearable,
            again=StandAgain(stand=stand, names=names, rules=rules, thicknesses=thicknesses),
            fitted=tuple(clipped.fitted),
        ),
    )


def _refuse_of_a_post(reader: DesignReader, stand: FootedStand) -> None:
    """What was written of a post where uprights stand instead."""
    if stand.post_width is not None:
        reader.refuse(
            "post_width", said(stand.post_width), "nothing", "uprights stand instead of a post",
            "leave it out, or leave uprights out",
        )  # fmt: skip


def _read_stocks(
    reader: DesignReader,
    stand: FootedStand,
    names: Names,
    standing: tuple[str, ...],
    tiers: tuple[str, ...],
) -> StockOf:
    usual = read_usual(reader, {"thick": stand.thick, "thin": stand.thin})
    foot = "thick" if stand.foot is None else "foot"
    board = usual["thick"]
    if stand.foot is not None:
        board = read_usual(reader, {"foot": stand.foot})["foot"]
    back = None if stand.back_panel is None else read_back_stock(reader, stand.back_panel)
    return StockOf(
        reader,
        {
            FOOT: board,
            **dict.fromkeys(standing, usual["thick"]),
            BACK_PANEL: back,
            **dict.fromkeys(tiers, usual["thin"]),
        },
        stand.own_stock,
        names,
        {
            FOOT: foot,
            BACK_PANEL: "back_panel.stock",
            **dict.fromkeys(standing, "thick"),
            **dict.fromkeys(tiers, "thin"),
        },
        stand.own_grain,
    )
