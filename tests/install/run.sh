#!/usr/bin/env bash
# run.sh BUILD: installs BUILD into a fresh prefix and uses what is there as others would: the command,
# eight programs, one room alone, pkg-config, a module in a host of another language. Then the prefix is
# moved, and all of it runs again where the checkout and the old prefix cannot be seen. The same with
# shared libraries, which are linked from BUILD's static ones.

set -euo pipefail
readonly build=$(realpath "$1") here=$(realpath "$(dirname "$0")")
readonly tree=$(realpath "$here/../..") prefix=$build/installed users=$build/users
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

say() { echo "-- $*"; }
fail() { echo "install: $*" >&2; exit 1; }

# expect TEXT COMMAND…: the command's output has the text.
expect() {
    local text=$1 output
    shift
    output=$("$@" | tr -d '\0') || fail "$* ends with $?"
    grep -qF -- "$text" <<<"$output" || fail "$* does not print '$text' but: ${output:0:300}"
}

# Everything that is run from PREFIX and PROGRAMS.
use() {
    local at=$1 programs=$2
    expect 21.506 "$at/bin/sectio" interval "syntonic comma"
    # J. M. Barbour, Tuning and Temperament (1951): the Pythagorean comma is 23.46 cents.
    expect "531441/524288 is 23.460010 cents" "$programs/stack"
    expect "12 " "$programs/errors"
    expect "D4 293.665" "$programs/hertz" # A4 down seven keys of 2^(1/12), by bc
    expect "zarlino" "$programs/identify"
    expect "%PDF-1" "$programs/sheet"
    expect "220.5" "$programs/measure"
    expect "rast" "$programs/tuning"
    expect "<!--sectio-->" bash -c "'$programs/annotate' <'$work/tune.musicxml'"
    expect "found its catalogue" python3 "$work/host.py" "$programs/libplugin.so"
}

say "install"
rm -rf "$prefix" "$users"
cmake --install "$build" --prefix "$prefix" >/dev/null

say "links of the installed documents"
python3 "$tree/tests/checks/links.py" "$prefix/share/doc/sectio"

say "programs"
users() {
    cmake -G Ninja -S "$here" -B "$users" -DCMAKE_PREFIX_PATH="$prefix" -DCMAKE_BUILD_TYPE=Debug \
        -DCMAKE_BUILD_RPATH='$ORIGIN;$ORIGIN/../prefix/lib' >/dev/null
    cmake --build "$users"
}
users
cp "$tree/data/examples/goose-walk.musicxml" "$work/tune.musicxml"
cp "$here/host.py" "$work"
use "$prefix" "$users"

# find NAME COMPONENTS…: whether a project that asks for these rooms configures.
find() {
    mkdir -p "$work/$1"
    printf 'cmake_minimum_required(VERSION 3.25)\nproject(p CXX)\nfind_package(sectio REQUIRED %s)\n%s\n' \
        "${*:3}" "$2" >"$work/$1/CMakeLists.txt"
    cmake -G Ninja -S "$work/$1" -B "$work/$1/build" -DCMAKE_PREFIX_PATH="$prefix" >"$work/$1.log" 2>&1
}

say "components"
find naming 'if(TARGET PkgConfig::PANGOCAIRO)
    message(FATAL_ERROR "naming scales asks for what prints them")
  endif()' COMPONENTS identify score || { cat "$work/naming.log"; fail "identify and score"; }
find one 'if(TARGET PkgConfig::PANGOCAIRO OR TARGET PkgConfig::EXPAT OR TARGET FPLLL::FPLLL)
    message(FATAL_ERROR "a room asks for what others need")
  endif()' COMPONENTS interval || { cat "$work/one.log"; fail "interval alone"; }
! find none "" COMPONENTS nonsense || fail "a room that does not exist was found"
grep -q nonsense "$work/none.log" || fail "the message does not name the room"
find all 'if(NOT TARGET sectio::sectio)
    message(FATAL_ERROR "no target for all rooms")
  endif()' || { cat "$work/all.log"; fail "all rooms"; }

say "pkg-config"
export PKG_CONFIG_PATH=$(dirname "$(command find "$prefix" -name sectio.pc)")
# shellcheck disable=SC2046
c++ -std=c++20 "$here/stack.cpp" -o "$work/stack" $(pkg-config --cflags --libs --static sectio)
expect 23.460010 "$work/stack"
grep -q " R sectio_catalogue_index_end" <<<"$(nm "$work/stack")" || fail "the catalogue is not within"

# given_out LIBRARY PATTERN: the library gives out symbols of the pattern, and no others.
given_out() {
    local symbols
    symbols=$(nm -DC --defined-only "$1" | cut -d' ' -f2- | sed 's/@.*//' | grep -v '^A ')
    [ -n "$symbols" ] || fail "$1 gives out nothing"
    symbols=$(grep -vE "$2" <<<"$symbols") && fail "$1 gives out ${symbols:0:300}" || true
}

hidden=(unshare -m)
[ "$(id -u)" -eq 0 ] || hidden=(unshare -rm)

# moved NAME: takes prefix and programs to the folder NAME and uses them there.
moved() {
    say "moved, without the checkout"
    mkdir -p "$work/$1" "$work/empty"
    mv "$prefix" "$work/$1/prefix"
    cp -r "$users" "$work/$1/programs"
    cp "$users/libplugin.so" "$work/$1/prefix/lib"
    "${hidden[@]}" true 2>/dev/null || { echo "SKIPPED: mounts are not allowed here"; return; }
    export -f use expect fail
    export work tree build
    "${hidden[@]}" bash -c 'set -e; mount --bind "$work/empty" "$tree"; ! test -e "$build"
        cd /; use "$0/prefix" "$0/programs"
        expect "found its catalogue" python3 "$work/host.py" "$0/prefix/lib/libplugin.so"' "$work/$1"
}

given_out "$users/libplugin.so" "^T plugin_"
moved static
rm -rf "$work/static/prefix/share"
expect "D4 293.665" "$work/static/programs/hertz" # by the catalogue within

say "shared libraries"
cmake -G Ninja -S "$tree" -B "$build/shared" -DBUILD_SHARED_LIBS=ON -DSECTIO_ARCHIVES="$build/lib" \
    -DSECTIO_TESTS=OFF -DCMAKE_BUILD_TYPE=Release >/dev/null
cmake --build "$build/shared" >/dev/null
cmake --install "$build" --prefix "$prefix" --component program >/dev/null
for component in library development; do
    cmake --install "$build/shared" --prefix "$prefix" --component "$component" >/dev/null
done
users
for library in "$prefix"/lib*/libsectio_*.so.?.?; do
    given_out "$library" "(^. |for |hash<)sectio::"
done
use "$prefix" "$users"
moved shared
say "done"
