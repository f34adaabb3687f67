#!/usr/bin/env bash
# From a fresh Debian 12 to a printed page: installs what is missing, builds `sectio` into build/,
# and compares the example's measured zither with 12 and 53 equal steps: bash cli/demo.sh

set -euo pipefail
cd "$(dirname "$0")/.."
source cli/packages.sh

readonly scale=data/examples/sundhall-zither.toml
readonly page=build/demo/sundhall-zither.pdf

launcher=()
if command -v ccache >/dev/null; then launcher=(-DCMAKE_CXX_COMPILER_LAUNCHER=ccache); fi

install_missing "${build_packages[@]}"
cmake -G Ninja -B build -DCMAKE_BUILD_TYPE=Release -DSECTIO_TESTS=OFF -DSECTIO_UNITY=ON "${launcher[@]}" >/dev/null
cmake --build build --target sectio
mkdir -p "$(dirname "$page")"
build/sectio sheet "$scale" --against 12,53
build/sectio sheet "$scale" --against 12,53 --paper a4 --out "$page"
echo
echo "The page to print: $PWD/$page"
echo "All of Sectio in the browser: $PWD/build/sectio desk"
