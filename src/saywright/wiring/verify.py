"""Is a job whole: its events, and every file that they name."""

from __future__ import annotations

from saywright.errors import StoreError
from saywright.record.events import AudioAdded, PhotoAdded, Reported
from saywright.store.protocol import Store


def verify_job(store: Store, job_id: str) -> tuple[str, int]:
    """Hash of the last event, and how many files were checked.

    ChainError names the first event that does not fit; StoreError a file that is missing or altered.
    """
    last = store.verify(job_id)
    files: dict[str, int] = {}
    for event in store.events(job_id):
        match event.payload:
            case AudioAdded(sha256=sha256, recording=recording) if sha256 != recording:
                files.setdefault(sha256, event.seq)
            case PhotoAdded(sha256=sha256) | Reported(sha256=sha256):
                files.setdefault(sha256, event.seq)
            case _:
                pass
    for sha256, seq in files.items():
        try:
            store.media.check(sha256)
        except StoreError as error:
            raise StoreError(
                f"{error.what}, named by event {seq}", where=error.where, to_do=error.to_do
            ) from None
    return last, len(files)
