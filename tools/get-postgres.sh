#!/bin/sh
# See that PostgreSQL's programs are here; the tests start a private server of their own from them.
set -eu

here() {
    for program in "$(command -v pg_ctl || true)" /usr/lib/postgresql/*/bin/pg_ctl; do
        if [ -n "$program" ] && [ -x "$program" ]; then
            echo "postgres: $program"
            return 0
        fi
    done
    return 1
}

if here; then
    exit 0
fi
if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; then
    echo "postgres: installing"
    export DEBIAN_FRONTEND=noninteractive
    apt-get -qq update && apt-get -qq install -y --no-install-recommends postgresql </dev/null >/dev/null || true
    if here; then
        exit 0
    fi
fi
echo "postgres: not found; the tests of the book on PostgreSQL will be skipped"
