#!/bin/sh
# Make the virtual environment: with uv where it is, else with the newest fitting Python found.
set -eu
venv=$1
if command -v uv >/dev/null 2>&1; then
    exec uv venv --quiet --seed --python '>=3.11' "$venv"
fi
for python in "${PYTHON:-python3}" python3.14 python3.13 python3.12 python3.11 python3; do
    if "$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1; then
        exec "$python" -m venv "$venv"
    fi
done
echo "becket needs Python 3.11 or newer: none was found; install one, or name it with PYTHON=/path/to/python" >&2
exit 1
