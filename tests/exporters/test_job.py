"""A job in the middle, run as a maker runs it: what is asked again, what is told, what is left."""

from __future__ import annotations

import json
import runpy
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from exporters.command import run
from exporters.writers import WRITERS, _sheets_of_boards_alone
from furniture import Tier
from furniture.job.boards_now import listed_boards
from tests.builders.bench import a_stand
from tests.models import ROOT

ONLY = ["--only", "parts", "--only", "work", "--only", "cutting"]
MODEL: dict[str, Any] = runpy.run_path(str(ROOT / "models" / "herb_stand.py"))
TEA: dict[str, Any] = runpy.run_path(str(ROOT / "models" / "tea_box.py"))


def _run(model: dict[str, Any], design: Any, *arguments: str) -> int:
    return run(design, arguments, boards=model["BOARDS"], wishes=model["WISHES"],
               shop=model["SHOP"])  # fmt: skip


def _record(folder: Path) -> dict[str, Any]:
    return json.loads((folder / "piece.json").read_text(encoding="utf-8"))  # type: ignore[no-any-return]


@pytest.fixture(scope="module", autouse=True)
def _sheets_of_boards_left_out() -> Iterator[None]:
    """What is asked again stands in the record: the boards' sheets take half of every run."""
    writers = tuple(each for each in WRITERS if each.write is not _sheets_of_boards_alone)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("exporters.packet.WRITERS", writers)
        yield


@pytest.fixture(scope="module")
def herb(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the first packet of the herb stand."""
    folder = tmp_path_factory.mktemp("job") / "out" / "herb"
    assert _run(MODEL, MODEL["stand"], "--out", str(folder), *ONLY) == 0
    return folder


def _go_on(herb: Path, text: str, design: Any = MODEL["stand"], name: str = "second") -> int:
    path = herb.parent / f"{name}.toml"
    path.write_text(f'packet = "herb"\n{text}', encoding="utf-8")
    return _run(MODEL, design, "--out", str(herb.parent / name), "--job", str(path), *ONLY)


def _asked(record: dict[str, Any]) -> set[str]:
    """The instances that a plan lays on boards or finds no place for."""
    plan = record["cutting_plan"]
    return {
        name for part in plan["parts"] for name in part["instances"]
    }  # fmt: skip


def _finished(record: dict[str, Any]) -> set[tuple[str, str]]:
    """Sizes that operations bring about."""
    operations = record["work"]["operations"]
    return {(each["instance"], each["axis"]) for row in operations for each in row["sizes"]}


def _sizes(record: dict[str, Any]) -> dict[str, tuple[float, float, float]]:
    parts = {row["id"]: row for row in record["parts"]}
    return {
        row["instance"]: tuple(
            parts[row["part"]][f"{what}_mm"] for what in ("length", "width", "thickness")
        )
        for row in record["placements"]
    }  # type: ignore[return-value]


def test_the_shipped_job_of_the_herb_stand(herb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The base gives, the stubs stay, the wide post is itself, and none of it is asked again."""
    text = (ROOT / "models" / "herb_stand_job.toml").read_text(encoding="utf-8")
    assert _go_on(herb, text.replace('packet = "../out/herb"', ""), name="wide") == 0
    told = " ".join(capsys.readouterr().out.split())
    assert told.startswith("measured: post.width 111.2 mm (designed 110 mm)")
    assert "base_width 320 mm -> 321.2 mm" in told
    assert "front rail: make new: where the old one still hangs on one length with left" in told
    assert "(what was cut is 1.2 mm too short)" in told, "of the rails' length"
    assert "left stub, right stub: as it is post: as it is" in told
    before, after = _record(herb), _record(herb.parent / "wide")
    assert after["job"]["done"] == ["left stub", "post", "right stub"]
    assert after["job"]["measured"] == [
        {"what": "post.width", "value_mm": 111.2, "designed_mm": 110.0}
    ]
    was, now = _sizes(before), _sizes(after)
    assert now["front rail"][0] == pytest.approx(321.2)
    assert [now[name] for name in ("left stub", "right stub")] == [was["left stub"]] * 2
    done = {"left stub", "right stub", "post"}
    assert not done & _asked(after)
    assert not done & {name for name, _ in _finished(after)}
    assert {"front rail", "lid", "bottom"} <= _asked(after)
    assert "left side rail" not in _asked(after), "it lies on the blank that the stubs came off"
    told = {row["instance"]: row["verdict"] for row in after["revision"]["parts"]}
    assert told["front rail"] == "make new"
    assert told["lid"] == told["bottom"] == "not cut yet", "nothing of them is scrap"
    assert {*told.values()} == {"make new", "not cut yet", "as it is"}


def test_what_cannot_be_together_is_refused_and_writes_nothing(
    herb: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = """
        [done]
        parts = ["left stub", "right stub", "post", "front rail"]
        [measured]
        "post.width" = "111.2 mm"
    """
    assert _go_on(herb, text, name="none") == 1
    told = capsys.readouterr().err
    assert "add up to 321.2 mm across front rail of 320 mm" in told
    assert not (herb.parent / "none").exists()


def test_a_check_found_after_the_third_cut(herb: Path) -> None:
    """What lies clear of it keeps its place; the post goes elsewhere, off what is really left."""
    plan = {row["name"]: row for row in _record(herb)["cutting_plan"]["boards"]}
    post = next(row for row in plan["A"]["placements"] if row["name"] == "post")
    x, y = post["x_mm"] + 200, post["y_mm"] + 30
    text = f"""
        [boards.A]
        cuts = 3
        zones = [{{ what = "check", x = "{x} mm", y = "{y} mm", length = "60 mm", width = "4 mm" }}]
    """
    assert _go_on(herb, text, name="check") == 0
    after = _record(herb.parent / "check")
    mates = {row["instance"] for row in plan["A"]["placements"][0]["instances"]}
    assert "post" in _asked(after)
    assert not (mates - {"post"}) & _asked(after)
    left = [row for row in after["cutting_plan"]["boards"] if row["name"].startswith("A")]
    area = sum(row["length_mm"] * row["widths"][0]["width_mm"] for row in left)
    assert area <= 1460 * 246 - 985 * 88, "what the rails come off is there no more"
    faulty = [row for row in left if any(zone["kind"] == "check" and zone["outline_mm"] for zone in
                                         row["zones"])]  # fmt: skip
    assert faulty, "the check lies on what is left"
    laid = [each["name"] for row in left for each in row["placements"]]
    assert "post" not in laid


def test_tiers_that_are_fatter_than_their_dados_are_there(herb: Path) -> None:
    """Who has measured a thickness has planed it: no board is asked for it, the dados follow."""
    tiers = [f"tier {number}" for number in range(1, 5)]
    text = "[measured]\n" + "".join(f'"{name}.thickness" = "13.7 mm"\n' for name in tiers)
    assert _go_on(herb, text, name="fat") == 0
    after = _record(herb.parent / "fat")
    assert not {*tiers} & _asked(after)
    assert not {(name, "thickness") for name in tiers} & _finished(after)
    assert {(name, "width") for name in tiers} <= _finished(after)
    changed = {row["instance"] for row in after["revision"]["parts"]
               if row["verdict"] == "not cut yet"}  # fmt: skip
    assert changed == {"post"}


def test_the_plan_changes_again(herb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A rail made by the second packet is as long as that has it, and the first work stays done."""
    text = """
        [done]
        parts = ["left stub", "right stub", "post"]
        [measured]
        "post.width" = "111.2 mm"
    """
    assert _go_on(herb, text, name="once") == 0
    path = herb.parent / "twice.toml"
    path.write_text('packet = "once"\n[done]\nparts = ["front rail"]', encoding="utf-8")
    out = herb.parent / "twice"
    capsys.readouterr()
    assert _run(MODEL, MODEL["stand"], "--out", str(out), "--job", str(path), *ONLY) == 0
    after = _record(out)
    assert _sizes(after)["front rail"][0] == pytest.approx(321.2)
    done = {"left stub", "right stub", "post", "front rail"}
    assert {*after["job"]["done"]} == done
    assert not done & ({name for name, _ in _finished(after)} | _asked(after))
    assert after["job"]["gave"] == [], "what gave the first time stands"


def test_operations_at_the_boards_are_cuts_that_are_made(herb: Path) -> None:
    """By number on the work sheet or on the board's: the same."""
    operations = _record(herb)["work"]["operations"]
    keys = {row["key"]: row["n"] for row in operations}
    numbers = [keys[f"board A: cut {number}"] for number in (1, 2, 3)]
    assert _go_on(herb, f"[done]\noperations = {numbers}", name="sawn") == 0
    assert _go_on(herb, "[boards.A]\ncuts = 3", name="counted") == 0
    one, two = (_record(herb.parent / name) for name in ("sawn", "counted"))
    assert one["cutting_plan"] == two["cutting_plan"]
    assert "post" not in _asked(one), "it keeps its place"


def test_the_whole_stand_lower_when_its_dados_are_cut(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The script was changed: the done post is shortened at its foot, and asked no more."""
    stand = a_stand()
    first = ["--out", str(tmp_path / "first"), "--only", "parts", "--only", "work"]
    assert run(stand, first) == 0
    path = tmp_path / "job.toml"
    path.write_text('packet = "first"\n[done]\nparts = ["post"]', encoding="utf-8")
    lower = replace(stand, base_height="68 mm")
    second = ["--out", str(tmp_path / "second"), "--job", str(path), "--only", "work"]
    capsys.readouterr()
    assert run(lower, second) == 0
    assert "post: trim" in capsys.readouterr().out
    record = _record(tmp_path / "second")
    assert record["job"]["parts"] == [{"instance": "post", "verdict": "trim"}]
    assert "post" not in {name for name, _ in _finished(record)}


def test_a_done_part_that_does_not_serve_is_made_anew_from_its_first_cut(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The script wants a wider post than the one that is done."""
    assert run(a_stand(), ["--out", str(tmp_path / "first"), "--only", "work"]) == 0
    path = tmp_path / "job.toml"
    path.write_text('packet = "first"\n[done]\nparts = ["post"]', encoding="utf-8")
    second = ["--out", str(tmp_path / "second"), "--job", str(path), "--only", "work"]
    capsys.readouterr()
    assert run(a_stand(post_width="110 mm"), second) == 0
    assert "post: make new (what was cut is 10 mm too narrow)" in capsys.readouterr().out
    record = _record(tmp_path / "second")
    assert record["job"]["done"] == []
    sizes = {("post", axis) for axis in ("length", "width", "thickness")}
    assert sizes <= _finished(record)


def test_a_shallower_tier_is_trimmed(herb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Its bore and its round-over are there: the verdict says what is run again, or make new."""
    tiers = [Tier(width=f"{300 - 30 * at} mm", depth=f"{150 - 15 * at} mm", rise="150 mm")
             for at in range(4)]  # fmt: skip
    tiers[3] = replace(tiers[3], depth="67 mm")
    shallow = replace(MODEL["stand"], tiers=tiers, loads=[])
    assert _go_on(herb, '[done]\nparts = ["tier 4"]', shallow, name="shallow") == 0
    told = " ".join(capsys.readouterr().out.split())
    assert "tier 4: trim" in told or "tier 4: make new" in told
    record = _record(herb.parent / "shallow")
    assert ("tier 4" in _asked(record)) == ("tier 4: make new" in told)


RAILS = ("left side rail", "front rail", "right side rail")


def _begun_rails(herb: Path) -> str:
    """A job in which the rails' length is milled and not yet sawn apart."""
    rows = _record(herb)["work"]["operations"]
    ends = {row["n"] for row in rows if row["kind"] == "mitre"}
    strip = [row for row in rows if any(one["instance"] in RAILS for one in row["sizes"])]
    done = {number for row in strip if row["kind"] != "mitre" for number in row["after"]}
    done |= {row["n"] for row in strip if row["kind"] != "mitre"}
    return f"[done]\noperations = {sorted(done - ends)}"


def test_parts_that_grow_a_little_come_out_of_what_was_left_on_their_length(herb: Path) -> None:
    """Two rails of one length are 3 longer each; half of the 15 that were left takes 7.5."""
    deeper = replace(MODEL["stand"], base_depth="213 mm", loads=[])
    assert _go_on(herb, _begun_rails(herb), deeper, name="deeper") == 0
    record = _record(herb.parent / "deeper")
    assert _sizes(record)["left side rail"][0] == pytest.approx(213.0)
    assert not _asked(record) & {*RAILS}
    assert {*RAILS} <= {*record["job"]["in_hand"]}
    assert record["job"]["parts"] == []


def test_parts_that_outgrow_their_length_are_told_to_be_made_new(
    herb: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """4 longer each is half a millimetre more than there is: from new wood and its first cut."""
    deeper = replace(MODEL["stand"], base_depth="214 mm", loads=[])
    capsys.readouterr()
    assert _go_on(herb, _begun_rails(herb), deeper, name="deepest") == 0
    told = " ".join(capsys.readouterr().out.split())
    assert "left side rail: make new: where the old one still hangs on one length" in told
    assert told.count("(what was cut is 4 mm too short)") == 2
    record = _record(herb.parent / "deepest")
    anew = {"left side rail", "right side rail"}
    assert anew <= _asked(record)
    sizes = {(name, axis) for name in anew for axis in ("length", "width", "thickness")}
    assert sizes <= _finished(record)
    assert "front rail" not in _asked(record)


def test_numbers_of_the_folder_that_is_written_are_refused(
    herb: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = herb.parent / "same.toml"
    path.write_text('packet = "herb"\n[done]\nparts = ["post"]', encoding="utf-8")
    assert _run(MODEL, MODEL["stand"], "--out", str(herb), "--job", str(path), *ONLY) == 1
    assert "another folder than that of the packet" in capsys.readouterr().err


def test_the_shipped_job_of_the_tea_box(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The lid is cut to its opening, which is out of square; the frame stays as it is."""
    first = tmp_path / "out" / "tea"
    assert _run(TEA, TEA["box"], "--out", str(first), *ONLY, "--job-template",
                str(tmp_path / "job.toml")) == 0  # fmt: skip
    assert '# packet = "out/tea"' in (tmp_path / "job.toml").read_text(encoding="utf-8")
    text = (ROOT / "models" / "tea_box_job.toml").read_text(encoding="utf-8")
    path = tmp_path / "tea.toml"
    path.write_text(text.replace("../out/tea", "out/tea"), encoding="utf-8")
    again = ["--out", str(tmp_path / "out" / "tea-2"), "--job", str(path), *ONLY]
    capsys.readouterr()
    assert _run(TEA, TEA["box"], *again) == 0
    told = capsys.readouterr().out
    assert "out of square by" in told
    was, now = (_sizes(_record(tmp_path / "out" / name)) for name in ("tea", "tea-2"))
    assert was["lid"][0] - now["lid"][0] == pytest.approx(25.4 / 64)
    assert was["lid"][1] - now["lid"][1] == pytest.approx(25.4 / 32)
    stands = {
        row["instance"] for row in _record(tmp_path / "out" / "tea-2")["job"]["as_they_stand"]
    }
    assert stands == {"front rail", "back rail", "left side rail", "right side rail"}
    changed = {name for name in was if was[name] != now[name]} - stands
    assert changed == {"lid", "bottom"}, "the bottom lies in the same frame"


def test_what_is_spoilt_is_made_again_and_its_neighbours_stay(
    herb: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The front rail splits in the middle of a length that five parts come off."""
    capsys.readouterr()
    begun = f'{_begun_rails(herb)}\nspoilt = ["front rail"]'
    assert _go_on(herb, begun, name="spoilt") == 0
    told = " ".join(capsys.readouterr().out.split())
    assert "front rail: make new: where the old one still hangs on one length" in told
    assert "with left side rail and right side rail, saw it out" in told
    record = _record(herb.parent / "spoilt")
    assert record["job"]["parts"] == [{"instance": "front rail", "verdict": "make new"}]
    assert _asked(record) & {*RAILS, "left stub", "right stub"} == {"front rail"}
    sizes = {axis for name, axis in _finished(record) if name == "front rail"}
    assert sizes == {"length", "width", "thickness"}
    rows = record["work"]["workpieces"]
    lengths = {frozenset(row["instances"]) for row in rows if row["what"] == "strip"}
    pairs = {frozenset([f"{hand} stub", f"{hand} side rail"]) for hand in ("left", "right")}
    assert pairs <= lengths


def test_wood_that_is_off_its_board_and_not_planed_yet_is_planed_in_the_next_packet(
    tmp_path: Path,
) -> None:
    """Its own packet tells how much comes off; the next took it for as thick as its part."""
    boards = [replace(each, thickness="15 mm") if each.name in "CD" else each
              for each in listed_boards(MODEL["BOARDS"])]  # fmt: skip
    thick = {**MODEL, "BOARDS": boards}
    only = ["--only", "work", "--only", "cutting"]
    assert _run(thick, MODEL["stand"], "--out", str(tmp_path / "first"), *only) == 0
    rows = _record(tmp_path / "first")["work"]["operations"]
    cuts = [row["n"] for row in rows if row["key"].startswith(("board C: cut", "board D: cut"))]
    path = tmp_path / "job.toml"
    path.write_text(f'packet = "first"\n[done]\noperations = {cuts}', encoding="utf-8")
    second = ["--out", str(tmp_path / "second"), "--job", str(path), *only]
    assert _run(thick, MODEL["stand"], *second) == 0
    record = _record(tmp_path / "second")
    there = {*record["job"]["in_hand"]} & {"tier 1", "tier 2", "tier 3", "tier 4", "lid"}
    planed = {
        one["instance"]
        for row in record["work"]["operations"]
        if row["kind"] == "plane to thickness"
        for one in row["sizes"]
    }
    assert there
    assert there <= planed
