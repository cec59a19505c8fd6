"""What every run shares, and its batches: base weights, tokenizer, clips, prompts as tokens."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import text
import torch
from clips import Clip, sentence_like
from features import WINDOW_SAMPLES
from tokenizers import Tokenizer
from torch import Tensor

NOISE_ONLY = 0.04  # share of samples in which nothing is said
JOINED = 0.2  # share in which a second clip follows
_CONTEXT = 448


class Kit:
    """What every run shares: base weights, tokenizer, filters, clips, the device."""

    def __init__(self, folder: Path) -> None:
        self.device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
        self.on_gpu = self.device.type == "cuda"
        self.weights = unpacked(folder)
        self.tokens = Tokenizer.from_file(str(folder / "tokenizer.json"))
        self.filters = torch.from_numpy(np.load(folder / "mel.npy")).float().to(self.device)
        self.train: list[Clip] = []
        self.end, self.start, self.before, self.plain = (
            self.tokens.token_to_id(f"<|{name}|>")
            for name in ("endoftext", "startoftranscript", "startofprev", "notimestamps")
        )
        digits = [
            i for i in range(self.end) if any(c.isdigit() or c in "%$£€" for c in self.tokens.decode([i]))
        ]
        self.banned = torch.tensor([*digits, *range(self.end + 1, 51864)], device=self.device)

    def prompt_ids(self, prompt: str) -> list[int]:
        """What decoding starts from."""
        begin = [self.start, self.plain]
        if not prompt:
            return begin
        return [self.before, *self.tokens.encode(" " + prompt, add_special_tokens=False).ids[-223:], *begin]


def unpacked(folder: Path) -> dict[str, np.ndarray]:
    """The base weights of the pack, as float32."""
    stored = np.load(folder / "weights.npz")
    return {
        name: stored[name].astype(np.float32) * stored.get(name + ":scale", 1)
        for name in stored.files
        if not name.endswith(":scale")
    }


def batch(kit: Kit, rng: np.random.Generator, count: int) -> tuple[Tensor, Tensor, Tensor, Tensor, Tensor]:
    """Samples, their lengths, tokens in, tokens out (−100: not asked for), which are ordinary English."""
    sound = np.zeros((count, WINDOW_SAMPLES), np.float32)
    lengths = np.zeros(count, np.int64)
    rows: list[tuple[list[int], int]] = []
    plain = np.zeros(count, bool)
    for i in range(count):
        at = int(rng.integers(1600, 12_800))
        words: list[str] = []
        first = kit.train[int(rng.integers(len(kit.train)))]
        chosen = [] if rng.random() < NOISE_ONLY else [first]
        if chosen and rng.random() < JOINED:
            chosen.append(kit.train[int(rng.integers(len(kit.train)))])
        for clip in chosen:
            if at + len(clip.samples) > WINDOW_SAMPLES - 8000:
                break
            sound[i, at : at + len(clip.samples)] = clip.samples
            at += len(clip.samples) + int(rng.integers(3200, 12_800))
            words.append(sentence_like(clip.words))
        if not chosen:
            sound[i, :: int(rng.integers(300, 3000))] = 1e-3
            at = 6 * 16_000
        lengths[i] = at
        plain[i] = bool(chosen) and not text.numbers_in(first.words)
        prompt = kit.prompt_ids(first.prompt)
        spoken = kit.tokens.encode("".join(words), add_special_tokens=False).ids if words else []
        rows.append(([*prompt, *spoken, kit.end][:_CONTEXT], len(prompt)))
    longest = max(len(ids) for ids, _ in rows)
    tokens = np.full((count, longest - 1), kit.end)
    wanted = np.full((count, longest - 1), -100)
    for i, (ids, prompt_length) in enumerate(rows):
        tokens[i, : len(ids) - 1] = ids[:-1]
        wanted[i, prompt_length - 1 : len(ids) - 1] = ids[prompt_length:]
    to = kit.device
    return (
        torch.from_numpy(sound).to(to),
        torch.from_numpy(lengths).to(to),
        torch.from_numpy(tokens).to(to),
        torch.from_numpy(wanted).to(to),
        torch.from_numpy(plain).to(to),
    )
