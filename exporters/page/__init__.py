"""plan.html: one file that shows the piece to turn, its parts, boards, work and sheets."""

from exporters.page.page import Page, html_of, write_page

__all__ = ["Page", "html_of", "write_page"]
