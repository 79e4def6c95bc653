"""What is usual of each family of finish: how far it goes, coats, waits, the last grit."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from types import MappingProxyType

from furniture.shop.tools.kinds import FinishFamily


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishFacts:
    """What is known of a finish; the label decides.

    covers_m2_l: area of one coat, least and most; coats: usual; recoat_hours: between coats;
    cured_days: until weights, felt and masking tape may touch it; last_grit: bare wood is sanded
    up to there; between_grit: between coats, None where it is not sanded; raises_grain: wet it and
    sand it once before.
    """

    family: FinishFamily
    covers_m2_l: tuple[float, float]
    coats: int
    recoat_hours: float
    cured_days: float
    last_grit: int
    between_grit: int | None
    raises_grain: bool = False


USUAL_FINISHES: Mapping[FinishFamily, FinishFacts] = MappingProxyType(
    {
        each.family: each
        for each in (
            FinishFacts(
                family=FinishFamily.LINSEED_OIL, covers_m2_l=(9.8, 9.8), coats=3,
                recoat_hours=24.0, cured_days=30.0, last_grit=220, between_grit=None,
            ),
            FinishFacts(
                family=FinishFamily.TUNG_OIL, covers_m2_l=(9.8, 9.8), coats=5,
                recoat_hours=72.0, cured_days=30.0, last_grit=220, between_grit=None,
            ),
            FinishFacts(
                family=FinishFamily.WIPING_VARNISH, covers_m2_l=(12.0, 18.0), coats=6,
                recoat_hours=6.0, cured_days=7.0, last_grit=220,
                between_grit=320,
            ),
            FinishFacts(
                family=FinishFamily.OIL_VARNISH, covers_m2_l=(9.8, 14.7), coats=3,
                recoat_hours=24.0, cured_days=7.0, last_grit=220,
                between_grit=320,
            ),
            FinishFacts(
                family=FinishFamily.SHELLAC, covers_m2_l=(10.0, 12.0), coats=3,
                recoat_hours=8.0, cured_days=7.0, last_grit=320,
                between_grit=320,
            ),
            FinishFacts(
                family=FinishFamily.WATER_VARNISH, covers_m2_l=(6.7, 10.0), coats=3,
                recoat_hours=2.0, cured_days=7.0, last_grit=220,
                between_grit=320, raises_grain=True,
            ),
        )
    }
)  # fmt: skip
"""The usual figures.

**Source:** oil: thinned tung, 400 ft2/gal (armanifinewoodworking.com, tung half and half); a day
for linseed, two to three for tung (thefinishingstore.com, 18 June 2016); wiping varnish: 4 to 6 h
and three coats for one brushed (calendar-uk.co.uk, FAQ); oil varnish: 400 to 600 ft2/gal
(farwestpaint.com, sheet AA1788), a night between coats; shellac: later coats 8 h apart
(shellacshack.com/about-shellac); water-borne: 2 h, cured in 7 days, 100 to 150 micrometres wet at a
quarter of solids (technical sheet GDH-866), from which the area of a litre follows: the sheet's
own 9.8 to 14.8 m2/L does not. Last grits: 180 to 220, shellac 220 to 320, 220 to 320 between coats
(diyproject.ai, sanding-grit-guide), no more than 220 under a film (finecraftsmanlumber.com,
sanding-101). Areas of wiping varnish and shellac, and the days of all others to cure are from
memory; coats and grain raised by water are common practice.
"""


class Over(Enum):
    """Whether one finish goes over another."""

    DRY = "once it is dry"
    CURED = "only once it has cured"
    DEWAXED = "only if the shellac is free of wax"
    NEVER = "it does not: a film keeps oil out of the wood"


_OILS = frozenset({FinishFamily.LINSEED_OIL, FinishFamily.TUNG_OIL})
_VARNISHES = frozenset({FinishFamily.WIPING_VARNISH, FinishFamily.OIL_VARNISH})


def goes_over(top: FinishFamily, under: FinishFamily) -> Over:
    """When a finish goes over another. Nothing goes over wax.

    **Source:** polyurethane varnish not over shellac with wax: a bulletin on shellac,
    docslib.org/doc/13551322, kept here for all varnish; water-borne varnish over oil that has
    cured, oils and varnish over oil that is dry: common practice; the rest from memory.
    """
    if top in _OILS:
        return Over.DRY if under in _OILS else Over.NEVER
    if under is FinishFamily.SHELLAC:
        return Over.DRY if top is FinishFamily.SHELLAC else Over.DEWAXED
    if top is under or (top in _VARNISHES and under in _OILS | _VARNISHES):
        return Over.DRY
    if top is FinishFamily.SHELLAC and under in _OILS:
        return Over.DRY
    return Over.CURED
