"""`colony paper`: papers with a signature that anyone can check, and the key to check it by."""

import sys
from pathlib import Path
from typing import Annotated

import typer

from colony.commands.cli.opened import reading
from colony.commands.cli.options import Book, Tag
from colony.commands.cli.output import say, show_json
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import today

app = subject()


@app.command("pup")
def pup(
    tag: Tag,
    output: Annotated[Path | None, typer.Option("-o", "--output", help="The PDF to write.")] = None,
    book: Book = None,
    *,
    code: Annotated[
        bool, typer.Option("--code", help="Only the text of the code, on stdout.")
    ] = False,
    overwrite: Annotated[
        bool, typer.Option("--overwrite", help="Replace a file that is there.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Write the paper of an animal as a PDF of one page, with a signed code."""
    from colony.acts.proofs.paper import signed_code, write_paper

    path = output or Path(f"{tag}.pdf")
    with reading(book) as session:
        if code and output is None:
            text = signed_code(session, tag=tag, today=today())
        else:
            text = write_paper(session, tag=tag, path=path, overwrite=overwrite, today=today())
    if as_json:
        show_json({"path": None if code and output is None else str(path), "code": text})
    elif code:
        # As it is: a space at its end is a letter of it.
        sys.stdout.write(f"{text}\n")
    else:
        say(f"Wrote {path}. Who holds your key (colony paper key) can check it with no book.")


@app.command("key")
def key(
    *,
    renew: Annotated[
        bool, typer.Option("--renew", help="Make a new key; papers of the old ones stay good.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Print the public key that your papers are signed with, to give away or publish."""
    from colony.acts.proofs.paper import public_key
    from colony.store.keys import keys_folder

    found = public_key(renew=renew)
    if as_json:
        show_json(found)
        return
    say(found.key)
    say(f"Fingerprint: {found.fingerprint}")
    say(
        f"Back up {keys_folder()} yourself, where nobody else reads it: it is in no backup of the "
        "book, and who has it signs as you."
    )


@app.command("verify")
def verify(
    what: Annotated[str, typer.Argument(help="The PDF, a picture of it, or the text of the code.")],
    key: Annotated[
        str | None, typer.Option(help="The public key of the breeder you trust.")
    ] = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Check the signature of a paper, with no book and no network, and print what it says."""
    from colony.acts.proofs.paper import verify as verify_paper

    found = verify_paper(what=what, key=key)
    if as_json:
        show_json(
            {"signer": found.signer, "key": found.key, "fingerprint": found.fingerprint}
            | {"facts": found.facts}
        )
        return
    whose = {
        "trusted": f"The signature is good, of the key that you gave ({found.fingerprint}).",
        "own": f"The signature is good, of a key of this machine ({found.fingerprint}).",
        "unproven": (
            f"The signature is good, of an unproven signer ({found.fingerprint}): get the "
            "breeder's key from themselves and give it with --key."
        ),
    }
    say(whose[found.signer])
    say("Hold these against the paper, line by line:")
    for sentence in found.sentences:
        say(f"  {sentence}")
