"""A mitred box with a lift-out lid in rabbets, and a bottom if wanted."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field
from enum import Enum

from furniture.builders.ballast import Ballast
from furniture.builders.base_box import (
    BoxFigures,
    BoxGiven,
    corner,
    flush_notes,
    place_front_and_sides,
    place_rail,
    read_box,
    read_rail_thicknesses,
)
from furniture.builders.bottom import BottomFixing, pinned
from furniture.builders.box_options import (
    END_RAILS,
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
from furniture.builders.inside import inside_of
from furniture.builders.lid import read_bottom_gap
from furniture.builders.lid_fixing import Cleats, LidFixing, cleat_joints, place_cleats
from furniture.builders.loads import Load, read_loads
from furniture.builders.openings import Opening, Vent, with_openings
from furniture.builders.panels import place_panel
from furniture.builders.prefinish import Prefinish, read_prefinish
from furniture.builders.rules import DesignReader, at_most_known, read_name, reader_of
from furniture.joints import Joint, RabbetJoint
from furniture.parts.cuts import Bore, Cut, FingerNotch
from furniture.parts.faces import EDGES, ENDS, Arris, Face
from furniture.parts.part import Placed
from furniture.parts.vectors import BACK
from furniture.pieces import Intent, Piece, Reference, Surface, compose
from furniture.rules import ShopRules
from furniture.rules.building import LEAST_FINGER
from furniture.timber.stock import Stock
from furniture.units import (
    REQUIRED,
    Given,
    Shown,
    as_given,
    millimetres,
    parameters,
)

RAILS = ("front rail", "left side rail", "right side rail", "back rail")


class FingerHold(Enum):
    """How the lid is lifted out."""

    NOTCH = "notch"
    """A half-round notch in the middle of its front edge."""
    BORE = "bore"
    """A bore near the middle of its front edge."""
    NONE = "none"


@parameters
class MitredBox:
    """A box of four mitred rails with a lid lying in their rabbets.

    Args:
        name: of the piece.
        rails: the rails' stock.
        lid: the lid's stock.
        bottom: the bottom's stock; left out, the box has none.
        width: outside, left to right.
        depth: outside, front to back.
        height: of the rails as cut; their tops are planed flush with the lid after glue-up.
        flush_allowance: what is planed off.
        rabbet_width: of the lid's rabbet, into the rail; half the rail's thickness when left out.
        lid_gap_along: at each end of the lid, along its grain.
        lid_gap_across: at each edge of the lid, across its grain; worked out from the species'
            seasonal movement when left out.
        bottom_gap: all round the bottom; what its own stock needs when left out.
        bottom_fixing: loose, pinned, or glued.
        lid_fixing: loose, glued, or on cleats.
        cleats: what a lid on cleats is held by; the usual ones when left out.
        finger_hold: how the lid is lifted; a notch where the lid is loose, else nothing.
        finger_size: the notch's or the bore's diameter.
        openings: for cables and drains.
        vents: rows of bores or slots.
        feet: pads under the corners; left out, it stands on its rails.
        ballast: a weight on the bottom.
        corner_parts: splines and keys across the corners.
        hardware: what else is bought, such as felt pads.
        profiles: edge profiles.
        loads: what stands on the lid.
        own_stock: a stock of its own for a named part.
        prefinish: a film finish put on the parts before they go together.
        rough_length: left on a blank's length.
        rough_width: left on a blank's width.
        shown: the unit that everything is shown in.
    """

    name: str = "mitred box"
    rails: Stock = REQUIRED
    lid: Stock = REQUIRED
    bottom: Stock | None = None
    width: Given = REQUIRED
    depth: Given = REQUIRED
    height: Given = REQUIRED
    flush_allowance: Given = "0.5 mm"
    rabbet_width: Given | None = None
    lid_gap_along: Given = "0.5 mm"
    lid_gap_across: Given | None = None
    bottom_gap: Given | None = None
    bottom_fixing: BottomFixing = BottomFixing.LOOSE
    lid_fixing: LidFixing = LidFixing.LOOSE
    cleats: Cleats | None = None
    finger_hold: FingerHold | None = None
    finger_size: Given = "25 mm"
    openings: Sequence[Opening] = ()
    vents: Sequence[Vent] = ()
    feet: Feet | None = None
    ballast: Ballast | None = None
    corner_parts: Sequence[Spline | Key] = ()
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
    panels = ("lid",) if box.bottom is None else ("lid", "bottom")
    names = Names(instances=RAILS + panels, groups={"rails": RAILS}, level=panels)
    given = {"rails": box.rails, "lid": box.lid}
    if box.bottom is not None:
        given["bottom"] = box.bottom
    timbers = read_usual(reader, given)
    usual = {**dict.fromkeys(RAILS, timbers["rails"]), **{p: timbers[p] for p in panels}}
    given_as = {**dict.fromkeys(RAILS, "rails"), **{panel: panel for panel in panels}}
    stock = StockOf(reader, usual, box.own_stock, names, given_as)
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
        ),
        read_rail_thicknesses(reader, stock, RAILS),
        stock.timber("lid"),
        rough,
    )
    bottom_gap = (
        0.0
        if box.bottom is None
        else read_bottom_gap(reader, box.bottom_gap, figures, stock.timber("bottom"))
    )
    free_depth = figures.depth - figures.rail
    closing = read_closing(
        reader, box, figures, stock,
        free_depth=free_depth, free_beside=(figures.width - 2 * figures.rail) / 4,
    )  # fmt: skip
    additions = read_additions(reader, box, figures, names)
    holds = _finger_cuts(reader, box, figures, closing.lid)
    profiles = read_profiles(
        reader, box.profiles, names, _hidden(box, figures), thickness=stock.thickness
    )
    loads = read_loads(reader, box.loads, ("lid",), {"lid": _lid_size(figures)})
    finish = read_prefinish(reader, box.prefinish)
    reader.raise_if_any()

    wall, width, depth = figures.wall, figures.width, figures.depth
    lid = place_panel(
        "lid",
        stock.timber("lid"),
        (wall + figures.gap_along, wall + figures.gap_across),
        (width - wall - figures.gap_along, depth - wall - figures.gap_across),
        figures.rabbet_floor,
        rough,
        holds,
    )
    placed: list[Placed] = [
        *place_front_and_sides(figures, stock),
        place_rail("back rail", "back rail", stock, figures, width, BACK, (width, depth, 0.0)),
        lid,
    ]
    is_glued = closing.lid is LidFixing.GLUED
    joints: list[Joint] = [
        RabbetJoint(into=rail, incoming="lid", gap_mm=gap, is_glued=is_glued)
        for rail, gap in (
            ("front rail", figures.gap_across),
            ("back rail", figures.gap_across),
            ("left side rail", figures.gap_along),
            ("right side rail", figures.gap_along),
        )
    ]
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
            )
        )
        is_fixed = closing.bottom is BottomFixing.GLUED
        held = [
            RabbetJoint(into=rail, incoming="bottom", gap_mm=bottom_gap, is_glued=is_fixed)
            for rail in RAILS
        ]
        joints += pinned(held, closing.pins, END_RAILS)
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
    placed, openings = with_openings(reader, additions.holes, placed, joints)
    reader.raise_if_any()
    references = [
        Reference(
            what="lid top", start=(0.0, 0.0, 0.0), end=(0.0, 0.0, figures.lid_top), from_floor=True
        ),
    ]
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
        surfaces=[lifted_surface(_lid_surface(lid, figures), height)],
        references=[lifted_reference(each, height) for each in references],
        notes=[*flush_notes(figures, box.shown), *notes_of(closing, additions)],
        fixings=fixings_of(box, closing, additions),
        finish=finish,
        intent=Intent(
            openings=openings,
            inside=inside_of(
                figures,
                bottom_thickness=bottom_thickness(box, stock),
                free_depth=free_depth,
                cleats=closing.cleats,
                ballast=closing.fixed,
                rules=reader.rules,
            ),
            base=RAILS + panels,
            drawn_out=(),  # its lid would grow as well
            takes_corner_parts=True,
        ).lifted(height),
    )


def _lid_size(figures: BoxFigures) -> tuple[float, float]:
    """The lid's length and width between its gaps [mm]."""
    return (
        figures.width - 2 * (figures.wall + figures.gap_along),
        figures.depth - 2 * (figures.wall + figures.gap_across),
    )


def _lid_surface(lid: Placed, figures: BoxFigures) -> Surface:
    x, y, _ = lid.placement.origin
    blank = lid.part.blank
    return Surface(
        instance="lid",
        low=(x, y),
        high=(x + blank.length_mm, y + blank.width_mm),
        top_mm=figures.lid_top,
    )


def _hidden(box: MitredBox, figures: BoxFigures) -> dict[str, dict[Arris, str]]:
    rails = rail_hidden(figures.flush_allowance, box.bottom is not None)
    why = "this edge lies in the rails' rabbets: a profile there would spoil the seat"
    return {
        **dict.fromkeys(RAILS, rails),
        "lid": panel_hidden(Face.BACK_SIDE, EDGES + ENDS, why),
        "bottom": panel_hidden(Face.FACE_SIDE, EDGES + ENDS, why),
    }


def _finger_cuts(
    reader: DesignReader, box: MitredBox, figures: BoxFigures, fixing: LidFixing
) -> tuple[Cut, ...]:
    is_loose = fixing is LidFixing.LOOSE
    usual = FingerHold.NOTCH if is_loose else FingerHold.NONE
    given = usual if box.finger_hold is None else box.finger_hold
    hold = reader.choice("finger_hold", given, FingerHold, FingerHold.NONE)
    if hold is not FingerHold.NONE and not is_loose:
        reader.refuse(
            "finger_hold", hold.value, "FingerHold.NONE", "a lid that is fixed is not lifted",
            "write FingerHold.NONE, or leave it out",
        )  # fmt: skip
    if hold is FingerHold.NONE:
        return ()
    length, across = _lid_size(figures)
    most = min(60.0, at_most_known(length / 3), at_most_known(across / 2.5))
    if most < reader.rules[LEAST_FINGER]:
        reader.refuse(
            "finger_hold", str(hold), "FingerHold.NONE", "the lid is too small for a finger hold",
            "write FingerHold.NONE",
        )  # fmt: skip
        return ()
    size = reader.length(
        "finger_size",
        box.finger_size,
        at_least=reader.rules[LEAST_FINGER],
        at_most=most,
        why="a finger goes in and the lid keeps its edge (common practice)",
    )
    if hold is FingerHold.NOTCH:
        return (FingerNotch(edge=Face.FACE_EDGE, centre_mm=length / 2, radius_mm=size / 2),)
    return (Bore(face=Face.FACE_SIDE, x_mm=length / 2, y_mm=size * 1.5, diameter_mm=size),)
