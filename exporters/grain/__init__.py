"""The look of wood: what colour a board has at any point inside it, and where parts lie in it."""

from exporters.grain.board import BoardWood, wood_of_board, wood_of_stock
from exporters.grain.in_wood import InWood
from exporters.grain.places import wood_of_instances, woods_of_boards
from exporters.grain.wood import Wood

__all__ = [
    "BoardWood",
    "InWood",
    "Wood",
    "wood_of_board",
    "wood_of_instances",
    "wood_of_stock",
    "woods_of_boards",
]
