"""A low-rank adapter merged into weights."""

import numpy as np
import pytest

from saywright.errors import ModelError
from saywright.hearing.adapters.ct2_file import ModelFile, Variable
from saywright.hearing.adapters.merging import merged

RNG = np.random.default_rng(4)
WEIGHT = RNG.standard_normal((5, 3)).astype(np.float16)
BIAS = RNG.standard_normal(5).astype(np.float16)
UP, DOWN = (RNG.standard_normal(shape).astype(np.float16) for shape in ((5, 2), (2, 3)))
BASE = ModelFile(
    "WhisperSpec",
    3,
    (
        Variable("l/weight", (5, 3), 4, WEIGHT.tobytes()),
        Variable("l/bias", (5,), 4, BIAS.tobytes()),
        Variable("rest", (5,), 4, BIAS.tobytes()),
    ),
    (),
)
ADAPTER = {"l/weight:up": UP, "l/weight:down": DOWN, "l/bias": BIAS}


@pytest.mark.parametrize("strength", [0.0, 0.5, 1.0])
def test_weights_are_base_and_a_share_of_the_change(strength: float) -> None:
    """W + s·U·D and b + s·Δb (Hu et al., LoRA, 2022); what the adapter does not name stays."""
    found = merged(BASE, ADAPTER, strength).arrays()
    wanted = WEIGHT.astype(float) + strength * (UP.astype(float) @ DOWN.astype(float))
    assert np.allclose(wanted, found["l/weight"], atol=0, rtol=2**-10)  # half a step of a 16-bit float
    assert np.array_equal((BIAS.astype(float) * (1 + strength)).astype(np.float16), found["l/bias"])
    assert np.array_equal(BIAS, found["rest"])


def test_no_strength_changes_nothing() -> None:
    """At 0 the file is the base's, byte for byte."""
    assert BASE == merged(BASE, ADAPTER, 0.0)


@pytest.mark.parametrize(
    "adapter",
    [
        {"x/weight:up": UP, "x/weight:down": DOWN},
        {"l/weight:up": UP},
        {"l/weight:up": UP, "l/weight:down": DOWN[:1]},
        {"l/weight:up": UP[:4], "l/weight:down": DOWN},
    ],
)
def test_an_adapter_of_other_weights_is_told(adapter: dict[str, np.ndarray]) -> None:
    """An unknown name, half a pair, other ranks and other rows are refused."""
    with pytest.raises(ModelError, match="the adapter does not fit the weights"):
        merged(BASE, adapter, 1.0)
