"""Finding a species by any of its names, as makers write them."""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Iterator, Sequence
from difflib import get_close_matches
from fractions import Fraction
from functools import cache

from furniture.errors import DesignError, Problem
from furniture.timber.table import all_species
from furniture.timber.wood import QUANTITIES as QUANTITIES
from furniture.timber.wood import Citation as Citation
from furniture.timber.wood import How as How
from furniture.timber.wood import Kind as Kind
from furniture.timber.wood import Species as Species

_NEAR = 0.75
"""How alike two names are before one is taken for a slip of the other [-]. Own rule."""


class UnknownSpecies(DesignError, KeyError):  # noqa: N818 - named as the maker meets it
    """A name that no species has, or that several share."""

    __str__ = ValueError.__str__


def species_names() -> tuple[str, ...]:
    """The names of all species and sheet goods in the data file, in its order."""
    return tuple(all_species())


def find_species(name: str) -> Species:
    """The species of that name or trade name, whatever its capitals, spaces and accents.

    A glued panel moves as the wood that it is made of, so `edge-glued beech panel` is that wood; a
    sheet's thickness may stand before its name or behind.

    Args:
        name: a name as in species.csv, or one of its other names.

    Raises:
        UnknownSpecies: where there is none, or where several woods are called so, with their names.
    """
    for key in _readings(name):
        found = _by_any_name().get(key, ())
        if len(found) == 1:
            return found[0]
        if found:
            raise UnknownSpecies([_ambiguous(name, found)])
    raise UnknownSpecies([_unknown(name)])


def _readings(name: str) -> Iterator[str]:
    """The name as a key of the index, then what is left of it without words that say nothing."""
    key = _key(name)
    yield key
    bare = _BEHIND.sub("", _BEFORE.sub("", key))
    if bare and bare != key:
        yield bare
    if together := _OF_TREE.fullmatch(bare):
        yield together[1]


def _key(name: str) -> str:
    """A name without capitals, accents and hyphens, its thickness last: `birch plywood 6 mm`."""
    folded = unicodedata.normalize("NFKD", name.casefold())
    plain = "".join(letter for letter in folded if not unicodedata.combining(letter))
    spaced = " ".join(plain.replace("⁄", "/").replace("-", " ").replace(",", " ").split())
    for looks, word in _WORDS:
        spaced = looks.sub(word, spaced)
    thick = _THICK.search(spaced)
    if thick is None:
        return spaced
    rest = f"{spaced[: thick.start()]} {spaced[thick.end() :]}"
    unit = "mm" if thick["unit"] == "mm" else "in"
    figure = re.sub(r"\.0+$", "", thick["figure"])
    return " ".join([*rest.split(), figure, unit])


_WORDS = (
    (re.compile(r"\bply\b"), "plywood"),
    (re.compile(r"\bplywood \(?(?:baltic|finnish) birch\)?|\b(?:baltic|finnish) birch plywood\b"),
     "birch plywood"),
    (re.compile(r"\b(?:particleboard|particle board)\b"), "chipboard"),
    (re.compile(r"\bmasonite\b|\bhard board\b"), "hardboard"),
    (re.compile(r"\b(?:medium density fibreboard|medium density fiberboard)\b"), "mdf"),
)  # fmt: skip
_THICK = re.compile(
    r"(?<![\w.])(?P<figure>\d+ ?/ ?\d+|\d+(?:\.\d+)?) ?(?P<unit>mm\b|inch\b|in\b|\"|″|”)"
)
_SHEET = re.compile(r"\b(?:plywood|mdf|hdf|osb|blockboard|fibreboard|fiberboard|sheet|\w+board)\b")
_BEFORE = re.compile(r"^(?:solid|glued|edge glued|laminated) (?:panel of |up )?")
_BEHIND = re.compile(
    r"(?: (?:solid|glued|edge glued|laminated))?"
    r" (?:panels?|boards?|wood|timber|lumber)$"
)
_OF_TREE = re.compile(r"((?:\w+ )*\w{3,}?)wood")
"""A tree and its wood in one word, such as `limewood` or `European beechwood`."""


def _ambiguous(name: str, found: Sequence[Species]) -> Problem:
    several = [
        f"'{each.name}'" + (f" ({each.botanical})" if each.botanical else "") for each in found
    ]
    quoted = [f"'{each.name}'" for each in found]
    return Problem(
        parameter="species",
        given=repr(name),
        allowed=", ".join(several),
        why=f"{len(several)} of the table are called so, and they differ in weight, strength and "
        "movement",
        remedy=f"write {', '.join(quoted[:-1])} or {quoted[-1]}, whichever you have",
    )


def _unknown(name: str) -> Problem:
    names = sorted(_by_any_name())
    close = get_close_matches(_key(name), names, n=3, cutoff=_NEAR)
    near = list(dict.fromkeys(each.name for key in close for each in _by_any_name()[key]))
    near = _as_thick(_key(name)) or near
    kind = "OwnSheet" if _SHEET.search(_key(name)) else "OwnWood"
    own = f"species={kind}(name={name!r}, density='650 kg/m3')" if name.strip() else ""
    ways = [
        f"write {' or '.join(map(repr, near[:3]))}" if near else "",
        f"write {own} with your own figures; what you leave out is not checked" if own else "",
    ]
    return Problem(
        parameter="species",
        given=repr(name),
        allowed=f"one of the {len(species_names())} woods and sheets that species_names() lists, "
        "or a wood of your own",
        why="density, strength and movement come from printed values, and the table has no wood of "
        "this name",
        remedy=", or ".join(way for way in ways if way)
        or "write species='white oak', or whichever it is",
    )


def _as_thick(key: str) -> list[str]:
    """The sheets of that kind that are nearest in thickness, the thinner first; none of others."""
    kind, thick = _kind_and_mm(key)
    off = {
        name: own - thick
        for name in all_species()
        for like, own in [_kind_and_mm(_key(name))]
        if like == kind and not math.isnan(own - thick)
    }
    return sorted(sorted(off, key=lambda name: abs(off[name]))[:2], key=lambda name: off[name])


def _kind_and_mm(key: str) -> tuple[str, float]:
    """What a sheet is and how thick [mm], of `plywood 1/4 in`; not-a-number where none is said."""
    found = _THICK.search(key)
    if found is None:
        return key, math.nan
    unit = 1.0 if found["unit"] == "mm" else 25.4
    return key[: found.start()], float(Fraction(found["figure"])) * unit


@cache
def _by_any_name() -> dict[str, tuple[Species, ...]]:
    """Every species by every name; a name of its own belongs to it alone."""
    found: dict[str, tuple[Species, ...]] = {}
    for species in all_species().values():
        for other in species.also_called:
            key = _key(other)
            if species not in found.get(key, ()):
                found[key] = (*found.get(key, ()), species)
    return found | {_key(species.name): (species,) for species in all_species().values()}
