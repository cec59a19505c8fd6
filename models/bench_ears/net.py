"""Whisper in PyTorch, by the names of CTranslate2's file: forward pass and low-rank adapters.

Architecture: Radford et al., "Robust Speech Recognition via Large-Scale Weak Supervision", 2022.
Low-rank adaptation: Hu et al., "LoRA: Low-Rank Adaptation of Large Language Models", ICLR 2022.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
import torch
from torch import Tensor, nn
from torch.nn import functional as F  # noqa: N812  its usual name

HEADS = 6
LAYERS = 4


class Adapted(nn.Module):
    """A frozen matrix with a low-rank change and a free bias."""

    def __init__(self, weight: Tensor, bias: Tensor | None, rank: int) -> None:
        super().__init__()
        self.register_buffer("weight", weight)
        rows, columns = weight.shape
        self.down = nn.Parameter(torch.randn(rank, columns) / columns**0.5) if rank else None
        self.up = nn.Parameter(torch.zeros(rows, rank)) if rank else None
        self.bias = None if bias is None else nn.Parameter(bias.clone(), requires_grad=bool(rank))

    def forward(self, x: Tensor) -> Tensor:
        weight = self.weight
        if self.up is not None and self.down is not None:
            weight = weight + self.up @ self.down
        return F.linear(x, weight.to(x.dtype), None if self.bias is None else self.bias.to(x.dtype))


class Whisper(nn.Module):
    """tiny.en. *weights*: CTranslate2 name → array. *rank* 0: nothing is trained."""

    def __init__(self, weights: Mapping[str, np.ndarray], rank: int) -> None:
        super().__init__()
        self.tensors = {
            name: torch.from_numpy(np.array(value, dtype=np.float32)) for name, value in weights.items()
        }
        self.linears = nn.ModuleDict()
        self.norms = nn.ParameterDict()
        for name, value in self.tensors.items():
            stem = name.removesuffix("/weight")
            if name.endswith("/weight") and "linear" in name:
                bias = self.tensors.get(stem + "/bias")
                self.linears[_key(stem)] = Adapted(value, bias, rank)
            elif name.endswith(("/gamma", "/beta")):
                self.norms[_key(name)] = nn.Parameter(value.clone(), requires_grad=bool(rank))
        for name in (
            "encoder/conv1/weight",
            "encoder/conv1/bias",
            "encoder/conv2/weight",
            "encoder/conv2/bias",
            "encoder/position_encodings/encodings",
            "decoder/position_encodings/encodings",
            "decoder/embeddings/weight",
        ):
            self.register_buffer(_key(name), self.tensors[name])

    def changes(self) -> dict[str, np.ndarray]:
        """What was trained, by CTranslate2 name: low-rank pairs, biases and norms as differences."""
        found: dict[str, np.ndarray] = {}
        for name, value in self.tensors.items():
            stem = name.removesuffix("/weight")
            if _key(stem) in self.linears and name.endswith("/weight"):
                linear = self.linears[_key(stem)]
                found[name + ":up"] = linear.up.detach().cpu().numpy().astype(np.float16)
                found[name + ":down"] = linear.down.detach().cpu().numpy().astype(np.float16)
                if linear.bias is not None:
                    found[stem + "/bias"] = _difference(linear.bias, self.tensors[stem + "/bias"])
            elif _key(name) in self.norms:
                found[name] = _difference(self.norms[_key(name)], value)
        return found

    def encode(self, mels: Tensor) -> Tensor:
        """(batch, 80, frames) → (batch, frames / 2, 384)."""
        x = F.gelu(
            F.conv1d(
                mels, self._t("encoder/conv1/weight", mels), self._t("encoder/conv1/bias", mels), padding=1
            )
        )
        x = F.gelu(
            F.conv1d(
                x, self._t("encoder/conv2/weight", x), self._t("encoder/conv2/bias", x), stride=2, padding=1
            )
        )
        x = x.transpose(1, 2)
        x = x + self._t("encoder/position_encodings/encodings", x)[: x.shape[1]]
        for layer in range(LAYERS):
            at = f"encoder/layer_{layer}"
            x = x + self._self_attention(f"{at}/self_attention", x, causal=False)
            x = x + self._ffn(f"{at}/ffn", x)
        return self._norm("encoder/layer_norm", x)

    def decode(self, tokens: Tensor, encoded: Tensor) -> Tensor:
        """(batch, length) tokens → (batch, length, vocabulary) logits."""
        embeddings = self._t("decoder/embeddings/weight", encoded)
        x = F.embedding(tokens, embeddings)
        x = x + self._t("decoder/position_encodings/encodings", x)[: tokens.shape[1]]
        for layer in range(LAYERS):
            at = f"decoder/layer_{layer}"
            x = x + self._self_attention(f"{at}/self_attention", x, causal=True)
            x = x + self._cross_attention(f"{at}/attention", x, encoded)
            x = x + self._ffn(f"{at}/ffn", x)
        return F.linear(self._norm("decoder/layer_norm", x), embeddings)

    def _t(self, name: str, like: Tensor) -> Tensor:
        buffer: Tensor = getattr(self, _key(name))
        return buffer.to(like.dtype)

    def _linear(self, name: str, x: Tensor) -> Tensor:
        out: Tensor = self.linears[_key(name)](x)
        return out

    def _norm(self, name: str, x: Tensor) -> Tensor:
        gamma, beta = self.norms[_key(name + "/gamma")], self.norms[_key(name + "/beta")]
        return F.layer_norm(x.float(), x.shape[-1:], gamma, beta).to(x.dtype)

    def _self_attention(self, at: str, x: Tensor, *, causal: bool) -> Tensor:
        q, k, v = self._linear(f"{at}/linear_0", self._norm(f"{at}/layer_norm", x)).chunk(3, dim=-1)
        return self._linear(f"{at}/linear_1", _attend(q, k, v, causal=causal))

    def _cross_attention(self, at: str, x: Tensor, encoded: Tensor) -> Tensor:
        q = self._linear(f"{at}/linear_0", self._norm(f"{at}/layer_norm", x))
        k, v = self._linear(f"{at}/linear_1", encoded).chunk(2, dim=-1)
        return self._linear(f"{at}/linear_2", _attend(q, k, v, causal=False))

    def _ffn(self, at: str, x: Tensor) -> Tensor:
        inner = F.gelu(self._linear(f"{at}/linear_0", self._norm(f"{at}/layer_norm", x)))
        return self._linear(f"{at}/linear_1", inner)


def _attend(q: Tensor, k: Tensor, v: Tensor, *, causal: bool) -> Tensor:
    def split(x: Tensor) -> Tensor:
        return x.unflatten(-1, (HEADS, -1)).transpose(1, 2)

    q, k, v = split(q), split(k), split(v)
    if hasattr(F, "scaled_dot_product_attention"):
        out = F.scaled_dot_product_attention(q, k, v, is_causal=causal)
    else:  # PyTorch before 2.0
        weights = q @ k.transpose(-1, -2) / q.shape[-1] ** 0.5
        if causal:
            later = torch.ones(weights.shape[-2:], dtype=torch.bool, device=q.device).triu(1)
            weights = weights.masked_fill(later, -torch.inf)
        out = weights.softmax(-1) @ v
    return out.transpose(1, 2).flatten(2)


def _key(name: str) -> str:
    return name.replace("/", "__")


def _difference(trained: Tensor, before: Tensor) -> np.ndarray:
    return (trained.detach().cpu() - before).numpy().astype(np.float16)
