"""Finish that is put on before the piece goes together, and gets into its joints."""

from __future__ import annotations

import math

from furniture.builders.rules import DesignReader
from furniture.pieces import Finish
from furniture.rules.joinery import FILM_PER_COAT
from furniture.units import Given, parameters, said


@parameters
class Prefinish:
    """Coats of a film finish on the parts before glue-up; what goes into a dado grows by them.

    Args:
        coats: on each face.
        film: that a dry coat leaves on a face (default: 0.03 mm).
    """

    coats: int = 2
    film: Given | None = None


def read_prefinish(reader: DesignReader, given: object) -> Finish | None:
    """The finish; none when there is none; problems are noted with the reader."""
    if given is None:
        return None
    if not isinstance(given, Prefinish):
        why = "it says what is put on before glue-up"
        reader.refuse("prefinish", said(given), "Prefinish(...)", why, "write Prefinish(coats=2)")
        return None
    reader.names("prefinish.", given)
    coats = reader.whole(
        "prefinish.coats", given.coats, 1, 12, 2,
        "so many coats are put on; without any there is no Prefinish",
    )  # fmt: skip
    if coats is None:
        return None
    film = reader.rules[FILM_PER_COAT]
    if given.film is not None:
        film = reader.length(
            "prefinish.film", given.film, at_least=0.005, at_most=0.5,
            why="a dry coat is thinner than a hair or two",
        )  # fmt: skip
    return None if math.isnan(film) else Finish(coats=coats, film_mm=film)
