"""A sound server of one's own with a microphone that says what it is told to, in real time.

PulseAudio runs without touching the user's own: its folders, its socket and its ALSA configuration
are in a folder of their own. Its source reads a pipe, so that nothing is buffered on the way as it would
be behind a null sink; PortAudio opens it through ALSA like any microphone. Unloading it pulls the plug.
"""

from __future__ import annotations

import fcntl
import os
import shutil
import subprocess
import tempfile
import threading
import time
from collections import deque
from pathlib import Path
from types import TracebackType

import numpy as np

from saywright.hearing.audio import pcm16
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples

DEVICE = "saywright_bench_mic"
PACKAGES = {"pulseaudio": "pulseaudio", "pactl": "pulseaudio-utils"}
_SOURCE = "bench"
_MODULE = "module-pipe-source"
_CHUNK = SAMPLE_RATE_HZ // 50  # 20 ms
_READY_S = 10.0
_ALSA = """\
</usr/share/alsa/alsa.conf>
pcm.{device} {{
  type pulse
  server "unix:{socket}"
  device "{source}"
}}
"""


def missing() -> str:
    """What keeps the server from running here; "" where nothing does."""
    for program, package in PACKAGES.items():
        if shutil.which(program) is None:
            return f"Debian package {package} is not installed"
    plugins = any(Path("/usr/lib").glob("*/alsa-lib/libasound_module_pcm_pulse.so"))
    return "" if plugins else "Debian package libasound2-plugins is not installed"


class SoundServer:
    """The server and its one microphone, named `DEVICE`; use it in a `with` block."""

    def __init__(self) -> None:
        self._folder = Path(tempfile.mkdtemp(prefix="saywright-sound-"))
        self._socket = self._folder / "native"
        self._server: subprocess.Popen[bytes] | None = None
        self._voice: Voice | None = None
        self._before: dict[str, str | None] = {}

    def __enter__(self) -> SoundServer:
        for name in ("home", "runtime", "state"):
            (self._folder / name).mkdir(mode=0o700)
        config = self._folder / "asound.conf"
        config.write_text(_ALSA.format(device=DEVICE, socket=self._socket, source=_SOURCE))
        self._server = subprocess.Popen(
            [
                "pulseaudio", "-n", "--daemonize=no", "--exit-idle-time=-1", "--use-pid-file=no",
                "--disable-shm=1", "--realtime=no", "--high-priority=no",
                "-L", f"module-native-protocol-unix socket={self._socket} auth-anonymous=1",
            ],
            env=self._own(),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )  # fmt: skip
        for name, value in {"ALSA_CONFIG_PATH": str(config), "PULSE_SERVER": f"unix:{self._socket}"}.items():
            self._before[name] = os.environ.get(name)
            os.environ[name] = value
        until = time.monotonic() + _READY_S
        while self._pactl("info", check=False).returncode:
            if time.monotonic() > until:
                self.close()
                raise RuntimeError("pulseaudio does not start")
            time.sleep(0.05)
        self._pactl("load-module", "module-null-sink", "sink_name=loudspeaker")
        self.plug_in()
        _look_again()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """End the server; the environment is as it was."""
        self._hush()
        if self._server is not None:
            self._server.terminate()
            self._server.wait(10)
        for name, value in self._before.items():
            if value is None:
                os.environ.pop(name, None)
            else:
                os.environ[name] = value
        _look_again()
        shutil.rmtree(self._folder, ignore_errors=True)

    def plug_in(self) -> None:
        """The microphone is there; it is silent."""
        pipe = self._folder / "pipe"
        shape = f"format=s16le rate={SAMPLE_RATE_HZ} channels=1"
        self._pactl("load-module", _MODULE, f"source_name={_SOURCE}", f"file={pipe}", *shape.split())
        self._voice = Voice(pipe)

    def pull_out(self) -> None:
        """The microphone is gone."""
        self._hush()
        self._pactl("unload-module", _MODULE)

    def say(self, samples: Samples) -> Spoken:
        """Play *samples*, (n_samples,) float32 at 16 kHz, after what is still to be played."""
        assert self._voice is not None
        return self._voice.say(samples)

    def _hush(self) -> None:
        voice, self._voice = self._voice, None
        if voice is not None:
            voice.close()

    def _own(self) -> dict[str, str]:
        return {
            **os.environ,
            "HOME": str(self._folder / "home"),
            "XDG_RUNTIME_DIR": str(self._folder / "runtime"),
            "PULSE_RUNTIME_PATH": str(self._folder / "runtime"),
            "PULSE_STATE_PATH": str(self._folder / "state"),
            "PULSE_SERVER": f"unix:{self._socket}",
        }

    def _pactl(self, *words: str, check: bool = True) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            ["pactl", *words], env=self._own(), check=check, capture_output=True, text=True, timeout=20
        )


class Spoken:
    """Sound on its way to the microphone."""

    def __init__(self, samples: Samples) -> None:
        self.samples = samples
        self.began_s = 0.0  # by `time.monotonic`: when its first sample was given to the server
        self.ended = threading.Event()
        self.ended_s = 0.0  # when the sound of its last sample ended

    def wait(self, timeout_s: float) -> None:
        """Until it is said; TimeoutError where that takes longer."""
        if not self.ended.wait(timeout_s):
            raise TimeoutError("the sound server does not play")


class Voice:
    """Plays silence, and speech when there is some, at the speed of the clock."""

    def __init__(self, pipe: Path) -> None:
        self._pipe = os.open(pipe, os.O_WRONLY | os.O_NONBLOCK)
        fcntl.fcntl(self._pipe, fcntl.F_SETPIPE_SZ, 4096)  # an eighth of a second waits where nobody listens
        self._waiting: deque[Spoken] = deque()
        self._closed = threading.Event()
        self._thread = threading.Thread(target=self._play, name="voice", daemon=True)
        self._thread.start()

    def say(self, samples: Samples) -> Spoken:
        """Play it after what is waiting."""
        spoken = Spoken(samples)
        self._waiting.append(spoken)
        return spoken

    def close(self) -> None:
        """Play no more."""
        self._closed.set()
        self._thread.join()
        os.close(self._pipe)

    def _play(self) -> None:
        due_s = time.monotonic()
        now, at = None, 0
        while not self._closed.is_set():
            if now is None and self._waiting:
                now, at = self._waiting.popleft(), 0
                now.began_s = due_s
            chunk = np.zeros(_CHUNK, dtype=np.float32)
            part = now.samples[at : at + _CHUNK] if now is not None else chunk
            chunk[: len(part)] = part
            if not self._written(pcm16(chunk)):
                return
            # Where nobody listened the clock stood still.
            due_s = max(due_s + _CHUNK / SAMPLE_RATE_HZ, time.monotonic() - 0.1)
            if now is not None:
                at += _CHUNK
                if at >= len(now.samples):
                    now.ended_s = now.began_s + len(now.samples) / SAMPLE_RATE_HZ
                    now.ended.set()
                    now = None
            self._closed.wait(max(0.0, due_s - time.monotonic()))

    def _written(self, data: bytes) -> bool:
        """Write a chunk, whole, as soon as somebody listens; False where it was closed meanwhile."""
        while True:
            try:
                return os.write(self._pipe, data) > 0
            except BlockingIOError:
                if self._closed.wait(0.005):
                    return False


def _look_again() -> None:
    """Have PortAudio find its devices anew."""
    import sounddevice

    sounddevice._terminate()
    sounddevice._initialize()
