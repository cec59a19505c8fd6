"""The voice-activity detector that faster-whisper ships, run frame by frame.

Each frame is given with the last 64 samples of the one before, and the network's state is
carried, so an hour needs no more memory than a second. One frame a call, always: the same
audio gives the same probabilities whatever the block size.
"""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

import numpy as np
import numpy.typing as npt

from saywright.errors import ModelError
from saywright.hearing.cutting import FRAME_SAMPLES
from saywright.hearing.listener import Samples

_CONTEXT_SAMPLES = 64
_STATE = (1, 1, 128)


def find_detector() -> Path:
    """The detector's ONNX file inside the faster-whisper package; ModelError where it is not."""
    try:
        assets = Path(str(files("faster_whisper"))) / "assets"
    except ModuleNotFoundError:
        raise ModelError(
            "faster-whisper, which carries the voice detector, is not installed",
            to_do="Run 'pip install faster-whisper'",
        ) from None
    found = sorted(assets.glob("silero_vad*.onnx"))
    if not found:
        raise ModelError(
            "no voice detector in the faster-whisper package",
            where=str(assets),
            to_do="Run 'pip install --force-reinstall faster-whisper'",
        )
    return found[-1]


class SpeechDetector:
    """Probability of speech, frame by frame."""

    def __init__(self) -> None:
        import onnxruntime  # noqa: PLC0415  only when a listener is built

        options = onnxruntime.SessionOptions()
        options.inter_op_num_threads = 1
        options.intra_op_num_threads = 1
        options.enable_cpu_mem_arena = False
        options.log_severity_level = 4
        path = find_detector()
        try:
            self._session = onnxruntime.InferenceSession(
                str(path), sess_options=options, providers=["CPUExecutionProvider"]
            )
        except Exception as error:  # onnxruntime's own classes are not public
            raise ModelError(
                f"the voice detector cannot be loaded ({_first_line(error)})", where=str(path)
            ) from None
        self.reset()

    def reset(self) -> None:
        """Forget what was heard; the next frame begins a recording."""
        self._h: npt.NDArray[np.float32] = np.zeros(_STATE, dtype=np.float32)
        self._c: npt.NDArray[np.float32] = np.zeros(_STATE, dtype=np.float32)
        self._context: npt.NDArray[np.float32] = np.zeros(_CONTEXT_SAMPLES, dtype=np.float32)

    def probability(self, frame: Samples) -> float:
        """That *frame*, (512,) float32 at 16 kHz, holds speech: 0…1."""
        given = np.concatenate([self._context, frame]).reshape(1, FRAME_SAMPLES + _CONTEXT_SAMPLES)
        out, self._h, self._c = self._session.run(None, {"input": given, "h": self._h, "c": self._c})
        self._context = frame[-_CONTEXT_SAMPLES:].copy()
        return float(np.asarray(out).reshape(-1)[0])


def _first_line(error: Exception) -> str:
    return str(error).strip().splitlines()[0] if str(error).strip() else type(error).__name__
