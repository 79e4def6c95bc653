"""Pictures of a piece: in its own wood, drawn apart with names, and as outlines."""

from exporters.pictures.paint import painter_of
from exporters.pictures.write import Shown, picture_of, write_pictures

__all__ = ["Shown", "painter_of", "picture_of", "write_pictures"]
