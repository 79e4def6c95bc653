"""The moisture content that wood comes to in air, and the air that gives a moisture content."""

from __future__ import annotations

import math

LOWEST_C, HIGHEST_C = -1.2, 60.0


def equilibrium_moisture_pct(temperature_c: float, humidity_pct: float) -> float:
    """The moisture content [%] that wood comes to in air of that temperature and humidity.

    The equation is blind to species and to whether the wood is drying or wetting.

    Args:
        temperature_c: air temperature [deg C], about -1 to 60 (the handbook's table)
        humidity_pct: relative humidity [%], 0 or more and below 100

    Raises:
        ValueError: outside these ranges.

    **Source:** Wood Handbook, FPL-GTR-282 (2021), Eq. 4-5 (p. 4-3); Simpson (1973).
    """
    _require_temperature(temperature_c)
    if not 0.0 <= humidity_pct < 100.0:
        raise ValueError(f"relative humidity is 0 to below 100 %, given {humidity_pct}")
    # W, K, K1, K2 and h are the equation's own symbols; h is a fraction.
    w = 349.0 + 1.29 * temperature_c + 0.0135 * temperature_c**2
    k = 0.805 + 0.000736 * temperature_c - 0.00000273 * temperature_c**2
    k1 = 6.27 - 0.00938 * temperature_c - 0.000303 * temperature_c**2
    k2 = 1.91 + 0.0407 * temperature_c - 0.000293 * temperature_c**2
    kh = k * humidity_pct / 100.0
    first = kh / (1.0 - kh)
    second = (k1 * kh + 2.0 * k1 * k2 * kh**2) / (1.0 + k1 * kh + k1 * k2 * kh**2)
    return 1800.0 / w * (first + second)


def humidity_for_moisture_pct(temperature_c: float, moisture_pct: float) -> float:
    """The relative humidity [%] of air in which wood comes to that moisture content.

    Args:
        temperature_c: air temperature [deg C], about -1 to 60
        moisture_pct: moisture content [%], 0 up to what 99.9 % humidity gives (about 25)

    Raises:
        ValueError: outside these ranges.

    **Source:** Wood Handbook, FPL-GTR-282 (2021), Eq. 4-5, solved for the humidity.
    """
    _require_temperature(temperature_c)
    if not 0.0 <= moisture_pct <= equilibrium_moisture_pct(temperature_c, 99.9):
        raise ValueError(f"no air at {temperature_c} deg C keeps wood at {moisture_pct} %")
    if moisture_pct == 0.0:
        return 0.0
    from scipy.optimize import brentq  # slow to load, and seldom asked for

    def too_damp(humidity_pct: float) -> float:
        return equilibrium_moisture_pct(temperature_c, humidity_pct) - moisture_pct

    return float(brentq(too_damp, 0.0, 99.9, xtol=1e-9))


def equilibrium_moisture_glass_pct(temperature_c: float, humidity_pct: float) -> float:
    """The moisture content [%] by the newer equation: a second opinion, indoors 0.2 to 0.4 higher.

    Args:
        temperature_c: air temperature [deg C], about -1 to 60
        humidity_pct: relative humidity [%], above 0 and below 100

    Raises:
        ValueError: outside these ranges.

    **Source:** Wood Handbook, FPL-GTR-282 (2021), Eq. 4-6 (p. 4-4); Glass et al. (2014).
    """
    _require_temperature(temperature_c)
    if not 0.0 < humidity_pct < 100.0:
        raise ValueError(f"relative humidity is above 0 and below 100 %, given {humidity_pct}")
    kelvin = temperature_c + 273.15
    dryness = -0.000612 * kelvin * (1.0 - kelvin / 647.1) ** 2.43
    return 100.0 * float((dryness * math.log1p(-humidity_pct / 100.0)) ** (0.0577 * kelvin**0.430))


def humidity_for_moisture_glass_pct(temperature_c: float, moisture_pct: float) -> float:
    """The relative humidity [%] that the newer equation gives for a moisture content.

    Args:
        temperature_c: air temperature [deg C], about -1 to 60
        moisture_pct: moisture content [%], above 0

    Raises:
        ValueError: outside these ranges.

    **Source:** Wood Handbook, FPL-GTR-282 (2021), Eq. 4-7 (p. 4-4).
    """
    _require_temperature(temperature_c)
    if moisture_pct <= 0.0:
        raise ValueError(f"a moisture content above 0 % is needed, given {moisture_pct}")
    kelvin = temperature_c + 273.15
    dryness = -0.000612 * kelvin * (1.0 - kelvin / 647.1) ** 2.43
    power = 1.0 / (0.0577 * kelvin**0.430)
    return -100.0 * math.expm1(float((moisture_pct / 100.0) ** power) / dryness)


def _require_temperature(temperature_c: float) -> None:
    if not LOWEST_C <= temperature_c <= HIGHEST_C:
        raise ValueError(
            f"the equation holds from {LOWEST_C} to {HIGHEST_C} deg C, given {temperature_c}"
        )
