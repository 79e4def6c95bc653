"""A browser without a window for pages, where the machine has one."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest

PROGRAMS = ("chromium", "chromium-browser", "google-chrome")
WITHOUT_A_CARD = ["--use-gl=angle", "--use-angle=swiftshader"]


def browser_program() -> str | None:
    """The path of a browser, or none."""
    return next((path for name in PROGRAMS if (path := shutil.which(name))), None)


needs_browser = pytest.mark.skipif(
    browser_program() is None, reason="NO BROWSER HERE: the page was looked at by none"
)


@contextmanager
def browsing(
    *, width: int = 1100, height: int = 900, flags: list[str] | None = None
) -> Iterator[Any]:
    """A browser's page; what its console says of errors is in its `told`.

    Args:
        width: of the window [dots].
        height: of the window [dots].
        flags: of the browser; none draws by its own arithmetic.
    """
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        browser = play.chromium.launch(
            executable_path=browser_program(), args=WITHOUT_A_CARD if flags is None else flags
        )
        page = browser.new_page(viewport={"width": width, "height": height}, has_touch=True)
        told: list[str] = []
        page.on("console", lambda m: told.append(m.text) if m.type == "error" else None)
        page.on("pageerror", lambda e: told.append(str(e)))
        page.told = told
        try:
            yield page
        finally:
            browser.close()
