"""What was done before a packet was written that goes on with a job: the packet says it itself.

A maker changes the plan more than once. The second packet has work sheets of its own for what was
left, so what went before it must not hang on the numbers of the first.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from furniture.job.done import SAME_MM, Done, DoneOf
from furniture.job.figures import AXES
from furniture.job.levers import levers_of, with_lever
from furniture.job.solving import Buildable
from furniture.making.settings import Recorded
from furniture.shop.boards.given import BoardZone, MeasuredBoard
from furniture.shop.cutting.values import BoardEnd, ZoneKind, ZoneShows


@dataclass(frozen=True, slots=True, kw_only=True)
class GaveBefore:
    """A length of the script that gave for what was measured or done [mm]."""

    lever: str
    from_mm: float
    to_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Before:
    """What a packet in the middle of a job was written after.

    Args:
        done: what of the parts was done.
        in_hand: instances whose wood was off its board or kept its place.
        thick_mm: of instances in hand, how thick the board was that they were cut from.
        lengths: what was laid as one length, by the instances that come off it.
        had: operations that were done, with the instances in hand.
        of_scrap: of those among them that take no part, what was tried or sawn.
        measured: figures by their name [mm].
        gave: lengths that gave.
        boards: that were left when it was written; None where it has no plan.
        listed: boards that the script had then, by name.
    """

    done: Done = field(default_factory=dict)
    in_hand: frozenset[str] = frozenset()
    thick_mm: Mapping[str, float] = field(default_factory=dict)
    lengths: frozenset[frozenset[str]] = frozenset()
    had: Mapping[str, frozenset[str]] = field(default_factory=dict)
    of_scrap: Mapping[str, Recorded] = field(default_factory=dict)
    measured: Mapping[str, float] = field(default_factory=dict)
    gave: tuple[GaveBefore, ...] = ()
    boards: tuple[MeasuredBoard, ...] | None = None
    listed: frozenset[str] = frozenset()

    def boards_of(self, script: Sequence[MeasuredBoard]) -> tuple[MeasuredBoard, ...]:
        """The boards that were there when the packet was written, and those that have come since.

        Args:
            script: as it lists them now.
        """
        if self.boards is None:
            return tuple(script)
        return (*self.boards, *(each for each in script if each.name not in self.listed))

    def design_of(self, design: Buildable) -> Buildable:
        """The design with the lengths that gave, but where the script has another figure since.

        Args:
            design: as the script has it.
        """
        for each in self.gave:
            lever = next((one for one in levers_of(design) if one.name == each.lever), None)
            if lever is not None and abs(lever.value_mm - each.from_mm) <= SAME_MM:
                design = with_lever(design, lever, each.to_mm)
        return design


NOTHING_BEFORE = Before()


def together(one: DoneOf | None, two: DoneOf | None, cuts: int) -> DoneOf:
    """What is done of a part by both.

    Args:
        one: what is done of it.
        two: what else.
        cuts: how many cuts it has.
    """
    told = [each for each in (one, two) if each is not None]
    axes = frozenset(axis for each in told for axis in each.axes)
    made = frozenset(index for each in told for index in each.cuts)
    whole = any(each.is_whole for each in told) or (len(axes) == len(AXES) and len(made) == cuts)
    is_told = any(each.is_told for each in told)
    return DoneOf(axes=axes, cuts=made, is_whole=whole, is_told=is_told)


def before_in(record: Mapping[str, Any]) -> Before:
    """What a piece.json was written after; nothing where it begins the job.

    Args:
        record: as it was written.

    Raises:
        KeyError, TypeError, ValueError: it is not of ours.
    """
    job = record.get("job")
    if job is None or "begun" not in job:
        return NOTHING_BEFORE
    plan = record.get("cutting_plan")
    return Before(
        done={
            row["instance"]: DoneOf(
                axes=frozenset(AXES.index(axis) for axis in row["sizes"]),
                cuts=frozenset(row["cuts"]),
                is_whole=row["is_whole"],
                is_told=row.get("is_told", False),  # none told so in older packets
            )
            for row in job["begun"]
        },
        in_hand=frozenset(job["in_hand"]),
        thick_mm=job.get("thick_mm", {}),  # not told in older packets
        lengths=frozenset(frozenset(each) for each in job["lengths"]),
        had={row["key"]: frozenset(row["instances"]) for row in job["operations_done"]},
        of_scrap={
            row["key"]: told
            for row in job["operations_done"]
            if (told := row.get("of_scrap") or row.get("rig"))  # in older packets a test cut's rig
        },
        measured={row["what"]: row["value_mm"] for row in job["measured"]},
        gave=tuple(
            GaveBefore(lever=row["parameter"], from_mm=row["from_mm"], to_mm=row["to_mm"])
            for row in (*job["gave_before"], *job["gave"])
        ),
        boards=None if plan is None else tuple(_boards(plan)),
        listed=frozenset(job["boards"]),
    )


def _boards(plan: Mapping[str, Any]) -> Iterator[MeasuredBoard]:
    """The boards of a plan, as they were before its first cut."""
    money = plan["currency"]
    for row in plan["boards"]:
        yield MeasuredBoard(
            name=row["name"],
            stock=row["stock"],
            length=_mm(row["length_mm"]),
            widths=tuple((_mm(each["at_mm"]), _mm(each["width_mm"])) for each in row["widths"]),
            thickness=_mm(row["thickness_mm"]),
            price=f"{row['price']} {money}".strip() if row["price"] else None,
            zones=tuple(
                BoardZone(
                    kind=ZoneKind(zone["kind"]),
                    corners=tuple((_mm(x), _mm(y)) for x, y in zone["outline_mm"]),
                    shows=ZoneShows(zone["shows"]),
                    worth=f"{zone['worth']} {money}".strip() if zone["worth"] else None,
                    name=zone["name"],
                    description=zone["description"],
                )
                for zone in row["zones"]
            ),
            description=row["description"],
            sawn_ends=tuple(BoardEnd[each] for each in row["sawn_ends"]),
        )


def _mm(value: float) -> str:
    return f"{value:.6f} mm"


def begun_record(done: Done) -> list[dict[str, Any]]:
    """What is done of the parts, for the record.

    Args:
        done: of every instance that is begun and of which it still holds.
    """
    return [
        {
            "instance": name,
            "sizes": [AXES[axis] for axis in sorted(of.axes)],
            "cuts": sorted(of.cuts),
            "is_whole": of.is_whole,
            "is_told": of.is_told,
        }
        for name, of in sorted(done.items())
    ]
