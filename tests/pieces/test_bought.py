"""What is bought: counted from the joints and the fixings, told in the packet."""

from __future__ import annotations

import csv
import json
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from exporters.packet import Output, Packet, PacketSettings, facts_for, put_packet
from exporters.target import Owner, claimed
from furniture import Dowels, inches
from furniture.pieces import Bought, Piece, bought_parts, size_in_words
from tests.builders.bench import a_box, a_stand

ONLY_PARTS = PacketSettings(outputs=frozenset({Output.PARTS}), dated=date(2020, 1, 2))
SCREW = Bought(name="wood screw", quantity=2, diameter_mm=4.0, length_mm=30.0, where=("post",))


def test_dowels_are_counted_over_all_their_joints() -> None:
    """Two butts of stubs on a post, three dowels 8 x 40 in each: six to buy."""
    piece = a_stand(dowels=Dowels(count=3, diameter="8 mm", length="40 mm")).build()
    (dowels,) = bought_parts(piece)
    assert (dowels.name, dowels.quantity) == ("dowel", 6)
    assert (dowels.diameter_mm, dowels.length_mm) == pytest.approx((8.0, 40.0))
    assert set(dowels.where) == {"post", "left stub", "right stub"}


def test_a_piece_without_dowels_or_fixings_buys_nothing() -> None:
    assert bought_parts(a_stand().build()) == ()


def test_equal_things_are_counted_together_and_unlike_ones_apart() -> None:
    """Screws of one size in two parts are one row; a longer one is another."""
    longer = replace(SCREW, length_mm=40.0)
    elsewhere = replace(SCREW, quantity=3, where=("lid", "post"))
    piece = replace(a_box().build(), fixings=(SCREW, longer, elsewhere))
    assert bought_parts(piece) == (replace(SCREW, quantity=5, where=("post", "lid")), longer)


def test_a_size_is_said_as_one_asks_for_it() -> None:
    shown = a_box().build().shown
    assert size_in_words(SCREW, shown) == "4 x 30 mm"
    assert size_in_words(replace(SCREW, length_mm=None), shown) == "4 mm"
    assert size_in_words(replace(SCREW, diameter_mm=None, length_mm=None), shown) == ""
    dowel = replace(SCREW, diameter_mm=6.35, length_mm=31.75)
    assert size_in_words(dowel, inches(64)) == "1/4 x 1 1/4 in"


def _written(piece: Piece, target: Path) -> Packet:
    with claimed(target, Owner(slug=piece.slug, name=piece.name)) as claim:
        return put_packet(facts_for(piece, ONLY_PARTS), claim)


def test_the_packet_lists_what_is_bought(tmp_path: Path) -> None:
    """bought.csv and piece.json say the same, and the file is listed."""
    piece = a_stand(dowels=Dowels(count=2, diameter="6 mm")).build()
    packet = _written(piece, tmp_path / "out")
    assert "bought.csv" in packet.files
    with (tmp_path / "out" / "bought.csv").open(encoding="utf-8", newline="") as file:
        (row,) = csv.DictReader(file)
    record = json.loads((tmp_path / "out" / "piece.json").read_text(encoding="utf-8"))
    (entry,) = record["bought"]
    assert "bought.csv" in record["files"]
    assert (row["thing"], row["quantity"]) == (entry["name"], str(entry["quantity"]))
    assert (row["diameter"], row["length"], row["unit"]) == ("6", "30", "mm")
    assert (entry["diameter_mm"], entry["length_mm"]) == (6.0, 30.0)
    assert row["where"] == ", ".join(entry["where"])


def test_the_packet_of_a_piece_that_buys_nothing_has_no_such_file(tmp_path: Path) -> None:
    packet = _written(a_box().build(), tmp_path / "out")
    assert "bought.csv" not in packet.files
    record = json.loads((tmp_path / "out" / "piece.json").read_text(encoding="utf-8"))
    assert record["bought"] == []
