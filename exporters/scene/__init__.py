"""What is seen of a piece: its parts, what holds them, what stands on it, as triangles."""

from exporters.scene.mesh import Mesh, mesh_of
from exporters.scene.scene import Body, Scene, Sort, scene_of

__all__ = ["Body", "Mesh", "Scene", "Sort", "mesh_of", "scene_of"]
