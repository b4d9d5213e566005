#!/bin/sh
# Check the types of the page's scripts with tsc; Node.js is fetched where the system's own packages can be had.
set -eu

if ! command -v npm >/dev/null 2>&1; then
    root=""
    [ "$(id -u)" = 0 ] || root="sudo -n"
    if command -v apt-get >/dev/null 2>&1 && $root true 2>/dev/null; then
        echo "scripts: installing Node.js"
        export DEBIAN_FRONTEND=noninteractive
        $root apt-get -qq update
        $root apt-get -qq install -y --no-install-recommends nodejs npm </dev/null >/dev/null
    fi
fi
if ! command -v npm >/dev/null 2>&1; then
    echo "scripts: Node.js and npm are needed to check the page's scripts"
    [ -z "${CI:-}" ] || exit 1
    echo "scripts: not checked"
    exit 0
fi
[ node_modules/.package-lock.json -nt package-lock.json ] || npm ci --silent --no-audit --no-fund
exec node_modules/.bin/tsc --project tsconfig.json
