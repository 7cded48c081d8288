#!/bin/sh
# Write the locked sets anew: exact versions with hashes, for every Python from 3.11 on, naming no address. Needs uv.
set -eu
cd "$(dirname "$0")/.."
if ! command -v uv >/dev/null 2>&1; then
    echo "the lock is written with uv: install it first (pip install uv)" >&2
    exit 1
fi
compile() {
    uv pip compile --quiet --universal --python-version 3.11 --generate-hashes \
        --no-header --no-annotate --no-emit-index-url "$@"
}
echo 'setuptools>=77' | compile pyproject.toml - -o requirements.txt
compile pyproject.toml --extra test -c requirements.txt -o requirements-test.txt
