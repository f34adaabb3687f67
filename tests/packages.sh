# Debian 12 packages that the tests need beyond those of cli/packages.sh: test libraries, the
# fuzzers' compiler, and independent programs to compare results with.

test_packages=(
    catch2 librapidcheck-dev libbenchmark-dev libpugixml-dev
    clang-14 libclang-rt-14-dev clang-format-14
    pari-gp python3 python3-mpmath python3-jsonschema
    libxml2-utils poppler-utils tidy sndfile-programs libaubio-dev
    zsh fish man-db bsdextrautils lintian file
    fluidsynth timidity timgm6mb-soundfont chromium python3-mido
    time
)
