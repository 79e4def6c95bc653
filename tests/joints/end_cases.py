"""Random valid pairs for the joints of ends and of what is fastened, as in `cases`.

The expected volumes are written from the drawn sizes alone: length, width and thickness, less the
boxes, wedges and cylinders. Nothing is taken from the joints or the cuts.
"""

from __future__ import annotations

import math

from hypothesis import strategies as st

from furniture.joints import (
    ButtJoint,
    CleatJoint,
    DowelledButtJoint,
    FlatMitreJoint,
    HalfLapJoint,
    MitreJoint,
    MortiseAndTenonJoint,
)
from furniture.parts.vectors import add, scaled
from tests.joints.pairs import (
    FITS,
    FORWARDS,
    LEFTWARDS,
    Case,
    X,
    Y,
    Z,
    mm,
    play_of,
)
from tests.joints.proofs import board


@st.composite
def half_laps(draw: st.DrawFn) -> Case:
    """A cross lap, a tee lap or an end lap, the second part in the face side of the first."""
    length, width, thickness = draw(mm(200, 400)), draw(mm(30, 80)), draw(mm(12, 25))
    second_width, fit = draw(mm(30, 80)), draw(FITS)
    share = draw(st.sampled_from([0.4, 0.5, 0.6]))
    play = play_of(fit, thickness)
    first = board("first", (length, width, thickness), (0.0, 0.0, 0.0), X, Y)
    reaches_past, at_end = draw(st.booleans()), draw(st.booleans())
    second_length = draw(mm(60, 150)) + width + (50 if reaches_past else 0)
    end = width + 50 if reaches_past else width
    right = length if at_end else draw(mm(second_width + 20, length - 20))
    origin = (right, end - second_length, 0.0)
    second = board("second", (second_length, second_width, thickness), origin, Y, LEFTWARDS)
    wide = second_width + (0.0 if at_end else play)
    long = width + (play if reaches_past else 0.0)
    deep = share * thickness
    return Case(
        joint=HalfLapJoint(into="first", incoming="second", fit=fit, share=share),
        into=first,
        incoming=second,
        into_left=length * width * thickness - wide * width * deep,
        incoming_left=second_length * second_width * thickness
        - long * second_width * (thickness - deep),
        clearance=0.0 if at_end else play,
        towards_clearance=None if at_end else X,
    )


@st.composite
def box_mitres(draw: st.DrawFn) -> Case:
    """Two rails at a corner of a box, or of a prism with another angle, face sides out."""
    height, thickness = draw(mm(40, 120)), draw(mm(10, 22))
    first, second = draw(mm(120, 300)), draw(mm(120, 300))
    turn = draw(st.sampled_from([90.0, 90.0, 60.0, 72.0]))
    a = math.radians(turn)
    x_axis = (math.cos(a), math.sin(a), 0.0)
    outward = (math.sin(a), -math.cos(a), 0.0)
    front = board("front", (first, height, thickness), (0.0, thickness, 0.0), X, Z)
    corner = (first, 0.0, 0.0)
    origin = add(corner, scaled(outward, -thickness))
    side = board("side", (second, height, thickness), origin, x_axis, Z)
    wedge = height * thickness**2 * math.tan(a / 2) / 2
    return Case(
        joint=MitreJoint(into="front", incoming="side"),
        into=front,
        incoming=side,
        into_left=first * height * thickness - wedge,
        incoming_left=second * height * thickness - wedge,
    )


@st.composite
def frame_mitres(draw: st.DrawFn) -> Case:
    """Two rails of a frame at a square corner, of one width or of two."""
    thickness, first, second = draw(mm(12, 25)), draw(mm(150, 300)), draw(mm(150, 300))
    width = draw(mm(25, 60))
    other = draw(st.one_of(st.just(width), mm(0.6 * width, 1.6 * width)))  # within what a saw turns
    bottom = board("bottom", (first, width, thickness), (0.0, 0.0, 0.0), X, Y)
    side = board("side", (second, other, thickness), (first, 0.0, 0.0), Y, LEFTWARDS)
    wedge = thickness * width * other / 2
    return Case(
        joint=FlatMitreJoint(into="bottom", incoming="side"),
        into=bottom,
        incoming=side,
        into_left=first * width * thickness - wedge,
        incoming_left=second * other * thickness - wedge,
    )


@st.composite
def butts(draw: st.DrawFn) -> Case:
    """A rail's end on an upright's face."""
    thickness, width, length = draw(mm(12, 25)), draw(mm(40, 100)), draw(mm(80, 300))
    upright = board("upright", (400.0, 120.0, 20.0), (0.0, 120.0, 0.0), Z, FORWARDS)
    origin = (20.0, draw(mm(20, 60)), draw(mm(0, 200)))
    rail = board("rail", (length, width, thickness), origin, X, Z)
    return Case(
        joint=ButtJoint(into="upright", incoming="rail"),
        into=upright,
        incoming=rail,
        into_left=400.0 * 120.0 * 20.0,
        incoming_left=length * width * thickness,
    )


@st.composite
def dowelled_butts(draw: st.DrawFn) -> Case:
    """A stub's end on a post's edge, held by dowels."""
    thickness, width, length = draw(mm(16, 30)), draw(mm(70, 140)), draw(mm(80, 200))
    post_width = draw(mm(60, 120))
    diameter = draw(
        st.sampled_from([d for d in (6.0, 8.0, 10.0) if thickness / 4 <= d <= thickness / 2])
    )
    # two diameters from either edge and from one another
    count = draw(st.integers(1, min(3, 1 + int((width - 4 * diameter) / (2 * diameter)))))
    deep, gap = draw(mm(15, 30)), draw(st.sampled_from([0.0, 1.5]))
    post = board("post", (400.0, post_width, thickness), (0.0, 0.0, 0.0), Z, X)
    origin = (post_width, thickness, draw(mm(0, 100)))
    stub = board("stub", (length, width, thickness), origin, X, Z)
    bores = count * math.pi * diameter**2 / 4
    return Case(
        joint=DowelledButtJoint(
            into="post",
            incoming="stub",
            count=count,
            diameter_mm=diameter,
            length_mm=2 * deep,
            into_depth_mm=deep,
            end_gap_mm=gap,
        ),
        into=post,
        incoming=stub,
        into_left=400.0 * post_width * thickness - bores * (deep + gap),
        incoming_left=length * width * thickness - bores * (deep + gap),
    )


@st.composite
def mortises_and_tenons(draw: st.DrawFn) -> Case:
    """A rail along x, its tenon in a post's edge or in its face side; shoulders drawn one by one.

    The rail's face side looks forwards (its back side to +y) and its face edge down.
    """
    thickness, width, length = draw(mm(15, 30)), draw(mm(40, 90)), draw(mm(80, 300))
    thick = draw(mm(0.3 * thickness, 0.45 * thickness))
    in_edge, fit = draw(st.booleans()), draw(FITS)
    gap, slack = draw(st.sampled_from([0.0, 1.0, 2.0])), draw(st.sampled_from([0.0, 0.5, 1.5]))
    radius = draw(st.one_of(st.just(0.0), mm(1, thick / 2)))
    side = draw(st.one_of(st.just(0.0), st.just((thickness - thick) / 2), mm(1, 5)))
    lower, upper = (draw(st.one_of(st.just(0.0), mm(2, 10))) for _ in range(2))
    deep, across = draw(mm(40, 60)), draw(mm(45, 70))
    reach, play = draw(mm(10, deep - 6.5)), play_of(fit, thick)
    at, back = draw(mm(40, 90)), draw(mm(7.5, across - thickness - 7.5))
    if in_edge:  # its back edge, thickness along y
        post = board("post", (400.0, deep, across), (0.0, 0.0, 0.0), Z, X)
    else:  # its face side
        post = board("post", (400.0, across, deep), (0.0, across, 0.0), Z, FORWARDS)
    rail = board("rail", (length, width, thickness), (deep - reach, back + thickness, at), X, Z)
    wide = width - lower - upper
    hole = (wide + 2 * radius + slack) * (thick + play) - (4 - math.pi) * radius**2
    return Case(
        joint=MortiseAndTenonJoint(
            into="post",
            incoming="rail",
            fit=fit,
            tenon_thickness_mm=thick,
            from_face_side_mm=side,
            face_edge_shoulder_mm=lower,
            back_edge_shoulder_mm=upper,
            edge_play_mm=slack,
            end_gap_mm=gap,
            end_radius_mm=radius,
        ),
        into=post,
        incoming=rail,
        into_left=400.0 * deep * across - hole * (reach + gap),
        incoming_left=length * width * thickness - reach * (width * thickness - wide * thick),
        clearance=play,
        towards_clearance=Y,
    )


@st.composite
def cleats(draw: st.DrawFn) -> Case:
    """A strip hooked on a wall cleat, both bevelled."""
    thickness, length = draw(mm(12, 22)), draw(mm(150, 400))
    low, high = draw(mm(40, 80)), draw(mm(40, 80))
    tilt = draw(st.sampled_from([30.0, 40.0, 45.0]))
    rise = thickness * math.tan(math.radians(tilt))
    wall = board("wall cleat", (length, low, thickness), (0.0, thickness, 0.0), X, Z)
    strip = board("cleat", (length, high, thickness), (0.0, thickness, low - rise), X, Z)
    wedge = length * thickness * rise / 2
    return Case(
        joint=CleatJoint(into="wall cleat", incoming="cleat", blade_tilt_deg=tilt),
        into=wall,
        incoming=strip,
        into_left=length * low * thickness - wedge,
        incoming_left=length * high * thickness - wedge,
    )
