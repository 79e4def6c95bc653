"""What the packet says of fits and of the joints themselves."""

from __future__ import annotations

from typing import Any

import pytest

from furniture import (
    EASY,
    PRESS,
    DadoJoint,
    FlatMitreJoint,
    FlushWith,
    PlacedPart,
    Prefinish,
    Spline,
    Stock,
    Way,
    inches,
    join,
)
from furniture.assembly.doubts import fit_doubts, joint_advice
from furniture.assembly.findings import fit_findings
from furniture.checks.finding import Finding, Verdict
from furniture.pieces import Piece
from models.key_rack import rack
from tests.builders.bench import a_box, a_stand, parameters_named
from tests.builders.test_composition import SHELF, UPRIGHT, piece_of


def by_subject(findings: tuple[Finding, ...]) -> dict[str, Finding]:
    return {each.subject: each for each in findings}


class TestFits:
    """Doubtful fits."""

    def test_a_glued_housing_looser_than_glue_bridges(self) -> None:
        """Easy on 10 mm is 0.2 + 0.05 = 0.25, over 0.15: told once for all tiers."""
        piece = a_stand(fit=EASY, fit_clearance=None).build()
        (doubt,) = [each for each in fit_doubts(piece) if each.verdict is Verdict.CAUTION]
        assert doubt.subject == "tier 1 and post; tier 2 and post"
        assert (doubt.value, doubt.limit) == (pytest.approx(0.25), 0.15)
        assert "tighter" in doubt.advice

    def test_the_lid_that_is_not_glued_is_not_doubted(self) -> None:
        piece = a_stand(fit=EASY, fit_clearance=None).build()
        assert not any("lid" in each.subject for each in fit_doubts(piece))

    def test_finish_put_on_before_eats_the_fit(self) -> None:
        """Two coats of 0.03 on both faces are 0.12 mm; the dados have 0.1."""
        piece = a_stand(prefinish=Prefinish(coats=2)).build()
        cautions = fit_doubts(piece)
        assert {each.verdict for each in cautions} == {Verdict.CAUTION}
        assert {(each.value, each.limit) for each in cautions} == {(0.1, 0.12)}
        assert "tier 1 and post" in cautions[0].subject
        thin = a_stand(prefinish=Prefinish(coats=2, film="0.02 mm")).build()
        (held,) = fit_doubts(thin)
        assert (held.verdict, "leaves room" in held.basis) == (Verdict.OK, True)

    def test_following_the_advice_clears_it(self) -> None:
        """The measured finished part is what the advice says to cut to: 0.12 mm of room."""
        piece = a_stand(prefinish=Prefinish(coats=2), fit_clearance="0.12 mm").build()
        assert {each.verdict for each in fit_doubts(piece)} == {Verdict.OK}

    def test_an_inch_piece_hears_of_inches(self) -> None:
        piece = a_stand(prefinish=Prefinish(coats=4), shown=inches(64)).build()
        advice = fit_doubts(piece)[0].advice
        assert "0.009 in" in advice
        assert "mm" not in advice

    def test_a_press_fit_bare_is_no_doubt(self) -> None:
        (held,) = fit_doubts(a_stand(fit=PRESS, fit_clearance=None).build())
        assert held.verdict is Verdict.OK
        assert "no finish" in held.basis

    def test_a_piece_without_housings_says_nothing(self) -> None:
        assert fit_doubts(a_box().build()) == ()

    @pytest.mark.parametrize(
        ("given", "named"),
        [
            (Prefinish(coats=0), "prefinish.coats"),
            (Prefinish(coats=2.5), "prefinish.coats"),
            (Prefinish(film="2 mm"), "prefinish.film"),
            (Prefinish(coat=3), "prefinish.coat"),
            ("lacquer", "prefinish"),
        ],
    )
    def test_refusals(self, given: Any, named: str) -> None:
        for design in (a_stand(prefinish=given), a_box(prefinish=given)):
            assert parameters_named(design) == [named]

    def test_the_packet_prints_them(self) -> None:
        """They stand among the findings that the packet prints."""
        piece = a_stand(fit=EASY, fit_clearance=None).build()
        assert set(fit_doubts(piece)) <= set(fit_findings(piece))
        assert set(joint_advice(piece)) <= set(fit_findings(piece))


OAK = Stock(name="oak", species="white oak", thickness="18 mm", moisture="9 %")
STRIPS = Stock(name="strips", species="white oak", thickness="4 mm", moisture="9 %")


def frame(**given: Any) -> Piece:
    """Two rails of a frame, mitred on the flat."""
    bottom = PlacedPart(name="bottom", stock=OAK, length="300 mm", width="40 mm")
    stile = PlacedPart(
        name="stile", stock=OAK, length="200 mm", width="40 mm", grain=Way.BACK,
        places=[FlushWith(side=side) for side in (Way.RIGHT, Way.FRONT, Way.UP)],
    )  # fmt: skip
    mitre = join(FlatMitreJoint, "stile", into="bottom")
    return piece_of(bottom, stile, joints=[mitre], **given)


class TestAdvice:
    """What the joints say of themselves reaches the maker."""

    def test_a_bare_flat_mitre_is_a_caution(self) -> None:
        (finding,) = joint_advice(frame())
        assert finding.verdict is Verdict.CAUTION
        assert finding.subject == "stile and bottom"
        assert "splines or keys" in finding.advice

    def test_a_spline_across_it_settles_it(self) -> None:
        spline = Spline(
            stock=STRIPS, between=("bottom", "stile"), into_each="8 mm",
            from_long_point="16 mm", width="28 mm", start="7 mm",
        )  # fmt: skip
        (finding,) = joint_advice(frame(corner_parts=[spline]))
        assert finding.verdict is Verdict.OK
        assert "cross" in finding.basis

    def test_the_corners_of_a_box_are_told_together(self) -> None:
        (finding,) = joint_advice(a_box().build())
        assert finding.subject.count(" and ") == 4
        assert "size it first" in finding.advice

    def test_a_hanging_cleat_says_how_it_hangs(self) -> None:
        told = by_subject(joint_advice(rack.build()))
        assert "from above" in told["cleat and wall cleat"].advice

    def test_joints_without_advice_say_nothing(self) -> None:
        joints = [join(DadoJoint, "shelf", into="upright")]
        assert joint_advice(piece_of(UPRIGHT, SHELF, joints=joints)) == ()
