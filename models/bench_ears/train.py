"""Train low-rank adapters of Whisper tiny.en on bench talk, and score each on the choosing list.

Usage: python train.py --pack FOLDER --out FOLDER [--part 0 --parts 2] [--runs NAME,…] [--again FOLDER]
       python train.py --pack FOLDER --out FOLDER --smoke

Every run is printed and kept: rank × steps × seed, at each strength of merging. One NVIDIA H100 trains
400 steps in 40 s. --runs: only these. --again: score adapters trained before once more, at each strength.
--smoke: a few steps of one small run on a processor, to see that the recipe works.
"""

from __future__ import annotations

import argparse
import json
import re
import time
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

import numpy as np
import torch
from augment import augment
from clips import Clip, choosing
from features import spectrograms
from kit import Kit, batch
from net import Whisper
from scoring import hear, score
from torch import Tensor
from torch.nn import functional as F  # noqa: N812  its usual name

STRENGTHS = (0.5, 0.75, 1.0)
BATCH = 96
WARM_STEPS = 40
RATE = 2e-3
_NAME = re.compile(r"rank(\d+)-steps(\d+)-seed(\d+)(?:-keep([\d.]+))?")


@dataclass(frozen=True, slots=True)
class Run:
    """One training."""

    rank: int
    steps: int
    seed: int
    keep: float = 0.0  # weight of the base's own output on ordinary English, against forgetting
    batch: int = BATCH

    @property
    def name(self) -> str:
        """As files and tables call it."""
        return f"rank{self.rank}-steps{self.steps}-seed{self.seed}" + (
            f"-keep{self.keep}" if self.keep else ""
        )


RUNS = [Run(rank, steps, seed) for steps in (200, 400, 800, 1200) for rank in (4, 16) for seed in (1, 2, 3)]
RUNS += [Run(4, 400, seed, keep=1.0) for seed in (1, 2, 3)]
SMOKE = Run(4, 3, 1, batch=4)


def run_named(name: str) -> Run:
    """The run of that name."""
    found = _NAME.fullmatch(name)
    assert found is not None, f"no run is called {name}"
    rank, steps, seed, keep = found.groups()
    return Run(int(rank), int(steps), int(seed), float(keep or 0))


def train(kit: Kit, run: Run) -> Whisper:
    """The trained model."""
    torch.manual_seed(run.seed)
    rng = np.random.default_rng(run.seed)
    random = torch.Generator(device=kit.device).manual_seed(run.seed)
    model = Whisper(kit.weights, run.rank).to(kit.device)
    base = Whisper(kit.weights, 0).to(kit.device) if run.keep else None
    trained = [p for p in model.parameters() if p.requires_grad]
    optimiser = torch.optim.AdamW(trained, lr=RATE, betas=(0.9, 0.98), weight_decay=0.01)
    schedule = torch.optim.lr_scheduler.LambdaLR(
        optimiser,
        lambda step: min((step + 1) / WARM_STEPS, 0.5 * (1 + np.cos(np.pi * step / run.steps)) + 1e-3),
    )
    for _ in range(run.steps):
        sound, lengths, tokens, wanted, plain = batch(kit, rng, run.batch)
        sound = augment(sound, lengths, random)
        with torch.autocast(kit.device.type, dtype=torch.bfloat16, enabled=kit.on_gpu):
            mels = spectrograms(sound, kit.filters)
            logits = model.decode(tokens, model.encode(mels))
            loss = F.cross_entropy(logits.float().flatten(0, 1), wanted.flatten(), ignore_index=-100)
            if base is not None and plain.any():
                loss = loss + run.keep * _divergence(
                    base, mels[plain], tokens[plain], logits[plain], wanted[plain]
                )
        optimiser.zero_grad(set_to_none=True)
        loss.backward()
        torch.nn.utils.clip_grad_norm_(trained, 1.0)
        optimiser.step()
        schedule.step()
    return model


def _divergence(base: Whisper, mels: Tensor, tokens: Tensor, logits: Tensor, wanted: Tensor) -> Tensor:
    """Kullback–Leibler divergence from the base's own output, over the words to be written."""
    with torch.no_grad():
        before = base.decode(tokens, base.encode(mels)).float().log_softmax(-1)
    after = logits.float().log_softmax(-1)
    each = (before.exp() * (before - after)).sum(-1)
    written = wanted != -100
    return (each * written).sum() / written.sum().clamp(min=1)


def merged(
    weights: Mapping[str, np.ndarray], changes: Mapping[str, np.ndarray], strength: float
) -> dict[str, np.ndarray]:
    """The weights with a part of what was learned."""
    own = {name: np.array(value, dtype=np.float32) for name, value in weights.items()}
    for name, value in changes.items():
        if name.endswith(":up"):
            stem = name.removesuffix(":up")
            own[stem] += strength * (value.astype(np.float32) @ changes[stem + ":down"].astype(np.float32))
        elif not name.endswith(":down"):
            own[name] += strength * value.astype(np.float32)
    return own


class Table:
    """The results, printed and written as they come."""

    def __init__(self, kit: Kit, clips: Sequence[Clip], path: Path) -> None:
        self._kit, self._clips, self._path = kit, clips, path
        self._rows: list[dict[str, object]] = []

    def add(self, name: str, changes: Mapping[str, np.ndarray], strength: float, **more: object) -> None:
        """Score one adapter at one strength."""
        model = Whisper(merged(self._kit.weights, changes, strength), 0).to(self._kit.device)
        table = score(self._clips, hear(self._kit, model, self._clips))
        self._rows.append({"run": name, **more, "strength": strength, **table})
        shown = {k: round(v, 1) if isinstance(v, float) else v for k, v in self._rows[-1].items()}
        print(json.dumps(shown), flush=True)
        self._path.write_text(json.dumps(self._rows, indent=1))


def main() -> None:
    """Train what the arguments ask for."""
    chosen = _arguments()
    chosen.out.mkdir(parents=True, exist_ok=True)
    began = time.time()
    kit = Kit(chosen.pack, clips=24 if chosen.smoke else chosen.clips, workers=chosen.workers)
    clips = choosing(chosen.pack, chosen.workers)[:: 200 if chosen.smoke else 1]
    clips = clips[::40] if chosen.smoke else clips
    print(
        f"{len(kit.train)} clips to train, {len(clips)} to choose by; {time.time() - began:.0f} s", flush=True
    )
    table = Table(kit, clips, chosen.out / f"results-{chosen.part}.json")
    table.add("base", {}, 0.0)
    runs = [run_named(name) for name in chosen.runs.split(",")] if chosen.runs else RUNS
    for path in sorted(chosen.again.glob("*.npz"))[chosen.part :: chosen.parts] if chosen.again else ():
        for strength in STRENGTHS:
            table.add(path.stem, np.load(path), strength)
    for run in [SMOKE] if chosen.smoke else runs[chosen.part :: chosen.parts]:
        began = time.time()
        changes = train(kit, run).changes()
        took_s = round(time.time() - began)
        np.savez(chosen.out / f"{run.name}.npz", **changes)
        for strength in STRENGTHS[-1:] if chosen.smoke else STRENGTHS:
            table.add(run.name, changes, strength, train_s=took_s, **asdict(run))


def _arguments() -> argparse.Namespace:
    arguments = argparse.ArgumentParser(prog="train")
    arguments.add_argument("--pack", type=Path, required=True)
    arguments.add_argument("--out", type=Path, required=True)
    arguments.add_argument("--part", type=int, default=0)
    arguments.add_argument("--parts", type=int, default=1)
    arguments.add_argument("--workers", type=int, default=16)
    arguments.add_argument("--clips", type=int, default=12_000)
    arguments.add_argument("--runs", default="")
    arguments.add_argument("--again", type=Path)
    arguments.add_argument("--smoke", action="store_true")
    return arguments.parse_args()


if __name__ == "__main__":
    main()
