"""Pictures of a piece: rendered where the machine can, drawn as lines where it cannot."""

from exporters.pictures.lines import write_lines
from exporters.pictures.write import write_pictures

__all__ = ["write_lines", "write_pictures"]
