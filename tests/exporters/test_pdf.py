"""The PDF against independent readers: pdfplumber measures it, pdfium draws it."""

from __future__ import annotations

import math
from pathlib import Path

import ezdxf
import numpy as np
import pdfplumber
import pypdfium2
import pytest
from ezdxf.document import Drawing
from ezdxf.enums import TextEntityAlignment
from pdfminer.pdftypes import resolve1

from exporters.pdf import PdfPage, page_of, write_pdf
from exporters.pdf.dashes import dash_left, phase_for

MM = 25.4 / 72.0  # a PDF point, ISO 32000-1, 8.3.2.3: 1/72 inch
# ISO 216 (A4, A3); ASME Y14.1 sizes A and B (8.5 x 11 in, 11 x 17 in)
PAPERS = {
    "A4": (297.0, 210.0),
    "A3": (420.0, 297.0),
    "Letter": (279.4, 215.9),
    "Tabloid": (431.8, 279.4),
}
DASHES = (6.0, 1.5)


def sheet(paper_mm: tuple[float, float], scale: float, units: str = "mm") -> Drawing:
    """A drawing of our own whose model space holds a sheet at true size, frame scaled up."""
    document = ezdxf.new("R2018", setup=False)
    document.header["$PSLTSCALE"] = 0
    document.header["$LTSCALE"] = scale
    document.styles.add("letters", font="DejaVuSans.ttf")
    document.linetypes.add("dashed", [sum(DASHES), DASHES[0], -DASHES[1]])
    document.layers.add("visible", lineweight=50)
    document.layers.add("hidden", lineweight=25, linetype="dashed")
    document.layers.add("faint", lineweight=25, color=8)
    document.layers.add("coloured", lineweight=35, color=1)
    model = document.modelspace()
    layout = document.layout("Layout1")
    unit = 25.4 if units == "inch" else 1.0
    width, height = (side / unit for side in paper_mm)
    layout.page_setup(size=(width, height), margins=(0, 0, 0, 0), units=units)
    layout.add_viewport(
        center=(width / 2, height / 2),
        size=(width, height),
        view_center_point=(paper_mm[0] * scale / 2, paper_mm[1] * scale / 2),
        view_height=paper_mm[1] * scale,
    )
    s = scale
    model.add_line((30 * s, 40 * s), (30 * s + 100, 40 * s), dxfattribs={"layer": "visible"})
    end = (30 * s + 100 * math.cos(0.5), 60 * s + 100 * math.sin(0.5))
    model.add_line((30 * s, 60 * s), end, dxfattribs={"layer": "coloured"})
    model.add_line((30 * s, 30 * s), (130 * s, 30 * s), dxfattribs={"layer": "hidden"})
    model.add_circle((80 * s, 120 * s), 20 * s, dxfattribs={"layer": "faint"})
    return document


@pytest.mark.parametrize("scale", [0.5, 1.0, 2.0, 5.0, 8.0, 10.0])
@pytest.mark.parametrize("units", ["mm", "inch"])
@pytest.mark.parametrize("paper", PAPERS)
def test_a_stated_length_measures_true_on_every_paper(
    tmp_path: Path, paper: str, units: str, scale: float
) -> None:
    size = PAPERS[paper]
    with pdfplumber.open(write_pdf([sheet(size, scale, units)], tmp_path / "s.pdf")) as pdf:
        page = pdf.pages[0]
        assert size == pytest.approx((page.width * MM, page.height * MM), abs=1e-3)
        lines = [
            math.hypot(line["x1"] - line["x0"], line["y1"] - line["y0"]) * MM
            for line in page.lines
            if line["linewidth"] * MM > 0.3
        ]
        assert lines == pytest.approx([100.0 / scale, 100.0 / scale], abs=1e-3)
        level = min(page.lines, key=lambda line: abs(line["y0"] * MM - 40.0))
        assert pytest.approx((level["x0"] * MM, level["y0"] * MM), abs=1e-3) == (30.0, 40.0)


def test_an_inch_sheet_in_inch_paper_units_says_its_scale() -> None:
    page = page_of(sheet(PAPERS["Letter"], 4.0, "inch"))
    assert page.scale == pytest.approx(4.0, rel=1e-9)
    assert page.paper_mm == pytest.approx((279.4, 215.9))
    assert page.model_origin == pytest.approx((0.0, 0.0), abs=1e-9)


def test_pens_are_true_and_black_dashes_paper_long_and_grey_only_where_asked(
    tmp_path: Path,
) -> None:
    with pdfplumber.open(write_pdf([sheet(PAPERS["A4"], 5.0)], tmp_path / "s.pdf")) as pdf:
        page = pdf.pages[0]
        by_width = {round(line["linewidth"] * MM, 3): line for line in page.lines}
        assert set(by_width) == {0.5, 0.35, 0.25}
        assert by_width[0.5]["stroking_color"] == by_width[0.35]["stroking_color"] == 0.0
        dashes, _ = by_width[0.25]["dash"]
        assert [length * MM for length in dashes] == pytest.approx(DASHES, abs=1e-3)
        (circle,) = page.curves
        assert circle["stroking_color"] > 0.3
        assert (circle["x1"] - circle["x0"]) * MM == pytest.approx(40.0, abs=0.02)


def test_text_stands_where_it_should_at_its_height_and_can_be_searched(tmp_path: Path) -> None:
    document = sheet(PAPERS["A4"], 5.0)
    model = document.modelspace()
    text = model.add_text("Dado 10.4 wide", height=5 * 3.5, dxfattribs={"style": "letters"})
    text.set_placement((5 * 100, 5 * 150))
    middle = model.add_text("HAH", height=5 * 5.0, dxfattribs={"style": "letters"})
    middle.set_placement((5 * 200, 5 * 100), align=TextEntityAlignment.MIDDLE_CENTER)
    turned = model.add_text("TURNED", height=5 * 5, rotation=90, dxfattribs={"style": "letters"})
    turned.set_placement((5 * 250, 5 * 50))
    path = write_pdf([document], tmp_path / "s.pdf")
    with pdfplumber.open(path) as pdf:
        page = pdf.pages[0]
        assert "Dado 10.4 wide" in page.extract_text()
        first = next(char for char in page.chars if char["text"] == "D")
        assert first["x0"] * MM == pytest.approx(100.0, abs=0.02)
        assert first["matrix"][5] * MM == pytest.approx(150.0, abs=0.02)
        upright = [char for char in page.chars if char["matrix"][0] == 0]
        assert "".join(char["text"] for char in upright) == "TURNED"
        fonts = {char["fontname"] for char in page.chars}
        assert all(name.endswith("DejaVuSans") for name in fonts)
    # the ink itself, drawn by pdfium at 20 dots a mm: capitals 5 mm high, middle on (200, 100)
    box = ink_box(path, 20.0, (185.0, 215.0), (95.0, 105.0))
    assert box[3] - box[1] == pytest.approx(5.0, abs=0.1)
    assert (box[0] + box[2]) / 2 == pytest.approx(200.0, abs=0.3)
    assert (box[1] + box[3]) / 2 == pytest.approx(100.0, abs=0.1)


def ink_box(
    path: Path, dots_per_mm: float, across: tuple[float, float], up: tuple[float, float]
) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of the dark dots inside a window of the first page [mm]."""
    document = pypdfium2.PdfDocument(path)
    grey = np.asarray(document[0].render(scale=dots_per_mm * MM, grayscale=True).to_pil())
    document.close()
    rows, columns = np.nonzero(grey < 128)
    xs, ys = columns / dots_per_mm, (grey.shape[0] - rows) / dots_per_mm
    inside = (xs > across[0]) & (xs < across[1]) & (ys > up[0]) & (ys < up[1])
    return (xs[inside].min(), ys[inside].min(), xs[inside].max(), ys[inside].max())


@pytest.mark.parametrize(
    ("content", "attachment", "words"),
    [
        ("10 mm deep", 5, "10 mm deep"),
        (r"first line\Psecond line", 1, "second line"),
        (r"3{\H0.7x;\S3/16;} in", 5, "in"),
        (r"%%c 8 through", 8, "Ø 8 through"),
    ],
)
def test_paragraph_text_is_text_and_lies_round_its_attachment_point(
    tmp_path: Path, content: str, attachment: int, words: str
) -> None:
    document = sheet(PAPERS["A4"], 2.0)
    document.modelspace().add_mtext(
        content,
        dxfattribs={
            "style": "letters",
            "char_height": 2 * 5.0,
            "attachment_point": attachment,
            "insert": (2 * 200, 2 * 150),
        },
    )
    path = write_pdf([document], tmp_path / "s.pdf")
    with pdfplumber.open(path) as pdf:
        assert words in pdf.pages[0].extract_text()
    left, bottom, right, top = ink_box(path, 10.0, (120.0, 290.0), (125.0, 175.0))
    if attachment == 1:
        assert (left, top) == pytest.approx((200.0, 150.0), abs=0.6)
    else:
        assert (left + right) / 2 == pytest.approx(200.0, abs=0.6)
    if attachment == 5 and "S" not in content:
        assert bottom < 150.0 < top
    if attachment == 8:
        assert bottom == pytest.approx(150.0, abs=2.0)


def test_fonts_travel_inside_the_file(tmp_path: Path) -> None:
    document = sheet(PAPERS["A4"], 1.0)
    document.modelspace().add_text("Oak", height=5, dxfattribs={"style": "letters"})
    with pdfplumber.open(write_pdf([document], tmp_path / "s.pdf")) as pdf:
        fonts = resolve1(resolve1(pdf.pages[0].page_obj.resources)["Font"])
        used = [resolve1(font) for font in fonts.values()]
        described = [font for font in used if "FontDescriptor" in font]
        embedded = [f for f in described if "FontFile2" in resolve1(f["FontDescriptor"])]
        names = {char["fontname"] for char in pdf.pages[0].chars}
    assert {str(font["BaseFont"].name) for font in embedded} >= names


def test_dimensions_blocks_hatches_and_fills_are_drawn_through_their_parts(tmp_path: Path) -> None:
    document = sheet(PAPERS["A4"], 2.0)
    model = document.modelspace()
    style = document.dimstyles.add("plain")
    style.dxf.dimtxt, style.dxf.dimasz, style.dxf.dimdsep = 7.0, 5.0, ord(".")
    style.dxf.dimtxsty = "letters"
    model.add_linear_dim(
        base=(200, 330), p1=(200, 300), p2=(300, 300), dimstyle="plain", text="100"
    ).render()
    block = document.blocks.new("mark")
    block.add_lwpolyline([(0, 0), (10, 0), (10, 10)], close=True)
    model.add_blockref("mark", (400, 100), dxfattribs={"xscale": 2, "yscale": 2})
    apart = 6.0 * math.sqrt(0.5)  # square to lines at 45 degrees
    hatch = model.add_hatch()
    hatch.set_pattern_fill("lines", definition=[[45, (0, 0), (-apart, apart), []]])
    hatch.paths.add_polyline_path([(450, 200), (550, 200), (550, 300), (450, 300)])
    hatch.paths.add_polyline_path([(480, 230), (520, 230), (520, 270), (480, 270)], flags=16)
    model.add_solid([(450, 100), (460, 100), (450, 110), (460, 110)])
    model.add_arc((100, 380), 20, 0, 90)
    model.add_ellipse((160, 380), (30, 0), 0.5)
    model.add_spline([(200, 380), (220, 400), (240, 370), (260, 390)])
    path = write_pdf([document], tmp_path / "s.pdf")
    with pdfplumber.open(path) as pdf:
        page = pdf.pages[0]
        assert "100" in page.extract_text()
    # closed form: a hatch of 100 x 100 less a hole of 40 x 40 at 6 apart has area / spacing of line
    strokes = stroke_lengths(path, (225.0, 100.0, 275.0, 150.0))
    assert strokes == pytest.approx((100 * 100 - 40 * 40) / 6.0 / 2.0, rel=0.05)
    assert ink_box(path, 10.0, (224.0, 231.0), (49.0, 56.0)) == pytest.approx(
        (225.0, 50.0, 230.0, 55.0), abs=0.2
    )


def stroke_lengths(path: Path, window: tuple[float, float, float, float]) -> float:
    """The length of all straight strokes inside a window of the first page [mm]."""
    left, bottom, right, top = window
    with pdfplumber.open(path) as pdf:
        page = pdf.pages[0]
        total = 0.0
        for drawn in [*page.lines, *page.curves]:
            inside = (
                drawn["x0"] * MM > left - 0.1
                and drawn["x1"] * MM < right + 0.1
                and drawn["y0"] * MM > bottom - 0.1
                and drawn["y1"] * MM < top + 0.1
            )
            if inside:
                ends: list[tuple[float, float]] = []
                for command, *points in drawn["path"]:
                    if command == "m":
                        ends = [points[0]]
                    elif command == "l":
                        total += math.dist(ends[-1], points[0]) * MM
                        ends = [points[0]]
    return total


def test_what_is_off_or_not_for_paper_is_left_out(tmp_path: Path) -> None:
    document = sheet(PAPERS["A4"], 1.0)
    model = document.modelspace()
    for name, change in (("off", "off"), ("frozen", "freeze")):
        getattr(document.layers.add(name), change)()
        model.add_line((10, 10), (20, 20), dxfattribs={"layer": name})
    document.layers.add("not printed").dxf.plot = 0
    model.add_line((10, 10), (20, 20), dxfattribs={"layer": "not printed"})
    with pdfplumber.open(write_pdf([document], tmp_path / "s.pdf")) as pdf:
        assert len(pdf.pages[0].lines) == 3


def test_equal_documents_give_equal_bytes_and_pages_keep_their_order(tmp_path: Path) -> None:
    def hatched(paper: str, scale: float) -> Drawing:
        document = sheet(PAPERS[paper], scale)
        hatch = document.modelspace().add_hatch()
        hatch.set_pattern_fill("lines", definition=[[45, (0, 0), (-3, 3), []]])
        hatch.paths.add_polyline_path([(0, 0), (90, 0), (90, 90), (0, 90)])
        document.modelspace().add_text("Oak", height=5, dxfattribs={"style": "letters"})
        return document

    pages = [hatched("A4", 5.0), hatched("A3", 10.0)]
    first = write_pdf(pages, tmp_path / "a.pdf", title="stand").read_bytes()
    again = [hatched("A4", 5.0), hatched("A3", 10.0)]
    second = write_pdf(again, tmp_path / "b.pdf", title="stand").read_bytes()
    assert first == second
    with pdfplumber.open(tmp_path / "a.pdf") as pdf:
        assert [round(page.width * MM) for page in pdf.pages] == [297, 420]


def test_a_page_can_be_stated_instead_of_read(tmp_path: Path) -> None:
    document = sheet(PAPERS["A4"], 5.0)
    page = PdfPage(document=document, paper_mm=(100.0, 100.0), scale=1.0, model_origin=(120, 180))
    with pdfplumber.open(write_pdf([page], tmp_path / "s.pdf")) as pdf:
        longest = max(pdf.pages[0].lines, key=lambda line: line["linewidth"])
        assert longest["x0"] * MM == pytest.approx(150.0 - 120.0, abs=1e-3)
        assert (longest["x1"] - longest["x0"]) * MM == pytest.approx(100.0, abs=1e-3)


def test_what_cannot_be_printed_as_a_sheet_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="at least one page"):
        write_pdf([], tmp_path / "s.pdf")
    bare = ezdxf.new("R2018")
    with pytest.raises(ValueError, match="viewport"):
        write_pdf([bare], tmp_path / "s.pdf")
    odd = sheet(PAPERS["A4"], 1.0)
    odd.modelspace().add_3dface([(0, 0), (1, 0), (1, 1)])
    with pytest.raises(ValueError, match="3DFACE"):
        write_pdf([odd], tmp_path / "s.pdf")
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("pattern", [(6.0, 1.5), (6.0, 0.75, 0.5, 0.75), (2.0, 0.75)])
@pytest.mark.parametrize("length", [1.0, 3.0, 7.3, 9.0, 15.0, 40.0, 41.0, 44.5, 46.7])
def test_dashed_lines_end_as_they_begin(pattern: tuple[float, ...], length: float) -> None:
    # law: what is drawn is its own mirror image about the middle of the line
    phase = phase_for(length, pattern)
    steps = [(step + 0.5) / 1000.0 * length for step in range(1000)]
    drawn = [dash_left((phase + at) % sum(pattern), pattern) > 0 for at in steps]
    mirrored = drawn[::-1]
    differing = sum(a != b for a, b in zip(drawn, mirrored, strict=True))
    assert differing <= 20  # steps that fall on the very end of a dash
    if length > 2 * sum(pattern):
        assert drawn[0]
        assert drawn[-1]


def test_the_page_carries_the_phase_of_each_dashed_line(tmp_path: Path) -> None:
    with pdfplumber.open(write_pdf([sheet(PAPERS["A4"], 5.0)], tmp_path / "s.pdf")) as pdf:
        (dashed,) = [line for line in pdf.pages[0].lines if line["dash"] and line["dash"][0]]
    assert dashed["dash"][1] * MM == pytest.approx(phase_for(100.0, DASHES), abs=1e-3)
