"""Rules of standing: tilt, pushes, presses, the floor, walls and persons."""

from __future__ import annotations

from furniture.rules.rule import Rule

_F2057 = "ASTM F2057-23 and 16 CFR 1261, for clothes storage; taken here for shelves"
_SEATS = "EN 1022, stability of seats, as a maker's page tells its tests"

TABLE_TOP_MASS = Rule(
    name="table_top_mass", value=7.0, unit="kg",
    what="what weighs less and is not tall is judged as a table-top piece",
    source="IEC 62368-1 (2018), lowest mass class: nothing is asked of its stability",
)  # fmt: skip
TALL = Rule(
    name="tall", value=27.0 * 25.4, unit="mm",
    what="from this height on a piece is tall, and a fixing to the wall is spoken of",
    source=_F2057,
)  # fmt: skip
HEAVY = Rule(
    name="heavy", value=13.6, unit="kg",
    what="from this mass on, where it is tall too, a fixing to the wall is asked",
    source=_F2057,
)  # fmt: skip
WALL_TILT = Rule(
    name="wall_tilt", value=15.0, unit="deg",
    what="a tall and heavy piece that falls under this tilt is asked to be fixed to the wall",
)  # fmt: skip
TILT_ASKED = Rule(
    name="tilt_asked", value=10.0, unit="deg", what="the tilt that a piece should bear",
    source="IEC 62368-1 (2018), static stability; IEC 60335-1, 20.1",
)  # fmt: skip
TABLE_TOP_TILT = Rule(
    name="table_top_tilt", value=6.0, unit="deg",
    what="the tilt that a table-top piece should bear",
    source="IEC 60598-2-4 (1997), 4.6.3, for table lamps",
)  # fmt: skip
LOW_CORNER = Rule(
    name="low_corner", value=2.0, unit="mm",
    what="how low an uneven floor is under one corner: a card's worth under a short leg",
)  # fmt: skip
PUSHED_FROM = Rule(
    name="pushed_from", value=11.0, unit="kg",
    what="from this mass on, or where it is tall and stands on the floor, a push at the top is "
    "judged and not only noted",
    source="own rule, after a manual of equipment that asks its tilt from there on",
)  # fmt: skip
SLEEVE = Rule(
    name="sleeve", value=20.0, unit="N",
    what="a push at the top of a floor piece: a leaning sleeve",
)  # fmt: skip
PUSH_SHARE = Rule(
    name="push_share", value=0.05,
    what="the same push as a share of the loaded weight, where that is more",
)  # fmt: skip
WEIGHT_PUSH_FROM = Rule(
    name="weight_push_from", value=25.0, unit="kg",
    what="from this mass on the push of 13 % of the weight is noted",
    source="IEC 62368-1, whose later editions ask it of the highest mass class alone",
)  # fmt: skip
CABLE_PULL = Rule(
    name="cable_pull", value=20.0, unit="N",
    what="a foot caught in a cable draws with about two kilograms",
)  # fmt: skip
LOW_CABLE_SHARE = Rule(
    name="low_cable_share", value=1.0 / 3.0,
    what="a cable that leaves lower than this share of the height is only noted",
)  # fmt: skip
CHILD = Rule(
    name="child", value=266.9, unit="N", what="a child of 60 lb that climbs on a front edge",
    source=_F2057,
)  # fmt: skip
CLIMBED_FROM = Rule(
    name="climbed_from", value=450.0, unit="mm",
    what="a lower piece is not judged by a child on its edge",
    source="ANSI/BIFMA X5.9-2019, for office storage: no test of stability under it",
)  # fmt: skip
HAND = Rule(
    name="hand", value=100.0, unit="N", what="a hand that leans on a shelf's front edge",
    source="EN 14749:2016, for shelves of domestic storage",
)  # fmt: skip
HAND_FROM_EDGE = Rule(
    name="hand_from_edge", value=25.0, unit="mm", what="how far from that edge it leans",
    source="EN 14749:2016",
)  # fmt: skip
FEET_SHARE = Rule(
    name="feet_share", value=2.0 / 3.0,
    what="the feet of a floor piece span this share of its width and of its depth",
)  # fmt: skip
TABLE_TOP_FEET_SHARE = Rule(
    name="table_top_feet_share", value=0.5, what="the same of a table-top piece"
)
FIRM_PUSH = Rule(
    name="firm_push", value=45.0, unit="N",
    what="the push at the top that a fixing to the wall is meant for",
    source="own rule, about the 10 lbf of tests of tall furniture (from memory)",
)  # fmt: skip
WALL_RESERVE = Rule(
    name="wall_reserve", value=4.0,
    what="what each fixing should bear over the pull that is worked out: walls vary",
)  # fmt: skip
WALL_PULL = Rule(
    name="wall_pull", value=100.0, unit="N",
    what="a pull on one fixing of a hanging piece from which on it is a caution",
    source="own rule: a picture hook holds as much",
)  # fmt: skip
PERSON_PRESS = Rule(
    name="person_press", value=600.0, unit="N",
    what="what a person presses with, inside any edge of what is sat or stood on", source=_SEATS,
)  # fmt: skip
PERSON_FROM_EDGE = Rule(
    name="person_from_edge", value=60.0, unit="mm", what="how far inside that edge", source=_SEATS
)
PERSON_SIDEWAYS = Rule(
    name="person_sideways", value=20.0, unit="N", what="what the person pushes sideways meanwhile",
    source=_SEATS,
)  # fmt: skip
STEP_BACK_SHARE = Rule(
    name="step_back_share", value=0.15,
    what="a foot that steps pushes sideways with this share of the weight of who stands on it",
    source="own rule: about what a foot pushes back with in walking (from memory)",
)  # fmt: skip
SEAT_SHOVE = Rule(
    name="seat_shove", value=200.0, unit="N",
    what="a seat is pushed sideways so hard by one who sits down on it",
)  # fmt: skip
STEP_PRESS = Rule(
    name="step_press", value=2600.0, unit="N", what="what a tread or seat that is stood on bears",
    source="EN 14183, step stools, 5.4",
)  # fmt: skip
STEP_PAD = Rule(
    name="step_pad", value=100.0, unit="mm", what="the side of the square that it presses on",
    source="EN 14183, step stools, 5.4",
)  # fmt: skip
SEAT_FACTOR = Rule(
    name="seat_factor", value=2.0, what="a person who sits down counts so many times his weight"
)

STANDING = (
    TABLE_TOP_MASS, TALL, HEAVY, WALL_TILT, TILT_ASKED, TABLE_TOP_TILT, LOW_CORNER, PUSHED_FROM,
    SLEEVE, PUSH_SHARE, WEIGHT_PUSH_FROM, CABLE_PULL, LOW_CABLE_SHARE, CHILD, CLIMBED_FROM, HAND,
    HAND_FROM_EDGE, FEET_SHARE, TABLE_TOP_FEET_SHARE, FIRM_PUSH, WALL_RESERVE, WALL_PULL,
    PERSON_PRESS, PERSON_FROM_EDGE, PERSON_SIDEWAYS, STEP_BACK_SHARE, SEAT_SHOVE, STEP_PRESS,
    STEP_PAD, SEAT_FACTOR,
)  # fmt: skip
