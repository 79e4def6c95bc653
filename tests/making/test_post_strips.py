"""The note on a post of strips says what the work does."""

from __future__ import annotations

from furniture import PostStrips
from furniture.making.operations import Kind
from tests.builders.bench import a_stand
from tests.making.made import made


def test_strips_of_a_post_are_dadoed_at_one_set_up_as_their_sheet_says() -> None:
    piece = a_stand(post_strips=PostStrips(count=3)).build()
    strips = [f"post strip {number}" for number in (1, 2, 3)]
    (note,) = (each.text for each in piece.notes if "strips" in each.text)
    assert "dadoed at one set-up from the foot end" in note
    dados = [each for each in made(piece).making.operations if each.kind is Kind.DADO]
    of_strips = [each for each in dados if {cut.instance for cut in each.cuts} & set(strips)]
    assert of_strips
    by_place: dict[object, set[str]] = {}
    for each in of_strips:
        for cut in each.cuts:
            by_place.setdefault((each.rig, each.setting, each.hold), set()).add(cut.instance)
    assert all(names == set(strips) for names in by_place.values())
