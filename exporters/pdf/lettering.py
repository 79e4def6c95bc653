"""Text entities as runs of letters in their own frame: base line along x, model units."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from ezdxf.document import Drawing
from ezdxf.entities import MText, Text
from ezdxf.enums import TextEntityAlignment
from ezdxf.math import Vec2
from ezdxf.tools.text import MTextContext, MTextParser, TokenType

from exporters.pdf.fonts import drawable, font_named, text_width

_DESCENT = 0.32
"""How far the lowest letters hang below the line, per height of a capital (DejaVu Sans)."""
_LINE_STEP = 5.0 / 3.0
"""Base line to base line per height of a capital. Source: DXF reference, MTEXT, 3-on-5 spacing."""
_STACK_GAP = 0.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """Letters on one base line: where they start, how high a capital is, how far stretched."""

    text: str
    x: float
    y: float
    capital: float
    font: str
    stretch: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """A thin line that belongs to the text, such as a fraction's bar."""

    start: tuple[float, float]
    end: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A text in its frame: where 0, 0 lies in model space, which way the base line runs."""

    origin: Vec2
    along: Vec2
    runs: tuple[Run, ...]
    rules: tuple[Rule, ...] = ()


def block_of_text(text: Text, document: Drawing) -> Block:
    """The one line of a TEXT entity.

    Args:
        text: the entity.
        document: holds its text style.
    """
    font = _font_of(str(text.dxf.style), document)
    capital, stretch = float(text.dxf.height), float(text.dxf.get("width", 1.0))
    shown = drawable(text.plain_text())
    width = text_width(shown, font, capital) * stretch
    alignment, first, second = text.get_placement()
    along = Vec2.from_deg_angle(float(text.dxf.get("rotation", 0.0)))
    x, y = -width * _share_left(alignment), -capital * _share_below(alignment)
    if second is not None:  # between two points: stretched, or as a whole larger or smaller
        span = Vec2(second) - Vec2(first)
        grown = span.magnitude / width if width > 0 else 1.0
        along, x, y = span.normalize(), 0.0, 0.0
        if alignment is TextEntityAlignment.ALIGNED:
            capital *= grown
        else:
            stretch *= grown
    return Block(
        origin=Vec2(first),
        along=along,
        runs=(Run(text=shown, x=x, y=y, capital=capital, font=font, stretch=stretch),),
    )


def _share_left(alignment: TextEntityAlignment) -> float:
    name = alignment.name
    if name.endswith("RIGHT"):
        return 1.0
    return 0.5 if name.endswith("CENTER") or name == "MIDDLE" else 0.0


def _share_below(alignment: TextEntityAlignment) -> float:
    name = alignment.name
    if name.startswith("TOP"):
        return 1.0
    if name.startswith("MIDDLE"):
        return 0.5
    return -_DESCENT if name.startswith("BOTTOM") else 0.0


@dataclass(slots=True)
class _Line:
    """A line of an MTEXT while it is set: what is on it and how far it has come."""

    width: float = 0.0
    runs: list[Run] = field(default_factory=list)
    rules: list[Rule] = field(default_factory=list)


def block_of_mtext(mtext: MText, document: Drawing) -> Block:
    """The lines of an MTEXT entity, fractions stacked, wrapped where it has a width.

    Args:
        mtext: the entity.
        document: holds its text style.
    """
    font = _font_of(str(mtext.dxf.style), document)
    capital = float(mtext.dxf.char_height)
    lines = _set_lines(mtext, font, capital)
    step = capital * _LINE_STEP * float(mtext.dxf.get("line_spacing_factor", 1.0))
    height = capital + step * (len(lines) - 1)
    attachment = int(mtext.dxf.get("attachment_point", 1)) - 1
    row, column = divmod(attachment, 3)
    top = (0.0, height / 2.0, height)[row]
    runs: list[Run] = []
    rules: list[Rule] = []
    for index, line in enumerate(lines):
        dx, dy = -line.width * column / 2.0, top - capital - step * index
        runs += (_moved_run(run, dx, dy) for run in line.runs)
        rules += (_moved_rule(rule, dx, dy) for rule in line.rules)
    return Block(
        origin=Vec2(mtext.dxf.insert),
        along=Vec2.from_deg_angle(float(mtext.get_rotation())),
        runs=tuple(runs),
        rules=tuple(rules),
    )


def _set_lines(mtext: MText, font: str, capital: float) -> list[_Line]:
    context = MTextContext()
    context.cap_height = capital
    limit = float(mtext.dxf.get("width", 0.0) or 0.0)
    lines = [_Line()]
    spaces = 0
    for token in MTextParser(mtext.text, context):
        height, stretch = float(token.ctx.cap_height), float(token.ctx.width_factor)
        if token.type in (TokenType.SPACE, TokenType.NBSP, TokenType.TABULATOR):
            spaces += 1
        elif token.type in (TokenType.NEW_PARAGRAPH, TokenType.NEW_COLUMN):
            lines.append(_Line())
            spaces = 0
        elif token.type in (TokenType.WORD, TokenType.STACK):
            if token.type is TokenType.WORD:
                piece = _word(str(token.data), font, height, stretch)
            else:
                piece = _stack(token.data, font, height, capital)
            gap = spaces * text_width(" ", font, height) * stretch
            if (
                limit > 0
                and lines[-1].runs
                and spaces
                and lines[-1].width + gap + piece.width > limit
            ):
                lines.append(_Line())
                spaces, gap = 0, 0.0
            _append(lines[-1], piece, spaces, gap)
            spaces = 0
    return lines


def _append(line: _Line, piece: _Line, spaces: int, gap: float) -> None:
    at = line.width + gap
    last, first = (line.runs[-1] if line.runs else None), piece.runs[0]
    if last is not None and len(piece.runs) == 1 and _goes_on(last, first):
        # words of a line as one run, so that a search finds them together
        line.runs[-1] = replace(last, text=last.text + " " * spaces + first.text)
    else:
        line.runs += (_moved_run(run, at, 0.0) for run in piece.runs)
    line.rules += (_moved_rule(rule, at, 0.0) for rule in piece.rules)
    line.width = at + piece.width


def _goes_on(last: Run, run: Run) -> bool:
    is_on_line = last.y == run.y == 0.0
    return is_on_line and last.capital == run.capital and last.stretch == run.stretch


def _word(text: str, font: str, height: float, stretch: float) -> _Line:
    text = drawable(text)
    run = Run(text=text, x=0.0, y=0.0, capital=height, font=font, stretch=stretch)
    return _Line(width=text_width(text, font, height) * stretch, runs=[run])


def _stack(data: tuple[str, str, str], font: str, height: float, capital: float) -> _Line:
    """A fraction or a pair of deviations; its bar lies half way up the line's capitals."""
    upper, lower, kind = data
    widths = [text_width(part, font, height) for part in (upper, lower)]
    gap, middle = height * _STACK_GAP, capital / 2.0
    if kind == "#":  # numerator raised, denominator on the line, a stroke between
        start = widths[0] + gap
        runs = [
            Run(text=upper, x=0.0, y=capital * 1.1 - height, capital=height, font=font),
            Run(text=lower, x=start + gap, y=-capital * 0.1, capital=height, font=font),
        ]
        stroke = Rule(
            start=(start - height * 0.4, -capital * 0.1), end=(start + height * 0.4, capital * 1.1)
        )
        return _Line(width=start + gap + widths[1], runs=runs, rules=[stroke])
    width = max(widths)
    places = zip((upper, lower), widths, (middle + gap, middle - gap - height), strict=True)
    runs = [
        Run(text=part, x=(width - own) / 2, y=y, capital=height, font=font)
        for part, own, y in places
    ]
    bar = [Rule(start=(0.0, middle), end=(width, middle))] if kind == "/" else []
    return _Line(width=width, runs=runs, rules=bar)


def _moved_run(run: Run, dx: float, dy: float) -> Run:
    return replace(run, x=run.x + dx, y=run.y + dy)


def _moved_rule(rule: Rule, dx: float, dy: float) -> Rule:
    (x0, y0), (x1, y1) = rule.start, rule.end
    return Rule(start=(x0 + dx, y0 + dy), end=(x1 + dx, y1 + dy))


def _font_of(style: str, document: Drawing) -> str:
    if style in document.styles:
        return font_named(str(document.styles.get(style).dxf.font))
    return font_named("")
