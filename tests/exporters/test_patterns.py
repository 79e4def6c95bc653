"""Full-size patterns measured on the printed pages with an independent PDF reader (pdfplumber).

Pages are joined as a maker would: a cross of the same letter on each other.
"""

from __future__ import annotations

import math
import re
from collections import defaultdict
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import ezdxf
import pdfplumber
import pyogrio.raw
import pytest

from exporters.patterns import Pattern, patterns_of, write_patterns
from exporters.patterns.pages import PageLook, is_printed, pages_of
from exporters.patterns.pattern import Note, Printed, outline
from exporters.patterns.tiles import MARGIN_MM, MOST_PAGES, tiling_of
from exporters.patterns.turned_over import each_once
from exporters.sheets import DxfVersion, Paper, SheetSettings
from exporters.sheets.paper import Box2
from exporters.sheets.pens import ISO_STYLE
from exporters.sheets.values import Lettering
from furniture.parts.cuts import Bore, Dado, FlatMitre, Notch
from furniture.parts.faces import Face
from furniture.pieces.piece import Piece
from furniture.units import millimetres
from tests.exporters.collisions import collisions_in
from tests.exporters.documents import pattern_pages
from tests.exporters.sheet_samples import SAMPLES, part, piece_of
from tests.exporters.test_sheets_rebuild import MODELS, piece_in

pytestmark = pytest.mark.some_models

MM = 25.4 / 72.0
"""One point of a PDF: 1/72 in (ISO 32000)."""
MOST_PAGES_OF = {"herb_stand": 1, "yarn_steps": 2, "seedling_steps": 1, "key_rack": 1,
                 "tea_box": 1, "button_box": 1}  # fmt: skip
POST = next(part for part in SAMPLES if part.name == "post")


@dataclass
class Page:
    """A page as read: straight lines (x0, y0, x1, y1, pen) in mm from the lower left, and words."""

    lines: list[tuple[float, float, float, float, float]]
    words: list[tuple[str, float, float]]
    text: str


def read_pages(path: Path) -> list[Page]:
    """Every page of a PDF."""
    pages = []
    with pdfplumber.open(path) as pdf:
        for page in pdf.pages:
            high = float(page.height)
            lines = []
            for line in page.lines:
                ends = sorted((x, high - y) for x, y in line["pts"])
                (x0, y0), (x1, y1) = ends
                pen = float(line["linewidth"]) * MM
                lines.append((x0 * MM, y0 * MM, x1 * MM, y1 * MM, pen))
            words = [
                (word["text"], word["x0"] * MM, (high - word["bottom"]) * MM)
                for word in page.extract_words()
            ]
            pages.append(Page(lines=lines, words=words, text=page.extract_text()))
    return pages


def crosses_on(page: Page) -> dict[str, tuple[float, float]]:
    """Registration marks: two lines of 8 mm that halve each other, and the capital beside them."""
    level, upright = [], []
    for x0, y0, x1, y1, _ in page.lines:
        if abs(y1 - y0) < 0.01 and abs(x1 - x0 - 8.0) < 0.05:
            level.append(((x0 + x1) / 2, y0))
        if abs(x1 - x0) < 0.01 and abs(abs(y1 - y0) - 8.0) < 0.05:
            upright.append((x0, (y0 + y1) / 2))
    found = {}
    for at in level:
        if any(math.dist(at, other) < 0.05 for other in upright):
            letters = [w for w in page.words if w[0].isupper() and w[0].isalpha()]
            name, x, y = min(letters, key=lambda w: math.dist((w[1] + 1.3, w[2] + 1.7), at))
            assert math.dist((x + 1.3, y + 1.7), at) < 12.0
            found[name] = at
    return found


def joined(pages: list[Page]) -> list[tuple[float, float]]:
    """How far each page is shifted onto the first one, by its crosses [mm]."""
    placed: dict[int, tuple[float, float]] = {0: (0.0, 0.0)}
    marks = [crosses_on(page) for page in pages]
    while len(placed) < len(pages):
        before = len(placed)
        for index, own in enumerate(marks):
            for other, (dx, dy) in list(placed.items()):
                shared = sorted(set(own) & set(marks[other]))
                if index in placed or len(shared) < 2:
                    continue
                shifts = [
                    (marks[other][n][0] + dx - own[n][0], marks[other][n][1] + dy - own[n][1])
                    for n in shared
                ]
                for shift in shifts[1:]:  # the marks lie as far apart on both pages
                    assert shift == pytest.approx(shifts[0], abs=0.05)
                placed[index] = shifts[0]
        assert len(placed) > before, "a page shares no two crosses with its neighbours"
    return [placed[index] for index in range(len(pages))]


def strips_of(pages: list[Page]) -> list[Page]:
    """The strips that share pages, from the top: each from its rule across the page to the next."""
    strips = []
    for page in pages:
        wide = 0.85 * (max(x for _, _, x, *_ in page.lines) - min(x for x, *_ in page.lines))
        rules = {round(y0, 2) for x0, y0, x1, y1, pen in page.lines
                 if x1 - x0 > wide and y0 == y1 and pen < 0.4}  # fmt: skip
        header = max(rules)  # the line under the page's own heading
        tops = sorted((y for y in rules if y < header - 0.5), reverse=True)
        for top, low in zip(tops, [*tops[1:], 0.0], strict=True):
            lines = [line for line in page.lines if low < line[1] < top and low < line[3] < top]
            words = [word for word in page.words if low < word[2] < top]
            strips.append(Page(lines=lines, words=words, text=" ".join(w[0] for w in words)))
    return strips


def groups_of(pages: list[Page]) -> dict[str, list[Page]]:
    """The pages by the heading on their second line."""
    groups: dict[str, list[Page]] = defaultdict(list)
    for page in pages:
        groups[page.text.splitlines()[1].split(":")[0].split("This bar")[0]].append(page)
    return groups


@pytest.fixture(scope="module")
def post(tmp_path_factory: pytest.TempPathFactory) -> tuple[Piece, list[Page]]:
    piece = piece_of(POST)
    folder = tmp_path_factory.mktemp("post")
    write_patterns(piece, SheetSettings(), folder)
    return piece, read_pages(folder / "patterns.pdf")


@pytest.mark.parametrize("model", MODELS, ids=lambda path: path.stem)
def test_the_bar_on_every_page_measures_true(model: Path, tmp_path: Path) -> None:
    """100 mm, or 4 in (101.6 mm) for a piece in inches, within 0.1 mm; its name beside it."""
    piece = piece_in(model)
    long, name = (101.6, "4 in") if piece.shown.is_inch else (100.0, "100 mm")
    write_patterns(piece, SheetSettings(), tmp_path)
    pages = read_pages(tmp_path / "patterns.pdf")
    assert pages
    for page in pages:
        top = max(y for _, y, *_ in page.lines) - 15.0
        bars = [x1 - x0 for x0, y0, x1, y1, _ in page.lines if y0 > top and abs(y1 - y0) < 0.01]
        assert min(abs(bar - long) for bar in bars) < 0.1
        assert name in page.text
        left = min(x for x, *_ in page.lines) + 8.0
        bars = [abs(y1 - y0) for x0, y0, x1, y1, _ in page.lines if x1 < left and x0 == x1]
        assert min(abs(bar - long) for bar in bars) < 0.1


def test_shoulders_lie_true_across_the_joined_pages(post: tuple[Piece, list[Page]]) -> None:
    """Every shoulder, from the floor end, within 0.2 mm on pages joined by their crosses."""
    piece, pages = post[0], strips_of(post[1])
    shifts = joined(pages)
    assert len(pages) >= 3  # 700 mm do not lie on two A4 pages of 297 mm
    found = set()
    for page, (dx, _) in zip(pages, shifts, strict=True):
        for x0, y0, x1, y1, pen in page.lines:
            if pen > 0.4 and abs(x1 - x0) < 0.01 and abs(abs(y1 - y0) - 15.0) < 0.05:
                found.add(round(x0 + dx, 2))
    start = min(found)
    part = piece.placed[0].part
    true = [0.0, part.blank.length_mm]
    for cut in part.cuts:
        assert isinstance(cut, Dado)
        true += [cut.lower_shoulder_mm, cut.upper_shoulder_mm]
    for shoulder in true:
        assert min(abs(x - start - shoulder) for x in found) < 0.2, shoulder
    for x in found:
        assert min(abs(x - start - shoulder) for shoulder in true) < 0.2, x


def test_every_shoulder_is_named_and_the_floor_end_marked() -> None:
    """What goes in each dado is told: the herb stand's four tiers and its lid."""
    model = next(path for path in MODELS if path.stem == "herb_stand")
    piece = piece_in(model)
    texts = [
        " ".join(text.dxf.text for text in page.document.modelspace().query("TEXT"))
        for page in pattern_pages(piece, SheetSettings())
    ]
    stick = " ".join(text for text in texts if "story stick" in text)
    for what in ("lid", "tier 1", "tier 2", "tier 3", "tier 4"):
        assert f"{what}: mark from" in stick
        assert f"{what}: upper" in stick
    assert "foot end" in stick
    assert "trim this end last" in stick


@pytest.mark.parametrize("model", MODELS, ids=lambda path: path.stem)
def test_few_pages_hold_all_and_nothing_runs_into_anything(model: Path) -> None:
    """The same measure as for the sheets; the pages are what a hand that shifts them comes to."""
    pages = pattern_pages(piece_in(model), SheetSettings())
    assert len(pages) <= MOST_PAGES_OF[model.stem]
    for page in pages:
        assert collisions_in(page.document) == (), page.name


@pytest.mark.parametrize("paper", ["A4", "A3", "Letter", "Tabloid"])
def test_the_pages_joined_show_every_line_of_the_part(paper: str, tmp_path: Path) -> None:
    """The joined pages reach as far as the lid of the sample, in both directions."""
    lid = next(part for part in SAMPLES if part.name == "lid")
    piece = piece_of(lid)
    patterns = [p for p in patterns_of(piece) if p.slug.startswith("lid")]
    if not patterns:
        pytest.fail("the sample lid has a notch or a finger notch to be traced")
    write_patterns(piece, SheetSettings(paper=paper), tmp_path)
    pages = read_pages(tmp_path / "patterns.pdf")
    shifts = joined(pages)
    xs, ys = [], []
    for page, (dx, dy) in zip(pages, shifts, strict=True):
        header = max(y for _, y, *_ in page.lines) - 27.5
        frame = (min(line[0] for line in page.lines), max(line[2] for line in page.lines))
        for x0, y0, x1, y1, pen in page.lines:
            inside = max(y0, y1) < header and frame[0] + 9.5 < x0 and x1 < frame[1] - 0.5
            if pen > 0.4 and inside and min(y0, y1) > 10.5:
                xs += [x0 + dx, x1 + dx]
                ys += [y0 + dy, y1 + dy]
    core = patterns[0].core
    assert max(xs) - min(xs) == pytest.approx(core.width, abs=0.2)
    assert max(ys) - min(ys) == pytest.approx(core.height, abs=0.2)


@pytest.mark.parametrize("size", [(50.0, 30.0), (700.0, 30.0), (260.0, 180.0), (900.0, 600.0)])
def test_windows_cover_the_wood_and_share_crosses(size: tuple[float, float]) -> None:
    """Every point of the wood and the room round it lies on a page; neighbours share crosses."""
    core = Box2(left=-3.0, bottom=5.0, right=-3.0 + size[0], top=5.0 + size[1])
    pattern = Pattern(slug="x", shows="x", core=core, strokes=(), notes=(), named=())
    tiling = tiling_of(pattern, 265.0, 160.0)
    area = core.grown(MARGIN_MM)
    for step_x in range(41):
        for step_y in range(41):
            x = area.left + area.width * step_x / 40
            y = area.bottom + area.height * step_y / 40
            point = Box2(left=x, bottom=y, right=x, top=y)
            assert any(window.holds(point) for window in tiling.windows)
    for first in tiling.windows:
        for second in tiling.windows:
            beside = abs(first.left - second.left) > 1.0
            above = abs(first.bottom - second.bottom) > 1.0
            if first.overlaps(second) and beside != above:
                shared = [
                    cross
                    for cross in tiling.crosses
                    if all(
                        w.grown(-5.0).holds(Box2(left=cross.at[0], right=cross.at[0],
                                                 bottom=cross.at[1], top=cross.at[1]))
                        for w in (first, second)
                    )
                ]  # fmt: skip
                assert len(shared) >= 2


@pytest.mark.parametrize("version", list(DxfVersion))
def test_each_pattern_is_one_drawing_at_true_size(version: DxfVersion, tmp_path: Path) -> None:
    """The stick's file measures the post's 700 mm; ezdxf audits it clean and GDAL reads it."""
    made = write_patterns(piece_of(POST), SheetSettings(), tmp_path, version)
    path = next(path for path in made if path.suffix == ".dxf")
    document = ezdxf.readfile(path)
    assert document.acad_release == version.value
    auditor = document.audit()
    assert (len(auditor.errors), len(auditor.fixes)) == (0, 0)
    lines: list[Any] = [e for e in document.modelspace().query("LINE") if e.dxf.layer == "visible"]
    ends = [x for line in lines for x in (line.dxf.start.x, line.dxf.end.x)]
    assert max(ends) - min(ends) == pytest.approx(700.0, abs=1e-6)
    meta, _, _, columns = pyogrio.raw.read(path)
    layers = list(columns[list(meta["fields"]).index("Layer")])
    assert layers.count("visible") == len(lines)


def test_square_cuts_and_single_bores_are_measured_not_traced() -> None:
    """A board with a square notch and one bore gets no page; a curve or a row of bores does."""
    square = Notch(edge=Face.BACK_EDGE, start_mm=20.0, length_mm=30.0, depth_mm=10.0)
    bores = [
        Bore(face=Face.FACE_SIDE, x_mm=40.0 * n, y_mm=50.0, diameter_mm=8.0) for n in (1, 2, 3)
    ]
    size = (200.0, 100.0, 18.0)
    assert patterns_of(piece_of(part("plain", size, square, *bores[:2]))) == ()
    for traced in ([square, replace(square, start_mm=80.0, inner_radius_mm=4.0)], bores):
        (pattern,) = patterns_of(piece_of(part("traced", size, *traced)))
        assert pattern.slug == "traced-top-face"


def test_a_mitre_at_an_odd_angle_is_traced() -> None:
    usual = FlatMitre(end=Face.FAR_END, gauge_angle_deg=45.0, long_point_edge=Face.FACE_EDGE)
    size = (200.0, 60.0, 18.0)
    assert patterns_of(piece_of(part("frame", size, usual))) == ()
    assert (
        len(patterns_of(piece_of(part("frame", size, replace(usual, gauge_angle_deg=30.0))))) == 1
    )


def test_only_what_says_so_is_printed_on_many_pages() -> None:
    """6 m by 2 m takes far more than a dozen pages of A4, whatever the pattern is called."""
    core = Box2(left=0.0, bottom=0.0, right=6000.0, top=2000.0)
    look = PageLook(paper=Paper.A4, style=ISO_STYLE, shown=millimetres(), piece="trial piece")
    few = Pattern(slug="story-stick-x", shows="x", core=core, strokes=(), notes=(), named=())
    every = replace(few, slug="x", printed=Printed.ON_ALL_IT_TAKES)
    assert pages_of([few], look) == ()
    assert len(pages_of([every], look)) > MOST_PAGES
    assert [is_printed(each, look) for each in (few, every)] == [False, True]


def _with_bore(name: str, at: tuple[float, float], text: str = "hole") -> Pattern:
    core = Box2(left=0.0, bottom=0.0, right=80.0, top=20.0)
    note = Note(text=text, points=(at,))
    return Pattern(slug=name, shows=name, core=core, strokes=outline(core), notes=(note,), named=())


def test_a_pattern_serves_turned_over_for_what_is_as_in_a_mirror_and_for_nothing_else() -> None:
    first = _with_bore("left rail: end", (20.0, 6.0))
    over = _with_bore("right rail: end", (60.0, 6.0))
    half_round = _with_bore("back rail: end", (60.0, 14.0))
    moved = _with_bore("stub: end", (20.0, 6.1))
    deeper = _with_bore("post: edge", (60.0, 6.0), "deep hole")
    kept = each_once([first, over, half_round, moved, deeper])
    assert [each.slug for each in kept] == ["left rail: end", "stub: end", "post: edge"]
    assert kept[0].heading == (
        "left rail: end; turned over for right rail: end; the same for back rail: end"
    )
    assert [each.heading for each in kept[1:]] == ["stub: end", "post: edge"]


def _stick(marks: int) -> Pattern:
    """A stick of 600 mm with so many marks, evenly, each with words above and below."""
    core = Box2(left=0.0, bottom=0.0, right=600.0, top=15.0)
    step = 600.0 / (marks + 1)
    notes = tuple(
        Note(text=f"mark {number}: the {side} shoulder of this dado", points=((step * number, y),))
        for number in range(1, marks + 1)
        for side, y in (("upper", 0.0), ("lower", 15.0))
    )
    return Pattern(
        slug="stick", shows="stick", core=core, strokes=outline(core), notes=notes, named=(),
        printed=Printed.ON_ALL_IT_TAKES,
    )  # fmt: skip


@pytest.mark.parametrize(("marks", "others", "count"), [(6, 0, 1), (6, 2, 1), (10, 2, 2)])
def test_a_stick_stands_closer_where_that_saves_a_page_and_loses_no_words(
    marks: int, others: int, count: int
) -> None:
    """Three strips leave no room for small patterns as they are wont to stand; closer they do,
    and a stick that is marked too densely for that keeps its room."""
    look = PageLook(paper=Paper.A4, style=ISO_STYLE, shown=millimetres(), piece="trial piece")
    small = [_with_bore(f"small {number}", (20.0 + number, 6.0)) for number in range(others)]
    pages = pages_of([_stick(marks), *small], look)
    assert len(pages) == count
    said = " ".join(item.text for page in pages for item in page.items
                    if isinstance(item, Lettering))  # fmt: skip
    roomy = pages_of([_stick(marks)], look)
    told = " ".join(item.text for page in roomy for item in page.items
                    if isinstance(item, Lettering))  # fmt: skip
    for number in range(1, marks + 1):
        assert said.count(f"mark {number}:") == told.count(f"mark {number}:") > 0
    letters = [item.text for page in pages for item in page.items
               if isinstance(item, Lettering) and re.fullmatch("[A-Z]", item.text)]  # fmt: skip
    assert sorted(letters) == ["A", "A", "B", "B", "C", "C", "D", "D"]
