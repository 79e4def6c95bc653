"""What a maker wrote is what is read on sheets and pages, whatever codes their formats know."""

from __future__ import annotations

import warnings

import ezdxf
import pdfplumber
import pyogrio
import pytest
from hypothesis import given
from hypothesis import strategies as st

from exporters.pdf.fonts import MISSING, drawable
from exporters.pdf.write import write_pdf
from exporters.sheets.dxf_text import as_written

CODES = (
    "%%d 50%%", "%%u", "50%%", "%%%", "a^Mb", "^^I", "^ M", "2^3 %%c", "100 %", r"\P{\fArial;x}",
)  # fmt: skip


def _document(texts):
    document = ezdxf.new("R2018")
    for number, text in enumerate(texts):
        document.modelspace().add_text(as_written(text), height=3).set_placement((5, 8 * number))
    return document


def test_codes_are_read_as_they_were_written(tmp_path):
    path = tmp_path / "codes.dxf"
    _document(CODES).saveas(path)
    read = [each.plain_text() for each in ezdxf.readfile(path).modelspace()]
    assert read == list(CODES)


@given(st.text(alphabet="%^dcpuo k1M ab", max_size=12))
def test_any_run_of_codes_is_read_as_it_was_written(text):
    words = f"{text}."  # a caret at the very end is lost, as `as_written` says
    entity = ezdxf.new("R2018").modelspace().add_text(as_written(words))
    assert entity.plain_text() == words


def test_plain_words_stay_as_they_are():
    for text in ("left side rail", "100 %", "5 % of 3 %", "±1°", 'name\'s "one"'):
        assert as_written(text) == text


def test_a_letter_that_the_font_has_not_is_seen_as_missing(tmp_path):
    texts = ["herbs 🌿 stand", "%%d 50%%", "木 oak", "a^Mb"]
    path = write_pdf([_laid_out(_document(texts))], tmp_path / "page.pdf")
    with pdfplumber.open(path) as pdf:
        told = pdf.pages[0].extract_text()
    assert "\0" not in told
    assert f"herbs {MISSING} stand" in told
    assert f"{MISSING} oak" in told
    assert "%%d 50%%" in told
    assert "a^Mb" in told


def _laid_out(document):
    layout = document.layout("Layout1")
    layout.page_setup(size=(100, 100), margins=(0, 0, 0, 0), units="mm")
    layout.add_viewport(
        center=(50, 50), size=(100, 100), view_center_point=(50, 50), view_height=100
    )
    return document


@pytest.mark.parametrize("text", ["", "plain", "é ½ ⌀ ° × → ≤\nsecond line"])
def test_letters_that_the_font_has_are_left(text):
    assert drawable(text) == text


def test_every_letter_shown_is_one_of_the_font():
    import matplotlib
    from matplotlib.figure import Figure

    matplotlib.use("Agg")
    picture = Figure()
    picture.text(0, 0, drawable("🌿 $a_b$ 木 tea"), parse_math=False)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        picture.savefig("/dev/null", format="png")


def test_another_reader_reads_plain_names_unchanged(tmp_path):
    path = tmp_path / "names.dxf"
    _document(["100 % oak", "long rail"]).saveas(path)
    info = pyogrio.raw.read(path, columns=["Text"], read_geometry=False)
    assert list(info[3][0]) == ["100 % oak", "long rail"]
