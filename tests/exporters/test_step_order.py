"""The colours of a STEP file come in one order, whatever order the writer found them in."""

from __future__ import annotations

import itertools
import os
import re
import subprocess
import sys

import pytest

from exporters.step_order import in_order
from tests.models import ROOT

MIXED = """\
#1 = PRODUCT('a; #9 b','it''s',$,(#2));
#2 = SOLID('');
#3 = SOLID('');
#4 = SOLID('');
"""
RGB = {2: "0.1,0.2,0.3", 3: "0.1,0.2,0.3", 4: "0.5,0.5,0.5"}


def test_two_processes_write_the_same_file(tmp_path):
    code = (
        "import sys; from pathlib import Path; from exporters.step import write_step\n"
        "from tests.models import piece_of\n"
        "write_step(piece_of('tea_box'), Path(sys.argv[1]), '2026-01-02T03:04:05')\n"
    )
    files = []
    for seed in ("1", "2"):
        path = tmp_path / f"{seed}.step"
        subprocess.run(
            [sys.executable, "-c", code, str(path)],
            cwd=ROOT, env={**os.environ, "PYTHONHASHSEED": seed}, check=True, capture_output=True,
        )  # fmt: skip
        files.append(path.read_bytes())
    assert files[0] == files[1]


def _coloured(order):
    """A file in which these solids are coloured in this order, equal colours said once."""
    number, lines, said = 5, [], {}
    for solid in order:
        root, item = number, number + 1
        number += 2
        is_new = RGB[solid] not in said
        if is_new:
            said[RGB[solid]] = number
            number += 1
        colour = said[RGB[solid]]
        lines += [
            f"#{root} = MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION('',",
            f"  (#{item}),#1);",
            f"#{item} = STYLED_ITEM('it''s; #4',(#{colour}),#{solid});",
        ]
        if is_new:
            lines.append(f"#{colour} = COLOUR_RGB('',{RGB[solid]});")
    return MIXED + "\n".join(lines) + "\nENDSEC;\nEND-ISO-10303-21;\n"


def _colours(text):
    """The colour of every solid, read from the statements alone."""
    body = dict(re.findall(r"#(\d+) = (.*?);\n", text, re.DOTALL))
    styled = (each for each in body.values() if each.startswith("STYLED"))
    items = (re.search(r"\(#(\d+)\),#(\d+)\)$", each) for each in styled)
    return {item[2]: body[item[1]] for item in items}


@pytest.mark.parametrize("order", itertools.permutations((2, 3, 4)))
def test_colours_come_in_order_and_stay_on_their_solids(order):
    given = _coloured(order)
    ordered = in_order(given)
    assert ordered == in_order(_coloured((2, 3, 4)))
    assert _colours(ordered) == _colours(given)
    assert len(_colours(ordered)) == 3
    assert ordered.startswith(MIXED)


@pytest.mark.parametrize("text", ["", "ENDSEC;", MIXED + "ENDSEC;\n"])
def test_a_file_without_colours_is_left_as_it_is(text):
    assert in_order(text) == text
