"""Our wood data beside other sources: how far two printed figures of one wood lie apart.

Typed from those sources and not from our data. Two rows that go back to one handbook prove the
copying; all others show how much wood, and those who test it, differ.
"""

from __future__ import annotations

from functools import partial

import pytest

from furniture.timber.species import find_species
from tests.published.case import Case, How, Says, Source, from_source, table

_E, _R, _H = "moe_gpa", "mor_mpa", "side_hardness_n"
_SR, _ST = "shrink_radial_pct", "shrink_tangential_pct"
_CR, _CT = "coefficient_radial", "coefficient_tangential"
_Row = tuple[str, str, float]
_PSI = 0.00689476


def _off(name: str, quantity: str, theirs: float) -> float:
    """Ours less theirs, as a share of ours."""
    ours = getattr(find_species(name), quantity)
    assert ours is not None
    return 1.0 - theirs / float(ours)


def _beside(
    id: str,
    title: str,
    found: str,
    place: str,
    tolerance: float,
    rows: tuple[_Row, ...],
    says: Says = Says.SPREAD,
) -> tuple[Case, ...]:
    woods = ", ".join(dict.fromkeys(name for name, _, _ in rows))
    one = table(
        id=f"second-{id}",
        quantity=f"stiffness, strength and movement of {woods}, as a share",
        place=place,
        how=How.REPRINT,
        unit="-",
        tolerance=tolerance,
        reason="other trees and tests"
        if says is Says.SPREAD
        else "the same handbook, copied twice",
        says=says,
        cells=[(0.0, partial(_off, *row)) for row in rows],
    )
    return from_source(Source(title=title, found=found), one)


CASES = (
    *_beside(
        "osu", "Oregon State University, table of western softwoods", "owic.oregonstate.edu",
        "rows of three species", 0.012,
        (
            ("western hemlock", _R, 11_300 * _PSI), ("western hemlock", _ST, 7.8),
            ("western larch", _R, 13_000 * _PSI), ("western larch", _E, 1_870 * _PSI),
            ("western larch", _ST, 9.1), ("Engelmann spruce", _R, 9_300 * _PSI),
            ("Engelmann spruce", _E, 1_300 * _PSI), ("Engelmann spruce", _ST, 7.1),
        ),
        Says.COPIED,
    ),
    *_beside(
        "data-base-american", "The Wood Database, American woods",
        "fitzgeraldwood.com, oakbrookwoodturningsupply.com (reprints)", "pages of the woods", 0.015,
        (
            ("shagbark hickory", _R, 139.3), ("shagbark hickory", _E, 14.90),
            ("shagbark hickory", _H, 8360.0), ("baldcypress", _R, 73.1),
            ("baldcypress", _E, 9.93), ("baldcypress", _H, 2270.0),
        ),
        Says.COPIED,
    ),
    *_beside(
        "data-base", "The Wood Database, other woods",
        "wood-database.com; woodconcepts.co, flindallguitars.com, advantagelumber.com, "
        "tea-band.com (reprints)", "pages of the woods", 0.48,
        (
            ("coast redwood", _R, 61.7), ("coast redwood", _E, 8.41),
            ("Norway spruce", _R, 63.0), ("Norway spruce", _E, 9.70),
            ("Norway spruce", _SR, 3.9), ("Norway spruce", _ST, 8.2),
            ("iroko", _R, 87.6), ("iroko", _E, 9.38), ("iroko", _SR, 2.8), ("iroko", _ST, 3.8),
            ("wenge", _R, 151.9), ("wenge", _E, 16.4), ("wenge", _SR, 3.1), ("wenge", _ST, 5.8),
            ("zebrawood", _R, 137.9), ("zebrawood", _E, 16.10), ("zebrawood", _SR, 6.8),
            ("zebrawood", _ST, 11.5), ("afrormosia", _R, 102.9), ("afrormosia", _E, 11.83),
            ("afrormosia", _SR, 3.2), ("afrormosia", _ST, 6.2), ("ipe", _R, 177.0),
            ("ipe", _E, 22.07), ("ipe", _SR, 5.9), ("ipe", _ST, 7.2), ("jatoba", _R, 155.2),
            ("jatoba", _E, 18.93), ("jatoba", _SR, 4.2), ("jatoba", _ST, 8.0),
            ("purpleheart", _R, 151.7), ("purpleheart", _E, 20.26), ("koa", _R, 87.0),
            ("koa", _E, 10.37), ("dark red meranti", _R, 87.7), ("dark red meranti", _E, 12.02),
            ("dark red meranti", _SR, 3.9), ("dark red meranti", _ST, 7.8),
            ("Indian rosewood", _R, 114.4), ("Indian rosewood", _E, 11.50),
            ("Indian rosewood", _SR, 2.7), ("Indian rosewood", _ST, 5.9),
        ),
    ),
    *_beside(
        "parquet", "Bauwerk parquet, 'Holzeigenschaften', tests of the maker's own",
        "bauwerk-parkett.com/ch-it", "change per 1 % of moisture", 0.36,
        (
            ("European ash", _CR, 0.0017), ("European ash", _CT, 0.0028),
            ("European larch", _CR, 0.0014), ("European larch", _CT, 0.0029),
            ("Scots pine", _CR, 0.0013), ("Scots pine", _CT, 0.0026),
            ("European cherry", _CR, 0.0016), ("European cherry", _CT, 0.0026),
            ("iroko", _CR, 0.0019), ("iroko", _CT, 0.0028), ("wenge", _CR, 0.0022),
            ("wenge", _CT, 0.0038), ("jatoba", _CR, 0.0021), ("jatoba", _CT, 0.0031),
        ),
    ),
    *_beside(
        "robinia", "Pollet et al. (2012), black locust grown in Belgium", "abstract",
        "means", 0.23,
        (
            ("black locust", _R, 138.0), ("black locust", _E, 15.7), ("black locust", _SR, 5.5),
            ("black locust", _ST, 8.8),
        ),
    ),
    *_beside(
        "sitka", "Teal Jones, properties of Sitka spruce", "tealjones.com", "the page", 0.05,
        (("Sitka spruce", _R, 69.9), ("Sitka spruce", _E, 11.2)),
    ),
    *_beside(
        "oak", "Timberpolis, sessile oak", "timberpolis.gr", "the page", 0.2,
        (
            ("European oak", _R, 97.1), ("European oak", _E, 10.47), ("European oak", _SR, 4.5),
            ("European oak", _ST, 9.7), ("European oak", _H, 4990.0),
        ),
    ),
    *_beside(
        "ash", "Global Timber Asia, European ash", "globaltimber.asia", "the page", 0.15,
        (("European ash", _R, 103.6), ("European ash", _E, 12.31)),
    ),
    *_beside(
        "larch", "Gallo Legnami, larch", "gallolegnami.it", "the page", 0.08,
        (("European larch", _R, 92.0), ("European larch", _E, 14.0)),
    ),
    *_beside(
        "scots-pine", "Clear wood of Scots pine in Finland, Forests 2024, 15, 567", "abstract",
        "final fellings", 0.02,
        (("Scots pine", _R, 81.8), ("Scots pine", _E, 10.1)),
    ),
    *_beside(
        "sapele", "A dealer's data sheet of sapele", "docslib.org/doc/7855415", "in psi", 0.12,
        (("sapele", _R, 17_895 * _PSI), ("sapele", _E, 1_704 * _PSI)),
    ),
    *_beside(
        "suriname", "A book on timbers of Suriname", "docslib.org/doc/130666", "courbaril", 0.34,
        (
            ("jatoba", _R, 173.0), ("jatoba", _E, 19.8), ("jatoba", _SR, 4.4),
            ("jatoba", _ST, 8.5),
        ),
    ),
    *_beside(
        "rubberwood", "Journal of Wood Science (2020), plantation woods, table 2",
        "jwoodscience.springeropen.com, s10086-020-01905-z", "rubberwood", 0.14,
        (("rubberwood", _R, 81.3), ("rubberwood", _E, 8.56)),
    ),
    *_beside(
        "paulownia", "Akyildiz and Kol (2010), paulownia", "abstract", "means", 0.16,
        (("paulownia", _R, 43.6), ("paulownia", _E, 4.28)),
    ),
    *_beside(
        "blackwood", "Four Square Timbers, Australian blackwood", "foursquaretimbers.com.au",
        "the page", 0.23,
        (
            ("Australian blackwood", _R, 99.0), ("Australian blackwood", _E, 13.0),
            ("Australian blackwood", _H, 6000.0),
        ),
    ),
    *_beside(
        "khaya", "Wood Handbook, FPL-GTR-190 (2010), Table 4-4, African mahogany",
        "fliphtml5.com/kbpub/hdrb/Wood_Handbook/87", "Table 4-4", 0.33,
        (("African mahogany", _SR, 2.5), ("African mahogany", _ST, 4.5)),
    ),
    *_beside(
        "flooring", "A flooring trade's table after the Wood Handbook of 1987, further woods",
        "highwayflooring.com", "tangential coefficients", 0.33,
        (("jarrah", _CT, 0.00396), ("purpleheart", _CT, 0.00212), ("loblolly pine", _CT, 0.00265)),
    ),
)  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_lies_within_what_sources_differ_by(case: Case) -> None:
    assert case.agrees, str(case)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_the_allowed_spread_is_no_wider_than_what_was_found(case: Case) -> None:
    assert case.tolerance <= abs(case.difference) + 0.05
