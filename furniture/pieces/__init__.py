"""Pieces: parts in their places, the joints between them, and what is read off the whole."""

from furniture.pieces.bought import Bought, bought_parts, size_in_words
from furniture.pieces.compose import compose
from furniture.pieces.intent import (
    DrawnOut,
    Inside,
    Intent,
    OpeningFor,
    PlacedOpening,
    Proportion,
    TierSeen,
)
from furniture.pieces.piece import (
    Anchor,
    Distinct,
    Finish,
    FixedBody,
    LoadKind,
    Note,
    Piece,
    Reference,
    Stance,
    StandingLoad,
    Surface,
    distinct_parts,
    extents_of,
    placed_named,
    timbers_of,
)

__all__ = [
    "Anchor",
    "Bought",
    "Distinct",
    "DrawnOut",
    "Finish",
    "FixedBody",
    "Inside",
    "Intent",
    "LoadKind",
    "Note",
    "OpeningFor",
    "Piece",
    "PlacedOpening",
    "Proportion",
    "Reference",
    "Stance",
    "StandingLoad",
    "Surface",
    "TierSeen",
    "bought_parts",
    "compose",
    "distinct_parts",
    "extents_of",
    "placed_named",
    "size_in_words",
    "timbers_of",
]
