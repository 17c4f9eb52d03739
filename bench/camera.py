"""A sheet of paper in front of a camera or on a scanner: the picture, and where each millimetre of the paper lands.

Everything is simulated: a pinhole camera over a bent sheet, light that falls off, shadows, blur, noise, JPEG.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import cos, pi, radians, sin
from typing import TYPE_CHECKING, Any

import cv2
import numpy as np

if TYPE_CHECKING:
    from dayleaf.reading.arrays import Array


GRID = 16
"""Pixels between the points at which the way from picture to paper is worked out exactly."""


@dataclass(frozen=True, slots=True)
class Shot:
    """How a photo is taken. Angles in degrees, lengths in millimetres, blur in pixels.

    `fill` is the share of the picture's shorter way that the paper would take if it lay flat in front; `aside` moves
    the paper off the middle, in shares of the picture.
    """

    size: tuple[int, int] = (3000, 4000)
    tilt: float = 0.0
    axis: float = 0.0
    spin: float = 0.0
    fill: float = 0.85
    aside: tuple[float, float] = (0.0, 0.0)
    curl: float = 0.0
    curl_along: float = 0.0
    light: float = 0.1
    shadow: float = 0.0
    blur: float = 0.0
    noise: float = 2.0
    quality: int = 90
    dark_table: bool = True
    clutter: int = 0


@dataclass(frozen=True, slots=True)
class View:
    """Where the points of the paper lie in the picture."""

    shot: Shot
    paper: tuple[float, float]
    turn: Array
    focal: float
    distance: float
    middle: tuple[float, float]

    def see(self, points: Any) -> Array:
        """Pixels (x, y) of points on the paper in millimetres, N x 2."""
        at = np.asarray(points, float).reshape(-1, 2)
        flat = at - np.array(self.paper) / 2
        way = radians(self.shot.curl_along)
        along = flat @ np.array([cos(way), sin(way)])
        half = max(self.paper) / 2
        lift = self.shot.curl * np.cos(pi * along / (2 * half))
        seen = np.column_stack([flat, -lift]) @ self.turn.T
        depth = self.distance + seen[:, 2]
        return np.asarray(seen[:, :2] * (self.focal / depth)[:, None] + np.array(self.middle))


def view_of(shot: Shot, paper: tuple[float, float]) -> View:
    """The camera over a sheet of `paper` (width, height) millimetres."""
    tilt, axis, spin = radians(shot.tilt), radians(shot.axis), radians(shot.spin)
    around = np.array([cos(axis), sin(axis), 0.0])
    tip, _ = cv2.Rodrigues(around * tilt)
    twist, _ = cv2.Rodrigues(np.array([0.0, 0.0, spin]))
    width, height = shot.size
    focal = 0.85 * max(width, height)
    corners = np.array([[x, y, 0.0] for x in (-paper[0] / 2, paper[0] / 2) for y in (-paper[1] / 2, paper[1] / 2)])
    turn = tip @ twist
    reach = np.ptp((corners @ turn.T)[:, :2], axis=0)
    distance = focal * max(reach[0] / (shot.fill * width), reach[1] / (shot.fill * height))
    seen = corners @ turn.T
    pixels = seen[:, :2] * (focal / (distance + seen[:, 2]))[:, None]
    offset = (pixels.min(axis=0) + pixels.max(axis=0)) / 2
    span = max(np.ptp(pixels[:, 0]) / (shot.fill * width), np.ptp(pixels[:, 1]) / (shot.fill * height))
    distance *= float(span)
    middle = (width * (0.5 + shot.aside[0]) - offset[0] / span, height * (0.5 + shot.aside[1]) - offset[1] / span)
    return View(shot, paper, turn, focal, distance, (float(middle[0]), float(middle[1])))


def photograph(page: Array, paper: tuple[float, float], shot: Shot, rng: np.random.Generator) -> tuple[Array, View]:
    """The photo (height x width x 3, BGR) of a grey page that covers the whole paper, and where its points lie."""
    view = view_of(shot, paper)
    across, down = _ways_back(view)
    scale = np.array([page.shape[1] / paper[0], page.shape[0] / paper[1]])
    x, y = (across * scale[0]).astype(np.float32), (down * scale[1]).astype(np.float32)
    smaller = _mip(page, view, scale)
    factor = smaller.shape[1] / page.shape[1]
    paper_seen = cv2.remap(
        smaller, (x + 0.5) * factor - 0.5, (y + 0.5) * factor - 0.5, cv2.INTER_LINEAR, borderValue=255
    )
    inside = ((x >= 0) & (y >= 0) & (x < page.shape[1]) & (y < page.shape[0])).astype(np.float32)
    edge = cv2.GaussianBlur(inside, (0, 0), 1.0)
    table = _table(shot, rng)
    picture = paper_seen.astype(np.float32) * 0.93 * edge + table * (1 - edge)
    picture *= _light(shot, rng)
    if shot.blur > 0:
        picture = cv2.GaussianBlur(picture, (0, 0), shot.blur)
    return _developed(picture, shot, rng), view


def scan(
    page: Array, paper: tuple[float, float], *, dots: int, turned: float, upside: bool, rng: np.random.Generator
) -> Array:
    """A grey flat-bed scan at `dots` an inch, turned by some degrees, some millimetres off."""
    size = (round(paper[0] * dots / 25.4), round(paper[1] * dots / 25.4))
    shrink = cv2.resize(page, size, interpolation=cv2.INTER_AREA)
    turn = np.array(cv2.getRotationMatrix2D((size[0] / 2, size[1] / 2), turned + 180 * upside, 1.0), float)
    turn[:, 2] += rng.uniform(-1.5, 1.5, 2) * dots / 25.4
    flat = cv2.warpAffine(shrink, turn, size, flags=cv2.INTER_LINEAR, borderValue=int(rng.integers(225, 255)))
    noisy = flat * rng.uniform(0.95, 1.0) + rng.normal(0, 2.0, flat.shape)
    return np.asarray(np.clip(noisy, 0, 255), np.uint8)


def jpeg(picture: Array, quality: int) -> bytes:
    """The picture as a JPEG file."""
    done, data = cv2.imencode(".jpg", picture, [cv2.IMWRITE_JPEG_QUALITY, quality])
    if not done:
        raise ValueError("the picture cannot be written as JPEG")
    return data.tobytes()


def _ways_back(view: View) -> tuple[Array, Array]:
    """For every pixel the point of the paper that is seen there, in millimetres."""
    width, height = view.shot.size
    grid = np.stack(np.meshgrid(np.arange(0, width + GRID, GRID), np.arange(0, height + GRID, GRID)), axis=-1)
    wanted = grid.reshape(-1, 2).astype(float)
    wide, tall = view.paper
    ring = np.array([[0, 0], [wide, 0], [wide, tall], [0, tall]], float)
    flat = View(replace(view.shot, curl=0.0), view.paper, view.turn, view.focal, view.distance, view.middle)
    back = cv2.getPerspectiveTransform(flat.see(ring).astype(np.float32), ring.astype(np.float32))

    def on_plane(pixels: Array) -> Array:
        return np.asarray(cv2.perspectiveTransform(pixels.reshape(-1, 1, 2), back).reshape(-1, 2))

    aim = on_plane(wanted)
    at = aim
    for _ in range(6 if view.shot.curl else 0):
        inside = np.clip(at, (-wide, -tall), (2 * wide, 2 * tall))
        at = at + (aim - on_plane(view.see(inside)) + (inside - at))
    shape = grid.shape[:2]
    full = (shape[1] * GRID, shape[0] * GRID)
    shift = np.array([[1, 0, (GRID - 1) / 2], [0, 1, (GRID - 1) / 2]], np.float32)
    ways = []
    for way in (at[:, 0], at[:, 1]):
        large = cv2.resize(way.reshape(shape).astype(np.float32), full, interpolation=cv2.INTER_LINEAR)
        ways.append(cv2.warpAffine(large, shift, full, flags=cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP)[:height, :width])
    return ways[0], ways[1]


def _mip(page: Array, view: View, scale: Array) -> Array:
    """The page no finer than the picture needs, so that small print does not flicker."""
    ring = view.see([[0, 0], [view.paper[0], 0], [view.paper[0], view.paper[1]], [0, view.paper[1]]])
    sides = np.linalg.norm(ring - np.roll(ring, 1, axis=0), axis=1) / (np.array([view.paper[1], view.paper[0]] * 2))
    factor = float(min(1.0, sides.mean() / scale.mean()))
    if factor > 0.9:
        return page
    return np.asarray(cv2.resize(page, None, fx=factor, fy=factor, interpolation=cv2.INTER_AREA))


def _table(shot: Shot, rng: np.random.Generator) -> Array:
    width, height = shot.size
    base = rng.uniform(40, 110) if shot.dark_table else rng.uniform(120, 190)
    grain = cv2.resize(rng.normal(0, 8, (height // 4 + 1, 24)).astype(np.float32), (width, height))
    table = base + grain
    for _ in range(shot.clutter):
        x, y = rng.integers(0, width), rng.integers(0, height)
        size = tuple(int(v) for v in rng.integers(40, max(60, width // 6), 2))
        tone = float(rng.uniform(10, 240))
        if rng.random() < 0.5:
            cv2.ellipse(table, (int(x), int(y)), size, float(rng.uniform(0, 180)), 0, 360, tone, -1)
        else:
            cv2.rectangle(table, (int(x), int(y)), (int(x) + size[0], int(y) + size[1]), tone, -1)
    return np.asarray(table, np.float32)


def _light(shot: Shot, rng: np.random.Generator) -> Array:
    width, height = shot.size
    small = (width // 8, height // 8)
    way = rng.uniform(0, 2 * pi)
    x, y = np.meshgrid(np.linspace(-1, 1, small[0]), np.linspace(-1, 1, small[1]))
    light = 1 - shot.light * (0.5 + 0.5 * (x * cos(way) + y * sin(way)) / 1.4)
    if shot.shadow:
        mask = np.zeros((small[1], small[0]), np.float32)
        corner = rng.uniform(0.1, 0.9, 2) * small
        turns = np.sort(rng.uniform(0, 2 * pi, 5))
        ring = [corner + max(small) * rng.uniform(0.2, 0.9) * np.array([cos(turn), sin(turn)]) for turn in turns]
        cv2.fillPoly(mask, [np.array(ring, np.int32)], 1.0)
        light = light * (1 - shot.shadow * cv2.GaussianBlur(mask, (0, 0), float(rng.uniform(1.5, 12))))
    return np.asarray(cv2.resize(light.astype(np.float32), (width, height), interpolation=cv2.INTER_LINEAR))


def _developed(picture: Array, shot: Shot, rng: np.random.Generator) -> Array:
    """Noise and a warm or cold tint."""
    height, width = picture.shape
    half = rng.standard_normal((height // 2 + 1, width // 2 + 1), dtype=np.float32)
    grain = shot.noise * cv2.resize(half, (width, height), interpolation=cv2.INTER_LINEAR)
    grain += shot.noise / 2 * rng.standard_normal((height, width), dtype=np.float32)
    warm = float(rng.uniform(-0.06, 0.12))
    tints = (1 - warm, 1.0, 1 + warm / 2)
    return np.dstack([np.clip((picture + grain) * tint, 0, 255).astype(np.uint8) for tint in tints])
