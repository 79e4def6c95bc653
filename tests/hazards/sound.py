"""Every sound design, by kind."""

from tests.hazards.pairs import PAIR_SOUNDS
from tests.hazards.rows import Sound
from tests.hazards.sound_benches import BENCH_ROWS
from tests.hazards.sound_boxes import BOX_ROWS
from tests.hazards.sound_cases import CASE_ROWS
from tests.hazards.sound_stands import STAND_ROWS
from tests.hazards.sound_stools import STOOL_ROWS
from tests.hazards.sound_walls import WALL_ROWS

SOUND: tuple[Sound, ...] = (
    *STOOL_ROWS,
    *BENCH_ROWS,
    *CASE_ROWS,
    *WALL_ROWS,
    *BOX_ROWS,
    *STAND_ROWS,
    *PAIR_SOUNDS,
)
