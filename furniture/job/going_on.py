"""A job gone on with: the design as what is done leaves it, what becomes of each done part."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from furniture.job.boards_now import laid_already, spoilt
from furniture.job.done import SAME_MM
from furniture.job.figures import designed_mm, play_of_openings, sizes_of
from furniture.job.job import Job
from furniture.job.measured_old import with_measured
from furniture.job.old import Old, old_of
from furniture.job.packet import read_packet
from furniture.job.standing import Buildable, Choice, Gave, Stands, stands
from furniture.job.values import Say, Verdict
from furniture.job.verdicts import verdicts_of
from furniture.pieces import Piece
from furniture.rules import ShopRules
from furniture.shop.boards.given import MeasuredBoard
from furniture.shop.cutting.values import Saw


@dataclass(frozen=True, slots=True, kw_only=True)
class GoingOn:
    """A job in the middle.

    Args:
        job: as the file tells it.
        stands: the design with what gave.
        piece: built from it, with what is done.
        verdicts: on the done parts.
    """

    job: Job
    stands: Stands
    piece: Piece
    verdicts: tuple[Verdict, ...]


def gone_on_with(
    design: Buildable,
    job: Job,
    rules: ShopRules | None = None,
    saw: Saw | None = None,
    boards: Sequence[MeasuredBoard] = (),
) -> GoingOn:
    """The job gone on with.

    A done part that the script as it is now does not take as it is, is trimmed or recut; one that
    has to be made anew is done no more.

    Args:
        design: as the script has it.
        job: what is done and measured.
        rules: the shop's own limits.
        saw: with the limits of what can be held at it.
        boards: as they were before the first cut.

    Raises:
        DesignError: what is measured and done contradict, or the earlier packet is of another
            piece.
    """
    found = stands(design, job.measured, job.done, job.free, rules)
    old = old_of(found.designed) if job.packet is None else read_packet(
        job.packet, found.designed.slug
    )  # fmt: skip
    verdicts = verdicts_of(_on_the_bench(job, old), found.piece, saw)
    told = tuple(each for each in verdicts if each.instance in job.done_parts)
    anew = {each.instance for each in told if each.say is Say.MAKE_NEW}
    laid = laid_already(job) - (spoilt(boards, job) - job.done.keys()) - job.done_parts
    in_hand = _in_hand(laid, job, old, found.piece)
    piece = replace(found.piece, done=job.done_parts - anew, in_hand=in_hand)
    return GoingOn(job=job, stands=found, piece=piece, verdicts=told)


def _in_hand(names: Collection[str], job: Job, old: Old, piece: Piece) -> frozenset[str]:
    """What comes out of the wood where it was laid: no larger than it was.

    A part by itself still has what was left on it; along a common blank its neighbour lies there.
    """
    was = {each.name: each.blank for each in old.parts}
    together = job.worked.together
    found = set()
    for each in piece.placed:
        name, part = each.instance, each.part
        if name not in names or name not in was:
            continue
        is_alone = len(together.get(name, ())) < 2
        rough = (part.rough.length_mm, part.rough.width_mm, 0.0)
        spare = rough if is_alone and not job.done.get(name) else (0.0, 0.0, 0.0)
        sizes = zip(part.blank.size, was[name].size, spare, strict=True)
        if all(size <= had + more + SAME_MM for size, had, more in sizes):
            found.add(name)
    return frozenset(found)


def _on_the_bench(job: Job, old: Old) -> Old:
    """What is done, as it was cut and measured."""
    old = replace(old, parts=tuple(each for each in old.parts if each.name in job.done_parts))
    return with_measured(old, job.measured)


def job_record(going: GoingOn) -> dict[str, Any]:
    """The job for piece.json: what is done, what was measured, and what gave for it.

    Args:
        going: the job gone on with.
    """
    designed = going.stands.designed
    sizes, plays = sizes_of(designed), play_of_openings(designed)
    return {
        "done": sorted(going.piece.done),
        "in_hand": sorted(going.piece.in_hand),
        "operations_done": sorted(going.job.operations),
        "measured": [
            {
                "what": figure.name,
                "value_mm": round(value, 9),
                "designed_mm": round(designed_mm(figure, sizes, plays), 9),
            }
            for figure, value in going.job.measured.items()
        ],
        "gave": [_gave(each) for each in going.stands.gave if each.choice is not None],
        "parts": [
            {"instance": each.instance, "verdict": each.say.value} for each in going.verdicts
        ],
    }


def _gave(gave: Gave) -> Mapping[str, Any]:
    assert gave.choice is not None, "only what gave is told"
    return {
        "for": gave.equation.figure.name,
        "why": gave.equation.why.value,
        **_choice(gave.choice),
        "instead": [_choice(each) for each in gave.others],
    }


def _choice(choice: Choice) -> dict[str, Any]:
    return {
        "parameter": choice.lever.name,
        "from_mm": round(choice.lever.value_mm, 6),
        "to_mm": round(choice.to_mm, 6),
        "changes": list(choice.changed),
        "spoils": list(choice.broken),
    }
