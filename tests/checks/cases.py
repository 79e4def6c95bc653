"""Pieces and loads that several tests of the checks share, and a strategy that makes more."""

from __future__ import annotations

from hypothesis import strategies as st

from furniture.checks.advice import Change, Remedy
from furniture.checks.ballast import Room
from furniture.checks.finding import Finding
from furniture.checks.stability import Body, Load, Surface
from furniture.checks.stability_findings import Standing
from furniture.units import Amounts
from furniture.units import millimetres as in_millimetres

FEET = ((0.0, 0.0), (300.0, 0.0), (300.0, 180.0), (0.0, 180.0))
TOP = Surface(name="top tier", x0_mm=50, x1_mm=250, y0_mm=-60, y1_mm=150, top_mm=500)
PIECE = Body(mass_kg=5.0, centre_mm=(150.0, 110.0, 230.0))
POT = Load(name="pot", on=TOP, mass_kg=1.2, footprint_mm=(110, 110), centre_height_mm=60)
STAND = Standing(
    piece=PIECE,
    contacts_mm=FEET,
    top_mm=560.0,
    loads=(POT,),
    surfaces=(TOP,),
    room=Room(low_mm=(20.0, 20.0, 10.0), high_mm=(280.0, 160.0, 70.0)),
)


class Exact(Amounts):
    """Lengths as the tests read them back: to a millionth of a millimetre."""

    def __call__(self, mm: float) -> str:
        return f"{mm:.6f} mm"


millimetres = Exact(shown=in_millimetres())


def remedy_of(finding: Finding, change: Change) -> Remedy:
    """The one remedy of that kind, which must be printed, enough and allowed."""
    found = [each for each in finding.remedies if each.change is change]
    assert len(found) == 1, [(each.change, each.words) for each in finding.remedies]
    assert found[0].words in finding.advice
    assert found[0].is_enough
    assert found[0].is_allowed
    return found[0]


@st.composite
def loads(draw: st.DrawFn) -> tuple[Load, ...]:
    """Up to five loads on tiers that may overhang the feet."""
    made = []
    for index in range(draw(st.integers(0, 5))):
        x0, y0 = draw(st.floats(-80, 100)), draw(st.floats(-120, 60))
        surface = Surface(
            name=f"tier {index}",
            x0_mm=x0,
            x1_mm=x0 + draw(st.floats(60, 320)),
            y0_mm=y0,
            y1_mm=y0 + draw(st.floats(60, 200)),
            top_mm=draw(st.floats(40, 700)),
        )
        made.append(
            Load(
                name=f"load {index}",
                on=surface,
                mass_kg=draw(st.floats(0.1, 6.0)),
                footprint_mm=(draw(st.floats(10, 200)), draw(st.floats(10, 200))),
                centre_height_mm=draw(st.floats(5, 200)),
            )
        )
    return tuple(made)


@st.composite
def pieces(draw: st.DrawFn) -> Body:
    """A piece whose centre lies over its feet."""
    return Body(
        mass_kg=draw(st.floats(0.5, 20.0)),
        centre_mm=(draw(st.floats(60, 240)), draw(st.floats(40, 140)), draw(st.floats(40, 500))),
    )
