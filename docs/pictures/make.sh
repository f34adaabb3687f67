#!/usr/bin/env bash
# make.sh [SECTIO]: draws the pictures of docs/gallery.md and README.md by the commands that stand in
# docs/gallery.md, each in a block of its own before its picture.

set -euo pipefail
cd "$(dirname "$0")/../.."
sectio() { "$program" "$@"; }
program=$(realpath "${1:-build/sectio}")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export program
export -f sectio

# draw PDF NAME PAGE: a leaf as a grey picture.
draw() { pdftoppm -r 60 -gray -png -singlefile -f "$3" -l "$3" "$1" "docs/pictures/$2"; }

command=
while IFS= read -r line; do
    case $line in
    '$ sectio '*) command=${line#\$ } ;;
    '!['*'](pictures/'*)
        name=${line##*pictures/}
        name=${name%.png)}
        page=${line#!\[}
        page=$(grep -oP '^[^\]]*leaf \K[0-9]+' <<<"$page" || echo 1)
        out=${command##* --out }
        bash -c "${command/--out $out/--out $work\/$out}" >/dev/null
        draw "$work/$out" "$name" "$page"
        ;;
    esac
done <docs/gallery.md
program=$program bash -c "sectio sheet rast --tonic G4 --out $work/rast.pdf"
pdftoppm -r 75 -gray -png -singlefile "$work/rast.pdf" docs/pictures/rast
