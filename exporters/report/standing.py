"""Will it stand: the first of the three answers, as a value that the words are made from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from exporters.report.words import AMISS, amount, worst_of_each
from furniture.checks.check import Check
from furniture.checks.finding import Finding, Kind, Show, Verdict
from furniture.checks.of_piece import Group, Subject
from furniture.checks.of_piece.reading import badness
from furniture.checks.rows.proofs import PLACES
from furniture.checks.rows.standing import TILT, TOP_PUSH, UNEVEN_FLOOR, WALL_FIXING, WALL_HOLD


class Stands(Enum):
    """Whether it stands, in the word that the answer begins with."""

    YES = "Yes"
    BARELY = "Barely"
    FLAT_FLOOR = "On a flat floor only"
    NOT_SOUND = "Not as it is"
    NO = "No"
    UNKNOWN = "Not known"


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """The answer, its sentence, and the finding that it rests on, if one does."""

    stands: Stands
    says: str
    rests_on: Finding | None = None

    @property
    def sentence(self) -> str:
        """The answer and why, without advice."""
        return f"{self.stands.value}. {self.says}"


def standing_answer(groups: Sequence[Group], show: Show) -> Standing:
    """Whether it stands, and what tips it or holds it.

    What breaks comes before what tips: a piece that does not fall over but fails elsewhere does
    not stand as it is.

    Args:
        groups: the findings by subject.
        show: puts amounts into the piece's unit.
    """
    worst = _worst_of_standing(groups)
    answer = _tips(worst, show)
    fails = worst_of_each(failing(groups))
    if fails and answer.stands is not Stands.NO:
        count = f"{len(fails)} {'check fails' if len(fails) == 1 else 'checks fail'}"
        return Standing(
            stands=Stands.NOT_SOUND, says=f"{count}, see below. {answer.says}", rests_on=None
        )
    return answer


def failing(groups: Sequence[Group]) -> list[Finding]:
    """What fails of the design itself, not of the boards that it is cut from."""
    return [
        each
        for group in groups
        for each in group.findings
        if each.verdict is Verdict.FAIL and each.check is not PLACES
    ]


def _worst_of_standing(groups: Sequence[Group]) -> Mapping[Check, Finding]:
    found: dict[Check, Finding] = {}
    for group in groups:
        if group.subject is Subject.STANDING:
            for each in group.findings:
                known = found.get(each.check)
                if known is None or badness(each) < badness(known):
                    found[each.check] = each
    return found


def _tips(worst: Mapping[Check, Finding], show: Show) -> Standing:
    tilt, push, floor = (worst.get(check) for check in (TILT, TOP_PUSH, UNEVEN_FLOOR))
    if push is None and (WALL_HOLD in worst or WALL_FIXING in worst):
        return _held(worst, show)
    if tilt is None or push is None:
        return Standing(stands=Stands.UNKNOWN, says="No check tells how it stands.")
    if tilt.verdict is Verdict.FAIL:
        return Standing(stands=Stands.NO, says=_falls(tilt), rests_on=tilt)
    if floor is not None and floor.verdict is Verdict.FAIL:
        says = f"One low corner tips it {way_of(floor)}."
        return Standing(stands=Stands.FLAT_FLOOR, says=says, rests_on=floor)
    force, angle = amount(push.value, push.unit, show), amount(tilt.value, tilt.unit, show)
    if push.verdict in AMISS:
        says = f"Little tips it: a push of {force} at its top sends it over {way_of(push)}."
        return Standing(stands=Stands.BARELY, says=says, rests_on=push)
    if tilt.verdict in AMISS:
        says = f"Little tips it: {_loaded(tilt)}it falls {way_of(tilt)} when tilted {angle}."
        return Standing(stands=Stands.BARELY, says=says, rests_on=tilt)
    if push.tipping is not None and push.tipping.slides_first:
        says = f"Pushed at its top it slides before it tips; tilted, it falls at {angle}."
        return Standing(stands=Stands.YES, says=says)
    ways = way_of(push), way_of(tilt)
    when = f"or when tilted {angle}" + ("" if ways[0] == ways[1] else f" {ways[1]}")
    says = f"It tips {ways[0]} at a push of {force} at its top, {when}."
    minded = sorted(
        (e for e in worst.values() if e.verdict in AMISS and e.check.kind is Kind.DESIGN),
        key=badness,
    )
    return Standing(stands=Stands.YES, says=says, rests_on=minded[0] if minded else None)


def _falls(tilt: Finding) -> str:
    if not way_of(tilt):
        return f"{tilt.basis[:1].upper()}{tilt.basis[1:]}."
    who = f"{_loaded(tilt) or 'as it is, '}it"
    return f"{who[:1].upper()}{who[1:]} falls {way_of(tilt)} on a level floor."


def _loaded(tilt: Finding) -> str:
    is_loaded = tilt.tipping is not None and tilt.tipping.is_loaded
    return "with what is to stand on it, " if is_loaded else ""


def _held(worst: Mapping[Check, Finding], show: Show) -> Standing:
    if WALL_HOLD in worst:
        pull = worst[WALL_HOLD]
        says = (
            "It hangs on the wall and cannot tip; each upper fixing must hold a pull of "
            f"{amount(pull.value, pull.unit, show)} outward."
        )
        return Standing(stands=Stands.YES, says=says)
    strap = worst[WALL_FIXING]
    says = (
        "It is fixed to the wall and cannot tip while that holds; the fixing at its top must bear "
        f"{amount(strap.value, strap.unit, show)}."
    )
    return Standing(stands=Stands.YES, says=says)


def way_of(finding: Finding) -> str:
    """Backward, forward or to a side: the ways in which it would go over."""
    ways = () if finding.tipping is None else finding.tipping.ways
    return " and ".join(way.value for way in ways)
