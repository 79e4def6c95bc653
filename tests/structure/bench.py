"""Pieces whose joints are stated by hand, for the statics alone."""

from __future__ import annotations

from dataclasses import replace

from furniture import Stock
from furniture.joints.joint import GrainRelation, Joining, JointFace, Role
from furniture.parts.blank import Blank
from furniture.parts.part import Part, Placed
from furniture.parts.placement import Placement
from furniture.pieces import Piece, StandingLoad, Surface
from furniture.structure import frame_of, masses_by_cuts
from furniture.structure.bending import sag_of, spread_load
from furniture.structure.elastic import bent_under, elastic_of
from furniture.timber.stock import read_stock
from furniture.units import Reader, millimetres

OAK = Stock(name="oak", species="white oak", thickness="19 mm", moisture="8 %")


def oak():
    """White oak as a reader takes it."""
    timber = read_stock(Reader(shown=millimetres()), "stock", OAK)
    assert timber is not None, "the stock is sound"
    return timber


def placed(name, size, origin, x_axis, y_axis):
    """A bare blank in its place."""
    length, width, thickness = size
    part = Part(
        name=name,
        blank=Blank(length_mm=length, width_mm=width, thickness_mm=thickness),
        timber=oak(),
    )
    where = Placement(origin=origin, x_axis=x_axis, y_axis=y_axis)
    return Placed(instance=name, part=part, placement=where)


def face(centre, normal, along, run, deep, glue=None, play=0.0, what="face"):
    """A rectangle of a joint."""
    return JointFace(
        what=what, centre=centre, normal=normal, along=along, run_mm=run, deep_mm=deep,
        play_mm=play, glue=glue,
    )  # fmt: skip


def joining(into, incoming, faces, fasteners=(), role=Role.HOUSING):
    """A joint of which only its hold is stated."""
    return Joining(
        kind="stated", into=into, incoming=incoming, fit=None, clearance_mm=0.0,
        ways_in=(), role=role, faces=tuple(faces), fasteners=tuple(fasteners),
    )  # fmt: skip


def shelf_on_two_sides(span=600.0, depth=200.0, thickness=19.0, glue=None, load_kg=15.0):
    """A shelf let 6 mm into two sides 19 thick and 300 high, its underside 200 up."""
    left = placed("left", (300.0, depth, 19.0), (0.0, depth, 0.0), (0, 0, 1.0), (0, -1.0, 0))
    right = placed("right", (300.0, depth, 19.0), (span + 38.0, 0.0, 0.0), (0, 0, 1.0), (0, 1.0, 0))
    shelf = placed(
        "shelf", (span + 12.0, depth, thickness), (13.0, 0.0, 200.0), (1.0, 0, 0), (0, 1.0, 0)
    )
    joinings = []
    for name, inner, out in (("left", 19.0, -1.0), ("right", 19.0 + span, 1.0)):
        middle = inner + 3.0 * out
        joinings.append(
            joining(name, "shelf", [
                face((middle, depth / 2, 200.0), (0, 0, -1.0), (0, 1.0, 0), depth, 6.0, glue),
                face(
                    (middle, depth / 2, 200.0 + thickness), (0, 0, 1.0), (0, 1.0, 0), depth, 6.0,
                    glue, 0.0 if glue else 0.15,
                ),
                face(
                    (inner + 6.0 * out, depth / 2, 200.0 + thickness / 2), (out, 0, 0),
                    (0, 1.0, 0), depth, thickness,
                    GrainRelation.LONG_TO_END if glue else None,
                ),
            ])
        )  # fmt: skip
    surface = Surface(
        instance="shelf", low=(19.0, 0.0), high=(19.0 + span, depth), top_mm=200.0 + thickness
    )
    load = StandingLoad(
        on="shelf",
        mass_kg=load_kg,
        footprint_mm=(span, depth),
        centre_height_mm=100.0,
        name="books",
    )
    return Piece(
        name="bench", placed=(left, right, shelf), joinings=tuple(joinings), surfaces=(surface,),
        loads=(load,),
    )  # fmt: skip


def standing_fast(frame):
    """A floor to which the feet are fixed, as a solid's are."""
    return tuple(replace(link, least_n=-link.most_n) for link in frame.floor)


def the_books(piece):
    """The frame of a bench piece and its only load, spread in the middle of its shelf."""
    frame = frame_of(piece, masses_by_cuts(piece))
    surface, load = piece.surfaces[0], piece.loads[0]
    x, y = ((surface.low[axis] + surface.high[axis]) / 2.0 for axis in range(2))
    return frame, spread_load(frame, load, (x, y, surface.top_mm))


def sag_of_books(piece):
    """The sag of the shelf under its books [mm], its own weight left out, the feet held."""
    frame, books = the_books(piece)
    [bent] = bent_under(elastic_of(piece, standing_fast(frame), piece.joinings), [books])
    return sag_of(piece, bent, "shelf").fall_mm
