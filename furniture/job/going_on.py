"""A job gone on with: the design as what is done leaves it, what becomes of each done part."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from furniture.job.alike import verdicts_as_made
from furniture.job.before import begun_record
from furniture.job.boards_now import laid_already, on_a_fault
from furniture.job.choices import Choice, Gave
from furniture.job.done import Done, begun_cuts
from furniture.job.figures import ALONG, AXES, THROUGH, designed_mm, plays_of, sizes_of
from furniture.job.job import Job
from furniture.job.lengths import beside, lengths_left
from furniture.job.measured_old import as_they_stand, is_drawn_so, with_measured
from furniture.job.old import Old, old_of
from furniture.job.packet import read_packet
from furniture.job.solving import Buildable
from furniture.job.standing import Stands, stands
from furniture.job.values import IsSpoilt, Say, Verdict
from furniture.job.wood_in_hand import outgrown, wood_in_hand
from furniture.job.worked import in_strips
from furniture.making.strips_in_hand import strips_record
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
        verdicts: on the done parts, on what is spoilt, and on begun parts whose wood is too small.
        not_cut: on parts that change before they are cut.
        old: the packet that is worked by; None where the file names none.
        listed: boards that the script lists, by name.
    """

    job: Job
    stands: Stands
    piece: Piece
    verdicts: tuple[Verdict, ...]
    not_cut: tuple[Verdict, ...] = ()
    old: Old | None = None
    listed: tuple[str, ...] = ()

    @property
    def operations(self) -> frozenset[str]:
        """The operations that still hold: none on a part that has to be made anew."""
        had = self.job.worked.had
        return frozenset(
            key for key in self.job.operations if self.anew.isdisjoint(had.get(key, ()))
        )

    @property
    def anew(self) -> frozenset[str]:
        """Instances that were begun or made, and have to be made again."""
        told = frozenset(each.instance for each in self.verdicts)
        return told - (self.piece.done | self.piece.in_hand)

    @property
    def thick_mm(self) -> dict[str, float]:
        """How thick the wood in hand is that is still to be brought to its thickness [mm]."""
        glued = {name for each in in_strips(self.piece, self.job.worked) for name in each.instances}
        return {
            name: mm
            for name, mm in self.job.worked.thick_mm.items()
            if name in self.piece.in_hand - glued
            and not (name in self.job.done and THROUGH in self.job.done[name].axes)
        }

    @property
    def lengths(self) -> frozenset[frozenset[str]]:
        """What lies, or lay, on one length whose wood is in hand, by the instances."""
        return lengths_left(self.piece, frozenset(self.job.worked.together.values()))


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
    before, listed = job.worked.before, tuple(each.name for each in boards)
    boards = before.boards_of(boards)
    found = stands(before.design_of(design), job.measured, job.done, job.free, rules)
    old = old_of(found.designed) if job.packet is None else read_packet(
        job.packet, found.designed.design_slug
    )  # fmt: skip
    bench = as_they_stand(_on_the_bench(job, old), found)
    as_made, verdicts = verdicts_as_made(bench, found.piece, saw, begun_cuts(job.done))
    told = tuple(each for each in verdicts if each.instance in job.done_parts)
    anew = {each.instance for each in told if each.say is Say.MAKE_NEW}
    spoilt = job.spoilt & {each.instance for each in as_made.placed}
    laid = laid_already(job) - (on_a_fault(boards, job) | job.done_parts | spoilt)
    in_hand = wood_in_hand(laid, job, old, as_made)
    piece = replace(as_made, done=job.done_parts - anew, in_hand=in_hand)
    near = beside(piece, frozenset(job.worked.together.values()))
    lost = tuple(
        replace(
            each,
            beside=tuple(
                name
                for name in near.get(each.instance, ())
                if name not in job.done or ALONG not in job.done[name].axes
            ),
        )
        for each in (
            *(Verdict(instance=e, say=Say.MAKE_NEW, why=(IsSpoilt(),)) for e in sorted(spoilt)),
            *outgrown(job.done.keys() & laid - in_hand, job, old, as_made),
        )
    )
    return GoingOn(
        job=job,
        stands=found,
        piece=piece,
        verdicts=(*told, *lost),
        not_cut=tuple(
            not_cut(
                with_measured(old, job.measured),
                piece,
                job.done_parts | {each.instance for each in lost},
            )
        ),
        old=None if job.packet is None else old,
        listed=tuple(dict.fromkeys((*sorted(before.listed), *listed))),
    )


def not_cut(old: Old, piece: Piece, done: Collection[str]) -> Iterator[Verdict]:
    """What is drawn otherwise now and was not cut by the earlier drawing.

    Args:
        old: the earlier drawing.
        piece: as it is drawn now.
        done: instances that are cut.
    """
    drawn = {each.name: each for each in old.parts if not each.is_offcut}
    for each in piece.placed:
        was = drawn.get(each.instance)
        if was is None or each.instance in done:
            continue
        if not is_drawn_so(was, each.part.blank, each.part.cuts):
            yield Verdict(instance=each.instance, say=Say.NOT_CUT, old=was)


def _on_the_bench(job: Job, old: Old) -> Old:
    """What is done, as it was cut and measured."""
    old = replace(old, parts=tuple(each for each in old.parts if each.name in job.done_parts))
    return with_measured(old, job.measured)


def job_record(going: GoingOn) -> dict[str, Any]:
    """The job for piece.json: what is done, what was measured, and what gave for it.

    Args:
        going: the job gone on with.
    """
    designed, worked = going.stands.designed, going.job.worked
    sizes, plays = sizes_of(designed), plays_of(designed)
    return {
        "done": sorted(going.piece.done),
        "in_hand": sorted(going.piece.in_hand),
        "thick_mm": dict(sorted(going.thick_mm.items())),
        "begun": begun_record(_done_now(going)),
        "lengths": sorted(sorted(each) for each in going.lengths),
        "boards": list(going.listed),
        "in_strips": [strips_record(e) for e in in_strips(going.piece, worked)],
        "operations_done": [
            {
                "key": key,
                "instances": sorted(worked.had.get(key, ())),
                "of_scrap": dict(worked.of_scrap[key]) if key in worked.of_scrap else None,
            }
            for key in sorted(going.operations)
        ],
        "measured": [
            {
                "what": figure.name,
                "value_mm": round(value, 9),
                "designed_mm": round(designed_mm(figure, sizes, plays), 9),
            }
            for figure, value in going.job.measured.items()
        ],
        "as_they_stand": [
            {
                "instance": name,
                "axis": AXES[axis],
                "made_mm": round(made, 9),
                "stands_mm": round(stands, 9),
            }
            for (name, axis), (made, stands) in going.stands.as_they_stand.items()
        ],
        "gave_before": [
            {"parameter": each.lever, "from_mm": each.from_mm, "to_mm": each.to_mm}
            for each in worked.before.gave
        ],
        "gave": [_gave(each) for each in going.stands.gave if each.choice is not None],
        "parts": [
            {"instance": each.instance, "verdict": each.say.value} for each in going.verdicts
        ],
    }


def _done_now(going: GoingOn) -> Done:
    """What is done of the parts that are kept, less the cuts that a trimmed one still gets."""
    there = going.piece.done | going.piece.in_hand
    again = {
        each.instance: frozenset(cut.index for cut in each.cuts)
        for each in going.verdicts
        if each.cuts
    }
    return {
        name: replace(of, cuts=of.cuts - again[name], is_whole=False) if name in again else of
        for name, of in going.job.done.items()
        if name in there
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
