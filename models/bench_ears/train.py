"""Train low-rank adapters of Whisper tiny.en on bench talk, and score each on the choosing list.

Usage: python train.py --pack FOLDER --out FOLDER [--part 0 --parts 2] [--runs NAME,…] [--again FOLDER]
       python train.py --pack FOLDER --out FOLDER --smoke

Every run is printed and kept: rank × steps × seed, at each strength of merging. One NVIDIA H100 trains
400 steps in 40 s. --runs: only these ("none": no run). --again: score adapters trained before once more, at
each strength. --kept: a folder for speech, so that the next run need not say it again.
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
from clips import Clip, choosing, training
from features import spectrograms
from kit import Kit, batch
from net import Whisper
from scoring import hear, score
from torch import Tensor
from torch.nn import functional as F  # noqa: N812  its usual name

STRENGTHS = (0.3, 0.4, 0.5, 0.75, 1.0)
BATCH = 96
WARM_STEPS = 40
RATE = 2e-3
_NAME = re.compile(r"rank(\d+)-steps(\d+)-seed(\d+)(?:-keep([\d.]+))?(?:-(dots|foreign))?")


@dataclass(frozen=True, slots=True)
class Run:
    """One training."""

    rank: int
    steps: int
    seed: int
    keep: float = 0.0  # weight of the base's own output on ordinary English, against forgetting
    said: str = ""  # what the training text has more than "point" and English, see clips.training
    batch: int = BATCH
    warm_steps: int = WARM_STEPS

    @property
    def name(self) -> str:
        """As files and tables call it."""
        more = (f"-keep{self.keep}" if self.keep else "") + (f"-{self.said}" if self.said else "")
        return f"rank{self.rank}-steps{self.steps}-seed{self.seed}{more}"


RUNS = [Run(rank, steps, seed) for steps in (200, 400, 800, 1200) for rank in (4, 16) for seed in (1, 2, 3)]
RUNS += [Run(4, 400, seed, keep=1.0) for seed in (1, 2, 3)]
RUNS += [Run(4, 400, seed, said=said) for said in ("dots", "foreign") for seed in (1, 2, 3)]
SMOKE = Run(4, 5, 1, batch=3, warm_steps=1)


def run_named(name: str) -> Run:
    """The run of that name."""
    found = _NAME.fullmatch(name)
    assert found is not None, f"no run is called {name}"
    rank, steps, seed, keep, said = found.groups()
    return Run(int(rank), int(steps), int(seed), float(keep or 0), said or "")


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
        lambda step: min((step + 1) / run.warm_steps, 0.5 * (1 + np.cos(np.pi * step / run.steps)) + 1e-3),
    )
    for _ in range(run.steps):
        sound, lengths, tokens, wanted, plain = batch(kit, rng, run.batch)
        sound = augment(sound, lengths, random)
        with torch.autocast(kit.device.type, dtype=torch.bfloat16, enabled=kit.on_gpu):
            mels = spectrograms(sound, kit.filters)
            logits = model.decode(tokens, model.encode(mels))
            loss = _loss(logits, wanted)
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


def _loss(logits: Tensor, wanted: Tensor) -> Tensor:
    """Cross entropy of the words to be written."""
    return F.cross_entropy(logits.float().flatten(0, 1), wanted.flatten(), ignore_index=-100)


@torch.no_grad()
def told_loss(kit: Kit, model: Whisper, count: int) -> float:
    """The loss over *count* samples without surroundings, the same each time."""
    sound, _, tokens, wanted, _ = batch(kit, np.random.default_rng(0), count)
    return float(_loss(model.decode(tokens, model.encode(spectrograms(sound, kit.filters))), wanted))


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
    if chosen.kept:
        chosen.kept.mkdir(parents=True, exist_ok=True)
    said, began = "", time.time()
    kit = Kit(chosen.pack)
    if chosen.smoke:
        return smoke(kit, chosen)
    clips = choosing(chosen.pack, chosen.workers, chosen.kept)
    print(f"{len(clips)} clips to choose by; {time.time() - began:.0f} s", flush=True)
    table = Table(kit, clips, chosen.out / f"results-{chosen.part}.json")
    table.add("base", {}, 0.0)
    named = [run_named(name) for name in chosen.runs.split(",") if name != "none"]
    for run in (named if chosen.runs else RUNS)[chosen.part :: chosen.parts]:
        began = time.time()
        if not kit.train or run.said != said:
            said = run.said
            kit.train = training(chosen.pack, chosen.clips, chosen.workers, said, chosen.kept)
            print(f"{len(kit.train)} clips to train; {time.time() - began:.0f} s", flush=True)
        began = time.time()
        changes = train(kit, run).changes()
        took_s = round(time.time() - began)
        np.savez(chosen.out / f"{run.name}.npz", **changes)
        for strength in STRENGTHS:
            table.add(run.name, changes, strength, train_s=took_s, **asdict(run))
    for path in sorted(chosen.again.glob("*.npz"))[chosen.part :: chosen.parts] if chosen.again else ():
        for strength in STRENGTHS:
            table.add(path.stem, np.load(path), strength)
    return None


def smoke(kit: Kit, chosen: argparse.Namespace) -> None:
    """A few steps over a few clips: what the loss was before and after, what is heard of six clips."""
    kit.train = training(chosen.pack, 12, chosen.workers)
    before = told_loss(kit, Whisper(kit.weights, 0).to(kit.device), SMOKE.batch)
    model = train(kit, SMOKE)
    print(json.dumps({"before": before, "after": told_loss(kit, model, SMOKE.batch)}), flush=True)
    np.savez(chosen.out / f"{SMOKE.name}.npz", **model.changes())
    clips = choosing(chosen.pack, chosen.workers, share=1 / 40)
    table = Table(kit, clips[:: len(clips) // 6], chosen.out / "results-0.json")
    table.add(SMOKE.name, model.changes(), 1.0)


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
    arguments.add_argument("--kept", type=Path)
    arguments.add_argument("--smoke", action="store_true")
    return arguments.parse_args()


if __name__ == "__main__":
    main()
