"""Figures of the bench, reckoned from plain numbers: no piece and no part is known here."""
