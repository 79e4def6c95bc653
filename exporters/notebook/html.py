"""Small HTML for a notebook's cell."""

from __future__ import annotations

import base64
import io
from html import escape

from exporters.report.words import NONE_TOLD, VERDICT_WORDS, asked, found_and_limit
from furniture.checks.finding import Finding
from furniture.pieces.piece import Piece, distinct_parts, extents_of
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.units import Amounts, figure_with_unit, finished_size, millimetres

_PICTURE_DOTS = 300


def piece_html(piece: Piece) -> str:
    """A piece: a small picture, its sizes and its parts.

    Args:
        piece: any; one whose solids cannot be made is told without a picture.
    """
    if not piece.placed:
        return f"<p><b>{escape(piece.name)}</b>: no parts</p>"
    low, high = extents_of(piece)
    sizes = " x ".join(figure_with_unit(b - a, piece.shown) for a, b in zip(low, high, strict=True))
    rows = "".join(
        f"<tr><td>{each.quantity}</td><td>{escape(each.part.name)}</td>"
        f"<td>{escape(finished_size(each.part.blank.size, piece.shown))}</td>"
        f"<td>{escape(each.part.timber.name)}</td></tr>"
        for each in distinct_parts(piece)
    )
    return (
        f'<div style="display:flex;gap:1.5em;align-items:flex-start">{_picture(piece)}<div>'
        f"<p><b>{escape(piece.name)}</b>: {escape(sizes)}</p>"
        f"<table><thead><tr><th>qty</th><th>part</th><th>L x W x T "
        f"[{piece.shown.unit.symbol}]</th><th>stock</th></tr></thead>"
        f"<tbody>{rows}</tbody></table></div></div>"
    )


def _picture(piece: Piece) -> str:
    from exporters.pictures import Shown, picture_of
    from furniture.errors import SolidError

    try:
        image = picture_of(Shown(piece=piece), _PICTURE_DOTS, 1)
    except SolidError as error:
        return f"<p>{escape(str(error))}</p>"
    memory = io.BytesIO()
    image.save(memory, "JPEG", quality=80)
    data = base64.b64encode(memory.getvalue()).decode()
    return f'<img alt="{escape(piece.name, quote=True)}" src="data:image/jpeg;base64,{data}">'


def finding_html(finding: Finding) -> str:
    """A finding: what was checked, how it is judged, and what to do.

    Args:
        finding: any.
    """
    show = Amounts(shown=millimetres())
    value = "not known" if finding.value is None else found_and_limit(finding, show)[0]
    limit = asked(finding, show)
    value += "" if limit == NONE_TOLD else f", limit {limit}"
    advice = f"<br>{escape(finding.advice)}" if finding.advice else ""
    if finding.parameters:
        advice += f" ({escape(', '.join(finding.parameters))})"
    return (
        f"<p><b>{escape(VERDICT_WORDS[finding.verdict])}</b>: {escape(finding.check.name)}, "
        f"{escape(finding.subject)}: {escape(value)}{advice}</p>"
    )


def plan_html(outcome: CuttingOutcome) -> str:
    """A cutting plan: what comes off which board.

    Args:
        outcome: the plan and its job.
    """
    rows = "".join(
        f"<tr><td>{escape(board.board)}</td>"
        f"<td>{escape(', '.join(outcome.name_of(each) for each in board.placements))}</td>"
        f"<td>{100 * board.yield_share:.0f} %</td></tr>"
        for board in outcome.used
    )
    if not rows:
        return "<p>Nothing is laid on boards.</p>"
    return (
        "<table><thead><tr><th>board</th><th>parts</th><th>used</th></tr></thead>"
        f"<tbody>{rows}</tbody></table>"
    )
