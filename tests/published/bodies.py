"""Rigid bodies on a tilted floor: a thin hand on mujoco, which knows nothing of our statics."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache

import mujoco
import numpy as np

from furniture.checks.stability import Body
from furniture.units.gravity import GRAVITY_M_S2

_TOPPLED_COSINE = math.cos(math.radians(12.0))
_SLID_MM = 20.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """Bodies fixed to each other, standing on round pads [mm, kg], and the floor's friction."""

    pads_mm: tuple[tuple[float, float], ...]
    bodies: tuple[Body, ...]
    friction: float = 3.0
    low_pad: tuple[int, float] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of the bodies: whether they toppled, and how far they slid [mm]."""

    toppled: bool
    slid_mm: float

    @property
    def slid(self) -> bool:
        """Whether they slid."""
        return self.slid_mm > _SLID_MM


def run(
    scene: Scene, tilt_deg: float, towards_deg: float, push_n: float = 0.0, push_mm: float = 0.0
) -> Outcome:
    """What happens when gravity leans by an angle toward a direction, or a push acts at a height.

    towards 0 is to the right (x), 90 to the back (y).
    """
    model = _model(scene)
    data = mujoco.MjData(model)
    direction = np.array([math.cos(math.radians(towards_deg)), math.sin(math.radians(towards_deg))])
    frame = model.body("piece").id
    start = None
    settle, ramp, hold = 0.3, 0.7, 1.5
    steps = round((settle + ramp + hold) / model.opt.timestep)
    for step in range(steps):
        now = step * model.opt.timestep
        share = min(1.0, max(0.0, (now - settle) / ramp))
        angle = math.radians(tilt_deg) * share
        sideways = GRAVITY_M_S2 * math.sin(angle) * direction
        model.opt.gravity[:] = (*sideways, -GRAVITY_M_S2 * math.cos(angle))
        if push_n:
            force = np.array([*(push_n * share * direction), 0.0])
            # The push follows the body's place, and acts on its axis at the stated height.
            point = data.xpos[frame] + data.xmat[frame].reshape(3, 3) @ _at(scene, push_mm)
            data.qfrc_applied[:] = 0.0
            mujoco.mj_applyFT(model, data, force, np.zeros(3), point, frame, data.qfrc_applied)
        mujoco.mj_step(model, data)
        if start is None and now >= settle:
            start = data.xpos[frame][:2].copy()
        if data.xmat[frame][8] < _TOPPLED_COSINE:
            return Outcome(toppled=True, slid_mm=_slid(data, frame, start))
    return Outcome(toppled=False, slid_mm=_slid(data, frame, start))


@cache
def tip_angle_deg(scene: Scene, towards_deg: float) -> float:
    """The tilt at which the bodies topple toward a direction [deg], by halving to 0.05."""
    low, high = 0.0, 60.0
    while high - low > 0.05:
        middle = (low + high) / 2.0
        if run(scene, middle, towards_deg).toppled:
            high = middle
        else:
            low = middle
    return (low + high) / 2.0


@cache
def tipping_push_n(scene: Scene, towards_deg: float, at_mm: float, most_n: float) -> float:
    """The push at a height that topples the bodies toward a direction [N], to a 500th of most."""
    low, high = 0.0, most_n
    while high - low > most_n / 500.0:
        middle = (low + high) / 2.0
        if run(scene, 0.0, towards_deg, middle, at_mm).toppled:
            high = middle
        else:
            low = middle
    return (low + high) / 2.0


def _at(scene: Scene, height_mm: float) -> np.ndarray:
    xs, ys = zip(*scene.pads_mm, strict=True)
    return np.array([sum(xs) / len(xs), sum(ys) / len(ys), height_mm]) / 1000.0


def _pad_height(scene: Scene, index: int) -> float:
    """The height of a pad's middle over the floor [m]: one pad may end short of it."""
    short = scene.low_pad[1] if scene.low_pad and scene.low_pad[0] == index else 0.0
    return (2.0 + short) / 1000.0


def _slid(data: mujoco.MjData, frame: int, start: np.ndarray | None) -> float:
    if start is None:
        return 0.0
    return float(np.linalg.norm(data.xpos[frame][:2] - start)) * 1000.0


@cache
def _model(scene: Scene) -> mujoco.MjModel:
    pads = "".join(
        f'<geom type="sphere" size="0.002" pos="{x / 1000} {y / 1000} {_pad_height(scene, index)}" '
        f'mass="0" contype="1" conaffinity="1"/>'
        for index, (x, y) in enumerate(scene.pads_mm)
    )
    masses = "".join(
        f'<geom type="box" size="0.02 0.02 0.02" contype="0" conaffinity="0" mass="{body.mass_kg}" '
        f'pos="{body.centre_mm[0] / 1000} {body.centre_mm[1] / 1000} {body.centre_mm[2] / 1000}"/>'
        for body in scene.bodies
    )
    return mujoco.MjModel.from_xml_string(
        f"""<mujoco>
        <compiler boundmass="1e-9" boundinertia="1e-12"/>
        <option timestep="0.001" integrator="implicitfast" cone="elliptic" impratio="20"/>
        <default><geom friction="{scene.friction} 0.0001 0.0001" condim="3"
                       solref="0.004 1" solimp="0.99 0.999 0.0001"/></default>
        <worldbody>
          <geom type="plane" size="5 5 0.1"/>
          <body name="piece" pos="0 0 0"><freejoint/>{pads}{masses}</body>
        </worldbody></mujoco>"""
    )
