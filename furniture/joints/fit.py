"""Fits: how much wider a housing is than the part that goes into it, and when one is doubtful."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from furniture.rules import USUAL_RULES, Rules
from furniture.rules.bench import GLUE_LINE, LEAST_GLUE_LINE
from furniture.rules.joinery import LOOSEST_HOUSING, SLIP_PLAY
from furniture.units import Given, Reader, Shown, millimetres, parameters, said
from furniture.units.showing import decimal_figure
from furniture.units.words import nearest_word


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """A named fit: a clearance that grows with the thickness that goes in.

    Common practice, no source: a housing 0.1 to 0.2 mm wider than the shelf takes it by hand with
    glue, one of more than about 0.3 mm reads as loose.
    """

    name: str
    base_mm: float
    per_thickness: float

    def clearance_mm(self, thickness_mm: float) -> float:
        """The clearance for a part of that thickness [mm], to 0.01 mm."""
        return round(self.base_mm + self.per_thickness * thickness_mm, 2)


PRESS = Fit(name="press", base_mm=0.0, per_thickness=0.0025)
SLIP = Fit(name="slip", base_mm=0.1, per_thickness=0.0025)
EASY = Fit(name="easy", base_mm=0.2, per_thickness=0.005)
NAMED_FITS = (PRESS, SLIP, EASY)


def in_this_shop(fit: Fit, rules: Rules) -> Fit:
    """SLIP as the shop has it, where its play was measured over several pieces; else as it is.

    Args:
        fit: that a maker asks for.
        rules: the shop's own limits.
    """
    play = rules[SLIP_PLAY]
    return Fit(name=SLIP.name, base_mm=play, per_thickness=0.0) if fit == SLIP and play else fit


def own_fit(clearance_mm: float) -> Fit:
    """A fit with the maker's own clearance [mm], whatever the thickness."""
    return Fit(name="own", base_mm=clearance_mm, per_thickness=0.0)


@parameters
class TrialCut:
    """A fit taken from a trial dado that went together well, instead of a named one.

    Args:
        housing: the trial dado's measured width.
        stock: the measured thickness of the stock that was tried in it.
    """

    housing: Given | None = None
    stock: Given | None = None


def read_fit(reader: Reader, parameter: str, given: object, rules: Rules = USUAL_RULES) -> Fit:
    """The fit that a maker asks for, or SLIP with the problem noted.

    Args:
        reader: keeps the problems.
        parameter: the parameter that holds the fit.
        given: a `Fit`, a `TrialCut`, or text for the maker's own clearance, such as `0.2 mm`.
        rules: the shop's own limits.
    """
    if isinstance(given, Fit):
        return in_this_shop(given, rules)
    why = "beyond half a millimetre a dado no longer holds its shelf upright (own rule)"
    if isinstance(given, TrialCut):
        reader.names(f"{parameter}.", given)
        stock = reader.length(
            f"{parameter}.stock", given.stock, at_least=0.5, why="it was measured"
        )
        housing = reader.length(f"{parameter}.housing", given.housing)
        clearance = reader.limit(
            f"{parameter}.housing",
            housing - stock,
            at_least=0.0,
            at_most=rules[LOOSEST_HOUSING],
            why=f"the dado is wider than the stock, and {why}",
            remedy=lambda nearest: (
                "the dado is the wider of the two: were they swapped?"
                if housing < stock
                else "cut a trial wider than the stock by "
                f"{reader.safe_figure(nearest, housing - stock)} at most"
            ),
        )
        return Fit(name="trial cut", base_mm=clearance, per_thickness=0.0)
    is_word = isinstance(given, str) and not any(letter.isdigit() for letter in given)
    if given is None or is_word or isinstance(given, Enum | bool | int | float):
        named = ", ".join(fit.name.upper() for fit in NAMED_FITS)
        allowed = f"{named}, a TrialCut, or a clearance such as '{reader.least(0.2)}'"
        near = nearest_word(given, [fit.name for fit in NAMED_FITS]) or SLIP.name
        is_bare = isinstance(given, int | float) and not isinstance(given, bool)
        usual = reader.shown.unit.symbol
        remedy = f"write '{given} {usual}' if you mean it" if is_bare else f"write {near.upper()}"
        reader.refuse(parameter, said(given), allowed, "a fit sets the clearance", remedy)
        return SLIP
    return own_fit(
        reader.length(parameter, given, at_least=0.0, at_most=rules[LOOSEST_HOUSING], why=why)
    )


def play_to_hold_mm(clearance_mm: float) -> tuple[float, float] | None:
    """From what to what play a glued housing holds well [mm]; none where its own is no such play.

    Args:
        clearance_mm: of the housing, as drawn [mm].
    """
    low, high = LEAST_GLUE_LINE.value, GLUE_LINE.value
    return (low, high) if low <= clearance_mm <= high else None


class Concern(Enum):
    """Why a fit is doubtful."""

    FINISH_EATS_IT = "the finish fills the clearance"
    GLUE_CANNOT_BRIDGE = "the glue cannot bridge the clearance"


@dataclass(frozen=True, slots=True, kw_only=True)
class FitCaution:
    """A doubt about a fit: what it is, the figure and its limit [mm], and what to do."""

    concern: Concern
    clearance_mm: float
    limit_mm: float
    advice: str


def fit_cautions(
    clearance_mm: float,
    *,
    is_glued: bool,
    coats_inside: int = 0,
    film_per_coat_mm: float = 0.0,
    shown: Shown | None = None,
) -> tuple[FitCaution, ...]:
    """The doubts about a clearance: finish put on before assembly eats it, glue may not fill it.

    Args:
        clearance_mm: of the housing, as drawn [mm].
        is_glued: whether it is to be glued.
        coats_inside: coats of a film finish on both faces that go in, put on before assembly.
        film_per_coat_mm: dry film that a coat leaves on a face [mm].
        shown: the unit that the advice is told in; millimetres when left out.

    Own rule: the film counts on both faces of the part that goes in; a housing is left bare.
    """
    found = []
    unit = shown or millimetres()

    def told(length_mm: float) -> str:
        return f"{decimal_figure(length_mm, unit)} {unit.unit.symbol}"

    film = round(2 * coats_inside * film_per_coat_mm, 3)
    if film > 0.0 and clearance_mm < film:
        found.append(
            FitCaution(
                concern=Concern.FINISH_EATS_IT,
                clearance_mm=clearance_mm,
                limit_mm=film,
                advice=(
                    f"{coats_inside} coats on both faces add {told(film)}: mask what goes in, "
                    "finish after glue-up, or measure the finished part and cut to that"
                ),
            )
        )
    if is_glued and clearance_mm > GLUE_LINE.value:
        found.append(
            FitCaution(
                concern=Concern.GLUE_CANNOT_BRIDGE,
                clearance_mm=clearance_mm,
                limit_mm=GLUE_LINE.value,
                advice=(
                    f"glue holds across {told(GLUE_LINE.value)}: cut a tighter dado, or count "
                    "only the face that the part is pressed against"
                ),
            )
        )
    return tuple(found)
