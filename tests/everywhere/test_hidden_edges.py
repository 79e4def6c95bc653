"""What a design says of edges where no profile may run is what its solids show."""

from __future__ import annotations

from dataclasses import fields
from pathlib import Path

import pytest

import furniture.builders.mitred_box as mitred_box
import furniture.pieces.cut_faults as cut_faults
from furniture import BackRail, CuttingWishes, PanelGrain, SawSetUp, SteppedStand
from furniture.parts.faces import ALL_ARRISES
from tests.builders.bench import a_stand, oak
from tests.everywhere.designs import Drawn, drawn
from tests.everywhere.hidden_edges import differences

BOX, OWN, LIDDED = 2, 3, 6
"""Seeds of a box, of a piece of one's own, and of a box whose lid has open edges."""
ACROSS = 909117
"""The seed of a stand between uprights, one of whose tiers has its grain from front to back."""
LET_IN = 293724
"""The seed of a post let into its back rail: its foot's edges were told only by the joints."""
TONGUED = 318620
"""The seed of a stand whose lid goes deeper into the post than into the stubs' rabbets: both its
back corners are notched, and were told only by its cuts."""


@pytest.mark.seeds(few=2, full=60)
def test_edges_are_refused_where_the_solids_hide_them(seed: int, tmp_path: Path) -> None:
    """All that lies in a joint or is cut away is refused, and nothing that is in the open."""
    assert differences(drawn(seed), tmp_path) == []


def test_the_foot_of_a_post_before_a_back_rail_is_told_with_all_else(tmp_path: Path) -> None:
    assert drawn(LET_IN).figures["back_rail"].let_in == "4 mm"
    assert differences(drawn(LET_IN), tmp_path) == []


def test_the_notched_corners_of_a_lid_with_a_tongue_are_told_with_all_else(tmp_path: Path) -> None:
    assert differences(drawn(TONGUED), tmp_path) == []


def test_edges_of_a_tier_with_its_grain_across_are_told_by_where_they_are_seen(
    tmp_path: Path,
) -> None:
    assert PanelGrain.ACROSS in drawn(ACROSS).figures["own_grain"].values()
    assert differences(drawn(ACROSS), tmp_path) == []


@pytest.mark.parametrize("let_in", ["0 mm", "4 mm"])
def test_a_bottoms_rabbet_frees_the_foot_of_a_post_before_a_back_rail(
    let_in: str, tmp_path: Path
) -> None:
    """The rail stands off there, so that the post's edge may be shaped."""
    stand = a_stand(back_rail=BackRail(let_in=let_in), bottom=oak("6 mm"), bottom_gap="1 mm")
    figures = {each.name: getattr(stand, each.name) for each in fields(stand)}
    design = Drawn(
        make=SteppedStand, figures=figures, piece=stand.build(), refused=(), boards=(),
        wishes=CuttingWishes(), saw=SawSetUp(),
    )  # fmt: skip
    assert differences(design, tmp_path) == []


def test_an_edge_that_the_box_forgets_is_seen(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The joints refuse it then, after all else is right: a second round for the maker."""
    monkeypatch.setattr(mitred_box, "rail_hidden", lambda *_: {})
    assert any("by the joints alone" in each for each in differences(drawn(BOX), tmp_path))


def test_an_open_edge_that_is_called_hidden_is_seen(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A whole lid that may not be shaped."""
    monkeypatch.setattr(
        mitred_box, "_hidden", lambda *_: {"lid": dict.fromkeys(ALL_ARRISES, "no reason")}
    )
    assert any("may not be shaped" in each for each in differences(drawn(LIDDED), tmp_path))


def test_an_edge_that_the_joints_forget_is_seen(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A shelf's end in its dado that may be shaped."""
    nothing = (frozenset(), frozenset())
    monkeypatch.setattr(cut_faults, "hidden_by", lambda *_: nothing)
    assert any("is hidden and may be" in each for each in differences(drawn(OWN), tmp_path))
