"""Values that sources differ on, told with what hangs on them."""

from __future__ import annotations

from furniture.rules import USUAL_RULES, Rules
from furniture.rules.staying import DOUBTFUL_SHARE
from furniture.timber.wood import Citation, How, Species

_SAID = {
    "moe_gpa": "stiffness",
    "mor_mpa": "bending strength",
    "shrink_radial_pct": "shrinkage",
    "shrink_tangential_pct": "shrinkage",
    "coefficient_radial": "movement",
    "coefficient_tangential": "movement",
    "side_hardness_n": "hardness",
}


def doubts_of(species: Species, rules: Rules = USUAL_RULES) -> tuple[Citation, ...]:
    """The values of a species that another source is far off.

    Args:
        species: a row of the timber data
        rules: the maker's
    """
    share = rules[DOUBTFUL_SHARE]
    return tuple(each for each in species.citations if each.is_doubtful(share))


def doubt_told(species: Species, rules: Rules, *quantities: str) -> str:
    """What sources differ on, for the basis of a finding; empty where they agree.

    Such as `; sources differ on the stiffness of iroko: another has 27 % less`. Of several
    quantities the one is told whose sources are farthest apart.

    Args:
        species: the wood that the verdict hangs on
        rules: the maker's
        quantities: those of `QUANTITIES` that it hangs on
    """
    doubtful = [each for each in doubts_of(species, rules) if each.quantity in quantities]
    widest = max(doubtful, key=_apart, default=None)
    if widest is None or widest.farthest is None:
        return ""
    change = widest.farthest.value / widest.value - 1.0
    return (
        f"; sources differ on the {_SAID[widest.quantity]} of {species.name}: another has "
        f"{abs(change):.0%} {'more' if change > 0.0 else 'less'}".replace("%", " %")
    )


def movement_doubt_told(species: Species, rules: Rules) -> str:
    """What sources differ on in how a wood moves; of its shrinkage where that gave the movement.

    Args:
        species: the wood that the verdict hangs on
        rules: the maker's
    """
    quantities = []
    for way in ("radial", "tangential"):
        cited = species.citation(f"coefficient_{way}")
        quantities.append(f"coefficient_{way}")
        if cited is not None and cited.how is How.DERIVED:
            quantities.append(f"shrink_{way}_pct")
    return doubt_told(species, rules, *quantities)


def _apart(citation: Citation) -> float:
    return 0.0 if citation.farthest is None else citation.share_off(citation.farthest)
