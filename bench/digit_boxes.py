"""What a box on a photographed sheet may hold, made by the thousand on whatever device torch has.

A batch always holds the same shares of upright digits, digits turned round, drawn digits, blanks, signs and what is no
digit. Every picture is then warped, thickened, faded, blurred, given rests of an outline or noise, or pushed over the
edge.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

import torch
import torch.nn.functional as nnf

if TYPE_CHECKING:
    from digit_strokes import Drawn
    from torch import Tensor

TURNABLE = (2, 3, 4, 5, 6, 7, 9)
BLANK = 17
NO_DIGIT = 18
CLASSES = 19
SIGN_BLANK = 3
SIGN_OTHER = 4
SIGN_CLASSES = 5
SHARES = {
    "upright": 0.53,
    "turned": 0.17,
    "drawn": 0.08,
    "blank": 0.04,
    "doubtful": 0.01,
    "signs": 0.04,
    "merged": 0.025,
    "overwritten": 0.025,
    "crossed": 0.03,
    "junk": 0.05,
}


@dataclass(frozen=True, slots=True)
class Stock:
    """All pictures at hand as bytes on the device: MNIST's training images and labels, and what was drawn."""

    images: Tensor
    labels: Tensor
    drawn: Tensor
    drawn_shares: Tensor
    doubtful: Tensor
    doubtful_shares: Tensor
    junk: Tensor
    signs: Tensor
    sign_kinds: Tensor
    turnable: Tensor


def stock_of(images: Tensor, labels: Tensor, drawn: Drawn, device: str) -> Stock:
    """The stock moved to the device."""
    turnable = torch.isin(labels, torch.tensor(TURNABLE)).nonzero()[:, 0]
    parts = (
        images,
        labels,
        torch.from_numpy(drawn.digits),
        torch.from_numpy(drawn.digit_shares),
        torch.from_numpy(drawn.doubtful),
        torch.from_numpy(drawn.doubtful_shares),
        torch.from_numpy(drawn.junk),
        torch.from_numpy(drawn.signs),
        torch.from_numpy(drawn.sign_kinds),
        turnable,
    )
    return Stock(*(part.to(device) for part in parts))


@dataclass(frozen=True, slots=True)
class Batch:
    """Pictures (n, 1, 28, 28) from 0 to 1, the shares of the 19 classes, the sign's class."""

    x: Tensor
    shares: Tensor
    signs: Tensor


def counts(n: int) -> dict[str, int]:
    """How many of each sort a batch of n holds; rounding goes to the upright."""
    found = {name: int(n * share) for name, share in SHARES.items()}
    found["upright"] += n - sum(found.values())
    return found


def boxes(stock: Stock, n: int, *, strength: float = 1.0, clean: float = 0.2) -> Batch:
    """A fresh batch; `strength` 0 to 1.5 scales the warps, the share `clean` is warped only, as on a good scan."""
    dev = stock.images.device
    many = counts(n)
    index_of_turned = torch.full((10,), -1, device=dev)
    index_of_turned[list(TURNABLE)] = torch.arange(10, 17, device=dev)
    eye = torch.eye(CLASSES, device=dev)
    x, shares, signs = [], [], []

    def add(pictures: Tensor, wanted: Tensor, sign: int | Tensor = SIGN_OTHER) -> None:
        x.append(pictures.float().div(255))
        shares.append(wanted)
        signs.append(sign if isinstance(sign, torch.Tensor) else torch.full((len(pictures),), sign, device=dev))

    def some(k: int) -> Tensor:
        return torch.randint(len(stock.images), (k,), device=dev)

    pick = some(many["upright"])
    upright, labels = stock.images[pick], stock.labels[pick]
    same_turned = ((labels == 0) | (labels == 1) | (labels == 8)) & (torch.rand(len(labels), device=dev) < 0.15)
    add(torch.where(same_turned[:, None, None], upright.flip(-1), upright), eye[labels])

    pick = stock.turnable[torch.randint(len(stock.turnable), (many["turned"],), device=dev)]
    add(stock.images[pick].flip(-1), eye[index_of_turned[stock.labels[pick]]])

    pick = torch.randint(len(stock.drawn), (many["drawn"],), device=dev)
    pictures, wanted = stock.drawn[pick], nnf.pad(stock.drawn_shares[pick], (0, CLASSES - 10))
    turned = index_of_turned[wanted.argmax(1)]
    turn = (turned >= 0) & (torch.rand(len(pick), device=dev) < 0.2)
    add(torch.where(turn[:, None, None], pictures.flip(-1), pictures), torch.where(turn[:, None], eye[turned], wanted))

    add(torch.zeros(many["blank"], 28, 28, device=dev), eye[BLANK].expand(many["blank"], -1), SIGN_BLANK)

    pick = torch.randint(len(stock.doubtful), (many["doubtful"],), device=dev)
    add(stock.doubtful[pick], nnf.pad(stock.doubtful_shares[pick], (0, CLASSES - 10)))

    pick = torch.randint(len(stock.signs), (many["signs"],), device=dev)
    add(stock.signs[pick], eye[NO_DIGIT].expand(len(pick), -1), stock.sign_kinds[pick])

    for name, made in (("merged", _merged), ("overwritten", _overwritten), ("crossed", _crossed)):
        k = many[name]
        a, b = some(k), some(k)
        pictures = made(stock.images[a], stock.images[b])
        if name == "overwritten":  # a one over a seven is a seven, a three over a three is a three
            one, other = stock.labels[a], stock.labels[b]
            plain = (one == other) | (one == 1) | (other == 1)
            pictures = torch.where(plain[:, None, None], _merged(stock.images[a], stock.images[b]), pictures)
        add(pictures, eye[NO_DIGIT].expand(k, -1))
    pick = torch.randint(len(stock.junk), (many["junk"],), device=dev)
    add(stock.junk[pick], eye[NO_DIGIT].expand(len(pick), -1))

    return _worn(Batch(torch.cat(x)[:, None], torch.cat(shares), torch.cat(signs)), strength, clean)


def _merged(a: Tensor, b: Tensor) -> Tensor:
    """Two digits side by side in one box."""
    half = torch.stack([a, b], 1).float() @ _between(17, 28, a.device) * (17 / 28)
    both = torch.zeros_like(a, dtype=torch.float)
    both[:, :, :17] = half[:, 0]
    both[:, :, 11:] = torch.maximum(both[:, :, 11:], half[:, 1])
    return both


def _overwritten(a: Tensor, b: Tensor) -> Tensor:
    """A digit written over another; the second one pressed harder or shifted."""
    shift = int(torch.randint(-3, 4, (1,)))
    return torch.maximum(a.float() * (0.6 + 0.4 * torch.rand(len(a), 1, 1, device=a.device)), b.roll(shift, 2).float())


def _crossed(a: Tensor, _: Tensor) -> Tensor:
    """A digit struck out: one to three long lines across it, steep enough not to make a seven's bar."""
    dev, n = a.device, len(a)
    out = a.float()
    u = torch.linspace(-1, 1, 28, device=dev)
    for line in range(3):
        turn = (0.35 + 0.9 * torch.rand(n, 1, 1, device=dev)) * torch.where(
            torch.rand(n, 1, 1, device=dev) < 0.5, -1.0, 1.0
        )
        off = 0.5 * torch.randn(n, 1, 1, device=dev) * 0.5
        away = (u[None, :, None] * turn.cos() - u[None, None, :] * turn.sin() - off).abs()
        long = (u[None, :, None] * turn.sin() + u[None, None, :] * turn.cos()).abs() < 0.85
        ink = (1 - (away - 0.07 - 0.06 * torch.rand(n, 1, 1, device=dev)) * 14).clamp(0, 1) * 255 * long
        used = 1.0 if line == 0 else (torch.rand(n, 1, 1, device=dev) < 0.5).float()
        out = torch.maximum(out, ink * used)
    return out


def _worn(batch: Batch, strength: float, clean: float) -> Batch:
    warped = _warped(batch.x, strength)
    pushed, shares = _pushed(_thickened(warped), batch.shares)
    worn = _noisy(_outlined(_faded(_blurred(pushed))))
    spared = torch.rand(len(worn), device=worn.device) < clean
    shares = torch.where(spared[:, None], batch.shares, shares)
    return Batch(torch.where(spared[:, None, None, None], warped, worn), shares, batch.signs)


def _grown(x: Tensor, size: int = 28) -> Tensor:
    """A coarse field drawn out over the picture, linear between its points: (…, r, c) to (…, size, size).

    As two products of matrices: torch's own resizing of small fields takes a hundred times as long on a GPU.
    """
    return _between(x.shape[-2], size, x.device) @ x @ _between(x.shape[-1], size, x.device).T


@cache
def _between(few: int, many: int, device: torch.device) -> Tensor:
    at = torch.linspace(0, few - 1, many, device=device)
    return (1 - (at[:, None] - torch.arange(few, device=device)[None]).abs()).clamp(min=0)


@cache
def _smooth(few: int, many: int, device: torch.device) -> Tensor:
    """As `_between`, with a cubic bend (B-spline) between the points."""
    away = (torch.linspace(0, few - 1, many, device=device)[:, None] - torch.arange(few, device=device)[None]).abs()
    near, far = 2 / 3 - away**2 + away**3 / 2, (2 - away).clamp(min=0) ** 3 / 6
    return torch.where(away < 1, near, far)


def _warped(x: Tensor, strength: float) -> Tensor:
    """Turned up to 15°, sheared, stretched, moved, pulled about as if drawn on rubber; two fifths only a little."""
    n, dev = len(x), x.device
    calm = torch.where(torch.rand(n, device=dev) < 0.4, 0.35, 1.0) * strength

    def spread(size: float) -> Tensor:
        return (torch.rand(n, device=dev) * 2 - 1) * size * calm

    turn, shear = spread(0.27), spread(0.35)
    size, stretch = torch.exp(spread(0.22)), torch.exp(spread(0.18))
    cos, sin = turn.cos(), turn.sin()
    rows = torch.stack(
        [
            torch.stack([cos * size * stretch, (shear * cos - sin) * size * stretch, spread(2.5 / 14)], 1),
            torch.stack([sin * size / stretch, (shear * sin + cos) * size / stretch, spread(2.5 / 14)], 1),
        ],
        1,
    )
    grid = nnf.affine_grid(rows, [n, 1, 28, 28], align_corners=False)
    coarse = torch.randn(n, 2, 6, 6, device=dev) * (0.13 * calm * torch.rand(n, device=dev))[:, None, None, None]
    pull = _smooth(6, 28, dev) @ coarse @ _smooth(6, 28, dev).T
    return nnf.grid_sample(x, grid + pull.permute(0, 2, 3, 1), align_corners=False)


def _thickened(x: Tensor) -> Tensor:
    n, dev = len(x), x.device
    amount = torch.rand(n, 1, 1, 1, device=dev)
    roll = torch.rand(n, 1, 1, 1, device=dev)
    thick = x + (nnf.max_pool2d(x, 3, 1, 1) - x) * amount
    thin = x + (-nnf.max_pool2d(-x, 3, 1, 1) - x) * amount * 0.55
    return torch.where(roll < 0.22, thick, torch.where(roll < 0.4, thin, x))


def _pushed(x: Tensor, shares: Tensor) -> tuple[Tensor, Tensor]:
    """Some run over the edge: with a tenth of the ink lost a digit stays one, with over a quarter it is none."""
    n, dev = len(x), x.device
    pushed = torch.rand(n, device=dev) < 0.07
    move = (torch.rand(n, 2, device=dev) * 2 - 1) * 11 * pushed[:, None]
    move = move.round() * (torch.rand(n, 2, device=dev) < 0.6)
    at = torch.arange(28, device=dev)
    ys, xs = at[None] + move[:, :1].long(), at[None] + move[:, 1:].long()
    inside = ((ys >= 0) & (ys < 28))[:, :, None] & ((xs >= 0) & (xs < 28))[:, None, :]
    rows = x[:, 0].gather(1, ys.clamp(0, 27)[:, :, None].expand(-1, -1, 28))
    out = rows.gather(2, xs.clamp(0, 27)[:, None, :].expand(-1, 28, -1)) * inside
    before = x.sum((1, 2, 3))
    lost = torch.where(before > 0, 1 - out.sum((1, 2)) / before.clamp(min=1e-6), torch.zeros_like(before))
    doubt = ((lost - 0.1) / 0.16).clamp(0, 1)[:, None]
    none = torch.zeros_like(shares)
    none[:, NO_DIGIT] = 1
    keep = (shares[:, BLANK] > 0.5)[:, None]
    return out[:, None], torch.where(keep, shares, shares * (1 - doubt) + none * doubt)


def _blurred(x: Tensor) -> Tensor:
    n, dev = len(x), x.device
    kernel = torch.tensor([1.0, 2.0, 1.0], device=dev) / 4
    kernel = (kernel[:, None] * kernel)[None, None]
    once = nnf.conv2d(x, kernel, padding=1)
    twice = nnf.conv2d(once, kernel, padding=1)
    small = _grown(nnf.avg_pool2d(x, 2))
    roll = torch.rand(n, 1, 1, 1, device=dev)
    amount = torch.rand(n, 1, 1, 1, device=dev)
    out = torch.where(roll < 0.2, x + (once - x) * amount, x)
    out = torch.where((roll >= 0.2) & (roll < 0.28), once + (twice - once) * amount, out)
    out = torch.where((roll >= 0.28) & (roll < 0.33), small, out)
    hard = ((x - 0.35 - 0.3 * amount) * 8).clamp(0, 1)
    return torch.where((roll >= 0.33) & (roll < 0.40), hard, out)


def _faded(x: Tensor) -> Tensor:
    n, dev = len(x), x.device
    strength = torch.where(
        torch.rand(n, 1, 1, 1, device=dev) < 0.3, 0.35 + 0.65 * torch.rand(n, 1, 1, 1, device=dev), 1.0
    )
    curve = torch.exp((torch.rand(n, 1, 1, 1, device=dev) - 0.5) * (torch.rand(n, 1, 1, 1, device=dev) < 0.3))
    out = x.clamp(1e-4, 1) ** curve * strength * (x > 0)
    patchy = _grown(torch.rand(n, 1, 6, 6, device=dev))
    return torch.where(torch.rand(n, 1, 1, 1, device=dev) < 0.1, out * (0.45 + 0.75 * patchy).clamp(0, 1), out)


def _outlined(x: Tensor) -> Tensor:
    """Rests of a box's outline along the edges, broken; and now and then a gap where an outline was taken off."""
    n, dev = len(x), x.device
    at = torch.arange(28.0, device=dev)
    out = x
    for upright in (False, True, False, True):
        near = torch.rand(n, device=dev) * 5 - 1
        near = torch.where(torch.rand(n, device=dev) < 0.5, near, 27 - near)
        wide = 0.5 + 0.7 * torch.rand(n, device=dev)
        tilt = torch.randn(n, device=dev) * 0.04
        line = (at[None, :, None] - near[:, None, None] - tilt[:, None, None] * (at[None, None, :] - 14)) / wide[
            :, None, None
        ]
        line = torch.exp(-(line**2))
        broken = torch.rand(n, 1, 9, device=dev) @ _between(9, 28, dev).T
        level = (0.1 + 0.6 * torch.rand(n, 1, 1, device=dev)) * (torch.rand(n, 1, 1, device=dev) < 0.14)
        line = line * (broken > 0.35 + 0.3 * torch.rand(n, 1, 1, device=dev)) * level
        out = torch.maximum(out, (line.transpose(1, 2) if upright else line)[:, None])
    near = torch.rand(n, 1, 1, device=dev) * 6
    near = torch.where(torch.rand(n, 1, 1, device=dev) < 0.5, near, 27 - near)
    gap = ((at[None, :, None] - near).abs() < 0.9).float() * (torch.rand(n, 1, 1, device=dev) < 0.04)
    gap = torch.where(
        torch.rand(n, 1, 1, device=dev) < 0.5, gap.expand(-1, -1, 28), gap.transpose(1, 2).expand(-1, 28, -1)
    )
    return out * (1 - gap[:, None])


def _noisy(x: Tensor) -> Tensor:
    n, dev = len(x), x.device
    some = torch.rand(n, 1, 1, 1, device=dev)
    level = 0.14 * torch.rand(n, 1, 1, 1, device=dev) * (some < 0.3)
    fine = torch.randn(n, 1, 28, 28, device=dev)
    soft = nnf.avg_pool2d(torch.randn(n, 1, 28, 28, device=dev), 3, 1, 1) * 2.2
    noise = torch.where(torch.rand(n, 1, 1, 1, device=dev) < 0.5, fine, soft)
    corners = _grown(torch.rand(n, 1, 2, 2, device=dev))
    light = corners * 0.22 * torch.rand(n, 1, 1, 1, device=dev) * (torch.rand(n, 1, 1, 1, device=dev) < 0.12)
    specks = (torch.rand(n, 1, 28, 28, device=dev) > 0.993) * (torch.rand(n, 1, 1, 1, device=dev) < 0.06) * 0.7
    return torch.maximum(x + noise * level + light * (1 - x), specks).clamp(0, 1)
