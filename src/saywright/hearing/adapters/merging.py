"""A low-rank adapter merged into weights. Pure, and the same bit for bit on every machine.

Low-rank adaptation: Hu et al., "LoRA: Low-Rank Adaptation of Large Language Models", ICLR 2022. An adapter
holds, by the names of the model file, `NAME:up` (rows, rank) and `NAME:down` (rank, columns) for a matrix,
and the difference itself for a bias or a norm, all as 16-bit floats.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np
import numpy.typing as npt

from saywright.errors import ModelError
from saywright.hearing.adapters.ct2_file import ModelFile

Arrays = Mapping[str, npt.NDArray[Any]]
_UP, _DOWN = ":up", ":down"


def merged(base: ModelFile, adapter: Arrays, strength: float) -> ModelFile:
    """*base* with *strength* (0 … 1) of what the adapter learned; ModelError where it does not fit.

    Worked out in 64 bits one rank after the other: products of 16-bit floats are exact there, and no
    matrix library has a say in the order of the sums, so that the file has one hash everywhere.
    """
    arrays = base.arrays()
    changed: dict[str, npt.NDArray[Any]] = {}
    for name, value in adapter.items():
        if name.endswith(_DOWN):
            continue
        target = name.removesuffix(_UP)
        try:
            before = arrays[target].astype(np.float64)
            change = _product(value, adapter[target + _DOWN]) if name.endswith(_UP) else value
            changed[target] = before + strength * change.astype(np.float64)
        except (KeyError, ValueError):
            raise ModelError(
                f"the adapter does not fit the weights ({target})", to_do="Install saywright again"
            ) from None
    return base.with_arrays(changed)


def _product(up: npt.NDArray[Any], down: npt.NDArray[Any]) -> npt.NDArray[np.float64]:
    """(rows, rank) × (rank, columns) → (rows, columns), in a fixed order."""
    if up.shape[1] != down.shape[0]:
        raise ValueError
    total = np.zeros((up.shape[0], down.shape[1]))
    for column, row in zip(up.T.astype(np.float64), down.astype(np.float64), strict=True):
        total += np.multiply.outer(column, row)
    return total
