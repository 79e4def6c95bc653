"""How an entity is drawn: pen width, dashes and grey, its layer and its block considered."""

from __future__ import annotations

from dataclasses import dataclass

from ezdxf.colors import aci2rgb
from ezdxf.document import Drawing
from ezdxf.entities import DXFGraphic

_BY_BLOCK_COLOUR, _BY_LAYER_COLOUR = 0, 256
_BY_LAYER_WEIGHT, _BY_BLOCK_WEIGHT, _DEFAULT_WEIGHT = -1, -2, -3
_DEFAULT_WIDTH_MM = 0.25
"""What a pen without a width is drawn with [mm]; the DXF reference's default lineweight."""
_THINNEST_MM = 0.05
_GREYS = frozenset({8, 9, *range(250, 255)})
"""Colour numbers that print grey; any other, unless it is a true grey, prints black."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ink:
    """How a line or an area is laid down, on paper.

    Args:
        width_mm: of the pen [mm].
        dashes_mm: dash, gap, dash ... [mm]; empty is unbroken.
        grey: 0 is black, 1 is white.
        layer: the layer that decided.
    """

    width_mm: float
    dashes_mm: tuple[float, ...]
    grey: float
    layer: str


PAPER_INK = Ink(width_mm=_DEFAULT_WIDTH_MM, dashes_mm=(), grey=0.0, layer="0")
"""What an entity outside any block falls back on."""


class Pens:
    """Looks up the ink of entities in one document at one scale."""

    def __init__(self, document: Drawing, scale: float) -> None:
        self._document = document
        self._scale = scale
        header = document.header
        # with PSLTSCALE set, dashes keep their length on paper whatever the viewport's scale
        keeps_length = int(header.get("$PSLTSCALE", 1)) == 1
        self._pattern_scale = float(header.get("$LTSCALE", 1.0)) / (1.0 if keeps_length else scale)

    def is_printed(self, entity: DXFGraphic) -> bool:
        """Whether the entity and its layer are on, thawed and meant for paper."""
        if entity.dxf.get("invisible", 0):
            return False
        name = str(entity.dxf.layer)
        if name.lower() == "defpoints":
            return False
        if name not in self._document.layers:
            return True
        layer = self._document.layers.get(name)
        return layer.is_on() and not layer.is_frozen() and bool(layer.dxf.get("plot", 1))

    def ink_of(self, entity: DXFGraphic, parent: Ink) -> Ink:
        """The ink of an entity.

        Args:
            entity: the entity.
            parent: the ink of the block reference that holds it.
        """
        layer = str(entity.dxf.layer)
        if layer == "0" and parent is not PAPER_INK:  # in a block, layer 0 is the reference's
            layer = parent.layer
        return Ink(
            width_mm=self._width(entity, layer, parent),
            dashes_mm=self._dashes(entity, layer, parent),
            grey=self._grey(entity, layer, parent),
            layer=layer,
        )

    def _width(self, entity: DXFGraphic, layer: str, parent: Ink) -> float:
        weight = int(entity.dxf.get("lineweight", _BY_LAYER_WEIGHT))
        if weight == _BY_BLOCK_WEIGHT:
            return parent.width_mm
        if weight == _BY_LAYER_WEIGHT:
            known = layer in self._document.layers
            weight = (
                int(self._document.layers.get(layer).dxf.get("lineweight", _DEFAULT_WEIGHT))
                if known
                else _DEFAULT_WEIGHT
            )
        return _DEFAULT_WIDTH_MM if weight < 0 else max(weight / 100.0, _THINNEST_MM)

    def _dashes(self, entity: DXFGraphic, layer: str, parent: Ink) -> tuple[float, ...]:
        name = str(entity.dxf.get("linetype", "BYLAYER"))
        if name.upper() == "BYBLOCK":
            return parent.dashes_mm
        if name.upper() == "BYLAYER":
            known = layer in self._document.layers
            name = str(self._document.layers.get(layer).dxf.linetype) if known else "Continuous"
        if name.upper() == "CONTINUOUS" or name not in self._document.linetypes:
            return ()
        factor = self._pattern_scale * float(entity.dxf.get("ltscale", 1.0))
        pattern = self._document.linetypes.get(name).simplified_line_pattern()
        return tuple(float(length) * factor for length in pattern)

    def _grey(self, entity: DXFGraphic, layer: str, parent: Ink) -> float:
        if entity.rgb is not None:
            return _grey_of_rgb(entity.rgb)
        colour = int(entity.dxf.get("color", _BY_LAYER_COLOUR))
        if colour == _BY_BLOCK_COLOUR:
            return parent.grey
        if colour == _BY_LAYER_COLOUR:
            if layer not in self._document.layers:
                return 0.0
            entry = self._document.layers.get(layer)
            if entry.rgb is not None:
                return _grey_of_rgb(entry.rgb)
            colour = abs(entry.color)
        return _grey_of_rgb(aci2rgb(colour)) if colour in _GREYS else 0.0


def _grey_of_rgb(rgb: tuple[int, int, int]) -> float:
    red, green, blue = rgb
    return red / 255.0 if red == green == blue else 0.0
