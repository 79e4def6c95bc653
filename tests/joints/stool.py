"""A stool: four legs, four rails tenoned into them, and a top: a whole piece for the tests."""

from __future__ import annotations

from furniture import (
    Against,
    At,
    ButtJoint,
    CentredOn,
    Composition,
    FlushWith,
    MortiseAndTenonJoint,
    PlacedPart,
    Stock,
    Way,
    join,
)

LEGS = Stock(name="squares", species="beech", thickness="42 mm", moisture="9 %")
RAILS = Stock(name="rail stock", species="beech", thickness="21 mm", moisture="9 %")
TOPS = Stock(name="top stock", species="beech", thickness="24 mm", moisture="9 %")


def _leg(name: str, *places: object) -> PlacedPart:
    return PlacedPart(
        name=name, stock=LEGS, length="400 mm", width="42 mm", face_side=Way.FRONT, grain=Way.UP,
        places=places,
    )  # fmt: skip


def _rail(name: str, length: str, side: Way, grain: Way, *places: object) -> PlacedPart:
    return PlacedPart(
        name=name, stock=RAILS, length=length, width="70 mm", face_side=side, grain=grain,
        places=places,
    )  # fmt: skip


def stool(**more: object) -> Composition:
    """Legs of 42 x 42, 320 and 260 apart outside; rails set back 4, their tenons 20 long.

    Two tenons meet in every leg: each is 7 thick and lies 11 to 18 inside the leg's outside, and
    reaches to 22 from the far outside, so 3 mm of wood are left between the two mortises.
    """
    on_floor = FlushWith(of="left front leg", side=Way.DOWN)
    far_right = At(distance="278 mm", of="left front leg", side=Way.LEFT)
    far_back = At(distance="218 mm", of="left front leg", side=Way.FRONT)
    left, front = (
        FlushWith(of="left front leg", side=Way.LEFT),
        FlushWith(of="left front leg", side=Way.FRONT),
    )
    legs = [
        _leg("left front leg"),
        _leg("right front leg", on_floor, far_right, front),
        _leg("left back leg", on_floor, left, far_back),
        _leg("right back leg", on_floor, far_right, far_back),
    ]
    level = At(distance="330 mm", of="left front leg", side=Way.DOWN)
    along = At(distance="22 mm", of="left front leg", side=Way.LEFT)
    deep = At(distance="22 mm", of="left front leg", side=Way.FRONT)
    rails = [
        _rail("front rail", "276 mm", Way.FRONT, Way.RIGHT, level, along,
              FlushWith(of="left front leg", side=Way.FRONT, shy="4 mm")),
        _rail("back rail", "276 mm", Way.BACK, Way.RIGHT, level, along,
              FlushWith(of="left back leg", side=Way.BACK, shy="4 mm")),
        _rail("left rail", "216 mm", Way.LEFT, Way.BACK, level, deep,
              FlushWith(of="left front leg", side=Way.LEFT, shy="4 mm")),
        _rail("right rail", "216 mm", Way.RIGHT, Way.BACK, level, deep,
              FlushWith(of="right front leg", side=Way.RIGHT, shy="4 mm")),
    ]  # fmt: skip
    top = PlacedPart(
        name="top", stock=TOPS, length="340 mm", width="280 mm",
        places=[
            Against(of="left front leg", side=Way.UP),
            CentredOn(of="front rail", along=Way.RIGHT),
            CentredOn(of="left rail", along=Way.BACK),
        ],
    )  # fmt: skip
    ends = {
        "front rail": ("left front leg", "right front leg"),
        "back rail": ("left back leg", "right back leg"),
        "left rail": ("left front leg", "left back leg"),
        "right rail": ("right front leg", "right back leg"),
    }
    tenons = [
        join(MortiseAndTenonJoint, rail, into=leg, face_edge_shoulder="9 mm", **more)
        for rail, legs_of in ends.items()
        for leg in legs_of
    ]
    seats = [join(ButtJoint, "top", into=each) for each in ("front rail", "back rail")]
    return Composition(name="Stool", parts=[*legs, *rails, top], joints=[*tenons, *seats])
