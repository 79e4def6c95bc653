"""Random boards with awkward zones and random parts to cut from them, planned in one round."""

from __future__ import annotations

import random
from itertools import pairwise

from furniture.shop.boards.copies import Copy, Stretch
from furniture.shop.boards.cutting_job import CuttingJob
from furniture.shop.boards.outcome import CuttingOutcome, outcome_of
from furniture.shop.cutting.values import (
    Board,
    CutPart,
    CuttingRequest,
    GrainRule,
    Limits,
    Saw,
    Station,
    Zone,
    ZoneKind,
    ZoneShows,
)
from furniture.units import Shown, inches, millimetres
from tests.shop.cutting.zones import rectangular_zone

_NAMES = (
    "left upright", "right upright", "back", "lid", "front rail", "tier 1", "tier 2", "long cleat",
    "drawer bottom, left", "foot", "peg rail", "spacer under the lid", "kicker", "top", "stretcher",
    "muntin", "batten", "lipping",
)  # fmt: skip
_WORDS = ("", "tight", "dead knot, loose at the far side", "runs off the edge", "grey", "pin")


def random_outcome(seed: int, shown: Shown | None = None) -> CuttingOutcome:
    """A plan for one to three boards and up to fourteen parts; often not all of them fit.

    Args:
        seed: of everything random.
        shown: how lengths are shown; none takes inches for every third seed.
    """
    dice = random.Random(seed)
    boards = tuple(_board(dice, index) for index in range(dice.randint(1, 3)))
    parts = tuple(_part(dice, name) for name in dice.sample(_NAMES, dice.randint(1, 8)))
    saw = Saw(
        kerf_mm=dice.choice((1.6, 2.4, 3.2)),
        end_trim_mm=dice.choice((0.0, 10.0, 25.0)),
        edge_trim_mm=dice.choice((0.0, 0.0, 3.0)),
        shortest_rip_mm=dice.choice((150.0, 250.0)),
        shortest_crosscut_mm=dice.choice((100.0, 200.0)),
        usable_length_mm=200.0,
    )
    request = CuttingRequest(
        boards=boards, parts=parts, saw=saw, limits=Limits(rounds=1, seconds=60.0)
    )
    return outcome_of(
        CuttingJob(
            request=request,
            boards=boards,
            copies={each.name: _copies(dice, each) for each in parts},
            sequences={},
            stocks=dict.fromkeys((each.name for each in parts), "beech, sawn"),
            species={"beech": "beech"},
            currency="EUR",
            shown=shown or (inches(32) if seed % 3 == 0 else millimetres(0.1)),
        )
    )


def _copies(dice: random.Random, part: CutPart) -> tuple[Copy, ...]:
    """What the copies become: one instance each, or now and then several off a common blank."""
    names = [part.name]
    if part.quantity > 1:
        names = [f"{part.name}, {number}" for number in range(1, part.quantity + 1)]
    most = int(part.length_mm // 30.0)
    if part.grain is GrainRule.EITHER or most < 2 or dice.random() < 0.6:
        return tuple(lone_copy(name, part.length_mm) for name in names)
    marks = [0.0, *sorted(dice.uniform(0.0, part.length_mm) for _ in range(dice.randint(1, 4)))]
    return tuple(
        Copy(
            name=f"blank of {name}",
            stretches=tuple(
                Stretch(
                    instance=f"{name} {number}",
                    name=f"{name} {number}", part="part", at_mm=low + 2.0 * (number > 1),
                    length_mm=max(high - low - 2.0 * (number > 1), 0.1),
                )
                for number, (low, high) in enumerate(pairwise([*marks, part.length_mm]), start=1)
            ),
        )
        for name in names
    )  # fmt: skip


def lone_copy(name: str, length: float) -> Copy:
    """A copy that is one instance of that name and length [mm]."""
    stretch = Stretch(
        instance=name, name=name, part=name.replace(" ", "-"), at_mm=0.0, length_mm=length
    )
    return Copy(name=name, stretches=(stretch,))


def _board(dice: random.Random, index: int) -> Board:
    length = dice.choice((420.0, 760.0, 1180.0, 1655.0, 2440.0))
    width = dice.uniform(70.0, 280.0)
    stations = [Station(at_mm=0.0, width_mm=round(width, 1))]
    if dice.random() < 0.4:
        middle = round(length * dice.uniform(0.3, 0.7))
        stations.append(Station(at_mm=middle, width_mm=round(width * dice.uniform(0.8, 1.0), 1)))
    stations.append(Station(at_mm=length, width_mm=round(width * dice.uniform(0.75, 1.0), 1)))
    least = min(station.width_mm for station in stations)
    zones = tuple(_zone(dice, number, length, least) for number in range(dice.randint(0, 6)))
    return Board(
        name="ABC"[index],
        length_mm=length,
        stations=tuple(stations),
        thickness_mm=20.0,
        species="beech",
        price=float(dice.randint(0, 40)),
        zones=zones,
        description=dice.choice(("", "from the shed, cupped a little")),
    )


def _zone(dice: random.Random, number: int, length: float, width: float) -> Zone:
    kind = dice.choice(list(ZoneKind))
    long = min(dice.choice((20.0, 35.0, 90.0, 400.0)), 0.9 * length)
    wide = min(dice.choice((4.0, 20.0, 45.0)), 0.6 * width)
    x = round(dice.uniform(0.0, length - long), 1)
    y = round(dice.uniform(0.0, width - wide), 1)
    name, words = f"{kind.value} {number + 1}", dice.choice(_WORDS)
    shows = dice.choice(list(ZoneShows))
    if dice.random() < 0.4:
        corners = ((x, y), (x + long, y + wide / 3), (x + long / 2, y + wide))
        return Zone(name=name, kind=kind, outline=corners, shows=shows, description=words)
    return rectangular_zone(
        name=name, kind=kind, x=x, y=y, length=long, width=wide, shows=shows, description=words
    )


def _part(dice: random.Random, name: str) -> CutPart:
    return CutPart(
        name=name,
        quantity=dice.choice((1, 1, 1, 2, 4)),
        length_mm=round(dice.uniform(30.0, 600.0), 1),
        width_mm=round(dice.uniform(18.0, 130.0), 1),
        thickness_mm=20.0,
        species="beech",
        length_allowance_mm=dice.choice((0.0, 12.0)),
        width_allowance_mm=dice.choice((0.0, 4.0)),
        show_face_tolerates=frozenset(dice.sample(list(ZoneKind), 2)),
        hidden_face_tolerates=frozenset({ZoneKind.SAPWOOD, ZoneKind.STAIN}),
        grain=dice.choice((GrainRule.ALONG, GrainRule.ALONG, GrainRule.EITHER)),
    )
