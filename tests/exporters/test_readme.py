"""The README: its pictures are of today's packets, and the run that it prints is today's run."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from renders.make import of_piece

ROOT = Path(__file__).resolve().parent.parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
LINKED = re.findall(r"\]\((renders/[^)]+)\)", README)
FAR_OFF, SHARE = 48, 0.002
"""How far a dot may be off, of 255, and what share of dots may be further: fonts and arithmetic
differ a little between machines; a figure that changed is far more. Own rule."""


def test_every_file_that_it_links_is_there() -> None:
    assert LINKED
    assert [each for each in LINKED if not (ROOT / each).is_file()] == []


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """The herb stand's pictures made anew, and what the run said."""
    folder = tmp_path_factory.mktemp("renders")
    return folder, of_piece("herb_stand", folder)


def test_the_run_that_it_prints_is_todays(made: tuple[Path, str]) -> None:
    (printed,) = re.findall(r"```text\n(.*?)```", README, re.DOTALL)

    def told(text: str) -> list[str]:
        return [line for line in text.splitlines() if not re.match(r"\d+ files in ", line)]

    assert told(printed) == told(made[1])


@pytest.mark.parametrize("name", [each for each in LINKED if "/herb_stand" in each])
def test_its_pictures_are_of_todays_packet(name: str, made: tuple[Path, str]) -> None:
    """Made anew by `python -m renders.make`."""
    now, then = (
        np.asarray(Image.open(each).convert("L"), dtype=int)
        for each in (made[0] / Path(name).name, ROOT / name)
    )
    assert now.shape == then.shape
    assert (abs(now - then) > FAR_OFF).mean() < SHARE
