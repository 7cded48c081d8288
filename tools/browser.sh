#!/bin/sh
# Some tests look at pages and papers as a person does: they need Chromium, with and without windows, and pdftoppm, Debian's own packages.
set -eu
if command -v chromium >/dev/null 2>&1 && command -v chromium-headless-shell >/dev/null 2>&1 && command -v pdftoppm >/dev/null 2>&1; then
    exit 0
fi
as_root=
if [ "$(id -u)" != 0 ]; then
    as_root='sudo -n'
fi
if command -v apt-get >/dev/null 2>&1 && $as_root true >/dev/null 2>&1; then
    echo 'installing chromium, chromium-headless-shell and poppler-utils for the tests'
    $as_root apt-get update -qq
    DEBIAN_FRONTEND=noninteractive $as_root apt-get install -y -qq --no-install-recommends chromium chromium-headless-shell poppler-utils >/dev/null
    exit 0
fi
echo 'the tests need chromium, chromium-headless-shell and pdftoppm (Debian packages chromium, chromium-headless-shell and poppler-utils): install them, then make test again' >&2
exit 1
