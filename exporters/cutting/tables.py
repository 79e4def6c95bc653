"""cutting.csv: on every board its cuts in order, then the parts, then the offcuts."""

from __future__ import annotations

from exporters.cutting.steps import Held, SawStep, offcut_key, saw_steps
from exporters.cutting.words import across, left_out_lines, spared_lines
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import BoardPlan, Rectangle
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

    Args:
        outcome: the plan and its job.
    """
    rows: list[tuple[str, ...]] = []
    for plan in outcome.used:
        rows += _board_rows(outcome, plan)
    if outcome.plan is not None:
        lines = zip(outcome.plan.unplaced, left_out_lines(outcome), strict=True)
        for number, (each, why) in enumerate(lines, start=1):
            row = {"what": "NO PLACE", "number": str(number), "name": each.part, "note": why}
            rows.append(_row(row))
        spared = zip(outcome.plan.left_out, spared_lines(outcome), strict=True)
        for number, (left, why) in enumerate(spared, start=1):
            row = {"what": "LEFT OUT", "number": str(number), "name": left.part, "note": why}
            rows.append(_row(row))
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
    for number, place in enumerate(usable, start=1):
        named = {
            "what": "offcut",
            "number": str(number),
            "name": f"offcut {offcut_key(number - 1)}",
        }
        rows.append(_row({**board, **named, **_place(place, shown)}))
    wasted = [each.place for each in plan.offcuts if not each.is_usable]
    for number, place in enumerate(wasted, start=1):
        named = {"what": "waste", "number": str(number), "name": "waste"}
        rows.append(_row({**board, **named, **_place(place, shown)}))
    return rows


def _cut(step: SawStep, shown: Shown) -> dict[str, str]:
    return {
        "what": step.direction.value,
        "number": str(step.number),
        "name": step.piece.name,
        "length": figure(step.piece.length, shown),
        "width": figure(step.piece.width, shown),
        "set": step.guide.value,
        "setting": figure(step.setting, shown),
        "from its": step.against,
        "comes off": _name(step.comes_off),
        "comes off size": _across(step, step.comes_off, shown),
        "stays": _name(step.goes_on),
        "stays size": _across(step, step.goes_on, shown),
        "unit": shown.unit.symbol,
        "on board at": figure(step.cut.position, shown),
    }


def _name(held: Held | None) -> str:
    return "dust" if held is None else held.name


def _across(step: SawStep, held: Held | None, shown: Shown) -> str:
    return "" if held is None else figure(across(step, held), shown)


def _place(place: Rectangle, shown: Shown) -> dict[str, str]:
    return {
        "length": figure(place.length, shown),
        "width": figure(place.width, shown),
        "unit": shown.unit.symbol,
        "on board x": figure(place.x, shown),
        "on board y": figure(place.y, shown),
    }


def _row(named: dict[str, str]) -> tuple[str, ...]:
    return tuple(named.get(heading, "") for heading in CUTTING_HEADER)
