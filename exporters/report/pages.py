"""The report's pages: verdicts in words and the plan, the seasons, every finding in a table."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from reportlab.platypus import (
    Flowable,
    KeepTogether,
    Paragraph,
    Spacer,
    Table,
    TableStyle,
)

from exporters.own_rules import changed_words
from exporters.pdf.fonts import drawable
from exporters.report.abreast import BETWEEN_MM, abreast
from exporters.report.errors import errors_of
from exporters.report.every_finding import every_finding
from exporters.report.movement_picture import MovementPicture
from exporters.report.plan import Plan
from exporters.report.plan_picture import Mark, PlanPicture, seen_from_above, signs_of
from exporters.report.standing import Stands, standing_answer
from exporters.report.style import (
    BLACK,
    FINE_PT,
    LIGHT,
    MM,
    TEXT_SIZES,
    THIN_PT,
    bold,
    headed,
    styles,
)
from exporters.report.unbroken import unbroken
from exporters.report.words import (
    GUIDANCE,
    amiss,
    at_the_bench,
    counted,
    happens,
    noted,
    worst_of_each,
)
from furniture.checks.finding import Finding, Show, Verdict
from furniture.checks.of_piece import Group, Setting
from furniture.checks.of_piece.reading import badness
from furniture.checks.of_piece.seasons import Hold, Movement
from furniture.checks.stability import Leaning
from furniture.checks.tolerances import Chain


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """What the report tells: the findings, the plan if it stands, and what moves; and how large
    its words are set [pt]."""

    name: str
    told: str
    groups: tuple[Group, ...]
    plan: Plan | None
    movements: tuple[Movement, ...]
    chains: tuple[Chain, ...]
    setting: Setting
    show: Show
    text_pt: float = TEXT_SIZES[0]


def story_of(report: Report, width_mm: float) -> list[Flowable]:
    """Everything that the report says, in order.

    Args:
        report: what it tells.
        width_mm: of the text [mm].
    """
    return [
        *_head(report),
        *_in_words(report, width_mm),
        *_table(report, width_mm),
        *_seasons(report, width_mm),
        *errors_of(report.chains, report.show, width_mm),
    ]


def _p(text: str, style: str, text_pt: float = TEXT_SIZES[0]) -> Paragraph:
    return Paragraph(escape(drawable(unbroken(text))), styles(text_pt)[style])


def _head(report: Report) -> list[Flowable]:
    return [
        _p(f"{report.name}: will it stand, hold, and last a winter?", "title"),
        _p(report.told, "text", report.text_pt),
        Spacer(0, 1.2 * MM),
    ]


def _standing(report: Report) -> str:
    """The answer, and what to do where it rests on a finding."""
    answer = standing_answer(report.groups, report.show)
    finding = answer.rests_on
    if finding is None:
        return answer.sentence
    if answer.stands is Stands.YES:
        return f"{answer.sentence} {happens(finding, report.show)}"
    return f"{answer.sentence} {finding.advice[:1].upper()}{finding.advice[1:]}."


def _in_words(report: Report, width_mm: float) -> list[Flowable]:
    """Verdict by verdict; the picture of standing on the right of the words, or below them where
    they are many."""
    plan, show = report.plan, report.show
    if plan is None:
        return _words(report)
    narrow = width_mm * _PLAN_SHARE
    wide = width_mm - narrow - BETWEEN_MM
    high = _height(_words(report), wide * MM) / MM
    if high > _MOST_BESIDE_MM:
        caption, picture, *others = _stability(plan, show, (wide, _LEAST_PLAN_MM))
        return [*_words(report), caption, abreast([(picture, wide), (others, narrow)])]
    least = _stability(plan, show, (narrow, _LEAST_PLAN_MM))
    room = _LEAST_PLAN_MM + high - _height(least, narrow * MM) / MM
    room = min(max(room, _LEAST_PLAN_MM), _MOST_PLAN_MM)
    drawn = _stability(plan, show, (narrow, room))
    return [abreast([(_words(report), wide), (drawn, narrow)])]


def _words(report: Report) -> list[Flowable]:
    size = report.text_pt
    found: list[Flowable] = [
        _p(_standing(report), "strong", size),
        Spacer(0, 1.0 * MM),
        _p(_capital(counted(report.groups)), "text", size),
        Spacer(0, 1.5 * MM),
        _boxed(GUIDANCE, size),
    ]
    if changed := changed_words(report.setting.rules, report.show):
        found += [Spacer(0, 1.0 * MM), _p(changed, "text", size)]
    sound: list[str] = []
    for group in report.groups:
        if _is_sound(group):
            sound.append(_strong(group.subject.value))
        else:
            found += [*_sound(sound, size), *_group_in_words(group, report.show, size)]
            sound = []
    return [*found, *_sound(sound, size)]


_PLAN_SHARE, _MOST_BESIDE_MM = 0.39, 225.0
_LEAST_PLAN_MM, _MOST_PLAN_MM = 34.0, 54.0
"""The height of the picture of standing: as the words beside it leave room."""


def _height(some: Sequence[Flowable], width: float) -> float:
    """Of flowables under one another [pt]."""
    return math.fsum(
        each.getSpaceBefore() + each.wrap(width, 1e4)[1] + each.getSpaceAfter() for each in some
    )


def _is_sound(group: Group) -> bool:
    return not (amiss(group) or at_the_bench(group) or noted(group))


def _sound(lines: Sequence[str], text_pt: float) -> list[Flowable]:
    """Subjects in order that stand one after another are told together."""
    if not lines:
        return []
    told = f"{', '.join(lines)}: in order."
    return [Spacer(0, 1.0 * MM), Paragraph(told, styles(text_pt)["text"])]


def _group_in_words(group: Group, show: Show, text_pt: float) -> list[Flowable]:
    """What is amiss, then what is to be minded at the bench, then what is only noted."""
    wrong, bench, notes = amiss(group), at_the_bench(group), noted(group)
    told = (*worst_of_each(wrong), *worst_of_each(bench), *worst_of_each(notes))
    by_check = worst_of_each(wrong)
    fails, checks = (
        sum(each.verdict is Verdict.FAIL for each in by_check),
        len(worst_of_each(group.findings)),
    )
    words = f"{fails} of {checks} fail" if fails else _cautions(len(by_check))
    if not wrong:
        words = (
            f"{_cautions(len(worst_of_each(bench)))} at the bench"
            if bench
            else "in order, with notes"
        )
    head: list[Flowable] = [
        Spacer(0, 1.4 * MM),
        Paragraph(f"{_strong(group.subject.value)}: {words}.", styles(text_pt)["text"]),
    ]
    found: list[Flowable] = []
    for each in told:
        item = [_p(f"{_bullet(each)} {happens(each, show)}", "item", text_pt)]
        if each.advice:
            item.append(_p(f"To do: {each.advice}.", "change", text_pt))
        found += [*head, *item]
        head = []
    return found


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _cautions(number: int) -> str:
    return f"{number} {'caution' if number == 1 else 'cautions'}"


def _strong(text: str) -> str:
    return f'<font name="{bold()}">{escape(text)}</font>'


def _bullet(finding: Finding) -> str:
    return {Verdict.FAIL: "■", Verdict.CAUTION: "▫"}.get(finding.verdict, "–")


def _boxed(text: str, text_pt: float) -> Flowable:
    return Table(
        [[_p(text, "text", text_pt)]],
        style=TableStyle(
            [
                ("BOX", (0, 0), (-1, -1), THIN_PT, BLACK),
                ("LEFTPADDING", (0, 0), (-1, -1), 2 * MM),
                ("RIGHTPADDING", (0, 0), (-1, -1), 2 * MM),
                ("TOPPADDING", (0, 0), (-1, -1), 0.7 * MM),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 1.1 * MM),
            ]
        ),
    )


def _stability(plan: Plan, show: Show, size_mm: tuple[float, float]) -> list[Flowable]:
    """The picture in a room of this size, and below it the edges and its signs."""
    picture = PlanPicture(plan, show, size_mm)
    caption = (
        f"{seen_from_above(plan, f', at 1:{picture.scale:g}')} A tilt at which it falls "
        f"{plan.asked.source}."
    )
    return [_p(caption, "small"), picture, _edge_table(plan, show), _legend(plan)]


def _edge_table(plan: Plan, show: Show) -> Flowable:
    rows = [[_p(text, "small strong") for text in ("edge", "empty", "loaded at its worst")]]
    for each in plan.edges:
        rows.append(
            [
                _p(f"{each.letter} {each.edge.name}", "small"),
                _p(_tips(each.empty), "small"),
                _p(_loaded_words(each.loaded, show), "small"),
            ]
        )
    return Table(
        rows,
        colWidths=[15 * MM, 19 * MM, None],
        style=TableStyle(
            [
                ("LINEBELOW", (0, 0), (-1, 0), THIN_PT, BLACK),
                ("LINEBELOW", (0, 1), (-1, -1), FINE_PT, LIGHT),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("TOPPADDING", (0, 0), (-1, -1), 0.4),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 1.2),
                ("LEFTPADDING", (0, 0), (-1, -1), 2),
                ("RIGHTPADDING", (0, 0), (-1, -1), 2),
            ]
        ),
    )


def _tips(leaning: Leaning) -> str:
    return f"tips at {leaning.angle_deg:.1f}°"


def _loaded_words(leaning: Leaning | None, show: Show) -> str:
    if leaning is None:
        return "no loads stated"
    if not leaning.loads:
        return "worst when empty"
    return f"tips at {leaning.angle_deg:.1f}°, {show(leaning.inside_mm)} inside"


def _legend(plan: Plan) -> Flowable:
    return Table(
        [[Mark(sign), _p(words, "small")] for sign, words in signs_of(plan).items()],
        colWidths=[6 * MM, None],
        style=TableStyle(
            [
                ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
                ("LEFTPADDING", (0, 0), (-1, -1), 2),
                ("TOPPADDING", (0, 0), (-1, -1), 0.4),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 0.4),
            ]
        ),
    )


def _seasons(report: Report, width_mm: float) -> list[Flowable]:
    climate = report.setting.climate
    shown = _worth_a_picture(report.movements)
    if not shown:
        return [headed("Season by season", "Nothing in it moves where another part holds it.")]
    words = (
        f"{climate.name.capitalize()}: {climate.driest.told(report.show)}, "
        f"{climate.dampest.told(report.show)}; source of the air: {climate.driest.source}. "
        "Bars show what a size has lost (left) or gained (right) since it was made; past the "
        f"broken line no room is left.{_play_words(shown)}"
    )
    found: list[Flowable] = [headed("Season by season", words)]
    wide = width_mm / _BESIDE
    pictures = [
        MovementPicture(each, climate, report.show, wide - 4.0, report.setting.rules)
        for each in shown
    ]
    rows = [pictures[index : index + _BESIDE] for index in range(0, len(pictures), _BESIDE)]
    found.append(
        Table(
            [[*row, "", ""][:_BESIDE] for row in rows],
            colWidths=[wide * MM] * _BESIDE,
            style=TableStyle(
                [
                    ("LEFTPADDING", (0, 0), (-1, -1), 0),
                    ("RIGHTPADDING", (0, 0), (-1, -1), 0),
                    ("TOPPADDING", (0, 0), (-1, -1), 0.8 * MM),
                    ("BOTTOMPADDING", (0, 0), (-1, -1), 0),
                    ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ]
            ),
        )
    )
    return [KeepTogether(found)]


_BESIDE = 3
"""So many pictures of the seasons stand beside one another."""


def _worth_a_picture(movements: Sequence[Movement]) -> list[Movement]:
    """All that are loose or not in order, and of each other kind the one nearest to its limit."""
    moving = [each for each in movements if each.shift.range_mm > 0.0]
    nearest_of = {
        hold: min(
            (each for each in moving if each.meeting.hold is hold),
            key=lambda each: badness(each.finding),
            default=None,
        )
        for hold in Hold
    }
    return [
        each
        for each in moving
        if each.meeting.hold is Hold.LOOSE
        or each.finding.verdict is not Verdict.OK
        or each is nearest_of[each.meeting.hold]
    ]


def _play_words(movements: Sequence[Movement]) -> str:
    if any(each.meeting.hold is Hold.LOOSE for each in movements):
        return " A loose part should stop a card's thickness short of it."
    return ""


def _table(report: Report, width_mm: float) -> list[Flowable]:
    words = (
        "What has no verdict before it is in order; ≥ at least, ≤ at most. Of several of one "
        "kind in order the one closest to its limit is listed. checks.csv has how each figure was "
        "worked out, rules.csv every limit with its source; a script may change those that do not "
        "say why they stay."
    )
    rows = every_finding(report.groups, report.show, width_mm)
    return [headed("Every finding", words), Spacer(0, 0.6 * MM), rows]
