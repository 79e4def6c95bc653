"""The moisture content that wood comes to in air, and the air that gives a moisture content."""

from __future__ import annotations

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


def _require_temperature(temperature_c: float) -> None:
    if not LOWEST_C <= temperature_c <= HIGHEST_C:
        raise ValueError(
            f"the equation holds from {LOWEST_C} to {HIGHEST_C} deg C, given {temperature_c}"
        )
