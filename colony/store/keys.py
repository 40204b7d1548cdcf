"""The keys that sign papers: files of their own beside the book's folder, their owner's alone.

A key is made on first use and never leaves this machine by itself. It is not in the book, nor in its
backups: who had a copy of the book could sign otherwise.
"""

import os
from pathlib import Path

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    load_pem_private_key,
)

from colony.refusals.proofs import KeyNotReadable
from colony.store.location import users_folder

FOLDER_VARIABLE = "COLONY_KEYS"
OWNER_READS, OWNER_ENTERS = 0o600, 0o700


def keys_folder() -> Path:
    """Where the keys are: named by COLONY_KEYS, else in the user's own data."""
    asked = os.environ.get(FOLDER_VARIABLE)
    return Path(asked) if asked else users_folder() / "keys"


def signing_key(*, renew: bool = False) -> Ed25519PrivateKey:
    """The newest key; it is made where there is none, or where a new one is asked for.

    Raises
    ------
    KeyNotReadable
    """
    files = _files()
    if not files or renew:
        return _make(len(files) + 1)
    return _read(files[-1])


def own_public_keys() -> list[bytes]:
    """The public half of every key there ever was here, the newest last."""
    return [_read(path).public_key().public_bytes_raw() for path in _files()]


def _files() -> list[Path]:
    return sorted(keys_folder().glob("signing-*.pem"))


def _make(number: int) -> Ed25519PrivateKey:
    """Write a new key; the file is its owner's alone from the moment it is there."""
    secret = Ed25519PrivateKey.generate()
    path = keys_folder() / f"signing-{number:04}.pem"
    content = secret.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
    try:
        path.parent.mkdir(parents=True, exist_ok=True, mode=OWNER_ENTERS)
        flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL
        with os.fdopen(os.open(path, flags, OWNER_READS), "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
    except OSError as failed:
        raise KeyNotReadable(str(path), failed.strerror or "cannot be written") from failed
    return secret


def _read(path: Path) -> Ed25519PrivateKey:
    try:
        secret = load_pem_private_key(path.read_bytes(), password=None)
    except OSError as failed:
        raise KeyNotReadable(str(path), failed.strerror or "cannot be read") from failed
    except (ValueError, TypeError) as broken:
        raise KeyNotReadable(str(path), "it is damaged") from broken
    if not isinstance(secret, Ed25519PrivateKey):
        raise KeyNotReadable(str(path), "it is another kind of key")
    return secret
