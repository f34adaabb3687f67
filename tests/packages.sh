# Debian 12 packages that the tests need beyond those of cli/packages.sh: test libraries, the
# fuzzers' compiler, and independent programs to compare results with.

# The release's own number of clang; Debian 12 has 14.
clang=$(sed -n 's/^VERSION_CODENAME=bookworm$/-14/p' /etc/os-release)

test_packages=(
    catch2 librapidcheck-dev libbenchmark-dev libpugixml-dev
    "clang$clang" "libclang-rt$clang-dev" "clang-format$clang"
    pari-gp python3 python3-mpmath python3-jsonschema
    libxml2-utils poppler-utils tidy sndfile-programs libaubio-dev
    zsh fish man-db bsdextrautils lintian file
    fluidsynth timidity timgm6mb-soundfont chromium python3-mido
    time
)
