"""Variants side by side: true figures under each, all at one scale, refusals by their names."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from exporters.command import run
from exporters.compare import (
    CompareError,
    Variant,
    compare,
    variant_of,
    variants_given,
    write_comparison,
)
from furniture import DesignError
from furniture.checks.of_piece.setting import Setting
from furniture.pieces import extents_of
from furniture.shop.boards import cutting_job
from furniture.shop.boards.outcome import outcome_of
from furniture.solids.measure import weigh
from models.herb_stand import stand as STAND  # noqa: N812
from tests.builders.bench import a_box
from tests.exporters.page.browser import browsing, needs_browser
from tests.shop.boards.bench import board, stand, thin_board

BOXES = {"as it is": a_box(), "twice as high": a_box(height="160 mm", width="250 mm")}


@pytest.fixture(scope="module")
def found() -> list[Variant]:
    """Both boxes as they are compared."""
    return [variant_of(name, design.build(), Setting()) for name, design in BOXES.items()]


def _outlines(svg: str) -> list[tuple[float, float]]:
    """Width and height of each drawn shape but the page, in the picture's own measure."""
    sizes = []
    for path in re.findall(r'<g id="patch_\d+">\s*<path d="([^"]+)"', svg):
        figures = [float(each) for each in re.findall(r"-?[\d.]+", path)]
        across, up = figures[0::2], figures[1::2]
        sizes.append((max(across) - min(across), max(up) - min(up)))
    return sizes[1:]


def test_all_are_drawn_at_one_scale(found: list[Variant], tmp_path: Path) -> None:
    """Five of them, so that the last one stands in a row of its own."""
    five = [*found, *found, found[1]]
    svg = write_comparison(five, tmp_path / "boxes.svg").read_text(encoding="utf-8")
    sizes = _outlines(svg)
    assert len(sizes) == 2 * len(five)
    scales = set()
    for number, each in enumerate(five):
        low, high = extents_of(BOXES[each.name].build())
        wide, deep, tall = (high[axis] - low[axis] for axis in range(3))
        (front_wide, front_tall), (side_wide, side_tall) = sizes[2 * number : 2 * number + 2]
        scales |= {
            round(drawn / true, 3)
            for drawn, true in (
                (front_wide, wide), (front_tall, tall), (side_wide, deep), (side_tall, tall),
            )
        }  # fmt: skip
    assert max(scales) - min(scales) < 0.005


def test_the_figures_are_those_of_the_piece_and_its_boards() -> None:
    """By hand: boards of 40 and 30 EUR are both begun."""
    piece = stand()
    boards = [board(price="40 EUR"), thin_board(price="30 EUR")]
    plan = outcome_of(cutting_job(piece, boards))
    told = variant_of("as it is", piece, Setting(), plan).figures
    weighed = weigh(piece)
    assert told["height"] == f"{weighed.extents[1][2] - weighed.extents[0][2]:.1f} mm"
    assert float(told["mass"].removesuffix(" kg")) == pytest.approx(
        weighed.whole.mass_kg, rel=0.005
    )
    assert told["price"] == "70 EUR"
    assert re.fullmatch(r"[\d.]+ N", told["push to tip"])
    narrow = outcome_of(cutting_job(piece, [board(price="40 EUR"), thin_board(widths="60 mm")]))
    assert variant_of("x", piece, Setting(), narrow).figures["price"] == "2 parts have no place"


def test_a_page_draws_all_at_one_scale_over_their_figures(
    found: list[Variant], tmp_path: Path
) -> None:
    page = write_comparison(found, tmp_path / "new" / "boxes.html").read_text(encoding="utf-8")
    scales = set()
    drawn = re.findall(r'class="outline" d="([^"]+)"', page)
    assert len(drawn) == 2 * len(found)
    for each, front in zip(found, drawn[::2], strict=True):
        low, high = extents_of(BOXES[each.name].build())
        points = [float(figure) for figure in re.findall(r"-?[\d.]+", front)]
        for axis, along in ((0, points[0::2]), (2, points[1::2])):
            scales.add((max(along) - min(along)) / (high[axis] - low[axis]))
        assert f'<th scope="col">{each.name}</th>' in page
        assert all(f"<td>{told}</td>" in page for told in each.figures.values())
    assert max(scales) / min(scales) < 1.001
    assert not re.search(r'(src|href)="(?!#|data:)', page)
    png = compare({"as it is": BOXES["as it is"].build()}, tmp_path / "boxes.png")
    assert png.read_bytes()[1:4] == b"PNG"


@needs_browser
def test_the_page_fits_a_phone_and_is_for_everyone(found: list[Variant], tmp_path: Path) -> None:
    from axe_playwright_python.sync_playwright import Axe

    path = write_comparison([*found, *found], tmp_path / "boxes.html")
    with browsing(width=375, height=740) as page:
        page.goto(path.as_uri())
        assert page.evaluate("document.documentElement.scrollWidth") <= 375
        assert [each["id"] for each in Axe().run(page).response["violations"]] == []
        assert page.told == []


def test_a_command_line_varies_any_length_of_a_design(tmp_path: Path) -> None:
    stand = replace(STAND, base_width="330 mm")
    given = variants_given(stand, ["base_width=36 cm, tiers.count=2", "tiers.rise = 10 1/4 in"])
    assert list(given) == ["as it is", "base_width=36 cm, tiers.count=2", "tiers.rise = 10 1/4 in"]
    one, two = list(given.values())[1:]
    assert (one.base_width, one.tiers.count, one.tiers.rise) == ("36 cm", 2, stand.tiers.rise)
    assert (two.base_width, two.tiers.rise) == ("330 mm", "10 1/4 in")
    with pytest.raises(CompareError, match="did you mean base_width"):
        variants_given(stand, ["base_widht=1 m"])
    with pytest.raises(CompareError, match="parameter=value"):
        variants_given(stand, ["wider"])
    path = tmp_path / "boxes.html"
    asked = ["--compare", str(path), "--with", "height=160 mm"]
    assert run(BOXES["as it is"], asked) == 0
    assert '<th scope="col">height=160 mm</th>' in path.read_text(encoding="utf-8")
    assert run(BOXES["as it is"], asked[2:]) == 1


def test_what_cannot_be_compared_is_refused_by_its_name(tmp_path: Path) -> None:
    with pytest.raises(CompareError, match="nothing to compare"):
        compare({}, tmp_path / "x.png")
    with pytest.raises(CompareError, match=r"\.png, \.svg, \.html"):
        compare(BOXES, tmp_path / "x.jpg")
    bad = {"sound": a_box(), "flat": a_box(height="0 mm"), "wide": a_box(width="9 m")}
    with pytest.raises(DesignError) as caught:
        compare(bad, tmp_path / "x.svg")
    assert [each.parameter for each in caught.value.problems] == ["flat: height", "wide: width"]
    assert not (tmp_path / "x.svg").exists()
