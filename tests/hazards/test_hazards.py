"""Dangerous pieces are told as such, and sound ones are left in peace.

A dozen of each are drawn in every run, and all with `--full`; `python -m tests.hazards` prints what
is told of each.
"""

from __future__ import annotations

import functools
import random
from statistics import median

from furniture.checks.check import Verdict
from tests.hazards.dangers import DANGERS
from tests.hazards.open import OPEN
from tests.hazards.rows import Danger, Sound
from tests.hazards.sound import SOUND
from tests.hazards.telling import Told, danger_is_told, told_of_row

FEW = 8
MOST_MEDIAN = 1
"""Cautions about the design that a sound piece has in the middle of all. Own rule: more means that
one fact is told several times, or that a rule of the shop speaks as one of the design."""


def pytest_generate_tests(metafunc):
    """The rows of this run: fresh ones for its seed, or all with `--full`."""
    rows = {"danger": DANGERS, "sound": SOUND}
    for name in rows.keys() & set(metafunc.fixturenames):
        drawn = list(rows[name])
        if not metafunc.config.option.full:
            drawn = random.Random(f"{metafunc.config.option.seed} {name}").sample(drawn, FEW)
        metafunc.parametrize(name, drawn, ids=lambda row: row.id)


@functools.cache
def _told(row: Danger | Sound) -> Told:
    return told_of_row(row)


def _lines(told: Told) -> str:
    if told.refused:
        return "\n".join(f"refused: {each.parameter}: {each.why}" for each in told.refused)
    return "\n".join(
        f"{each.verdict.value}: {each.check.name}: {each.subject} {each.value}"
        for each in told.findings
        if each.verdict is not Verdict.OK
    )


def test_every_row_has_a_name_of_its_own_and_a_source():
    rows = (*DANGERS, *SOUND)
    assert len({row.id for row in rows}) == len(rows)
    assert all(row.source for row in rows)
    assert min(len(DANGERS), len(SOUND)) >= 60


def test_what_is_open_is_a_row():
    assert set(OPEN) <= {row.id for row in (*DANGERS, *SOUND)}


def test_a_dangerous_piece_is_told_on_its_own_subject(danger):
    """And one that is open is not yet told so: once it is, its line in the list goes."""
    told = _told(danger)
    assert danger_is_told(danger, told) is (danger.id not in OPEN), f"{danger.name}\n{_lines(told)}"


def test_a_sound_piece_fails_nothing_and_has_no_more_cautions_than_are_fair(sound):
    told = _told(sound)
    cautions = told.of_the_design(Verdict.CAUTION)
    is_fair = (
        not told.refused
        and not told.of_the_design(Verdict.FAIL)
        and len(cautions) <= sound.cautions
    )
    assert is_fair is (sound.id not in OPEN), f"{sound.name}\n{_lines(told)}"


def test_sound_pieces_have_one_caution_in_the_middle(request):
    """The median of a dozen may lie one beside that of all."""
    config = request.config.option
    rows = list(SOUND)
    if not config.full:
        rows = random.Random(f"{config.seed} sound").sample(rows, FEW)
    counts = [len(_told(row).of_the_design(Verdict.CAUTION)) for row in rows]
    assert median(counts) <= MOST_MEDIAN + (not config.full)
