"""Boards by their photo: marks of known place make it true to scale, and tell how true it is."""

from exporters.photo.camera import Fitted, Mark, fitted
from exporters.photo.files import PhotoError, photos_beside
from exporters.photo.wood import PhotoWood, wood_of_photo

__all__ = [
    "Fitted", "Mark", "PhotoError", "PhotoWood", "fitted", "photos_beside", "wood_of_photo",
]  # fmt: skip
