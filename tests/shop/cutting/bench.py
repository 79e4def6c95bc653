"""Parts, boards and saws for tests of plans, and strategies for whole requests."""

from __future__ import annotations

from hypothesis import strategies as st

from furniture.shop.cutting.values import (
    Board,
    CutPart,
    CuttingRequest,
    GlueUp,
    GrainRule,
    Limits,
    MatchGroup,
    MatchRule,
    OddOne,
    Saw,
    Stages,
    Station,
    Zone,
    ZoneKind,
    ZoneShows,
    straight_board,
)
from tests.shop.cutting.zones import rectangular_zone

SAPWOOD = frozenset({ZoneKind.SAPWOOD})


def part(name: str, quantity: int, length: float, width: float, **more: object) -> CutPart:
    """A part of oak, 18 mm thick."""
    return CutPart(
        name=name,
        quantity=quantity,
        length_mm=length,
        width_mm=width,
        thickness_mm=18,
        species="oak",
        **more,  # type: ignore[arg-type]
    )


def oak(name: str, length: float, width: float, *zones: Zone, price: float = 10) -> Board:
    """A straight oak board, 24 mm thick."""
    return straight_board(
        name=name,
        length_mm=length,
        width_mm=width,
        thickness_mm=24,
        species="oak",
        price=price,
        zones=zones,
    )


def stand() -> CuttingRequest:
    """A small stand's parts on three boards with awkward zones."""
    knots = (
        rectangular_zone(name="k1", kind=ZoneKind.KNOT, x=500, y=60, length=30, width=25),
        rectangular_zone(name="k2", kind=ZoneKind.KNOT, x=1500, y=120, length=20, width=20),
        rectangular_zone(name="s1", kind=ZoneKind.SAPWOOD, x=0, y=160, length=2400, width=20),
    )
    taper = Board(
        name="taper",
        length_mm=1800,
        stations=(
            Station(at_mm=0, width_mm=220),
            Station(at_mm=900, width_mm=205),
            Station(at_mm=1800, width_mm=170),
        ),
        thickness_mm=27,
        species="oak",
        price=35,
        zones=(
            Zone(name="split", kind=ZoneKind.CHECK, outline=((0, 90), (160, 100), (0, 115))),
            rectangular_zone(
                name="figure", kind=ZoneKind.FIGURE, x=700, y=40, length=300, width=120, worth=5
            ),
        ),
    )
    return CuttingRequest(
        boards=(oak("long", 2400, 180, *knots, price=40), taper, oak("short", 1200, 150, price=12)),
        parts=(
            part("front rail", 1, 420, 90, length_allowance_mm=10, width_allowance_mm=3),
            part("back rail", 1, 420, 90, length_allowance_mm=10, width_allowance_mm=3),
            part("side rail", 2, 240, 90, length_allowance_mm=10, width_allowance_mm=3),
            part("shelf", 3, 380, 140, length_allowance_mm=10, hidden_face_tolerates=SAPWOOD),
            part("lid", 1, 400, 118, length_allowance_mm=10, width_allowance_mm=3),
            part("upright", 4, 300, 60, length_allowance_mm=10, width_allowance_mm=3),
            part("stub", 2, 60, 60, length_allowance_mm=5),
        ),
        matches=(
            MatchGroup(
                name="round the box",
                rule=MatchRule.IN_SEQUENCE,
                members=("front rail", "side rail", "back rail", "side rail"),
            ),
            MatchGroup(
                name="lid figure",
                rule=MatchRule.CENTRED_ON_FIGURE,
                members=("lid",),
                price=10,
                zone="figure",
            ),
            MatchGroup(
                name="shelves",
                rule=MatchRule.SAME_BOARD,
                members=("shelf", "shelf", "shelf"),
                price=4,
                odd_one=OddOne.LAST_NAMED,
            ),
        ),
        saw=Saw(
            kerf_mm=3.2,
            end_trim_mm=10,
            edge_trim_mm=3,
            planing_loss_mm=2,
            shortest_rip_mm=300,
            shortest_crosscut_mm=200,
        ),
        limits=Limits(rounds=4, seconds=600),
    )


def shop(**more: float) -> Saw:
    """A saw with the limits that a maker gets when nothing else is said."""
    usual = {
        "kerf_mm": 3.2,
        "end_trim_mm": 10.0,
        "shortest_rip_mm": 300.0,
        "narrowest_rip_mm": 50.0,
        "shortest_crosscut_mm": 200.0,
    }
    return Saw(**{**usual, **more})


@st.composite
def requests(draw: st.DrawFn) -> CuttingRequest:
    """Small requests: one to three tapering boards with faults, a few parts."""
    boards = []
    for number in range(draw(st.integers(1, 3))):
        length = draw(st.integers(300, 1200))
        widths = draw(st.lists(st.integers(60, 220), min_size=1, max_size=3))
        step = length / max(1, len(widths) - 1)
        zones = []
        for z in range(draw(st.integers(0, 3))):
            x, y = draw(st.integers(0, length - 20)), draw(st.integers(0, min(widths) - 20))
            spread = draw(st.integers(5, 20))
            corners = draw(
                st.sampled_from(
                    [
                        ((x, y), (x + spread, y), (x + spread, y + spread), (x, y + spread)),
                        ((x, y), (x + spread, y + spread / 2), (x, y + spread)),
                    ]
                )
            )
            zones.append(
                Zone(
                    name=f"z{z}",
                    kind=draw(st.sampled_from([ZoneKind.KNOT, ZoneKind.SAPWOOD])),
                    outline=corners,
                    shows=draw(st.sampled_from(list(ZoneShows))),
                )
            )
        boards.append(
            Board(
                name=f"b{number}",
                length_mm=length,
                stations=tuple(Station(at_mm=i * step, width_mm=w) for i, w in enumerate(widths)),
                thickness_mm=draw(st.sampled_from([20, 26])),
                species="oak",
                price=draw(st.integers(0, 9)),
                zones=tuple(zones),
            )
        )
    parts = tuple(
        CutPart(
            name=f"p{n}",
            quantity=draw(st.integers(1, 3)),
            length_mm=draw(st.integers(40, 500)),
            width_mm=draw(st.integers(20, 120)),
            thickness_mm=18,
            species="oak",
            hidden_face_tolerates=draw(st.sampled_from([frozenset(), SAPWOOD])),
            grain=draw(st.sampled_from(list(GrainRule))),
        )
        for n in range(draw(st.integers(1, 4)))
    )
    names = [p.name for p in parts for _ in range(p.quantity)]
    matches = tuple(
        MatchGroup(
            name=f"m{n}",
            rule=rule,
            members=tuple(names[:2]),
            price=draw(st.sampled_from([0.0, 3.0])),
            odd_one=draw(st.sampled_from(list(OddOne))),
            zone_kind=ZoneKind.SAPWOOD,
        )
        for n, rule in enumerate(
            draw(st.lists(st.sampled_from(list(MatchRule)), max_size=2, unique=True))
        )
        if rule is not MatchRule.IN_SEQUENCE or parts[0].grain is GrainRule.ALONG
    )
    return CuttingRequest(
        boards=tuple(boards),
        parts=parts,
        matches=matches,
        saw=Saw(
            kerf_mm=draw(st.sampled_from([0.0, 2.4, 3.2])),
            end_trim_mm=5,
            edge_trim_mm=2,
            shortest_rip_mm=draw(st.sampled_from([0.0, 150.0, 300.0])),
            narrowest_rip_mm=draw(st.sampled_from([0.0, 50.0])),
            shortest_crosscut_mm=draw(st.sampled_from([0.0, 100.0, 200.0])),
            off_faults_mm=draw(st.sampled_from([0.0, 3.0])),
        ),
        limits=Limits(rounds=2, seconds=600, stages=draw(st.sampled_from(list(Stages)))),
    )


@st.composite
def stands(draw: st.DrawFn) -> CuttingRequest:
    """A stand's parts: rails in sequence, tiers alike, a wide lid, feet, by a shop's saw."""
    rails = draw(st.integers(60, 110))
    boards = []
    for number in range(draw(st.integers(2, 3))):
        length, width = draw(st.integers(700, 1800)), draw(st.integers(140, 260))
        zones = [
            rectangular_zone(
                name=f"fleck {number}", kind=ZoneKind.FIGURE,
                worth=draw(st.sampled_from([0.0, 9.0])),
                x=draw(st.integers(20, length - 320)), y=draw(st.integers(0, 10)),
                length=300, width=width - draw(st.integers(40, 60)),
            ),
            rectangular_zone(
                name=f"knot {number}", kind=ZoneKind.KNOT,
                x=draw(st.integers(0, length - 40)), y=draw(st.integers(0, width - 80)),
                length=draw(st.integers(5, 40)), width=draw(st.integers(5, 40)),
            ),
        ]  # fmt: skip
        far = width - draw(st.integers(0, 30))
        boards.append(
            Board(
                name=f"b{number}",
                length_mm=length,
                stations=(Station(at_mm=0, width_mm=width), Station(at_mm=length, width_mm=far)),
                thickness_mm=24,
                species="oak",
                price=draw(st.integers(10, 60)),
                zones=tuple(zone for zone in zones if not crosses_far_edge(zone, far)),
            )
        )
    tiers = draw(st.integers(180, 320))
    parts = (
        part("front", 1, draw(st.integers(200, 420)), rails),
        part("side", 2, draw(st.integers(120, 250)), rails),
        part("tier 1", 1, tiers, 130),
        part("tier 2", 1, tiers - 30, 115),
        part("lid", 1, 260, draw(st.integers(90, 330)), glue_up=GlueUp(keep_clear_mm=((40, 55),))),
        part("foot", draw(st.integers(3, 8)), 51, 34),
    )
    matches = (
        MatchGroup(
            name="round", rule=MatchRule.IN_SEQUENCE, members=("side", "front", "side"),
            price=draw(st.sampled_from([None, 6.0])),
        ),
        MatchGroup(
            name="alike", rule=MatchRule.SAME_BOARD, members=("tier 1", "tier 2"),
            price=draw(st.sampled_from([None, 4.0])), odd_one=draw(st.sampled_from(list(OddOne))),
        ),
        MatchGroup(
            name="fleck", rule=MatchRule.CENTRED_ON_FIGURE, members=("tier 1",),
            price=draw(st.sampled_from([0.0, 8.0])), tolerance_mm=draw(st.sampled_from([0.5, 5.0])),
        ),
    )  # fmt: skip
    return CuttingRequest(
        boards=tuple(boards),
        parts=parts,
        matches=matches,
        saw=shop(),
        limits=Limits(rounds=1, seconds=600),
    )


def crosses_far_edge(zone: Zone, width: float) -> bool:
    """Whether a zone reaches past so narrow a board."""
    return any(y > width for _, y in zone.outline)
