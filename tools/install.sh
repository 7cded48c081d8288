#!/bin/sh
# Install a locked set, every file checked by its hash, then becket itself from this folder.
set -eu
venv=$1
locked=$2
if command -v uv >/dev/null 2>&1; then
    uv pip install --quiet --compile-bytecode --python "$venv/bin/python" --require-hashes -r "$locked"
    uv pip install --quiet --python "$venv/bin/python" --no-deps --no-build-isolation -e .
else
    "$venv/bin/python" -m pip install --quiet --disable-pip-version-check --require-hashes -r "$locked"
    "$venv/bin/python" -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation -e .
fi
