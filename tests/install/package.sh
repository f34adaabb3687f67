#!/usr/bin/env bash
# package.sh BUILD [ROOT]: makes the Debian packages, asks lintian, and looks at what they hold. ROOT, a
# Debian system in a folder, gets them installed, used and removed.

set -euo pipefail
build=$(realpath "$1")
cd "$build"
rm -f sectio_*.deb libsectio-dev_*.deb
cpack -G DEB >/dev/null
for package in sectio_*.deb libsectio-dev_*.deb; do
    dpkg-deb --info "$package" | grep -E "^ (Package|Version|Depends|Description)"
done
if command -v lintian >/dev/null; then
    lintian --fail-on error ./sectio_*.deb ./libsectio-dev_*.deb
else
    echo "SKIPPED: no lintian"
fi
program=$(dpkg-deb --contents sectio_*.deb) library=$(dpkg-deb --contents libsectio-dev_*.deb)
for file in bin/sectio share/sectio/catalogue/turkish.toml share/sectio/catalogue.index \
    share/man/man1/sectio-sheet.1.gz share/bash-completion/completions/sectio \
    share/zsh/vendor-completions/_sectio share/fish/vendor_completions.d/sectio.fish \
    share/doc/sectio/docs/tutorial.md; do
    grep -q "/usr/$file$" <<<"$program" || { echo "sectio lacks $file"; exit 1; }
done
for file in libsectio_interval.a sectioConfig.cmake sectio.pc version.hpp; do
    grep -q "/$file$" <<<"$library" || { echo "libsectio-dev lacks $file"; exit 1; }
done

root=${2:-}
[ -n "$root" ] || exit 0
cp sectio_*.deb libsectio-dev_*.deb "$root/tmp"
mount -t proc proc "$root/proc" # by it a program finds its data
trap 'umount "$root/proc"' EXIT
within() { chroot "$root" env DEBIAN_FRONTEND=noninteractive LC_ALL=C.UTF-8 "$@"; }
within sh -c 'apt-get -qq install -y --no-install-recommends /tmp/sectio_*.deb >/dev/null'
within sectio interval "syntonic comma" | grep 21.506
within sectio sheet rast --tonic D4 --out /tmp/rast.pdf
within sectio listen rast --out /tmp/rast.wav >/dev/null
within sectio measure pitches D4 E4+4c >/dev/null
within sh -c 'sectio measure recording /tmp/rast.wav | grep -c D4'
within apt-get -qq remove -y sectio >/dev/null
! within sh -c 'command -v sectio || ls -d /usr/share/sectio'
