"""Colours that must be told apart are so for every eye and in grey; no sense hangs on one alone."""

from __future__ import annotations

import re
from collections.abc import Mapping
from itertools import combinations
from pathlib import Path

import numpy as np
import pytest
from matplotlib.colors import to_rgb

from exporters.colours import colour_of_species
from exporters.cutting.picture import ZONE_LOOKS
from exporters.pictures.outline import FILL, INK, STEP
from furniture.timber.species import species_names
from tests.models import ROOT

PAGE = Path(ROOT) / "exporters" / "page"
EYES = {
    "usual": np.eye(3),
    # Machado, Oliveira and Fernandes, A Physiologically-based Model for Simulation of Color
    # Vision Deficiency, IEEE TVCG 15 (2009), severity 1.0; on linear light; from memory.
    "without red": np.array([
        [0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216],
        [-0.003882, -0.048116, 1.051998],
    ]),
    "without green": np.array([
        [0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413],
        [-0.011820, 0.042940, 0.968881],
    ]),
    "without blue": np.array([
        [1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602],
        [0.004733, 0.691367, 0.303900],
    ]),
}  # fmt: skip
TEXT, MARK, FACES = 4.5, 3.0, 1.8
"""Least contrast of words and of marks: WCAG 2.2, 1.4.3 and 1.4.11. Of cut faces: own choice."""


def luminance(colour: str | tuple[float, float, float], eye: str) -> float:
    """Relative luminance as WCAG 2.2 has it, which is the grey of a print too."""
    encoded = np.array(to_rgb(colour))
    light = np.where(encoded <= 0.04045, encoded / 12.92, ((encoded + 0.055) / 1.055) ** 2.4)
    seen = np.clip(EYES[eye] @ light, 0.0, 1.0)
    return float(seen @ np.array([0.2126, 0.7152, 0.0722]))


def contrast(one: str | tuple[float, float, float], other: str, eye: str) -> float:
    """The contrast ratio of WCAG 2.2, from 1 to 21."""
    first, second = (luminance(each, eye) + 0.05 for each in (one, other))
    return max(first, second) / min(first, second)


def inks() -> Mapping[str, str]:
    """The page's own colours by name."""
    css = (PAGE / "style.css").read_text(encoding="utf-8")
    return dict(re.findall(r"--(\w+): (#[0-9a-f]{6})", css))


@pytest.mark.parametrize("eye", EYES)
def test_words_and_marks_stand_out_for_every_eye(eye: str) -> None:
    page = inks()
    for name in ("ink", "soft", "mark"):
        assert contrast(page[name], "#ffffff", eye) >= TEXT, name
    assert contrast(page["focus"], "#ffffff", eye) >= MARK
    assert contrast(page["ink"], "#f6e3d3", eye) >= TEXT  # the row that is chosen
    assert contrast(INK, FILL, eye) >= TEXT
    assert min(contrast(STEP, FILL, eye), contrast(STEP, "#ffffff", eye)) >= MARK


@pytest.mark.parametrize("eye", EYES)
def test_a_cut_face_is_no_wood_for_any_eye(eye: str) -> None:
    (cut,) = re.findall(r"CUT = 0x([0-9a-f]{6})", (PAGE / "view.js").read_text(encoding="utf-8"))
    for name in species_names():
        assert contrast(colour_of_species(name), f"#{cut}", eye) >= FACES, name


def test_kinds_of_zones_differ_without_their_colour() -> None:
    for (one, first), (other, second) in combinations(ZONE_LOOKS.items(), 2):
        assert first[1:] != second[1:], f"{one.value} and {other.value}"
