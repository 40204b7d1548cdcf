"""A paper of an invented pup, and a key to sign it by."""

from datetime import date

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from colony.papers.proof.facts import PupPaper

SECRET = Ed25519PrivateKey.from_private_bytes(bytes(range(32)))
PAPER = PupPaper(
    tag="26-01-3",
    species="leopoldi",
    sex="F",
    born="2026-01-10",
    dam="Alma",
    sires=("Bruno", "Caro"),
    dams_parents=("Iris", "Ivo"),
    sires_parents=(),
    inbreeding=0.0625,
    generations=2.5,
    line="Northlight",
    transponder="999000012345678",
    widths=((date(2026, 1, 11), 130), (date(2026, 2, 20), 151), (date(2026, 3, 8), 158)),
    foods=("mussel", "shrimp"),
    origin="born here",
    house="Reed House",
    issued_on=date(2026, 3, 9),
)
