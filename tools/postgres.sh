#!/bin/sh
# The tests of the store start a PostgreSQL server of their own: they need its programs, Debian's own package.
set -eu
if command -v initdb >/dev/null 2>&1 || ls /usr/lib/postgresql/*/bin/initdb >/dev/null 2>&1; then
    exit 0
fi
as_root=
if [ "$(id -u)" != 0 ]; then
    as_root='sudo -n'
fi
if command -v apt-get >/dev/null 2>&1 && $as_root true >/dev/null 2>&1; then
    echo 'installing postgresql for the tests'
    $as_root apt-get update -qq
    # no server of the system's own: the tests start theirs
    $as_root mkdir -p /etc/postgresql-common
    [ -e /etc/postgresql-common/createcluster.conf ] ||
        echo 'create_main_cluster = false' | $as_root tee /etc/postgresql-common/createcluster.conf >/dev/null
    DEBIAN_FRONTEND=noninteractive $as_root apt-get install -y -qq --no-install-recommends postgresql >/dev/null
    exit 0
fi
echo 'the tests need PostgreSQL (Debian package postgresql): install it, then make test again' >&2
exit 1
