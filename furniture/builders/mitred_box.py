"""A mitred box with a lid or without one, and a bottom if wanted."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field, replace

from furniture.builders.all_corners import Keys, Splines
from furniture.builders.ballast import Ballast
from furniture.builders.base_box import (
    BoxFigures,
    BoxGiven,
    corner,
    flush_notes,
    place_front_and_sides,
    place_rail,
    read_box,
    read_lid_gaps,
    read_rail_thicknesses,
)
from furniture.builders.bottom import BottomFixing, pinned
from furniture.builders.box_lid import (
    FingerHold,
    OpenTop,
    RabbetedTop,
    Top,
    read_finger_cuts,
)
from furniture.builders.box_options import (
    Closing,
    bottom_thickness,
    end_rails,
    fixings_of,
    has_lid,
    is_hinged,
    lid_grain,
    lies_in_rabbets,
    notes_of,
    of_the_lid,
    read_additions,
    read_closing,
    slides,
)
from furniture.builders.common import (
    Names,
    StockOf,
    read_rough,
    read_usual,
)
from furniture.builders.corner_parts import Key, Spline, corner_parts
from furniture.builders.edges import (
    EdgeProfile,
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
from furniture.builders.hinged_lid import HingedLid, HingedTop, read_hinged_lid, read_lift
from furniture.builders.inside import inside_of
from furniture.builders.lid import read_bottom_gap
from furniture.builders.lid_fixing import Cleats, LidFixing, cleat_joints, place_cleats
from furniture.builders.loads import Load, read_loads, sizes_of
from furniture.builders.opening_cuts import with_openings
from furniture.builders.openings import Opening, Vent
from furniture.builders.panel_grain import PanelGrain
from furniture.builders.panels import place_panel
from furniture.builders.prefinish import Prefinish, read_prefinish
from furniture.builders.rules import DesignReader, read_name, reader_of
from furniture.builders.sliding_lid import SlidingLid, SlidingTop, read_pull, read_sliding_lid
from furniture.joints import RabbetJoint
from furniture.parts.faces import EDGES, ENDS, Arris, Face
from furniture.parts.part import Placed
from furniture.parts.vectors import BACK
from furniture.pieces import Intent, Piece, compose
from furniture.rules import ShopRules
from furniture.timber.stock import Stock
from furniture.units import (
    REQUIRED,
    Given,
    Shown,
    as_given,
    millimetres,
    parameters,
    said,
)

RAILS = ("front rail", "left side rail", "right side rail", "back rail")


@parameters
class MitredBox:
    """A box of four mitred rails, with a lid lying in their rabbets or open above.

    Args:
        name: of the piece.
        rails: the rails' stock.
        lid: the lid's stock (default: no lid).
        bottom: the bottom's stock (default: no bottom).
        width: outside, left to right.
        depth: outside, front to back.
        height: of the rails as cut; their tops are planed flush with the lid after glue-up.
        flush_allowance: what is planed off.
        rabbet_width: of the lid's rabbet, into the rail (default: half the rail's thickness).
        lid_gap_along: at each end of the lid, along its grain.
        lid_gap_across: at each edge of the lid, across its grain (default: by the species' seasonal
            movement).
        bottom_gap: all round the bottom (default: what its stock needs).
        bottom_fixing: loose, pinned, or glued (default: pinned).
        lid_fixing: loose, glued, on cleats, sliding in grooves, or on hinges; `LidFixing.NONE`
            leaves the box open above.
        sliding_lid: how a lid slides (default: out to the right).
        hinged_lid: what a lid turns on; a box with `LidFixing.HINGED` needs it.
        cleats: what a lid on cleats is held by (default: the usual ones).
        finger_hold: how the lid is lifted or drawn (default: a notch where it is loose, a recess
            where it slides or a notch where it turns and does not stand out, else nothing).
        finger_size: the notch's or the hole's diameter, or the recess's length (default: 25 mm, or
            1 in for a piece in inches).
        openings: for cables and drains.
        vents: rows of holes or slots.
        feet: pads under the corners (default: it stands on its rails).
        ballast: a weight on the bottom (default: none).
        corner_parts: splines and keys across the corners; `Splines` or `Keys` for all of them.
        hardware: what else is bought, such as felt pads.
        profiles: edge profiles.
        loads: what stands on the lid.
        own_stock: a stock of its own for a named part, such as `{"lid": THICK}`.
        own_grain: which way the grain of a named level part runs, such as
            `{"tiers": PanelGrain.ACROSS}` (default: along, from left to right).
        prefinish: a film finish put on the parts before they go together (default: none).
        rough_length: extra length left on each rough part (default: 15 mm, or 5/8 in for a piece in
            inches).
        rough_width: extra width left on each rough part (default: 4 mm or 3/16 in).
        shown: the unit that everything is shown in.
    """

    name: str = "mitred box"
    rails: Stock = REQUIRED
    lid: Stock | None = None
    bottom: Stock | None = None
    width: Given = REQUIRED
    depth: Given = REQUIRED
    height: Given = REQUIRED
    flush_allowance: Given = "0.5 mm"
    rabbet_width: Given | None = None
    lid_gap_along: Given = "0.5 mm"
    lid_gap_across: Given | None = None
    bottom_gap: Given | None = None
    bottom_fixing: BottomFixing | None = None
    lid_fixing: LidFixing = LidFixing.LOOSE
    cleats: Cleats | None = None
    sliding_lid: SlidingLid | None = None
    hinged_lid: HingedLid | None = None
    finger_hold: FingerHold | None = None
    finger_size: Given | None = None
    openings: Sequence[Opening] = ()
    vents: Sequence[Vent] = ()
    feet: Feet | None = None
    ballast: Ballast | None = None
    corner_parts: Splines | Keys | Sequence[Spline | Key | Splines | Keys] = ()
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
        """The box as a piece.

        Args:
            rules: the shop's own limits that differ from the usual ones.
            thicknesses: of instances as measured, by name, where not their stock's [mm].

        Raises:
            DesignError: with every problem of these parameters.
        """
        return _build(self, rules, thicknesses)


def _build(
    box: MitredBox, rules: ShopRules | None, thicknesses: Mapping[str, float] | None
) -> Piece:
    reader = reader_of(box.shown, rules)
    reader.names("", box)
    name = read_name(reader, box.name)
    panels = _read_panels(reader, box)
    names = Names(instances=RAILS + panels, groups={"rails": RAILS}, level=panels, rails=RAILS)
    timbers = read_usual(
        reader,
        {"rails": box.rails, **{panel: getattr(box, panel) for panel in panels}},
        instead={"lid": "leave the box open above (lid_fixing=LidFixing.NONE)"},
    )
    usual = {**dict.fromkeys(RAILS, timbers["rails"]), **{p: timbers[p] for p in panels}}
    given_as = {**dict.fromkeys(RAILS, "rails"), **{panel: panel for panel in panels}}
    stock = StockOf(reader, usual, box.own_stock, names, given_as, box.own_grain)
    rough = read_rough(reader, box.rough_length, box.rough_width)
    figures = read_box(
        reader,
        BoxGiven(
            rails=stock.parameter("front rail"),
            width=("width", box.width),
            depth=("depth", box.depth),
            height=("height", box.height),
            flush_allowance=box.flush_allowance,
            rabbet_width=box.rabbet_width,
            lid_gap_along=box.lid_gap_along,
            lid_gap_across=box.lid_gap_across,
            bottom_thickness=bottom_thickness(box, stock),
            has_lid=lies_in_rabbets(box),
            of_the_lid=of_the_lid(box),
            lid_grain=lid_grain(reader, box, stock),
        ),
        read_rail_thicknesses(reader, stock, RAILS),
        stock.timber("lid"),
        rough,
    )
    bottom_gap = (
        0.0
        if box.bottom is None
        else read_bottom_gap(
            reader, box.bottom_gap, figures, stock.timber("bottom"), stock.grain("bottom")
        )
    )
    bottom = bottom_thickness(box, stock)
    sliding = _read_sliding(reader, box, figures, stock, bottom)
    if sliding is not None:
        figures = replace(figures, lid_below=figures.height - sliding.underside)
    free_depth = figures.depth - figures.rail
    closing = read_closing(
        reader, box, figures, stock,
        free_depth=free_depth, free_beside=(figures.width - 2 * figures.rail) / 4,
    )  # fmt: skip
    additions = read_additions(reader, box, figures, names)
    hinged = _read_hinged(reader, box, figures, stock, bottom, (thicknesses or {}).get("lid"))
    top = sliding or hinged or _read_top(reader, box, figures, closing, bottom, stock)
    profiles = read_profiles(
        reader,
        box.profiles,
        names,
        _hidden(box, figures, top),
        thickness=stock.thickness,
        grain=stock.grain,
    )
    surfaces = top.surfaces()
    on = tuple(surface.instance for surface in surfaces)
    loads = read_loads(reader, box.loads, on, sizes_of(surfaces))
    finish = read_prefinish(reader, box.prefinish)
    reader.raise_if_any()

    wall, width, depth = figures.wall, figures.width, figures.depth
    placed: list[Placed] = [
        *place_front_and_sides(figures, stock),
        place_rail("back rail", "back rail", stock, figures, width, BACK, (width, depth, 0.0)),
        *top.place(stock),
    ]
    joints = top.joints()
    if box.bottom is not None:
        inset = wall + bottom_gap
        placed.append(
            place_panel(
                "bottom",
                stock.timber("bottom"),
                (inset, inset),
                (width - inset, depth - inset),
                0.0,
                rough,
                grain=stock.grain("bottom"),
            )
        )
        is_fixed = closing.bottom is BottomFixing.GLUED
        held = [
            RabbetJoint(into=rail, incoming="bottom", gap_mm=bottom_gap, is_glued=is_fixed)
            for rail in RAILS
        ]
        joints += pinned(held, closing.pins, end_rails(stock, ("front rail", "back rail")))
    joints += [
        corner("front rail", "left side rail"),
        corner("front rail", "right side rail"),
        corner("back rail", "left side rail"),
        corner("back rail", "right side rail"),
    ]
    loose, lets_in = corner_parts(reader, box.corner_parts, placed, joints)
    if closing.cleats is not None:
        cleats = place_cleats(closing.cleats, figures, free_depth, reader.rules)
        placed += cleats
        joints += cleat_joints(closing.cleats, cleats[0].part.blank.length_mm, reader.rules)
    pads, pad_joints, height = feet_under(additions.feet, figures, placed, has_post=False)
    placed += pads
    joints += pad_joints
    placed = placed if hinged is None else hinged.bored(placed)
    placed, openings = with_openings(reader, additions.holes, placed, joints, stock.grain)
    reader.raise_if_any()
    return compose(
        thicknesses=thicknesses,
        name=name,
        rules=reader.rules,
        placed=[lifted(with_profiles(each, profiles), height) for each in (*placed, *loose)],
        joints=[*joints, *lets_in],
        shown=box.shown,
        parameters=as_given(box),
        loads=loads,
        fixed=[lifted_body(body, height) for body in closing.fixed],
        surfaces=[lifted_surface(each, height) for each in surfaces],
        references=[lifted_reference(each, height) for each in top.references()],
        notes=[
            *flush_notes(figures, box.shown, RAILS),
            *top.notes,
            *notes_of(closing, additions, names, stock.timber("bottom")),
        ],
        fixings=[*top.fixings, *fixings_of(closing, additions)],
        finish=finish,
        intent=Intent(
            openings=openings,
            inside=inside_of(
                figures,
                bottom_thickness=bottom,
                free_depth=free_depth,
                cleats=closing.cleats,
                ballast=closing.fixed,
                rules=reader.rules,
            ),
            base=RAILS + panels,
            drawn_out=(),  # its lid would grow as well
            takes_corner_parts=True,
            opens=() if hinged is None else (hinged.opens(),),
        ).lifted(height),
    )


def _read_panels(reader: DesignReader, box: MitredBox) -> tuple[str, ...]:
    """The level parts that the box has; an open one has a bottom, and no stock for a lid."""
    if has_lid(box):
        return ("lid",) if box.bottom is None else ("lid", "bottom")
    if box.lid is not None:
        reader.refuse(
            "lid", said(box.lid), "nothing", "lid_fixing says that the box has no lid",
            "leave it out",
        )  # fmt: skip
    if box.bottom is None:
        reader.refuse(
            "bottom", "nothing", "a Stock", "a box without a lid or a bottom holds nothing",
            "write bottom=Stock(...), or give it a lid",
        )  # fmt: skip
    return () if box.bottom is None else ("bottom",)


def _refuse_unmeant(reader: DesignReader, given: object, parameter: str, fixing: LidFixing) -> None:
    """What is said of a lid that is not held in that way."""
    if given is not None:
        reader.refuse(
            parameter, f"a {fixing.value} lid", "nothing", "lid_fixing says that the lid is held "
            "in another way", f"write lid_fixing=LidFixing.{fixing.name}, or leave {parameter} out",
        )  # fmt: skip


def _read_sliding(
    reader: DesignReader, box: MitredBox, figures: BoxFigures, stock: StockOf, bottom: float
) -> SlidingTop | None:
    """The lid that slides, if it is one; problems are noted with the reader."""
    if not slides(box):
        _refuse_unmeant(reader, box.sliding_lid, "sliding_lid", LidFixing.SLIDING)
        return None
    lid = stock.timber("lid")
    gaps = read_lid_gaps(reader, box.lid_gap_along, box.lid_gap_across, figures.depth, lid)
    rails = stock.parameter("front rail")
    top = read_sliding_lid(reader, box.sliding_lid, figures, lid, gaps, bottom, rails)
    return replace(top, holds=read_pull(reader, box.finger_hold, box.finger_size, top))


def _read_hinged(
    reader: DesignReader,
    box: MitredBox,
    figures: BoxFigures,
    stock: StockOf,
    bottom: float,
    measured: float | None,
) -> HingedTop | None:
    """The lid on hinges, if it is one; problems are noted with the reader."""
    if not is_hinged(box):
        _refuse_unmeant(reader, box.hinged_lid, "hinged_lid", LidFixing.HINGED)
        return None
    lid, back, side = (stock.timber(each) for each in ("lid", "back rail", "right side rail"))
    top = read_hinged_lid(
        reader, box.hinged_lid, figures, lid, back, side, bottom, measured
    )  # fmt: skip
    if top is None:
        return None
    return replace(top, holds=read_lift(reader, box.finger_hold, box.finger_size, top))


def _read_top(
    reader: DesignReader,
    box: MitredBox,
    figures: BoxFigures,
    closing: Closing,
    bottom: float,
    stock: StockOf,
) -> Top:
    """What closes the box above; problems are noted with the reader."""
    if is_hinged(box):  # it could not be read, which is told: loads on it are none the less
        return RabbetedTop(figures=figures, holds=(), is_glued=False)
    holds = read_finger_cuts(
        reader, box.finger_hold, box.finger_size, figures, closing.lid, stock.grain("lid")
    )
    if not figures.has_lid:
        return OpenTop(figures=figures, bottom=bottom)
    is_glued = closing.lid is LidFixing.GLUED
    return RabbetedTop(figures=figures, holds=holds, is_glued=is_glued)


def _hidden(box: MitredBox, figures: BoxFigures, top: Top) -> dict[str, dict[Arris, str]]:
    rails = rail_hidden(figures.flush_allowance, box.bottom is not None, figures.has_lid)
    why = "this edge lies in the rails' rabbets: a profile there would spoil the seat"
    of_top = top.hidden()
    return {
        **{rail: {**rails, **of_top.get(rail, {})} for rail in RAILS},
        "lid": of_top.get("lid", {}),
        "bottom": panel_hidden(Face.FACE_SIDE, EDGES + ENDS, why),
    }
