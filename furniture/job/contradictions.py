"""What is measured and done and cannot be together, with the trim that would make it so."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from furniture.errors import Problem
from furniture.job.done import CutMoved
from furniture.job.equations import Equation, Why
from furniture.job.figures import AXES, Figure
from furniture.units import Shown, figure_with_unit, fitted_with_unit, listed, nearest_word

_LEAST = 1e-4
Rows = Mapping[tuple[str, int], np.ndarray]
"""How fast a size goes with each parameter, by instance and part axis."""


def none_moves(figure: Figure, given_mm: float, designed_mm: float, shown: Shown) -> Problem:
    """No length of the script moves what was measured."""
    return Problem(
        parameter=f"measured '{figure.name}'",
        given=figure_with_unit(given_mm, shown),
        allowed=f"{figure_with_unit(designed_mm, shown)}, as designed",
        why="no length in the script moves this figure to what was measured",
        remedy=_back_to(figure, given_mm, designed_mm, shown)
        or "make it anew, or write the figure that it hangs on into the script",
    )


def other_free(
    equation: Equation, wanted: str, moving: Sequence[str], known: Sequence[str]
) -> Problem:
    """The parameter that the maker lets give does not move what was measured."""
    near = nearest_word(wanted, moving) or next(iter(moving), None)
    return Problem(
        parameter=f"free '{equation.figure.key}'",
        given=repr(wanted),
        allowed=", ".join(moving) or "none is left to give",
        why="it does not move this figure"
        if wanted in known
        else "no length of the script is called so",
        remedy=f"write {near!r}" if near else "leave it out",
    )


def cut_contradiction(
    cuts: Sequence[CutMoved], by: Sequence[tuple[Figure, float, float]], shown: Shown
) -> Problem:
    """Cuts that are done would have to be others, and no length can give for them.

    Args:
        cuts: that are done.
        by: the measured figures that ask for others, as given and as designed [mm].
        shown: the unit of the piece.
    """
    trims = [_back_to(each, given, was, shown) for each, given, was in by if given > was]
    loose = [(each, given, was) for each, given, was in by if given <= was]
    ways = [*trims, *([_looser(loose, shown)] if loose else [])]
    done = list(dict.fromkeys(each.instance for each in cuts))
    out = "it out of what is done and work it" if len(done) == 1 else "them out of it and work them"
    new = f"take {out} to the new figures"
    return Problem(
        parameter=listed([f"measured '{figure.name}'" for figure, _, _ in by]),
        given=listed([figure_with_unit(given, shown) for _, given, _ in by]),
        allowed=listed([figure_with_unit(designed, shown) for _, _, designed in by]),
        why=f"{listed(done)} is done, and would need otherwise: "
        + "; ".join(dict.fromkeys(_otherwise(each, shown) for each in cuts)),
        remedy=f"{'; '.join(ways)}; or {new}",
    )


def _looser(by: Sequence[tuple[Figure, float, float]], shown: Shown) -> str:
    """What to do with what came out smaller than the cut that takes it."""
    plays = [
        f"{figure_with_unit(designed - given, shown)} more play for '{figure.name}'"
        for figure, given, designed in by
    ]
    leave = f"leave {listed([repr(figure.name) for figure, _, _ in by])} out"
    return f"{leave} and fit {'them' if len(by) > 1 else 'it'} with a shim, or with {listed(plays)}"


def _otherwise(cut: CutMoved, shown: Shown) -> str:
    figures = [
        f"{name.removesuffix('_mm').replace('_', ' ')} {fitted_with_unit(now, shown)}, "
        f"not {fitted_with_unit(was, shown)}"
        for name, was, now in cut.figures
    ]
    return f"{cut.kind} ({', '.join(figures) or 'as it is'})"


def contradiction(
    equation: Equation,
    taken: Sequence[Equation],
    others: Sequence[Equation],
    rows: Rows,
    sizes: Mapping[tuple[str, int], float],
    shown: Shown,
    refused: Mapping[str, str],
) -> Problem:
    """Sizes that hang together whatever the parameters are, and do not as measured and cut.

    Args:
        equation: that cannot be met besides the others.
        taken: those that are met.
        others: done sizes that no parameter had to give for.
        rows: of all of them.
        sizes: of some design that can be built, for what lies between them [mm].
        shown: the unit of the piece.
        refused: why a parameter that moves the equation cannot give, by its name.
    """
    shares = _shares(equation, taken, others, rows)
    by = {each.at: each for each in (equation, *taken, *others)}
    apart = sum(c * (by[at].target_mm - sizes[at]) for at, c in shares.items())
    if abs(apart) <= _LEAST or len(shares) == 1:
        return _plain(equation, taken, shown, refused)
    if apart < 0:
        shares = {at: -c for at, c in shares.items()}
    over = {at: c for at, c in shares.items() if c > 0}
    across = {at: -c for at, c in shares.items() if c < 0}
    too_much = abs(apart)
    both = [by[at] for at in (*over, *across)]
    return Problem(
        parameter=listed([f"{each.why.value} '{each.figure.name}'" for each in both]),
        given=listed([figure_with_unit(each.given_mm, shown) for each in both]),
        allowed="figures that go together",
        why=_sum(over, across, by, sizes, too_much, shown),
        remedy=_as_they_stand(both, too_much, shown)
        or _trims(over, by, too_much, shown)
        or _longer(across, by, too_much, shown),
    )


def _as_they_stand(both: Sequence[Equation], apart_mm: float, shown: Shown) -> str:
    """What to measure besides where a room is not what the parts round it add up to."""
    if not any(each.figure.is_room for each in both):
        return ""
    others = [f"'{each.figure.key}'" for each in both if not each.figure.is_room]
    if not others:
        return "measure again, or state the play of one of them by itself in the script"
    return (
        f"the parts stand {figure_with_unit(apart_mm, shown)} otherwise than they add up: measure "
        f"{listed(others)} as they stand, and write what came out otherwise too"
    )


def _shares(
    equation: Equation, taken: Sequence[Equation], others: Sequence[Equation], rows: Rows
) -> dict[tuple[str, int], float]:
    """How often each size counts in the sum that no parameter changes; equal ones share evenly."""
    known = [each for each in taken if each.at != equation.at]
    if not known:
        twin = next((each for each in others if _is_twin(each, equation, rows)), None)
        return {equation.at: 1.0} if twin is None else {equation.at: 1.0, twin.at: -1.0}
    table = np.array([rows[each.at] for each in known]).T
    found, *_ = np.linalg.lstsq(table, rows[equation.at], rcond=None)
    shares = {equation.at: 1.0}
    for each, share in zip(known, found, strict=True):
        if abs(share) <= _LEAST:
            continue
        alike = [
            other
            for other in (each, *others)
            if np.allclose(rows[other.at], rows[each.at], atol=_LEAST)
            and abs(other.target_mm - each.target_mm) <= _LEAST
            and other.at != equation.at
        ]
        for other in alike:
            shares[other.at] = shares.get(other.at, 0.0) - float(share) / len(alike)
    return shares


def _is_twin(one: Equation, two: Equation, rows: Rows) -> bool:
    return one.at != two.at and np.allclose(rows[one.at], rows[two.at], atol=_LEAST)


def _sum(
    over: Mapping[tuple[str, int], float],
    across: Mapping[tuple[str, int], float],
    by: Mapping[tuple[str, int], Equation],
    sizes: Mapping[tuple[str, int], float],
    too_much: float,
    shown: Shown,
) -> str:
    """`left stub, right stub and post add up to 321.2 mm across front rail of 320 mm`."""
    whole = sum(c * by[at].target_mm for at, c in over.items())
    room = sum(c * by[at].target_mm for at, c in across.items())
    between = sum(c * sizes[at] for at, c in over.items())
    between -= sum(c * sizes[at] for at, c in across.items())
    if not over:
        verb = "come to" if len(across) > 1 else "is"
        return f"{_counted(across, by)} {verb} {figure_with_unit(too_much, shown)} too little"
    first = _counted(over, by)
    verb = "add up to" if len(over) > 1 or max(over.values()) > 1 + _LEAST else "is"
    if across and abs(between) <= _LEAST:
        return (
            f"{first} {verb} {figure_with_unit(whole, shown)} across {_counted(across, by)} of "
            f"{figure_with_unit(room, shown)}: {figure_with_unit(too_much, shown)} too much"
        )
    beside = f" beside {_counted(across, by)}" if across else ""
    verb = "come to" if len(over) > 1 else "is"
    return f"{first} {verb} {figure_with_unit(too_much, shown)} too much{beside}"


def _counted(
    shares: Mapping[tuple[str, int], float], by: Mapping[tuple[str, int], Equation]
) -> str:
    names = [(by[at].figure.instance, share) for at, share in shares.items()]
    return listed(
        [name if abs(share - 1.0) <= _LEAST else f"{share:g} x {name}" for name, share in names]
    )


def _trims(
    over: Mapping[tuple[str, int], float],
    by: Mapping[tuple[str, int], Equation],
    too_much: float,
    shown: Shown,
) -> str:
    """`take 0.6 mm off the length of left stub and right stub, or 1.2 mm off the width of post`."""
    groups: dict[tuple[int, float, float], list[Equation]] = {}
    for at, share in over.items():
        each = by[at]
        key = (at[1], round(share, 6), round(each.target_mm, 4))
        groups.setdefault(key, []).append(each)
    ways = []
    for (axis, share, _), several in groups.items():
        off = figure_with_unit(too_much / (share * len(several)), shown)
        names = listed([each.figure.instance for each in several])
        each_of = " of each" if len(several) > 1 else ""
        ways.append(f"{off} off the {AXES[axis]}{each_of}: {names}")
    return f"take {', or '.join(ways)}" if ways else ""


def _longer(
    across: Mapping[tuple[str, int], float],
    by: Mapping[tuple[str, int], Equation],
    too_much: float,
    shown: Shown,
) -> str:
    names = listed([by[at].figure.instance for at in across])
    return f"make {names} anew: {figure_with_unit(too_much, shown)} are wanting"


def takes_no_thickness(name: str, sizes: Mapping[tuple[str, int], float]) -> Problem:
    """A part came out thicker or thinner, and its builder knows one thickness for its stock.

    Args:
        name: of the part.
        sizes: of the design [mm].
    """
    return Problem(
        parameter=f"measured '{name}.thickness'",
        given="a thickness of its own",
        allowed="that of its stock, measured on all its parts",
        why="this design's builder takes no thickness of one part alone",
        remedy=f"plane it to {sizes[name, 2]:g} mm, or give it a stock of its own in the script",
    )


def _plain(
    equation: Equation, taken: Sequence[Equation], shown: Shown, refused: Mapping[str, str]
) -> Problem:
    both = [equation, *taken]
    return Problem(
        parameter=listed([f"{each.why.value} '{each.figure.name}'" for each in both]),
        given=listed([figure_with_unit(each.given_mm, shown) for each in both]),
        allowed="figures that go together",
        why="; ".join(f"{name} cannot give: {why}" for name, why in refused.items())
        or "no length of the script is left that gives for all of them",
        remedy=_way_out(equation, bool(refused)),
    )


def _way_out(equation: Equation, is_forbidden: bool) -> str:
    if equation.why is Why.DONE:
        return "take what can be made again out of what is done"
    if is_forbidden:
        return "change in the script what forbids it, or measure it again"
    return "measure it again, or let another parameter give"


def _back_to(figure: Figure, given_mm: float, designed_mm: float, shown: Shown) -> str:
    if given_mm <= designed_mm:
        return ""
    return f"take {figure_with_unit(given_mm - designed_mm, shown)} off '{figure.name}'"
