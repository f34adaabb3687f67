#!/usr/bin/env bash
# The step that installs packages waits for the package manager's lock, and for nothing else.

set -euo pipefail
cd "$(dirname "$0")/../.."
source cli/packages.sh

sleep() { :; }
count=$(mktemp)
trap 'rm -f "$count"' EXIT

# A package manager that says $1 at its first $2 calls.
manager() {
    echo call >>"$count"
    [ "$(wc -l <"$count")" -gt "$2" ] || { echo "$1" >&2; return 100; }
}

calls() {
    wc -l <"$count"
}

lock="E: Could not get lock /var/lib/dpkg/lock-frontend. It is held by process 7 (apt-get)"
patiently manager "$lock" 2 || { echo "a lock that was given back is not waited for"; exit 1; }
[ "$(calls)" -eq 3 ]
: >"$count"
if patiently manager "$lock" 1000 2>/dev/null; then echo "it waits for ever"; exit 1; fi
[ "$(calls)" -eq 120 ]
: >"$count"
if patiently manager "E: Unable to locate package x" 1000 2>/dev/null; then exit 1; fi
[ "$(calls)" -eq 1 ]
