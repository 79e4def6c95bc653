"""Every dangerous design, by kind."""

from tests.hazards.dangers_boxes import BOX_ROWS
from tests.hazards.dangers_racking import RACKING_ROWS
from tests.hazards.dangers_shelves import SHELF_ROWS
from tests.hazards.dangers_tipping import TIPPING_ROWS
from tests.hazards.dangers_trodden import TRODDEN_ROWS
from tests.hazards.dangers_wood import WOOD_ROWS
from tests.hazards.pairs import PAIR_DANGERS
from tests.hazards.rows import Danger

DANGERS: tuple[Danger, ...] = (
    *RACKING_ROWS,
    *TRODDEN_ROWS,
    *TIPPING_ROWS,
    *SHELF_ROWS,
    *BOX_ROWS,
    *WOOD_ROWS,
    *PAIR_DANGERS,
)
