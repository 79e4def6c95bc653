"""In a notebook: small, whole, and the maker's letters shown and not obeyed."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree import ElementTree

import exporters  # noqa: F401 - importing it lets values show themselves
from exporters.report.words import VERDICT_WORDS
from furniture.checks.of_piece import findings_of
from furniture.pieces.piece import Piece
from furniture.solids.measure import weigh
from tests.models import piece_of
from tests.shop.boards.bench import outcome_of_model


def shown(value: object) -> str:
    """What a notebook shows, which must be well formed."""
    html = value._repr_html_()  # type: ignore[attr-defined]
    closed = re.sub(r"<(br|img)([^>]*)>", r"<\1\2/>", html)
    ElementTree.fromstring(f"<div>{closed}</div>")
    return html


def test_a_piece_shows_itself_small() -> None:
    piece = piece_of("tea_box")
    html = shown(piece)
    assert len(html) < 40_000
    assert html.count("<tr>") == 1 + len({id(each.part) for each in piece.placed})
    assert "data:image/jpeg;base64," in html
    assert "<b>x" not in shown(replace(piece, name="<b>x"))


def test_the_repr_of_a_piece_is_a_line() -> None:
    assert repr(piece_of("herb_stand")) == "<Piece 'Herb stand': 17 parts, 320 x 210 x 714 mm>"
    assert repr(Piece(name="nothing")) == "<Piece 'nothing': no parts>"
    assert shown(Piece(name="nothing")) == "<p><b>nothing</b>: no parts</p>"


def test_findings_and_plans_show_themselves() -> None:
    piece = piece_of("key_rack")
    for finding in findings_of(piece, weigh(piece)):
        html = shown(finding)
        assert len(html) < 3_000
        assert f"<b>{VERDICT_WORDS[finding.verdict]}</b>" in html
        assert " deg" not in html  # as on paper: 12.5°
    html = shown(outcome_of_model("key_rack"))
    for each in piece.placed:
        assert each.instance in html
