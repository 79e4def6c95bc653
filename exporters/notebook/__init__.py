"""How a piece, a finding and a cutting plan show themselves in a notebook: small, and no script."""

from exporters.notebook.html import finding_html, piece_html, plan_html

__all__ = ["finding_html", "piece_html", "plan_html", "shows_itself"]


def shows_itself() -> None:
    """Lets notebooks ask these values for their looks; the model itself knows of no page."""
    from furniture.checks.finding import Finding
    from furniture.pieces.piece import Piece
    from furniture.shop.boards.outcome import CuttingOutcome

    # Notebooks look for this name on the class; the model stays free of pictures and pages.
    for kind, html in (
        (Piece, piece_html), (Finding, finding_html), (CuttingOutcome, plan_html),
    ):  # fmt: skip
        setattr(kind, "_repr_html_", html)  # noqa: B010 - the name is set for others to find
