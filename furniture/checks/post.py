"""A post that carries shelves on one side: how hard it works where its dados weaken it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from furniture.checks.advice import Change, Remedy, least_that, longer, said
from furniture.checks.finding import Finding, Show, Verdict, not_checked, without_figure
from furniture.checks.rows.joints import POST_AT_DADO, POST_AT_OPENING
from furniture.checks.sections import Rectangle, axial_stress_mpa, bending_stress_mpa
from furniture.checks.strength import Grain, working_bending_mpa
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.design import LEAST_DADO, MOST_THICKER
from furniture.rules.wood import BREAKING_RESERVE
from furniture.timber.doubt import doubt_told
from furniture.timber.species import Species
from furniture.timber.strengths import DIVISOR_REASON, divisor


@dataclass(frozen=True, slots=True, kw_only=True)
class Waist:
    """A weak section of the post: a dado cut into its front face, or an opening through it.

    `depth_mm` is what goes off its thickness there, `bored_mm` what goes off its width.
    """

    name: str
    height_mm: float
    depth_mm: float
    bored_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PostLoad:
    """A downward force [N] on the post: from which height, and how far before its front face."""

    what: str
    height_mm: float
    force_n: float
    before_face_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Post:
    """A post held at its foot. Its top may be pushed backward or forward by a stated force."""

    name: str
    species: Species
    width_mm: float
    thickness_mm: float
    waists: tuple[Waist, ...]
    loads: tuple[PostLoad, ...]
    push_n: float = 0.0
    push_height_mm: float = 0.0


def waist_section(post: Post, waist: Waist) -> Rectangle:
    """The wood left behind a dado or beside an opening.

    Args:
        post: the post
        waist: one of its weak sections

    Raises:
        ValueError: where it leaves no wood.
    """
    return Rectangle(
        width_mm=post.width_mm - waist.bored_mm, thickness_mm=post.thickness_mm - waist.depth_mm
    )


def waist_moment_nmm(post: Post, waist: Waist) -> float:
    """The bending moment [N mm] about the middle of the wood left behind a dado.

    Loads above the dado count with their arm to that middle; the push with its height over it,
    on the side that makes it worse.

    Args:
        post: the post
        waist: one of its dados

    **Source:** statics.
    """
    to_middle = waist.depth_mm + (post.thickness_mm - waist.depth_mm) / 2.0
    bending = sum(load.force_n * (load.before_face_mm + to_middle) for load in _above(post, waist))
    return bending + post.push_n * max(0.0, post.push_height_mm - waist.height_mm)


def waist_stress_mpa(post: Post, waist: Waist) -> float:
    """The greatest stress [MPa] along the grain in the wood left behind a dado.

    The shelf in the dado is not counted on, though it helps in compression; nor is the sharp
    corner counted against it, which the divisor must cover.

    Args:
        post: the post
        waist: one of its dados

    **Source:** Wood Handbook, FPL-GTR-282 (2021), Eq. 9-12 and 9-13; statics.
    """
    section = waist_section(post, waist)
    down = sum(load.force_n for load in _above(post, waist))
    bending = bending_stress_mpa(waist_moment_nmm(post, waist), section)
    return bending + axial_stress_mpa(down, section)


def weakest_waist(post: Post) -> Waist | None:
    """The dado with the greatest stress behind it; None for a post without dados.

    Args:
        post: the post
    """
    return max(post.waists, key=lambda waist: waist_stress_mpa(post, waist), default=None)


def post_finding(post: Post, show: Show, rules: Rules = USUAL_RULES) -> Finding:
    """The stress behind the post's weakest dado against the species' working stress.

    Args:
        post: the post with its loads
        show: puts a length into the piece's unit
        rules: the maker's

    **Source:** as `waist_stress_mpa`; limit: strength of clear wood over a stated divisor.
    """
    waist = weakest_waist(post)
    limit = working_bending_mpa(post.species, Grain.ALONG)
    if waist is None:
        return without_figure(POST_AT_DADO, Verdict.OK, "it has no dado", subject=post.name)
    check = POST_AT_DADO if waist.bored_mm <= 0.0 else POST_AT_OPENING
    if limit is None:
        return not_checked(
            check, post.name, f"no strength known for {post.species.name}",
            advice="load a sample before relying on it",
        )  # fmt: skip
    stress = waist_stress_mpa(post, waist)
    limits = check.limits(
        cautions=limit, fails=limit * divisor(post.species) / rules[BREAKING_RESERVE]
    )
    verdict = check.verdict(stress, limits)
    remedies = () if verdict is Verdict.OK else _stronger(post, waist, limit, show, rules)
    section = waist_section(post, waist)
    bored = f", {show(waist.bored_mm)} of its width bored away" if waist.bored_mm > 0.0 else ""
    return Finding(
        check=check,
        subject=f"{post.name} at {waist.name}",
        value=stress,
        limits=limits,
        basis=f"{show(section.thickness_mm)} of thickness left{bored}, bent by "
        f"{_told(_above(post, waist), show)}"
        + (f" and a push of {show.force(post.push_n)}" if post.push_n > 0.0 else "")
        + f"; {DIVISOR_REASON}"
        + doubt_told(post.species, rules, "mor_mpa"),
        advice="" if verdict is Verdict.OK else said(remedies, _else(remedies)),
        remedies=remedies,
    )


def _stronger(
    post: Post, waist: Waist, limit: float, show: Show, rules: Rules
) -> tuple[Remedy, ...]:
    """A thicker post, a shallower dado that still seats what is in it, or a smaller opening."""
    most = rules[MOST_THICKER] * post.thickness_mm
    enough = least_that(
        lambda by: (
            waist_stress_mpa(replace(post, thickness_mm=post.thickness_mm + by), waist) <= limit
        ),
        0.0,
        most,
    )
    found: tuple[Remedy, ...] = ()
    if enough is not None:
        found = longer(Change.THICKNESS, "make the post {} thicker", enough, show, most)
    most = waist.depth_mm - rules[LEAST_DADO] * post.thickness_mm
    enough = least_that(
        lambda by: waist_stress_mpa(post, replace(waist, depth_mm=waist.depth_mm - by)) <= limit,
        0.0,
        most,
    )
    if enough is not None:
        found = (
            *found,
            *longer(Change.SHALLOWER, "cut that dado {} shallower", enough, show, most),
        )
    most = waist.bored_mm
    enough = least_that(
        lambda by: waist_stress_mpa(post, replace(waist, bored_mm=waist.bored_mm - by)) <= limit,
        0.0,
        most - 1.0,
    )
    if enough is not None:
        found = (*found, *longer(Change.BIT, "make that opening {} smaller", enough, show, most))
    return found


def _else(remedies: tuple[Remedy, ...]) -> str:
    return "" if remedies else "carry the tiers between two uprights, or stand less on them"


def _above(post: Post, waist: Waist) -> list[PostLoad]:
    return [load for load in post.loads if load.height_mm >= waist.height_mm]


def _told(loads: Sequence[PostLoad], show: Show) -> str:
    total = sum(load.force_n for load in loads)
    return (
        f"{show.force(total)} from {len(loads)} load{'' if len(loads) == 1 else 's'} at or above it"
    )
