#!/bin/sh
# Find a browser to test the page in; install Chromium where the system's own packages can be had.
set -eu

for name in ${CHROMIUM:-} chromium chromium-browser google-chrome; do
    if command -v "$name" >/dev/null 2>&1; then
        echo "browser: $name"
        exit 0
    fi
done

root=""
if [ "$(id -u)" != 0 ]; then
    root="sudo -n"
    $root true 2>/dev/null || root="none"
fi

if [ "$root" != none ] && command -v apt-get >/dev/null 2>&1; then
    echo "browser: installing chromium"
    export DEBIAN_FRONTEND=noninteractive
    if $root apt-get -qq update && $root apt-get -qq install -y --no-install-recommends chromium </dev/null >/dev/null; then
        command -v chromium
        exit 0
    fi
    echo "browser: chromium could not be installed"
fi

echo "browser: none found. Install Chromium, or name yours: CHROMIUM=/path/to/browser make test"
if [ -n "${CI:-}" ]; then
    exit 1
fi
echo "browser: the tests of the page will be skipped"
