"""plan.html in a browser: load, turn, pick, open, cut, tick, print, on a phone, for all."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import numpy as np
import pytest

from exporters.facts import CHECKING, Facts, Need, facts_of
from exporters.packet import PacketSettings
from exporters.page import html_of
from exporters.page.atlas import atlas_of
from exporters.page.glb import glb_of
from exporters.page.make import page_of
from exporters.page.page import Page
from exporters.pictures import picture_of
from exporters.plan.contents import contents_of
from exporters.plan.work_rows import TickRow
from exporters.scene import mesh_of, scene_of
from exporters.writers import drawn, shown_of
from furniture import Stance, StandsOn
from tests.exporters.page.browser import browsing, needs_browser
from tests.exporters.page.glb_reader import placed_points, tree_of
from tests.models import piece_of
from tests.shop.boards.bench import outcome_of_model

MODEL = "key_rack"


@pytest.fixture(scope="module")
def facts() -> Facts:
    """What is known of the key rack and its boards, with its sheets."""
    settings = PacketSettings(dated=date(2026, 1, 1))
    found = facts_of(piece_of(MODEL), settings, outcome_of_model(MODEL), CHECKING | {Need.MAKING})
    return replace(found, sheets=drawn(found)[:3])


@pytest.fixture(scope="module")
def page(facts: Facts) -> Page:
    """Its page, with a small still."""
    shown = shown_of(facts)
    return page_of(facts, shown, picture_of(shown, 300, 1))


@pytest.fixture(scope="module")
def file(page: Page, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Its page as a file."""
    path = tmp_path_factory.mktemp("page") / "plan.html"
    path.write_text(html_of(page), encoding="utf-8")
    return path


def test_the_file_holds_every_body_in_metres_with_y_up(page: Page, facts: Facts) -> None:
    tree, data = tree_of(page.glb)
    assert tree["buffers"][0]["byteLength"] == len(data)
    found = dict(placed_points(tree, data))
    assert list(found) == [each.instance for each in facts.piece.placed]
    # millimetres again, z up: 420 wide, 160 high
    all_of_them = np.vstack(list(found.values()))
    size = np.ptp(all_of_them, axis=0)
    assert size[0] == pytest.approx(420.0, abs=0.01)
    assert size[2] == pytest.approx(160.0, abs=0.01)
    for view in tree["bufferViews"]:
        assert view["byteOffset"] % 4 == 0
        assert view["byteOffset"] + view["byteLength"] <= len(data)


def test_it_says_what_the_piece_stands_on_where_it_will_be(facts: Facts) -> None:
    assert any("hangs on a wall" in line for line in contents_of(facts).lines)
    stands = replace(facts, piece=replace(facts.piece, stance=Stance.FLOOR))
    assert any("stands on the floor" in line for line in contents_of(stands).lines)
    setting = replace(facts.settings.setting, stands_on=StandsOn.TABLE)
    on_table = replace(stands, settings=replace(facts.settings, setting=setting))
    assert any("stands on a table" in line for line in contents_of(on_table).lines)


def test_triangles_look_outwards(page: Page, facts: Facts) -> None:
    """The volume inside the triangles, by the law of divergence, is that of the solid."""
    from furniture.solids.make import volume_of

    for each in facts.piece.placed:
        mesh = mesh_of(each.part)
        a, b, c = (mesh.points[mesh.triangles[:, k]] for k in range(3))
        volume = float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum()) / 6.0
        assert volume == pytest.approx(volume_of(each.part), rel=2e-3)


def test_every_point_of_a_face_has_its_own_place_in_the_picture(facts: Facts) -> None:
    for each in facts.piece.placed:
        atlas = atlas_of(mesh_of(each.part), 1.0)
        taken = np.zeros((atlas.height, atlas.width), dtype=int)
        for chart in atlas.charts:
            wide, high = chart.size
            taken[chart.row : chart.row + high, chart.column : chart.column + wide] += 1
        assert taken.max() == 1
        assert (atlas.places >= 0).all()
        assert (atlas.places <= 1).all()


def test_the_page_fetches_nothing_and_ends_no_script_early(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    assert len(text) < 6e6
    for found in re.findall(r"(?:src|href)=\"([^\"]*)\"", text):
        assert found.startswith(("data:", "#")), found[:60]
    assert "@import" not in text
    assert len(re.findall("</script", text)) == len(re.findall("<script", text))
    assert "Permission is hereby granted, free of charge" in text  # the licence travels along


def test_ticks_know_operations_by_keys_that_hold_no_figure(page: Page) -> None:
    rows = [each for each in page.contents.work if isinstance(each, TickRow)]
    assert rows
    keys = [key for row in rows for key in row.keys]
    assert len(keys) == len(set(keys))


def test_letters_of_the_maker_are_shown_and_not_obeyed(page: Page) -> None:
    contents = replace(page.contents, name='<b>Rack</b> & "Co"', lines=("</script><i>x",))
    text = html_of(replace(page, contents=contents))
    assert "<b>Rack" not in text
    assert "</script><i>" not in text


@needs_browser
def test_the_page_in_a_browser(file: Path, facts: Facts, tmp_path: Path) -> None:
    with browsing() as page:
        page.goto(file.as_uri())
        page.wait_for_selector('#view[data-ready="1"]', timeout=120_000)
        page.wait_for_timeout(500)
        view = page.locator("#view")
        first = view.screenshot()
        # it shows something: not one tone all over
        dots = np.asarray(picture(first)).reshape(-1, 3)
        assert dots.std(axis=0).max() > 10
        # turned by keys and by hand
        view.focus()
        page.keyboard.press("ArrowLeft")
        page.keyboard.press("ArrowLeft")
        page.wait_for_timeout(300)
        assert differs(first, view.screenshot())
        # a name in the table marks the part, and says its size
        page.click("#parts tr[data-part] button >> nth=1")
        name = facts.piece.placed[1].part.name
        assert name in page.inner_text("#told")
        assert page.get_attribute("#parts tr.chosen button", "aria-pressed") == "true"
        page.click("#parts tr[data-part] button >> nth=1")
        assert page.inner_text("#told") == ""
        # a part touched in the view is marked in the table
        page.click("#home")
        view.scroll_into_view_if_needed()
        at = view.bounding_box()
        page.mouse.click(at["x"] + at["width"] / 2, at["y"] + at["height"] / 2)
        assert page.locator("#parts tr.chosen").count() == 1
        # opened and cut
        page.click("#home")
        page.wait_for_timeout(200)
        shut = view.screenshot()
        page.evaluate(SET, ["open", "100"])
        page.wait_for_timeout(300)
        assert differs(shut, view.screenshot())
        page.click("#home")
        page.select_option("#section", "x")
        page.wait_for_timeout(300)
        assert differs(shut, view.screenshot())
        # ticks are kept
        page.check("#work .tick input >> nth=0")
        said = page.inner_text("#count")
        assert said.startswith("1 of ")
        page.reload()
        page.wait_for_selector('#view[data-ready="1"]', timeout=120_000)
        assert page.is_checked("#work .tick input >> nth=0")
        assert page.inner_text("#count") == said
        page.uncheck("#work .tick input >> nth=0")
        assert page.inner_text("#count").startswith("0 of ")
        # printed: the still, not an empty canvas
        page.pdf(path=tmp_path / "page.pdf")
        assert (tmp_path / "page.pdf").stat().st_size > 20_000
        assert page.told == []


@needs_browser
def test_the_page_on_a_phone(file: Path) -> None:
    with browsing(width=375, height=740) as page:
        page.goto(file.as_uri())
        page.wait_for_selector('#view[data-ready="1"]', timeout=120_000)
        page.evaluate("document.querySelectorAll('details').forEach((e) => { e.open = true })")
        assert page.evaluate("document.documentElement.scrollWidth") <= 375
        assert (
            page.evaluate("getComputedStyle(document.getElementById('view')).touchAction")
            == "pan-y"
        )
        small = page.evaluate(
            "[...document.querySelectorAll('button, select, .tick input')]"
            ".filter((e) => e.getBoundingClientRect().height < 22).map((e) => e.outerHTML)"
        )
        assert small == []
        assert page.told == []


@needs_browser
def test_the_page_without_a_view_says_so_and_shows_a_picture(file: Path) -> None:
    with browsing(flags=["--disable-3d-apis", "--disable-gpu"]) as page:
        page.goto(file.as_uri())
        page.wait_for_selector("#without:not([hidden])", timeout=60_000)
        assert page.is_visible("#still")
        assert not page.is_visible("#view")
        assert page.inner_text("#why").strip()
        page.check("#work .tick input >> nth=0")  # all else still works
        assert page.inner_text("#count").startswith("1 of ")


@needs_browser
def test_the_page_is_for_everyone(file: Path) -> None:
    """No finding of the accessibility engine axe-core, and its own planted one is found."""
    from axe_playwright_python.sync_playwright import Axe

    with browsing() as page:
        page.goto(file.as_uri())
        page.wait_for_selector('#view[data-ready="1"]', timeout=120_000)
        found = Axe().run(page).response
        assert [each["id"] for each in found["violations"]] == []
        assert len(found["passes"]) > 20
        page.evaluate("document.documentElement.removeAttribute('lang')")
        page.evaluate("document.querySelector('.facts').style.color = '#ddd'")
        ids = {each["id"] for each in Axe().run(page).response["violations"]}
        assert {"html-has-lang", "color-contrast"} <= ids


SET = """([id, value]) => {
  const e = document.getElementById(id); e.value = value; e.dispatchEvent(new Event("input"));
}"""


def picture(data: bytes):
    """A screenshot as an image."""
    import io

    from PIL import Image

    return Image.open(io.BytesIO(data)).convert("RGB")


def differs(one: bytes, other: bytes) -> bool:
    """Whether two screenshots differ in more than a hundredth of their dots."""
    a, b = (np.asarray(picture(each)).astype(int) for each in (one, other))
    return bool((np.abs(a - b).max(axis=2) > 12).mean() > 0.01)


def test_a_scene_without_wood_is_plain_and_whole() -> None:
    tree, _ = tree_of(glb_of(scene_of(piece_of("tea_box"))))
    assert "images" not in tree
    assert len(tree["nodes"]) == len(scene_of(piece_of("tea_box")).bodies) + 1
