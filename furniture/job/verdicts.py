"""The verdict on every part of a new design against an old one, so that least is made anew."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product

import numpy as np
from scipy.optimize import linear_sum_assignment

from furniture.job.fits import Fit, Work, best_fit, effort_of, lies_in, why_not
from furniture.job.old import Old, OldPart
from furniture.job.trimming import Holding
from furniture.job.values import (
    GoesElsewhere,
    NothingOfIt,
    OtherWood,
    Say,
    Verdict,
    Why,
)
from furniture.job.voids import HAIR_MM
from furniture.parts.part import Placed
from furniture.pieces import Piece
from furniture.rules import Rules
from furniture.shop.cutting.values import Saw

_AS_IS, _CUT, _ANOTHER, _OFFCUT, _NEW = 0.5, 10.0, 1e3, 1e5, 1e8
"""Another part that is right as it is beats work; own wood beats another's, that an offcut."""


def verdicts_of(old: Old, new: Piece, saw: Saw | None = None) -> tuple[Verdict, ...]:
    """A verdict for every instance of the new design in its order, then for old parts that go.

    A part is taken from the old one of its own name where that serves; else from any other that is
    as thick, or thicker by no more than a rough board is planed, and whose wood holds it, so that
    as few as can be are made anew. Each old part serves one new one. What is carried out gives
    exactly the new part: a cut that stays is whole and where the design has it.

    Args:
        old: what is there.
        new: the design now; its rules say how little wood may be left.
        saw: with the limits of what can be held at it, and what is planed off; none keeps to none.

    Raises:
        SolidError: the solid kernel did not do what the model asked.
    """
    holding = Holding(saw=saw or Saw(), rules=new.rules)
    fits = _fits(old.parts, new.placed, holding)
    chosen = _assigned(old.parts, new.placed, fits)
    into = {column: new.placed[row].instance for row, column in chosen.items()}
    found = [
        _verdict(each, row, chosen.get(row), old.parts, fits, into, new.rules)
        for row, each in enumerate(new.placed)
    ]
    spare = [part for column, part in enumerate(old.parts) if column not in into]
    return (*found, *(_spare(part, new, holding) for part in spare if not part.is_offcut))


Fits = dict[tuple[int, int], Fit]
"""The best place by the number of the new instance and that of the old part."""


def _fits(old: Sequence[OldPart], new: Sequence[Placed], holding: Holding) -> Fits:
    """What may serve for what. Where every namesake does, of others only what is equal is sought.

    A namesake that is right as it is is settled: whatever else it would serve for, any other part
    that could stand in for it serves for too.
    """
    by_name = {part.name: column for column, part in enumerate(old) if not part.is_offcut}
    found: Fits = {}
    rows, columns = set(range(len(new))), set(range(len(old)))
    for row, each in enumerate(new):
        column = by_name.get(each.instance)
        fit = None if column is None else _fit(old[column], each, holding)
        if fit is not None and column is not None:
            found[row, column] = fit
            if fit.is_as_it_is:
                rows, columns = rows - {row}, columns - {column}
    is_served = {row for row, _ in found} == set(range(len(new)))
    for row, column in product(sorted(rows), sorted(columns)):
        if (row, column) in found or not _is_as_thick(old[column], new[row], holding):
            continue
        if not is_served or _is_as_large(old[column], new[row]):
            fit = _fit(old[column], new[row], holding)
            if fit is not None:
                found[row, column] = fit
    return found


def _is_as_thick(old: OldPart, new: Placed, holding: Holding) -> bool:
    """Whether another's wood is planed to the part by no more than a rough board loses."""
    more = old.blank.thickness_mm - new.part.blank.thickness_mm
    return -HAIR_MM <= more <= holding.saw.planing_loss_mm + HAIR_MM


def _is_as_large(old: OldPart, new: Placed) -> bool:
    sizes = zip(old.blank.size, new.part.blank.size, strict=True)
    return all(abs(had - needed) <= HAIR_MM for had, needed in sizes)


def _fit(old: OldPart, new: Placed, holding: Holding) -> Fit | None:
    if _other_wood(old, new):
        return None
    return best_fit(old, _work(new), holding)


def _work(new: Placed) -> Work:
    return Work(blank=new.part.blank, cuts=new.part.cuts)


def _other_wood(old: OldPart, new: Placed) -> bool:
    return old.wood.species != new.part.timber.species.name


def _assigned(old: Sequence[OldPart], new: Sequence[Placed], fits: Fits) -> dict[int, int]:
    """Which old part each new one is taken from: fewest new, then fewest of others, then work."""
    if not fits:
        return {}
    cost = np.full((len(new), len(old) + len(new)), _NEW)
    cost[:, : len(old)] = 2 * _NEW
    for (row, column), fit in fits.items():
        cost[row, column] = _cost(old[column], new[row], fit)
    rows, columns = linear_sum_assignment(cost)
    return {
        int(row): int(column)
        for row, column in zip(rows, columns, strict=True)
        if (int(row), int(column)) in fits
    }


def _cost(old: OldPart, new: Placed, fit: Fit) -> float:
    is_own = old.name == new.instance and not old.is_offcut
    if fit.is_as_it_is:
        return 0.0 if is_own else _AS_IS
    effort = effort_of(fit, _work(new))
    work = (
        _CUT * effort.cuts + effort.faces + 0.1 * effort.awkward + min(effort.off_mm3 * 1e-9, 0.05)
    )
    return work + (0.0 if is_own else _OFFCUT if old.is_offcut else _ANOTHER)


def _verdict(
    new: Placed,
    row: int,
    column: int | None,
    old: Sequence[OldPart],
    fits: Fits,
    into: dict[int, str],
    rules: Rules,
) -> Verdict:
    why = tuple(_why(new, row, old, fits, into, rules))
    if column is None:
        return Verdict(instance=new.instance, say=Say.MAKE_NEW, why=why)
    part, fit = old[column], fits[row, column]
    is_own = part.name == new.instance and not part.is_offcut
    say = Say.AS_IS if fit.is_as_it_is else Say.TRIM if is_own else Say.RECUT
    return Verdict(
        instance=new.instance,
        say=say,
        old=part,
        place=fit.place,
        off=fit.off,
        cuts=fit.cuts,
        near=fit.near,
        why=() if is_own else why,
    )


def _why(
    new: Placed,
    row: int,
    old: Sequence[OldPart],
    fits: Fits,
    into: dict[int, str],
    rules: Rules,
) -> Iterator[Why]:
    """Why the part of its own name does not serve."""
    named = [
        column
        for column, part in enumerate(old)
        if part.name == new.instance and not part.is_offcut
    ]
    if not named:
        yield NothingOfIt()
        return
    column = named[0]
    part = old[column]
    if _other_wood(part, new):
        yield OtherWood(species=new.part.timber.species.name, was=part.wood.species)
    elif (row, column) in fits:
        if column in into and into[column] != new.instance:
            yield GoesElsewhere(into=into[column])
    else:
        yield from why_not(part, _work(new), rules)


def _spare(part: OldPart, new: Piece, holding: Holding) -> Verdict:
    """What an old part that goes would still hold of the new design."""
    serves = tuple(
        each.instance
        for each in new.placed
        if not _other_wood(part, each)
        and _is_as_thick(part, each, holding)
        and lies_in(part, _work(each))
    )
    return Verdict(instance=part.name, say=Say.NOT_NEEDED, old=part, serves=serves)
