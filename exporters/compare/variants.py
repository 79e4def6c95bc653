"""What variants are compared by: outlines, height, mass, what tips them, what their wood costs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from exporters.compare.draw import KINDS, write_comparison
from exporters.compare.values import Variant
from exporters.designs import Design, piece_of
from exporters.pictures.outline import outlines_of
from exporters.report.words import amount
from furniture.checks.finding import Kind, Verdict
from furniture.checks.of_piece import Group, findings_by_subject
from furniture.checks.of_piece.reading import shown_by
from furniture.checks.of_piece.setting import Place, Setting, read_setting
from furniture.checks.rows.proofs import PLACES
from furniture.checks.rows.standing import TOP_PUSH, WALL_FIXING, WALL_HOLD
from furniture.errors import DesignError, KnifewallError, Problem
from furniture.pieces import Piece
from furniture.rules import ShopRules
from furniture.shop.boards import CuttingWishes, MeasuredBoard, cutting_job
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.tools import Shop
from furniture.solids.measure import weigh
from furniture.units import figure_with_unit
from furniture.units.showing import without_mark

GivenBoards = Sequence[MeasuredBoard] | Path | str


class CompareError(KnifewallError, ValueError):
    """Variants that cannot be compared, or a file that cannot hold them."""


def compare(
    variants: Mapping[str, Design | Piece],
    path: Path | str,
    *,
    boards: GivenBoards = (),
    wishes: CuttingWishes | None = None,
    shop: Shop | None = None,
    place: Place | str | None = None,
    rules: ShopRules | None = None,
) -> Path:
    """The path of a picture that shows variants side by side at one scale, as outlines from the
    front and the side, with height, mass, push to tip and price under each.

    Args:
        variants: what each is called, and its design or piece.
        path: of the picture; its name ends in `.png`, `.svg` or `.html`.
        boards: each is planned from all of them, for its price; none leaves the price out.
        wishes: of the cutting.
        shop: what is on hand.
        place: where they will stand.
        rules: the shop's own limits.

    Raises:
        CompareError: there is no variant, or the name of the file says no kind of picture.
        DesignError: with every problem of every variant, each by the variant's name.
        OSError: the file cannot be written.
    """
    target = Path(path)
    if not variants:
        raise CompareError("nothing to compare: write compare({'as it is': stand, ...}, ...)")
    if target.suffix not in KINDS:
        raise CompareError(f"{target.name}: let its name end in {', '.join(KINDS)}")
    setting = read_setting(place, rules)
    found, problems = [], list[Problem]()
    for name, design in variants.items():
        try:
            piece = piece_of(design, rules)
            plan = _planned(piece, boards, wishes, shop)
        except DesignError as error:
            problems += [_by(name, each) for each in error.problems]
            continue
        if not problems:
            found.append(variant_of(name, piece, setting, plan))
    if problems:
        raise DesignError(problems)
    return write_comparison(found, target)


def variant_of(
    name: str, piece: Piece, setting: Setting, plan: CuttingOutcome | None = None
) -> Variant:
    """A piece as it is compared.

    Args:
        name: what it is called.
        piece: to look at.
        setting: where it stands, and by which rules.
        plan: of its boards; none leaves the price out.

    Raises:
        SolidError: a part cannot be made.
    """
    weighed, show = weigh(piece), shown_by(piece)
    low, high = weighed.extents
    groups = findings_by_subject(piece, weighed, setting=setting)
    tall = without_mark(figure_with_unit(high[2] - low[2], piece.shown))
    figures = {
        "height": tall,
        "mass": show.mass(weighed.whole.mass_kg),
        **_tips(piece, groups),
        **({} if plan is None else {"price": _price(plan)}),
        "checks": _checks(groups),
    }
    return Variant(name=name, views=outlines_of(piece), stance=piece.stance, figures=figures)


def _tips(piece: Piece, groups: Sequence[Group]) -> dict[str, str]:
    """What pushes it over at its top, or what holds it on its wall."""
    show = shown_by(piece)
    findings = [each for group in groups for each in group.findings if each.value is not None]
    pushes = [each for each in findings if each.check is TOP_PUSH]
    if pushes:
        least = min(pushes, key=lambda each: each.value or 0.0)
        force = amount(least.value, least.unit, show)
        slides = least.tipping is not None and least.tipping.slides_first
        return {"push to tip": f"{force}, but it slides first" if slides else force}
    for check in (WALL_HOLD, WALL_FIXING):
        pulls = [each for each in findings if each.check is check]
        if pulls:
            most = max(pulls, key=lambda each: each.value or 0.0)
            return {"pull on its fixing": amount(most.value, most.unit, show)}
    return {"push to tip": "not known"}


def _price(plan: CuttingOutcome) -> str:
    """What the boards cost that are begun; that the boards do not hold all is no price."""
    from exporters.cutting.words import money

    if plan.plan is None:
        return "no boards"
    missing = sum(each.copies for each in plan.plan.unplaced)
    if missing:
        return f"{missing} {'part has' if missing == 1 else 'parts have'} no place"
    cost = plan.boards_cost
    return money(cost, plan.job.currency) if cost else "boards without a price"


def _checks(groups: Sequence[Group]) -> str:
    found = [each for group in groups for each in group.findings
             if each.check is not PLACES and each.check.kind is Kind.DESIGN]  # fmt: skip
    fails = sum(each.verdict is Verdict.FAIL for each in found)
    cautions = sum(each.verdict is Verdict.CAUTION for each in found)
    told = f"{fails} {'fails' if fails == 1 else 'fail'}" if fails else "none fails"
    return f"{told}, {cautions or 'no'} {'caution' if cautions == 1 else 'cautions'}"


def _planned(
    piece: Piece, boards: GivenBoards, wishes: CuttingWishes | None, shop: Shop | None
) -> CuttingOutcome | None:
    from exporters.cutting.planning import planned

    if not boards:
        return None
    return planned(cutting_job(piece, boards, wishes, None if shop is None else shop.saw), None)


def _by(name: str, problem: Problem) -> Problem:
    return Problem(
        parameter=f"{name}: {problem.parameter}", given=problem.given, allowed=problem.allowed,
        why=problem.why, remedy=problem.remedy,
    )  # fmt: skip
