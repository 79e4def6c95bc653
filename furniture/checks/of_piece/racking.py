"""Whether a piece folds sideways: as made, under a person, and once what loosens has loosened."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from furniture.checks.finding import GRAVEST_FIRST, Finding, Show
from furniture.checks.rows.structure import LOOSENED, RACKING
from furniture.pieces import LoadKind, Piece, StandingLoad
from furniture.rules import Rules
from furniture.rules.bearing import (
    BARE_SHARE,
    BRACING_RAIL,
    HINGED_SHARE,
    LEAN_SHARE,
    LEAST_RACKING,
    RACKS_FROM,
    STIFF_SHARE,
)
from furniture.rules.standing import SEAT_SHOVE, STEP_BACK_SHARE
from furniture.structure import Case, Frame, Held, State, held_in
from furniture.structure.cases import SWAY_N, pushes_of, shoves_of
from furniture.structure.held import (
    LEAST,
    highest_fixed,
    push_as_one_n,
    pushed_n,
    rests_on,
    stands_in,
    without_hung,
)
from furniture.structure.hinges import with_hinges
from furniture.units.gravity import GRAVITY_M_S2

_HARDLY_N = LEAST * SWAY_N
"""What tips over at less falls without any push [N]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pushed:
    """One push [N]: where it folds as made and loosened, and what is asked of it."""

    held: Held
    made_n: float
    loose_n: float
    whole_n: float
    asked_n: float

    @property
    def falls_anyhow(self) -> bool:
        """Whether it tips over as a whole with hardly a push this way: its standing tells that."""
        return self.whole_n <= _HARDLY_N


def racking_findings(piece: Piece, frame: Frame, show: Show, rules: Rules) -> tuple[Finding, ...]:
    """The least push at which it folds, beside that which tips it whole; the worst, told once.

    The highest part is pushed that does not simply come off, as a loose lid does, and every person
    pushes where he sits or stands. What stands as made may rest on joints that loosen: it is looked
    at without those too.

    Args:
        piece: the piece as cut
        frame: of it
        show: puts amounts into the piece's unit
        rules: the maker's
    """
    body = highest_fixed(piece, frame)
    if body is None:
        return ()
    cases = pushes_of(piece, frame, body)
    pushed = [_pushed(frame, case, rules[LEAST_RACKING]) for case in cases]
    found = [
        *_folding(piece, pushed, show, rules),
        *_shoved(piece, frame, show, rules),
        *_loosened(piece, frame, show, rules),
    ]
    return tuple(sorted(found, key=lambda each: GRAVEST_FIRST.index(each.verdict))[:1])


def _pushed(frame: Frame, case: Case, asked_n: float) -> _Pushed:
    held, whole = held_in(frame, case), push_as_one_n(frame, case)
    return _Pushed(
        held=held,
        made_n=held.factor * SWAY_N,
        loose_n=_loose_n(frame, case),
        whole_n=whole,
        asked_n=min(whole, asked_n),
    )


def _loose_n(frame: Frame, case: Case) -> float:
    """Where it folds once it has loosened [N], with what drops off, or without it if that holds."""
    found = pushed_n(frame, case, State.HINGED)
    if found > _HARDLY_N:
        return found
    return max(found, pushed_n(*without_hung(frame, case, State.HINGED), State.HINGED))


def _folding(
    piece: Piece, pushed: Sequence[_Pushed], show: Show, rules: Rules
) -> Iterable[Finding]:
    """The push at which it folds as made; it fails where its loosened joints are hinges besides."""
    if any(each.falls_anyhow for each in pushed):
        return
    worst = min(pushed, key=lambda each: each.made_n / each.whole_n)
    loosened = min(each.loose_n for each in pushed)
    is_hinged = loosened < rules[HINGED_SHARE] * worst.asked_n
    asked = rules[STIFF_SHARE] * worst.asked_n
    yield Finding(
        check=RACKING,
        subject=_joints(piece, worst.held),
        value=worst.made_n,
        limits=RACKING.limits(cautions=asked, fails=asked if is_hinged else None),
        basis=f"{worst.held.case.told}, where it would tip whole at {show.force(worst.whole_n)}; "
        f"with hinges for nails, screws and end-grain glue {show.force(loosened)}",
        advice=_brace(show, rules),
    )


def _shoved(piece: Piece, frame: Frame, show: Show, rules: Rules) -> Iterable[Finding]:
    """Every person who pushes what bears him; what loosens under him counts for nothing."""
    for person in piece.loads:
        if not person.kind.is_person:
            continue
        asked = _shove_n(person, rules)
        shoved = [_pushed(frame, case, asked) for case in shoves_of(piece, frame, person)]
        pushed = [each for each in shoved if not _slides_off(each)]
        if not pushed or any(each.falls_anyhow for each in shoved):
            continue
        worst = min(pushed, key=lambda each: each.loose_n / max(each.asked_n, 1e-9))
        limit = rules[STIFF_SHARE] * worst.asked_n
        yield Finding(
            check=RACKING,
            subject=_joints(piece, worst.held),
            value=worst.loose_n,
            limits=RACKING.limits(cautions=limit, fails=limit),
            basis=f"{worst.held.case.told}, who pushes with {show.force(asked)} (own rule), with "
            "hinges for nails, screws and end-grain glue; as made it folds at "
            f"{show.force(worst.made_n)}",
            advice=_brace(show, rules),
        )


def _shove_n(person: StandingLoad, rules: Rules) -> float:
    if person.kind is LoadKind.PERSON_SITTING:
        return rules[SEAT_SHOVE]
    return rules[STEP_BACK_SHARE] * person.mass_kg * GRAVITY_M_S2


def _slides_off(pushed: _Pushed) -> bool:
    """Whether the part that is pushed is only laid there: what holds it is told elsewhere."""
    motion, case = pushed.held.motion, pushed.held.case
    return motion is not None and motion.moving == tuple(each.body for each in case.pushes)


def _loosened(piece: Piece, frame: Frame, show: Show, rules: Rules) -> Iterable[Finding]:
    """What is left without the hold of end grain, and with its shallow housings as hinges too."""
    if rests_on(frame, State.NO_END_HOLD):
        what = "glue, screws and nails in end grain"
        yield from _without(piece, frame, what, show, rules, fails_at=rules[BARE_SHARE])
    hinged = with_hinges(piece, frame, rules[LEAN_SHARE])
    if hinged is not None:
        yield from _without(piece, hinged, "the glue of its dados", show, rules)


def _without(
    piece: Piece,
    frame: Frame,
    what: str,
    show: Show,
    rules: Rules,
    fails_at: float | None = None,
) -> Iterable[Finding]:
    """The push that is borne worst without end grain's hold, on the highest part that stays on.

    Nothing where the piece would not even bear itself so, or falls as it is: that is no folding,
    and is told elsewhere.
    """
    state = State.NO_END_HOLD
    body = highest_fixed(piece, frame, state)
    if body is None or _height_mm(frame, body) < rules[RACKS_FROM]:
        return
    cases = pushes_of(piece, frame, body)
    tips_n = [push_as_one_n(frame, case) for case in cases]
    if min(tips_n) <= _HARDLY_N:
        return
    left = [
        (held_in(frame, case, state), min(tips, rules[LEAST_RACKING]))
        for case, tips in zip(cases, tips_n, strict=True)
    ]
    held, asked = min(left, key=lambda each: each[0].factor / each[1])
    push, least = held.factor * SWAY_N, rules[HINGED_SHARE] * asked
    if push < least and not stands_in(frame, held.case, state):
        return
    yield Finding(
        check=LOOSENED,
        subject=_joints(piece, held),
        value=push,
        limits=LOOSENED.limits(
            cautions=least, fails=None if fails_at is None else fails_at * asked
        ),
        basis=f"{held.case.told}, without {what}, which loosen; {show.force(asked)} tip it whole, "
        "or are a hand that steadies itself",
        advice=_brace(show, rules),
    )


def _height_mm(frame: Frame, body: int) -> float:
    """How high the middle of a part stands over the floor [mm]."""
    return frame.masses[body].centre_mm[2] - min(link.at[2] for link in frame.floor)


def _brace(show: Show, rules: Rules) -> str:
    return f"brace it: a back, a rail of {show(rules[BRACING_RAIL])}, or joints that bear moment"


def _joints(piece: Piece, held: Held) -> str:
    names = dict.fromkeys(piece.joinings[index].incoming for index in held.gives[:2])
    return " and ".join(names) or "the whole piece"
