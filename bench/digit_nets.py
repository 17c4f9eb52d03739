"""The big networks that teach and the small one that is shipped, in torch, and how the small one is written down."""

from __future__ import annotations

from typing import TYPE_CHECKING

import torch
from digit_boxes import CLASSES, SIGN_CLASSES
from torch import nn

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray
    from torch import Tensor


class Layer(nn.Module):
    """A convolution that keeps the size (or halves it), batch norm, and a bend at zero unless told otherwise."""

    def __init__(self, into: int, out: int, size: int = 3, *, step: int = 1) -> None:
        super().__init__()
        self.conv = nn.Conv2d(into, out, size, step, size // 2, bias=False)
        self.norm = nn.BatchNorm2d(out)

    def forward(self, x: Tensor) -> Tensor:
        return self.norm(self.conv(x))


class Pair(nn.Module):
    """Two layers whose result is added to what came in (He and others 2016)."""

    def __init__(self, width: int) -> None:
        super().__init__()
        self.one, self.two = Layer(width, width), Layer(width, width)

    def forward(self, x: Tensor) -> Tensor:
        return torch.relu(x + self.two(torch.relu(self.one(x))))


class Teacher(nn.Module):
    """About two million numbers; 28 → 14 → 7."""

    def __init__(self, width: int) -> None:
        super().__init__()
        w = width
        self.body = nn.Sequential(
            Layer(1, w),
            nn.ReLU(),
            Layer(w, w, step=2),
            nn.ReLU(),
            Pair(w),
            Pair(w),
            Layer(w, 2 * w),
            nn.ReLU(),
            Pair(2 * w),
            Pair(2 * w),
            Layer(2 * w, 4 * w, step=2),
            nn.ReLU(),
            Pair(4 * w),
            Pair(4 * w),
        )
        self.rest = nn.Dropout(0.2)
        self.digits = nn.Linear(8 * w, CLASSES)
        self.signs = nn.Linear(8 * w, SIGN_CLASSES)

    def forward(self, x: Tensor) -> tuple[Tensor, Tensor]:
        body = self.body(x)
        seen = self.rest(torch.cat([body.mean((2, 3)), body.amax((2, 3))], 1))
        return self.digits(seen), self.signs(seen)


class Student(nn.Module):
    """The network that is shipped: 28 → 14 → 7 → 4, 64 features, two heads."""

    def __init__(self) -> None:
        super().__init__()
        self.a, self.b = Layer(1, 32, 5, step=2), Layer(32, 64, step=2)
        self.c1, self.c2 = Layer(64, 64), Layer(64, 64)
        self.d, self.e = Layer(64, 96, step=2), Layer(96, 96)
        self.seen = nn.Linear(96 * 16, 64, bias=False)
        self.seen_norm = nn.BatchNorm1d(64)
        self.digits = nn.Linear(64, CLASSES)
        self.signs = nn.Linear(64, SIGN_CLASSES)

    def forward(self, x: Tensor) -> tuple[Tensor, Tensor]:
        x = torch.relu(self.b(torch.relu(self.a(x))))
        x = torch.relu(x + self.c2(torch.relu(self.c1(x))))
        x = torch.relu(self.e(torch.relu(self.d(x))))
        seen = torch.relu(self.seen_norm(self.seen(x.permute(0, 2, 3, 1).flatten(1))))
        return self.digits(seen), self.signs(seen)


def folded(net: nn.Module) -> dict[str, NDArray[np.float32]]:
    """Matrices (inputs + 1, outputs): a kernel's rows in the order row, column, channel; the last row is the offset."""
    assert isinstance(net, Student)  # noqa: S101 - this program's own mistake, not a user's
    kept = {}
    for name in ("a", "b", "c1", "c2", "d", "e"):
        layer = getattr(net, name)
        scale = layer.norm.weight / torch.sqrt(layer.norm.running_var + layer.norm.eps)
        kernel = (layer.conv.weight * scale[:, None, None, None]).permute(2, 3, 1, 0).flatten(0, 2)
        kept[name] = torch.cat([kernel, (layer.norm.bias - layer.norm.running_mean * scale)[None]])
    scale = net.seen_norm.weight / torch.sqrt(net.seen_norm.running_var + net.seen_norm.eps)
    offset = net.seen_norm.bias - net.seen_norm.running_mean * scale
    kept["seen"] = torch.cat([net.seen.weight.T * scale, offset[None]])
    for name in ("digits", "signs"):
        head = getattr(net, name)
        kept[name] = torch.cat([head.weight.T, head.bias[None]])
    return {name: value.detach().cpu().numpy() for name, value in kept.items()}
