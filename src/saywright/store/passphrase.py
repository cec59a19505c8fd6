"""Passphrase → argon2id hash and back to a yes or no. Nothing else sees the library."""

from __future__ import annotations

import threading
import unicodedata
from dataclasses import dataclass, field

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError


@dataclass
class Hasher:
    """Argon2id with the library's parameters: those of RFC 9106, section 4, second recommended option.

    One at a time: each takes 64 MiB, so many at once would be a way to fill the memory.
    """

    argon2: PasswordHasher = field(default_factory=PasswordHasher)
    _lock: threading.Lock = field(default_factory=threading.Lock)
    _nobody: str = ""  # hash of what nobody has, made when it is first needed

    def hash(self, passphrase: str) -> str:
        """The hash with its salt and parameters, as one text."""
        with self._lock:
            return self.argon2.hash(_same(passphrase))

    def fits(self, kept: str, passphrase: str) -> bool:
        """True where *kept* was made of this passphrase. Takes as long for an empty *kept*."""
        with self._lock:
            if not kept and not self._nobody:
                self._nobody = self.argon2.hash("nobody")
            try:
                return self.argon2.verify(kept or self._nobody, _same(passphrase)) and bool(kept)
            except (VerificationError, InvalidHashError):
                return False

    def is_old(self, kept: str) -> bool:
        """True where it was made with other parameters than those used now."""
        return self.argon2.check_needs_rehash(kept)


def _same(passphrase: str) -> bytes:
    """The bytes of a passphrase, however the keyboard composed its letters (RFC 8265, section 4.2: NFC)."""
    return unicodedata.normalize("NFC", passphrase).encode("utf-8", "surrogatepass")


HASHER = Hasher()
