#!/bin/sh
# The three acts of every week on the sample colony, in a book that is thrown away.
set -eu
PATH="$(dirname "$0")/../.venv/bin:$PATH"
COLONY_BOOK="$(mktemp -d)/sample.colony"
export COLONY_BOOK
colony sample "$COLONY_BOOK"
due="$(colony litter due --json | python3 -c 'import json,sys; print(json.load(sys.stdin)[0]["dam"])')"
echo "\$ colony litter record --dam $due --pups 2F3M"
colony litter record --dam "$due" --pups 2F3M
echo "\$ colony pairing pick $due"
colony pairing pick "$due" --limit 5
echo "\$ colony pup ready"
colony pup ready
