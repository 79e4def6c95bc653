"""Watching: a saved script changes what an open page shows, a mistake does not."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import threading
import time
import urllib.error
import urllib.request
from pathlib import Path

import numpy as np
import pytest

from exporters.watch.files import state_of, wait_for_change
from exporters.watch.script import ScriptError, given_by
from exporters.watch.server import Desk, Server
from exporters.watch.session import shown
from tests.exporters.page.browser import browsing, needs_browser
from tests.exporters.page.glb_reader import placed_points, tree_of

SCRIPT = """
from exporters import main
from furniture import MitredBox, Stock
{helper}
oak = Stock(name="oak", species="white oak", thickness="12 mm", moisture="9 %")
thin = Stock(name="thin oak", species="white oak", thickness="6 mm", moisture="9 %")
box = MitredBox(
    name="Small box", rails=oak, lid=thin, width="{width}", depth="120 mm", height="60 mm"
)
if __name__ == "__main__":
    main(box)
"""


def written(folder: Path, width: str = "200 mm", helper: str = "") -> Path:
    """A script of a small box, put in its place whole as editors do."""
    path, new = folder / "box_model.py", folder / ".box_model.py.new"
    new.write_text(SCRIPT.format(width=width, helper=helper), encoding="utf-8")
    os.replace(new, path)
    return path


def width_of(desk: Desk) -> float:
    """How wide the piece is that a desk shows [mm]."""
    points = np.vstack([each for _, each in placed_points(*tree_of(desk.files["piece.glb"][1]))])
    return float(np.ptp(points[:, 0]))


def test_a_script_hands_over_what_it_would_build(tmp_path: Path) -> None:
    import exporters

    before = exporters.main
    (tmp_path / "sizes_beside.py").write_text("WIDE = '210 mm'\n", encoding="utf-8")
    script = written(tmp_path, '"+ WIDE + "', "from sizes_beside import WIDE")
    sys.path.insert(0, str(tmp_path))
    try:
        given = given_by(script)
        assert given.design.name == "Small box"
        assert {each.name for each in given.files} == {"box_model.py", "sizes_beside.py"}
        (tmp_path / "sizes_beside.py").write_text("WIDE = '240.5 mm'\n", encoding="utf-8")
        assert given_by(script).design.width == "240.5 mm"
    finally:
        sys.path.remove(str(tmp_path))
    assert exporters.main is before


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("x = 1\ny = (\n", "line 2"),
        ("x = 1\n\nraise ValueError('no such wood')\n", "line 3: ValueError: no such wood"),
        ("x = 1\n", "never calls main"),
        ("import sys\nsys.exit(3)\n", "line 2"),
    ],
)
def test_a_mistake_is_told_where_it_is(text: str, told: str, tmp_path: Path) -> None:
    path = tmp_path / "wrong.py"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(ScriptError) as caught:
        given_by(path)
    assert "wrong.py" in str(caught.value)
    assert told in str(caught.value)


def test_what_is_shown_follows_the_script_and_stays_through_a_mistake(tmp_path: Path) -> None:
    desk = Desk()
    stop_after_shapes = lambda: True  # noqa: E731 - said once
    script = written(tmp_path)
    assert shown(script, None, desk, stop_after_shapes) is not None
    assert width_of(desk) == pytest.approx(200.0, abs=0.01)
    written(tmp_path, "231 mm")
    assert shown(script, None, desk, stop_after_shapes) is not None
    assert width_of(desk) == pytest.approx(231.0, abs=0.01)
    for bad in ("3 mm", "two"):
        written(tmp_path, bad)
        assert shown(script, None, desk) is None
        assert "width" in desk.last_mistake
        assert width_of(desk) == pytest.approx(231.0, abs=0.01)
    written(tmp_path, "180 mm")
    assert shown(script, None, desk, stop_after_shapes) is not None
    assert desk.last_mistake == ""


def test_wood_plan_and_checks_follow_the_shapes(tmp_path: Path) -> None:
    desk = Desk()
    shown(written(tmp_path), None, desk)
    tree, _ = tree_of(desk.files["piece.glb"][1])
    assert tree["images"]
    rest = desk.files["rest.html"][1].decode()
    for what in ('id="parts"', 'id="work"', 'id="sheets"', 'id="checks"', 'id="mind"'):
        assert what in rest


@pytest.mark.parametrize("way", ["in place", "renamed", "slowly"])
def test_every_way_of_saving_is_seen_once_it_is_whole(way: str, tmp_path: Path) -> None:
    path = tmp_path / "f.py"
    path.write_text("old", encoding="utf-8")
    known = state_of([path])

    def save() -> None:
        time.sleep(0.15)
        if way == "in place":
            path.write_text("newer", encoding="utf-8")
        elif way == "renamed":
            (tmp_path / "n").write_text("newer", encoding="utf-8")
            os.replace(tmp_path / "n", path)
        else:
            with path.open("w", encoding="utf-8") as file:  # empty at first
                time.sleep(0.4)
                file.write("newer")

    saver = threading.Thread(target=save)
    saver.start()
    ended = time.monotonic() + 20.0
    found = wait_for_change([path], known, lambda: time.monotonic() > ended)
    assert found != known
    assert path.read_text(encoding="utf-8") == "newer"
    saver.join()


def fetched(url: str, host: str | None = None) -> tuple[int, bytes]:
    """Code and bytes of an address."""
    request = urllib.request.Request(url, headers={} if host is None else {"Host": host})
    try:
        with urllib.request.urlopen(request, timeout=10) as answer:
            return answer.status, answer.read()
    except urllib.error.HTTPError as error:
        return error.code, error.read()


def test_only_who_knows_the_address_is_served() -> None:
    desk = Desk()
    desk.put("index.html", "text/html", b"the piece")
    server = Server(desk)
    try:
        assert server.url.startswith("http://127.0.0.1:")
        root = server.url.split("/")[2]
        assert fetched(server.url) == (200, b"the piece")
        assert fetched(f"{server.url}nothing")[0] == 404
        for url in (f"http://{root}/", f"http://{root}/wrong/", f"http://{root}/wrong/events"):
            assert fetched(url)[0] == 403
        assert fetched(server.url, host="elsewhere.example")[0] == 403
    finally:
        server.close()
    with pytest.raises(OSError, match="refused"):
        fetched(server.url)


def test_events_reach_who_listens() -> None:
    desk = Desk()
    server = Server(desk)
    try:
        with urllib.request.urlopen(f"{server.url}events", timeout=10) as stream:
            for _ in range(100):
                if desk.listeners:
                    break
                time.sleep(0.02)
            desk.tell("mistake", "line 3\nno such wood")
            assert stream.readline() == b"event: mistake\n"
            assert json.loads(stream.readline().removeprefix(b"data: ")) == "line 3\nno such wood"
    finally:
        server.close()


def started(script: Path) -> tuple[subprocess.Popen[str], str]:
    """The script watched by a program of its own, and its address."""
    root = Path(__file__).resolve().parents[2]
    program = subprocess.Popen(
        [sys.executable, str(script), "--watch"], stdout=subprocess.PIPE, stderr=subprocess.PIPE,
        text=True, env={**os.environ, "PYTHONPATH": str(root)}, start_new_session=True,
    )  # fmt: skip
    assert program.stdout is not None
    line = program.stdout.readline()
    assert line.startswith("open http://127.0.0.1:"), program.stderr and program.stderr.read()
    return program, line.split()[1]


def test_ctrl_c_ends_it_clean(tmp_path: Path) -> None:
    program, url = started(written(tmp_path))
    assert fetched(url)[0] == 200
    program.send_signal(signal.SIGINT)
    out, err = program.communicate(timeout=60)
    assert program.returncode == 0
    assert "ended by hand" in out
    assert "Traceback" not in err


@needs_browser
def test_an_open_page_changes_when_the_script_is_saved(tmp_path: Path) -> None:
    script = written(tmp_path)
    program, url = started(script)
    try:
        with browsing() as page:
            page.goto(url)
            page.wait_for_selector('#view[data-ready="1"]', timeout=120_000)
            written(tmp_path, "312 mm")
            page.wait_for_function(
                "document.querySelector('header').textContent.includes('312 mm wide')",
                timeout=120_000,
            )
            written(tmp_path, "2 mm")
            page.wait_for_selector("#note:not([hidden])", timeout=60_000)
            assert "width" in page.inner_text("#note")
            assert "312 mm wide" in page.inner_text("header")
            written(tmp_path, "280 mm")
            page.wait_for_function(
                "document.querySelector('header').textContent.includes('280 mm wide')",
                timeout=120_000,
            )
            assert not page.is_visible("#note")
            assert page.told == []
    finally:
        program.send_signal(signal.SIGINT)
        program.communicate(timeout=60)
