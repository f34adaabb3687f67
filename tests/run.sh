#!/usr/bin/env bash
# Installs what is missing, builds everything and runs every test: bash tests/run.sh
# The last line counts what ran; the exit code is not 0 where anything failed.
# Logs stay in build/logs. FUZZ_RUNS sets how many inputs each fuzzer tries
# (default 30000: with the fixed seed the same ones every time), FUZZ_SECONDS how long at most (5).

set -uo pipefail
cd "$(dirname "$0")/.." || exit 1
exec </dev/null
source cli/packages.sh
source tests/packages.sh

readonly jobs=$(nproc)
readonly logs=$PWD/build/logs
passed=0 failed=0 skipped=0

# step TITLE COMMAND…: runs it with its output in a log, which is shown where it fails.
step() {
    local title=$1 log=$logs/${1//[^a-z0-9]/-}.log
    shift
    local started=$SECONDS
    if "$@" >"$log" 2>&1; then
        echo "ok      $title ($((SECONDS - started)) s)"
        return 0
    fi
    echo "FAILED  $title ($((SECONDS - started)) s), the end of $log:"
    tail -n 60 "$log"
    return 1
}

# check TITLE COMMAND…: a step that counts as one test.
check() {
    if step "$@"; then ((passed += 1)); else ((failed += 1)) && return 1; fi
}

# needed TITLE COMMAND…: a step that is no test, but fails the run.
needed() {
    step "$@" || { ((failed += 1)); return 1; }
}

configure() {
    local folder=$1
    shift
    local launcher=()
    command -v ccache >/dev/null && launcher=(-DCMAKE_CXX_COMPILER_LAUNCHER=ccache)
    cmake -G Ninja -B "$folder" "${launcher[@]}" "$@"
}

build() {
    cmake --build "$1" -j "$jobs" "${@:2}"
}

# sum_up JUNIT_FILE: adds a ctest run to the counts.
sum_up() {
    local head tests
    head=$(grep -A8 -m1 '<testsuite ' "$1" | tr '\n\t' '  ')
    attribute() { sed -n "s/.* $1=\"\([0-9]*\)\".*/\1/p" <<<"$head"; }
    tests=$(attribute tests)
    ((failed += $(attribute failures), skipped += $(attribute skipped)))
    ((passed += tests - $(attribute failures) - $(attribute skipped) - $(attribute disabled)))
}

# run_ctest TITLE BUILD_FOLDER ARGUMENTS…
run_ctest() {
    local title=$1 folder=$2 junit=$logs/${1//[^a-z0-9]/-}.xml
    shift 2
    rm -f "$junit"
    step "$title" ctest --test-dir "$folder" -j "$jobs" --output-on-failure --no-tests=error \
        --output-junit "$junit" "$@"
    if [ -s "$junit" ]; then sum_up "$junit"; else ((failed += 1)); fi
}

# The command as users have it, by GCC, whose warnings count, and the tests that run it, of which
# those in the browser wait for sound more than they compute.
release() {
    needed "configure" configure build -DCMAKE_BUILD_TYPE=Release -DSECTIO_TESTS=ON -DSECTIO_UNITY=ON \
        -DCMAKE_SKIP_INSTALL_ALL_DEPENDENCY=ON &&
        needed "build" build build --target command_tests installable &&
        run_ctest "tests of the command" build -j $((2 * jobs)) -L '^(cli|browser|checks)$'
}

# All other tests are compiled once, under sanitizers, and the fuzzers in the same tree.
sanitized() {
    needed "configure with sanitizers" configure build-sanitize -DCMAKE_CXX_COMPILER="clang++$clang" \
        -DCMAKE_BUILD_TYPE=RelWithDebInfo -DCMAKE_CXX_FLAGS_RELWITHDEBINFO="-O1 -g1" \
        -DCMAKE_EXE_LINKER_FLAGS=-no-pie \
        -DSECTIO_FUZZERS=ON -DSECTIO_SANITIZE=address,undefined -DSECTIO_BENCHMARKS=ON \
        -DSECTIO_UNITY=ON -DSECTIO_WARNINGS_AS_ERRORS=OFF &&
        needed "build with sanitizers" build build-sanitize --target sanitized_tests fuzzers benchmarks ||
        return
    # Where memory was allocated is told by three calls, which saves a sixth of the time, and less of
    # what was freed is kept apart.
    ASAN_OPTIONS=malloc_context_size=3:quarantine_size_mb=16 \
        run_ctest "tests with sanitizers" build-sanitize -L '^(unit|property|reference|corpus|robustness)$'
    fuzzed
}

# fuzz NAME: from its seeds, with finds kept outside the tree.
fuzz() {
    local finds=build-sanitize/finds/$1
    rm -rf "$finds" && mkdir -p "$finds"
    local dictionary=tests/fuzz/${1#fuzz_}.dict words=()
    [ -e "$dictionary" ] && words=(-dict="$dictionary")
    "build-sanitize/tests/fuzz/$1" "$finds" "tests/fuzz/corpus/${1#fuzz_}" -seed=1 "${words[@]}" \
        -runs="${FUZZ_RUNS:-30000}" \
        -max_total_time="${FUZZ_SECONDS:-5}" -timeout=10 -rss_limit_mb=4096 -verbosity=0 \
        -print_final_stats=1 -artifact_prefix="$finds/"
}

fuzzed() {
    local source names=()
    for source in tests/fuzz/fuzz_*.cpp; do
        names+=("$(basename "$source" .cpp)")
    done
    side_by_side fuzz "${names[@]}"
}

# installed CHECK: of what others install, each on one core.
installed() {
    bash "tests/install/$1.sh" build
}

# side_by_side FUNCTION NAME…: a test each, as many at once as there are cores.
side_by_side() {
    local function=$1 name
    shift
    export -f "${function?}"
    export logs
    printf '%s\n' "$@" |
        xargs -P "$jobs" -I NAME bash -c "$function NAME >\$logs/NAME.out 2>&1; echo \$? >\$logs/NAME.code"
    for name in "$@"; do
        check "$function $name" ended "$name"
    done
}

# ended NAME: what it said that has run.
ended() {
    cat "$logs/$1.out"
    return "$(cat "$logs/$1.code")"
}

mkdir -p "$logs"
needed "packages" install_missing "${build_packages[@]}" "${test_packages[@]}" &&
    release && {
        side_by_side installed run package shells
    }
sanitized

echo "took $((SECONDS / 60)) min $((SECONDS % 60)) s"
summary="$passed passed, $failed failed"
[ "$skipped" -eq 0 ] || summary+=", $skipped skipped"
echo "$summary"
[ "$failed" -eq 0 ]
