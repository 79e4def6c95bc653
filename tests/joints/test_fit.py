"""Fits: the clearance by thickness, a maker's own, one from a trial cut, and the doubts."""

from __future__ import annotations

import pytest

from furniture import Shop, ShopRules, SteppedStand
from furniture.errors import Problem
from furniture.joints import (
    EASY,
    PRESS,
    SLIP,
    Concern,
    DadoJoint,
    TrialCut,
    fit_cautions,
    own_fit,
    read_fit,
)
from furniture.shop.tools.reading import read_shop, rules_of_shop
from furniture.units import Reader
from tests.builders.bench import a_stand
from tests.joints.test_volumes import left, shelf, upright


def read(given: object) -> tuple[float, tuple[Problem, ...]]:
    reader = Reader()
    fit = read_fit(reader, "fit", given)
    return fit.clearance_mm(18.0), reader.problems


@pytest.mark.parametrize("thickness", [6.0, 10.2, 12.7, 19.7, 25.0])
def test_named_fits_grow_looser_in_order(thickness: float) -> None:
    """Press, slip, easy; a slip fit is 0.1 to 0.2 mm (common practice)."""
    clearances = [fit.clearance_mm(thickness) for fit in (PRESS, SLIP, EASY)]
    assert clearances == sorted(clearances)
    assert 0.1 <= SLIP.clearance_mm(thickness) <= 0.2


def test_a_trial_cut_gives_its_own_clearance_at_any_thickness() -> None:
    """A trial 10.35 wide took 10.2 mm stock: 0.15 mm, in 18 mm stock too."""
    clearance, problems = read(TrialCut(housing="10.35 mm", stock="10.2 mm"))
    assert clearance == pytest.approx(0.15)
    assert not problems


def test_a_trial_cut_is_cut_into_the_wood() -> None:
    """120 x (12 + 0.17) x 6 = 8 762.4 mm3 out of 864 000."""
    fit = read_fit(Reader(), "fit", TrialCut(housing="12.27 mm", stock="12.1 mm"))
    joint = DadoJoint(into="upright", incoming="shelf", fit=fit)
    assert left(joint, upright(), shelf())[0] == pytest.approx(864000 - 8762.4)


@pytest.mark.parametrize(
    ("given", "named"),
    [
        (TrialCut(housing="10.1 mm", stock="10.2 mm"), "fit.housing"),
        (TrialCut(housing="11 mm", stock="10.2 mm"), "fit.housing"),
        (TrialCut(housing="10.3 mm"), "fit.stock"),
        (TrialCut(housing="10.3 mm", stok="10.2 mm"), "fit.stok"),
        (0.2, "fit"),
        (True, "fit"),
        (None, "fit"),
        ("0.2", "fit"),
        ("0.8 mm", "fit"),
        ("-0.1 mm", "fit"),
    ],
)
def test_a_fit_that_cannot_be_is_named(given: object, named: str) -> None:
    _, problems = read(given)
    assert named in [each.parameter for each in problems]


def test_a_makers_own_clearance_is_text() -> None:
    clearance, problems = read("0.2 mm")
    assert clearance == pytest.approx(0.2)
    assert not problems


def test_three_coats_on_both_faces_eat_a_slip_fit() -> None:
    """3 coats x 0.03 mm x 2 faces = 0.18 mm, more than 0.13; with a coat of 0.02 they leave it."""
    (caution,) = fit_cautions(0.13, is_glued=False, coats_inside=3, film_per_coat_mm=0.03)
    assert caution.concern is Concern.FINISH_EATS_IT
    assert caution.limit_mm == pytest.approx(0.18)
    assert not fit_cautions(0.13, is_glued=False, coats_inside=3, film_per_coat_mm=0.02)


def test_glue_does_not_bridge_an_easy_fit() -> None:
    """The best glue lines are 0.05 to 0.15 mm thick (a wood technologist's column, read)."""
    (caution,) = fit_cautions(EASY.clearance_mm(18.0), is_glued=True)
    assert caution.concern is Concern.GLUE_CANNOT_BRIDGE
    assert caution.limit_mm == pytest.approx(0.15)
    assert not fit_cautions(SLIP.clearance_mm(18.0), is_glued=True)
    assert not fit_cautions(own_fit(0.4).clearance_mm(18.0), is_glued=False)


def test_a_slip_fit_has_the_play_that_it_had_in_this_shop() -> None:
    """Measured over several pieces and kept with the shop, it is what SLIP means in builder and
    joint alike; a fit of the maker's own stays, and so does what his rules say themselves."""
    shop = Shop(slip_play="0.21 mm")
    rules = rules_of_shop(shop, None)
    plain, own = a_stand(fit_clearance=None), a_stand(fit_clearance="0.3 mm")

    def plays(design: SteppedStand, by: ShopRules | None) -> set[float]:
        joinings = design.build(by).joinings
        return {each.clearance_mm for each in joinings if each.kind == "dado"}

    assert 0.21 not in plays(plain, None)
    assert plays(plain, rules) == {0.21}
    assert 0.3 in plays(own, rules)
    said = rules_of_shop(shop, ShopRules(slip_play="0.15 mm"))
    assert plays(plain, said) == {0.15}
    assert rules_of_shop(Shop(), None) is None
    for wrong in ("3 mm", "0.2", "-1 mm"):
        reader = Reader()
        read_shop(reader, Shop(slip_play=wrong))
        assert [each.parameter for each in reader.problems] == ["shop.slip_play"]
