"""cutting.csv: on every board its cuts in order, then the parts, then the offcuts."""

from __future__ import annotations

from collections.abc import Sequence

from exporters.cutting.steps import Held, SawStep, offcut_key, saw_steps
from exporters.cutting.words import across, left_out_lines, unplaced_lines
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import BoardPlan, LeftOut, Rectangle, Unplaced
from furniture.units import Shown, figure

CUTTING_HEADER = (
    "board", "what", "number", "name", "length", "width", "set", "setting", "from its",
    "comes off", "comes off size", "stays", "stays size", "unit", "on board at", "on board x",
    "on board y", "show face", "note",
)  # fmt: skip


def cutting_rows(outcome: CuttingOutcome) -> list[tuple[str, ...]]:
    """The rows of the table, lengths in the shown unit.

    A cut's name, length and width are the piece in hand before it. Its setting is from the edge or
    end named to the blade, on that piece; the sizes of what comes off and of what stays are across
    the cut. `on board at` is where the kerf begins on the board as it lay: from the tape end for a
    crosscut, from the jointed edge for a rip. Under a common blank stand the parts that come `off
    it`, at their finished length where they will lie on the board. Parts without a place come
    last, without a board, then copies that were not worth cutting.
    """
    rows: list[tuple[str, ...]] = []
    for plan in outcome.used:
        rows += _board_rows(outcome, plan)
    told: tuple[tuple[str, Sequence[Unplaced | LeftOut], Sequence[str]], ...] = (
        ("NO PLACE", outcome.unplaced, unplaced_lines(outcome)),
        ("LEFT OUT", outcome.left_out, left_out_lines(outcome)),
    )
    for what, some, lines in told:
        for number, (each, why) in enumerate(zip(some, lines, strict=True), start=1):
            rows.append(_row({"what": what, "number": str(number), "name": each.part, "note": why}))
    return rows


def _board_rows(outcome: CuttingOutcome, plan: BoardPlan) -> list[tuple[str, ...]]:
    shown, board = outcome.job.shown, {"board": plan.board}
    rows = [_row({**board, **_cut(step, shown)}) for step in saw_steps(outcome, plan)]
    for number, placement in enumerate(plan.placements, start=1):
        named = {"what": "part", "number": str(number), "name": outcome.name_of(placement)}
        named["show face"] = "down" if placement.is_flipped else "up"
        named["note"] = "turned across the grain" if placement.is_turned else ""
        rows.append(_row({**board, **named, **_place(placement.place, shown)}))
        laid = outcome.laid(placement)
        for order, (stretch, own) in enumerate(laid.places if laid.copy.is_common else (), start=1):
            named = {"what": "off it", "number": f"{number}.{order}", "name": stretch.instance}
            rows.append(_row({**board, **named, **_place(own, shown)}))
    usable = [each.place for each in plan.offcuts if each.is_usable]
    wasted = [each.place for each in plan.offcuts if not each.is_usable]
    left = [("offcut", f"offcut {offcut_key(n)}", n, place) for n, place in enumerate(usable)]
    left += [("waste", "waste", n, place) for n, place in enumerate(wasted)]
    for what, name, n, place in left:
        named = {"what": what, "number": str(n + 1), "name": name}
        rows.append(_row({**board, **named, **_place(place, shown)}))
    return rows


def _cut(step: SawStep, shown: Shown) -> dict[str, str]:
    return {
        "what": step.cut.direction.value,
        "number": str(step.cut.number),
        "name": step.piece.name,
        "length": figure(step.piece.length_mm, shown),
        "width": figure(step.piece.width_mm, shown),
        "set": step.guide.value,
        "setting": figure(step.setting_mm, shown),
        "from its": step.against,
        "comes off": _name(step.comes_off),
        "comes off size": _across(step, step.comes_off, shown),
        "stays": _name(step.goes_on),
        "stays size": _across(step, step.goes_on, shown),
        "unit": shown.unit.symbol,
        "on board at": figure(step.cut.position_mm, shown),
    }


def _name(held: Held | None) -> str:
    return "dust" if held is None else held.name


def _across(step: SawStep, held: Held | None, shown: Shown) -> str:
    return "" if held is None else figure(across(step, held), shown)


def _place(place: Rectangle, shown: Shown) -> dict[str, str]:
    return {
        "length": figure(place.length_mm, shown),
        "width": figure(place.width_mm, shown),
        "unit": shown.unit.symbol,
        "on board x": figure(place.x_mm, shown),
        "on board y": figure(place.y_mm, shown),
    }


def _row(named: dict[str, str]) -> tuple[str, ...]:
    return tuple(named.get(heading, "") for heading in CUTTING_HEADER)
