"""The report's pages: verdicts in words and the plan, the seasons, every finding in a table."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from reportlab.platypus import (
    Flowable,
    KeepTogether,
    LongTable,
    Paragraph,
    Spacer,
    Table,
    TableStyle,
)

from exporters.own_rules import changed_words
from exporters.pdf.fonts import drawable
from exporters.report.errors import errors_of
from exporters.report.movement_picture import MovementPicture
from exporters.report.plan import Plan
from exporters.report.plan_picture import Mark, PlanPicture, seen_from_above, signs_of
from exporters.report.standing import Stands, standing_answer
from exporters.report.style import BLACK, FINE_PT, LIGHT, MM, THIN_PT, bold, styles
from exporters.report.unbroken import unbroken
from exporters.report.words import (
    GUIDANCE,
    VERDICT_WORDS,
    amiss,
    asked,
    at_the_bench,
    counted,
    found_and_limit,
    happens,
    nearest,
    noted,
    worst_of_each,
)
from furniture.checks.finding import Finding, Kind, Show, Verdict
from furniture.checks.of_piece import Group, Setting, Subject
from furniture.checks.of_piece.reading import badness
from furniture.checks.of_piece.seasons import Hold, Movement
from furniture.checks.stability import Leaning
from furniture.checks.tolerances import Chain


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """What the report tells: the findings, the plan if it stands, and what moves."""

    name: str
    told: str
    groups: tuple[Group, ...]
    plan: Plan | None
    movements: tuple[Movement, ...]
    chains: tuple[Chain, ...]
    setting: Setting
    show: Show


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
        Spacer(0, 2 * MM),
        _p(_RULES, "small"),
        *_seasons(report, width_mm),
        *errors_of(report.chains, report.show, width_mm),
    ]


_RULES = (
    "Every limit behind these checks and behind the piece stands in rules.csv with its source; a "
    "script may change all but those that say there why they stay."
)


def _p(text: str, style: str) -> Paragraph:
    return Paragraph(escape(drawable(unbroken(text))), styles()[style])


def _head(report: Report) -> list[Flowable]:
    return [
        _p(f"{report.name}: will it stand, hold, and last a winter?", "title"),
        _p(report.told, "text"),
        Spacer(0, 2 * MM),
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
    """Verdict by verdict; the picture of standing lies under its words."""
    found: list[Flowable] = [
        _p(_standing(report), "strong"),
        Spacer(0, 1.0 * MM),
        _p(_capital(counted(report.groups)), "text"),
        Spacer(0, 1.5 * MM),
        _boxed(GUIDANCE),
    ]
    if changed := changed_words(report.setting.rules, report.show):
        found += [Spacer(0, 1.0 * MM), _p(changed, "text")]
    sound: list[str] = []
    for group in report.groups:
        if _is_sound(group):
            sound.append(_sound_words(group, report.show))
        else:
            found += [*_sound(sound), *_group_in_words(group, report.show)]
            sound = []
        if group.subject is Subject.STANDING:
            found += [*_sound(sound), *_stability(report, width_mm)]
            sound = []
    return [*found, *_sound(sound)]


def _is_sound(group: Group) -> bool:
    return not (amiss(group) or at_the_bench(group) or noted(group))


def _sound_words(group: Group, show: Show) -> str:
    near = nearest(group, show)
    tail = f"; {near}" if near else ""
    return f"{_strong(group.subject.value)}: in order{escape(unbroken(tail))}."


def _sound(lines: Sequence[str]) -> list[Flowable]:
    """Subjects in order that stand one after another run on in one paragraph."""
    if not lines:
        return []
    return [Spacer(0, 1.4 * MM), Paragraph(" ".join(lines), styles()["text"])]


def _group_in_words(group: Group, show: Show) -> list[Flowable]:
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
        Paragraph(f"{_strong(group.subject.value)}: {words}.", styles()["text"]),
    ]
    found: list[Flowable] = []
    for each in told:
        item = [_p(f"{_bullet(each)} {happens(each, show)}", "item")]
        if each.advice:
            item.append(_p(f"To do: {each.advice}.", "change"))
        found.append(KeepTogether([*head, *item]))
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


def _boxed(text: str) -> Flowable:
    return Table(
        [[_p(text, "text")]],
        style=TableStyle(
            [
                ("BOX", (0, 0), (-1, -1), THIN_PT, BLACK),
                ("LEFTPADDING", (0, 0), (-1, -1), 2 * MM),
                ("RIGHTPADDING", (0, 0), (-1, -1), 2 * MM),
                ("TOPPADDING", (0, 0), (-1, -1), 1.4 * MM),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 1.8 * MM),
            ]
        ),
    )


def _stability(report: Report, width_mm: float) -> list[Flowable]:
    plan = report.plan
    if plan is None:
        return []
    left = width_mm * 0.55
    picture = PlanPicture(plan, report.show, (left, 54.0))
    right = [_edge_table(plan, report.show), Spacer(0, 2 * MM), *_legend(plan)]
    body = Table(
        [[picture, right]],
        colWidths=[left * MM, (width_mm - left) * MM],
        style=TableStyle(
            [
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("RIGHTPADDING", (0, 0), (-1, -1), 0),
            ]
        ),
    )
    caption = (
        f"{seen_from_above(plan, f', at 1:{picture.scale:g}')} A tilt at which it falls "
        f"{plan.asked.source}."
    )
    return [KeepTogether([Spacer(0, 1.5 * MM), _p(caption, "small"), body])]


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
        colWidths=[19 * MM, 21 * MM, None],
        style=TableStyle(
            [
                ("LINEBELOW", (0, 0), (-1, 0), THIN_PT, BLACK),
                ("LINEBELOW", (0, 1), (-1, -1), FINE_PT, LIGHT),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("TOPPADDING", (0, 0), (-1, -1), 1.2),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 1.8),
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


def _legend(plan: Plan) -> list[Flowable]:
    return [
        Table(
            [[Mark(sign), _p(words, "small")] for sign, words in signs_of(plan).items()],
            colWidths=[6 * MM, None],
            style=TableStyle(
                [
                    ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
                    ("LEFTPADDING", (0, 0), (-1, -1), 2),
                    ("TOPPADDING", (0, 0), (-1, -1), 1),
                    ("BOTTOMPADDING", (0, 0), (-1, -1), 1),
                ]
            ),
        )
    ]


def _seasons(report: Report, width_mm: float) -> list[Flowable]:
    climate = report.setting.climate
    shown = _worth_a_picture(report.movements)
    head = _p("Season by season", "head")
    found: list[Flowable] = []
    if not shown:
        return [head, _p("Nothing in it moves where another part holds it.", "text")]
    words = (
        f"{climate.name.capitalize()}: {climate.driest.told(report.show)}, "
        f"{climate.dampest.told(report.show)}; source of the air: {climate.driest.source}. "
        "Bars show how much a size has shrunk (left) or grown (right) since it was made, "
        "against the part that holds it; past the broken line there is no "
        f"room left. {_play_words(shown)}"
    )
    found.append(_p(words, "small"))
    half = width_mm / 2.0 - 3.0
    pictures = [
        MovementPicture(each, climate, report.show, half, report.setting.rules) for each in shown
    ]
    rows = [pictures[index : index + 2] for index in range(0, len(pictures), 2)]
    found.append(
        Table(
            [[*row, ""][:2] for row in rows],
            colWidths=[width_mm / 2.0 * MM] * 2,
            style=TableStyle(
                [
                    ("LEFTPADDING", (0, 0), (-1, -1), 0),
                    ("RIGHTPADDING", (0, 0), (-1, -1), 0),
                    ("TOPPADDING", (0, 0), (-1, -1), 1.2 * MM),
                    ("BOTTOMPADDING", (0, 0), (-1, -1), 0),
                    ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ]
            ),
        )
    )
    return [KeepTogether([head, *found])]


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
        return "A loose part should keep a card's thickness short of that line."
    return ""


def _table(report: Report, width_mm: float) -> list[Flowable]:
    shares = (0.12, 0.24, 0.32, 0.10, 0.135, 0.085)
    titles = ("about", "check", "where", "found", "limit", "verdict")
    rows: list[list[Flowable]] = [[_p(text, "small strong") for text in titles]]
    style: list[tuple[object, ...]] = [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("TOPPADDING", (0, 0), (-1, -1), 0.6),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 1.4),
        ("LEFTPADDING", (0, 0), (-1, -1), 2),
        ("RIGHTPADDING", (0, 0), (-1, -1), 3),
        ("LINEBELOW", (0, 0), (-1, 0), THIN_PT, BLACK),
        ("LINEBELOW", (1, 1), (-1, -1), FINE_PT, LIGHT),
    ]
    for group in report.groups:
        about = group.subject.value
        style.append(("LINEABOVE", (0, len(rows)), (-1, len(rows)), THIN_PT, LIGHT))
        for each in sorted(group.findings, key=badness):
            rows.append([_p(about, "small strong"), *_row(each, report.show)])
            about = ""
    table = LongTable(
        rows, colWidths=[share * width_mm * MM for share in shares], repeatRows=1,
        style=TableStyle(style),
    )  # fmt: skip
    words = (
        "checks.csv tells how each figure was worked out, with its source and that of the limit. "
        "Where several findings of one kind are in order, the one closest to its limit is listed."
    )
    return [_p("Every finding", "head"), _p(words, "small"), Spacer(0, 1.5 * MM), table]


def _verdict_words(finding: Finding) -> str:
    words = VERDICT_WORDS[finding.verdict]
    is_bench = finding.check.kind is Kind.BENCH and finding.verdict is Verdict.CAUTION
    return f"{words} at the bench" if is_bench else words


def _row(finding: Finding, show: Show) -> list[Flowable]:
    style = "small" if finding.verdict is Verdict.OK else "small strong"
    return [
        _p(finding.check.name, "small"),
        _p(finding.subject, "small"),
        _p(found_and_limit(finding, show)[0], "small"),
        _p(asked(finding, show), "small"),
        _p(_verdict_words(finding), style),
    ]
