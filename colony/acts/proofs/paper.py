"""The paper of an animal: what the book has of it, signed; and what a signed code says."""

from base64 import b32encode
from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from pathlib import Path
from typing import Any

from sqlmodel import Session

from colony.acts.animals.page import show_animal
from colony.exchange.text.writing import write_file
from colony.papers.proof.facts import PupPaper, facts_of, named, sentences
from colony.papers.proof.looking import code_in
from colony.papers.proof.pup_paper import pup_paper
from colony.papers.proof.signed import PREFIX, Signed, read, sign
from colony.planning.pups.feeding import FoodOffered, accepted_since
from colony.refusals.proofs import AnotherSigner, NotACode, NotAKey
from colony.store.keys import own_public_keys, signing_key
from colony.store.lookup import find_animal
from colony.store.readers.pedigree import Lineage, read_lineage
from colony.store.settings import read_settings

KEY_LETTERS = 64
FINGERPRINT_BYTES = 10


@dataclass(frozen=True)
class PublicKey:
    """The key to give away, and its short name to read aloud."""

    key: str
    fingerprint: str


@dataclass(frozen=True)
class Verified:
    """What a good signature says, and whose it is as far as is known here.

    `signer` is ``trusted`` (the key that was given), ``own`` (a key of this machine) or
    ``unproven``.
    """

    signer: str
    key: str
    fingerprint: str
    facts: dict[str, Any]
    sentences: list[str]


def paper_of(session: Session, *, tag: str, today: date) -> PupPaper:
    """What the paper of an animal says.

    Raises
    ------
    NoSuchTag
    """
    details = show_animal(session, tag=tag, today=today)
    lineage = read_lineage(session)
    animal = find_animal(session, tag)
    row = lineage.herd.by_id(animal.id or 0)
    dam = lineage.parents.dam_id(row)
    sires = [sire for sire, _ in lineage.parents.sires(row)]
    only = sires[0] if len(sires) == 1 else None
    taken = accepted_since(
        (FoodOffered(each["on"], each["food"], each["took"]) for each in details.feedings), today
    )
    return PupPaper(
        tag=details.tag,
        species=details.facts["species"] or "hybrid",
        sex=details.facts["sex"],
        born=details.facts["born"] or "",
        dam=details.facts["dam"] or "",
        sires=tuple(details.facts["sires"]),
        dams_parents=_parents(lineage, dam),
        sires_parents=_parents(lineage, only),
        inbreeding=details.inbreeding,
        generations=details.completeness,
        line=details.facts["line"] or "",
        transponder=details.facts["transponder"] or "",
        widths=tuple(
            (each["on"], each["disc_width_mm"])
            for each in details.widths
            if each["disc_width_mm"] is not None
        ),
        foods=tuple(sorted(taken)),
        origin=details.facts["origin"],
        house=read_settings(session).house_name,
        issued_on=today,
    )


def signed_code(session: Session, *, tag: str, today: date) -> str:
    """The signed text of an animal's paper.

    Raises
    ------
    NoSuchTag, KeyNotReadable
    """
    return sign(facts_of(paper_of(session, tag=tag, today=today)), signing_key())


def write_paper(session: Session, *, tag: str, path: Path, overwrite: bool, today: date) -> str:
    """Write the paper of an animal as a PDF; the text of its code.

    Raises
    ------
    NoSuchTag, KeyNotReadable, WouldOverwrite, CannotWrite
    """
    paper = paper_of(session, tag=tag, today=today)
    code = sign(facts_of(paper), signing_key())
    write_file(path, pup_paper(paper, code), overwrite=overwrite)
    return code


def public_key(*, renew: bool = False) -> PublicKey:
    """The key to give away; made on first use, or a new one, with the old ones still good.

    Raises
    ------
    KeyNotReadable
    """
    return _named(signing_key(renew=renew).public_key().public_bytes_raw())


def verify(*, what: str, key: str | None = None) -> Verified:
    """Hold a paper to its signature: a file, a picture of it, or the text of its code.

    No book is needed. Without a key the signer is unproven, unless it is a key of this machine.

    Raises
    ------
    NotACode, CannotLook, AlteredCode, NotAKey
    AnotherSigner
        The signature is good and not of the key that was given.
    """
    trusted = None if key is None else _parse_key(key)
    if not what.strip():
        raise NotACode(what)
    signed: Signed = read(what if PREFIX in what else code_in(Path(what)))
    found = _named(signed.key)
    if trusted is not None and signed.key != trusted:
        raise AnotherSigner(found.fingerprint)
    own = trusted is None and signed.key in own_public_keys()
    signer = "trusted" if trusted is not None else "own" if own else "unproven"
    return Verified(
        signer, found.key, found.fingerprint, named(signed.facts), sentences(signed.facts)
    )


def _named(key: bytes) -> PublicKey:
    letters = b32encode(sha256(key).digest()[:FINGERPRINT_BYTES]).decode("ascii")
    groups = [letters[at : at + 4] for at in range(0, len(letters), 4)]
    return PublicKey(key.hex(), "-".join(groups))


def _parse_key(text: str) -> bytes:
    plain = "".join(text.split()).lower()
    try:
        key = bytes.fromhex(plain)
    except ValueError as broken:
        raise NotAKey(text) from broken
    if len(plain) != KEY_LETTERS:
        raise NotAKey(text)
    return key


def _parents(lineage: Lineage, animal: int | None) -> tuple[str, ...]:
    """Dam and sire of an animal as one reads them; empty where neither is known."""
    if animal is None:
        return ()
    row = lineage.herd.by_id(animal)
    dam = lineage.parents.tag(lineage.parents.dam_id(row))
    sires = [lineage.parents.tag(sire) for sire, _ in lineage.parents.sires(row)]
    known = [sire for sire in sires if sire]
    if dam is None and not known:
        return ()
    return (dam or "unknown", " or ".join(known) or "unknown")
