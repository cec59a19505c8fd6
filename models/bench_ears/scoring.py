"""What a model hears in the clips of a list, and the figures of it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

import numpy as np
import text
import torch
from accuracy.edits import edits
from clips import Clip
from features import WINDOW_SAMPLES, spectrograms
from kit import Kit
from net import Whisper
from said import plain_words
from torch import Tensor


@torch.no_grad()
def hear(kit: Kit, model: Whisper, clips: Sequence[Clip], size: int = 192) -> list[str]:
    """Greedy decoding with digits suppressed; nothing may come out."""
    found: list[str] = []
    for begin in range(0, len(clips), size):
        part = clips[begin : begin + size]
        sound = torch.zeros(len(part), WINDOW_SAMPLES, device=kit.device)
        for i, clip in enumerate(part):
            kept = clip.samples[:WINDOW_SAMPLES]
            sound[i, : len(kept)] = torch.from_numpy(np.asarray(kept))
        prompts = [kit.prompt_ids(clip.prompt) for clip in part]
        found += _greedy(kit, model, spectrograms(sound, kit.filters), prompts)
    return found


def _greedy(kit: Kit, model: Whisper, mels: Tensor, prompts: list[list[int]]) -> list[str]:
    with torch.autocast(kit.device.type, dtype=torch.bfloat16, enabled=kit.on_gpu):
        encoded = model.encode(mels)
        lengths = torch.tensor([len(p) for p in prompts], device=kit.device)
        width = int(lengths.max()) + 48
        tokens = torch.full((len(prompts), width), kit.end, device=kit.device)
        for i, prompt in enumerate(prompts):
            tokens[i, : len(prompt)] = torch.tensor(prompt, device=kit.device)
        rows = torch.arange(len(prompts), device=kit.device)
        done = torch.zeros(len(prompts), dtype=torch.bool, device=kit.device)
        for step in range(48):
            at = lengths + step - 1
            seen = int(at.max()) + 1
            logits = model.decode(tokens[:, :seen], encoded)[rows, at].float()
            logits[:, kit.banned] = -torch.inf
            chosen = logits.argmax(-1)
            done |= chosen == kit.end
            tokens[rows, at + 1] = torch.where(done, kit.end, chosen)
            if bool(done.all()):
                break
    out = [row[len(prompt) :] for row, prompt in zip(tokens.tolist(), prompts, strict=True)]
    return [kit.tokens.decode([token for token in row if token < kit.end]) for row in out]


def score(clips: Sequence[Clip], heard: Sequence[str]) -> dict[str, float]:
    """Exact numbers by group and condition, %; word errors on ordinary English, %; noise and the like, %."""
    right: dict[str, list[float]] = defaultdict(list)
    errors = said = 0
    for clip, got in zip(clips, heard, strict=True):
        words = plain_words(got, dot_is_point=clip.group == "human")
        if clip.group == "english":
            errors += edits(clip.words.split(), words)
            said += len(clip.words.split())
        elif clip.group in ("noise", "foreign"):
            right[f"{clip.group}: words"].append(float(bool(words)))
            right[f"{clip.group}: numbers"].append(float(bool(text.numbers_in(" ".join(words)))))
        elif numbers := text.numbers_in(clip.words):
            same = text.numbers_in(" ".join(words)) == numbers
            right[f"{clip.group} {clip.condition}"].append(float(same))
    table = {name: 100 * float(np.mean(values)) for name, values in sorted(right.items())}
    return table | {"english word errors": 100 * errors / max(1, said)}
