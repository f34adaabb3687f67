#!/usr/bin/env bash
# shells.sh BUILD: the manual pages are read by man without a warning, and bash, zsh and fish complete
# as they promise.

set -euo pipefail
readonly manual=$(realpath "$1")/manual
failed=0

# expect WHAT WORD… <OUTPUT: every word stands on a line of its own there, or the test ends.
expect() {
    local what=$1 word output
    output=$(tr -d '\r')
    shift
    for word in "$@"; do
        grep -qx -- "$word" <<<"$output" || { echo "$what: no $word in: ${output:0:300}"; return 1; }
    done
}

for page in "$manual"/*.1; do
    warnings=$(LC_ALL=C.UTF-8 MANWIDTH=80 man --warnings -E UTF-8 -l -Tutf8 -Z "$page" 2>&1 >/dev/null)
    [ -z "$warnings" ] || { echo "$page: $warnings"; failed=1; }
    text=$(LC_ALL=C.UTF-8 MANWIDTH=80 man -l "$page" | col -b)
    for heading in NAME SYNOPSIS DESCRIPTION OPTIONS PRECISION ERRORS "EXIT STATUS"; do
        [ "$page" = "$manual/sectio.1" ] || [ "$heading" != PRECISION ] || continue
        grep -qx -- "$heading" <<<"$text" || { echo "$page lacks $heading"; failed=1; }
    done
done
text=$(LC_ALL=C.UTF-8 MANWIDTH=80 man -l "$manual/sectio-sheet.1" | col -b)
grep -q -- "--tonic TONIC" <<<"$text" || { echo "sectio-sheet: no --tonic"; failed=1; }
grep -q "!The sheet" <<<"$text" && { echo "sectio-sheet: has a picture"; failed=1; }
[ "$(grep -cx OPTIONS <<<"$text")" = 1 ] || { echo "sectio-sheet: OPTIONS stands more than once"; failed=1; }

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"
touch tune.musicxml

# in_bash WORD…: what is offered for the last word.
in_bash() {
    bash --norc -c 'source "$1"; shift; COMP_WORDS=(sectio "$@"); COMP_CWORD=$#; _sectio
        printf "%s\n" "${COMPREPLY[@]}"' bash "$manual/sectio.bash" "$@"
}
in_bash she | expect "bash, command" sheet
in_bash measure "" | expect "bash, command below" frets pitches recording
in_bash sheet --ton | expect "bash, option" --tonic
in_bash measure frets --len | expect "bash, option below" --length
in_bash divisions --sort "" | expect "bash, values" number max rms relative
in_bash sheet zarl | expect "bash, id" zarlino
in_bash annotate tune --scale zarl | expect "bash, id of an option" zarlino
in_bash annotate tu | expect "bash, file" tune.musicxml

if command -v fish >/dev/null; then
    in_fish() { fish --no-config -c "source $manual/sectio.fish; complete -C '$1'" | cut -f1; }
    in_fish "sectio she" | expect "fish, command" sheet
    in_fish "sectio measure " | expect "fish, command below" frets pitches recording
    in_fish "sectio sheet --ton" | expect "fish, option" --tonic
    in_fish "sectio measure frets --len" | expect "fish, option below" --length
    in_fish "sectio divisions --sort " | expect "fish, values" number max rms relative
    in_fish "sectio sheet zarl" | expect "fish, id" zarlino
    in_fish "sectio annotate tu" | expect "fish, file" tune.musicxml
else
    echo "SKIPPED: no fish"
fi

if command -v zsh >/dev/null; then
    # A shell of its own on a terminal: what it shows for a tab.
    cat >"$work/ask.py" <<'PY'
import os, pty, re, select, sys, time

pid, terminal = pty.fork()
if pid == 0:
    os.environ.update(TERM="dumb", PS1="> ", LC_ALL="C.UTF-8")
    os.execlp("zsh", "zsh", "-f", "-i")

def shown_with(words, text=""):
    """What the shell shows, until all the words stand there, but not for ever."""
    end = time.monotonic() + 30
    shown = []
    while time.monotonic() < end and not set(words) <= set(shown):
        if select.select([terminal], [], [], 0.1)[0]:
            text += os.read(terminal, 1 << 16).decode("utf-8", "replace")
            shown = re.split(r"\s+", re.sub(r"\x1b\[[0-9;?]*[A-Za-z]", "", text))
    return shown

def send(text):
    os.write(terminal, text.encode())

send(f"fpath=({sys.argv[1]} $fpath); autoload -U compinit; compinit -u -D; zstyle ':completion:*' list-prompt ''; LISTMAX=9999; echo rea''dy\n")
shown_with(["ready"])
send(sys.argv[2] + "\t\t")
print("\n".join(shown_with(sys.argv[3:])))
PY
    # in_zsh TYPED WHAT WORD…: what is shown for TYPED has each word.
    in_zsh() { python3 "$work/ask.py" "$manual" "$1" "${@:3}" | expect "${@:2}"; }
    in_zsh "sectio she" "zsh, command" sheet
    in_zsh "sectio measure " "zsh, command below" frets pitches recording
    in_zsh "sectio sheet --to" "zsh, option" --tonic
    in_zsh "sectio divisions --sort " "zsh, values" number max rms relative
    in_zsh "sectio sheet zarl" "zsh, id" zarlino
    in_zsh "sectio annotate tu" "zsh, file" tune.musicxml
else
    echo "SKIPPED: no zsh"
fi
exit $failed
