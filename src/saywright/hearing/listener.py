"""The one protocol that every recogniser stands behind."""

from __future__ import annotations

from typing import Protocol, runtime_checkable

import numpy as np
import numpy.typing as npt

from saywright.hearing.words import Utterance

Samples = npt.NDArray[np.float32]  # (n_samples,) float32 mono, −1…1, 16 kHz

SAMPLE_RATE_HZ = 16_000


@runtime_checkable
class Listener(Protocol):
    """Samples in, utterances out, in order, nothing lost.

    One listener hears one recording. Times are seconds from the first sample fed.
    """

    name: str  # engine and model, shown to the user and kept with each utterance

    def feed(self, samples: Samples) -> list[Utterance]:
        """Take the next stretch of audio, any length; the utterances that ended in it."""
        ...

    def partial(self) -> str:
        """Words of the utterance being spoken, as far as known now; may change; "" where none."""
        ...

    def finish(self) -> list[Utterance]:
        """No more audio: the utterances still open. Feeding afterwards starts a new recording."""
        ...
