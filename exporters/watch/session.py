"""From a saved script to a changed view: shapes first, then wood, plan, sheets and checks."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

from exporters.batch import Batch
from exporters.designs import piece_of
from exporters.page.glb import glb_of
from exporters.page.page import Page, header_of, html_of, rest_of
from exporters.pictures.exploded import APART_CAMERA, shifts_of
from exporters.pictures.write import camera_for
from exporters.render.ground import ground_shadow
from exporters.scene.scene import scene_of
from exporters.settings import PacketSettings
from exporters.watch.files import state_of, wait_for_change
from exporters.watch.script import Given, ScriptError, given_by
from exporters.watch.server import Desk, Server
from furniture.checks.of_piece.setting import read_setting
from furniture.errors import KnifewallError
from furniture.pieces import Piece
from furniture.shop.tools.reading import rules_of_shop, usual_or

if TYPE_CHECKING:
    from exporters.facts import Facts

_GLB = "model/gltf-binary"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Built:
    """A piece built from what a script gives, and how it is judged and made."""

    given: Given
    piece: Piece
    settings: PacketSettings


def watch(script: Path, job: Path | None = None) -> int:
    """The exit code once Ctrl-C ends it: 0.

    Args:
        script: whose piece is shown.
        job: what is done and measured already, a job file.
    """
    desk = Desk()
    server: Server | None = None
    try:
        known = {script.resolve(), *([] if job is None else [job.resolve()])}
        while True:
            state = state_of(known)
            found = shown(script, job, desk, lambda state=state, known=frozenset(known): (  # type: ignore[misc]
                state_of(known) != state
            ))  # fmt: skip
            if server is None:
                server = Server(desk)
                print(f"open {server.url}\nsave {script.name} to see it change; Ctrl-C ends")
                sys.stdout.flush()
            if found is not None and found.given.files - known:
                known |= found.given.files
                state = (*state, *state_of(found.given.files))
                state = state_of(known)
            wait_for_change(known, state)
    except KeyboardInterrupt:
        print("\nended by hand")
        return 0
    finally:
        if server is not None:
            server.close()


def shown(
    script: Path, job: Path | None, desk: Desk, is_stale: Callable[[], bool] = lambda: False
) -> Built | None:
    """What was built and put on the desk; None where the script has a mistake, which is told.

    The last view stays while there is a mistake.

    Args:
        script: run anew.
        job: a job file.
        desk: takes what is shown.
        is_stale: whether something was saved since, so that what is left is not worth the time.
    """
    began = time.perf_counter()
    try:
        built = built_from(script, job)
        facts = _bare(built)
        scene = scene_of(built.piece)
        shadow = ground_shadow(scene, camera_for(built.piece).axes[2])
        page = _page(facts, glb_of(scene, None, _plain_shifts(built.piece), shadow))
        _put(desk, page, "piece", f"{time.perf_counter() - began:.3f}")
        if is_stale():
            return built
        facts = _facts(built, is_stale)
        if is_stale():
            return built
        page = _whole(facts, page)
        _put(desk, page, "rest", f"{time.perf_counter() - began:.3f}")
    except KnifewallError as error:
        said = str(error) if isinstance(error, ScriptError) else f"{script.name}: {error}"
        if "index.html" not in desk.files:
            desk.put("index.html", "text/html; charset=utf-8", _waiting(script).encode())
        desk.tell("mistake", said)
        return None
    return built


def built_from(script: Path, job: Path | None) -> Built:
    """The piece of a script, and how it is judged.

    Args:
        script: run anew.
        job: a job file.

    Raises:
        KnifewallError: the script or its design is in no order.
    """
    given = given_by(script)
    if isinstance(given.design, Batch):
        raise ScriptError(f"{script.name}: --watch shows one piece, and this is a batch")
    more = given.more
    rules, place = rules_of_shop(more.get("shop"), more.get("rules")), more.get("place")
    piece = piece_of(given.design, rules)
    going = None
    shop = usual_or(more.get("shop"), piece.shown)
    if job is not None:
        from exporters.job import going_on

        boards = more.get("boards", ())
        going = going_on(given.design, job, script.parent, boards, rules, shop)
        piece = going.piece
    settings = PacketSettings(
        dated=date.today(), setting=read_setting(place, rules), shop=shop, job=going
    )
    return Built(given=given, piece=piece, settings=settings)


def _bare(built: Built) -> Facts:
    """What is known before anything is planned, weighed or checked."""
    from exporters.facts import Facts

    return Facts(
        piece=built.piece, settings=built.settings, cutting=None, weighed=None, order=None,
        work=None, groups=(),
    )  # fmt: skip


def _facts(built: Built, is_stale: Callable[[], bool]) -> Facts:
    """What is known once boards, assembly and checks are worked out; a new save stops the plan."""
    from exporters.facts import CHECKING, Need, facts_of
    from exporters.photo.files import photos_beside
    from exporters.writers import drawn
    from furniture.shop.boards import cutting_job
    from furniture.shop.boards.outcome import outcome_of

    more = built.given.more
    boards = more.get("boards", ())
    if built.settings.job is not None:
        from exporters.job import boards_left

        boards = boards_left(boards, built.settings.job)
    shop = more.get("shop")
    saw = None if shop is None else shop.saw
    job = cutting_job(built.piece, boards, more.get("wishes"), saw)
    cutting = outcome_of(job, lambda _: not is_stale())
    settings = replace(built.settings, photos=photos_beside(boards, job.boards))
    facts = facts_of(built.piece, settings, cutting, CHECKING | {Need.MAKING})
    return facts if is_stale() else replace(facts, sheets=drawn(facts))


def _whole(facts: Facts, page: Page) -> Page:
    """The page with wood, sheets and all words."""
    import tempfile

    from exporters.cutting.picture import write_boards_picture
    from exporters.grain import woods_of_boards
    from exporters.page.make import page_of, picture_bytes
    from exporters.writers import shown_of

    boards = b""
    if facts.cutting is not None and facts.cutting.plan is not None:
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "boards.png"
            woods = woods_of_boards(facts.piece, facts.cutting, facts.settings.photos)
            write_boards_picture(facts.piece, facts.cutting, path, woods)
            boards = picture_bytes(path)
    return replace(page_of(facts, shown_of(facts), _no_picture(), boards), live=page.live)


def _page(facts: Facts, glb: bytes) -> Page:
    from exporters.page.make import jpeg_of
    from exporters.plan.contents import contents_of

    live = files("exporters.watch").joinpath("live.js").read_text(encoding="utf-8")
    return Page(contents=contents_of(facts), glb=glb, still=jpeg_of(_no_picture()), live=live)


def _plain_shifts(piece: Piece) -> dict[str, tuple[float, float, float]]:
    """How parts move apart before the order of assembly is known: each joint on its own."""
    return dict(shifts_of(piece, None, APART_CAMERA))


def _no_picture() -> object:
    from PIL import Image

    return Image.new("RGB", (8, 8), "white")


def _put(desk: Desk, page: Page, event: str, seconds: str) -> None:
    desk.put("index.html", "text/html; charset=utf-8", html_of(page).encode())
    desk.put("piece.glb", _GLB, page.glb)
    desk.put("rest.html", "text/html; charset=utf-8", rest_of(page).encode())
    desk.put("head.html", "text/html; charset=utf-8", header_of(page).encode())
    desk.tell(event, seconds)


def _waiting(script: Path) -> str:
    """A page for a script that has not been in order yet: it becomes the piece once it is."""
    return (
        f'<!DOCTYPE html><html lang="en"><meta charset="utf-8"><title>{script.name}</title>'
        '<p id="note" role="alert"></p><script>const s = new EventSource("events");'
        's.addEventListener("mistake", (e) => {'
        'document.getElementById("note").textContent = JSON.parse(e.data); });'
        's.addEventListener("piece", () => location.reload());</script></html>'
    )
