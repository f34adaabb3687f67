# Debian 12 packages that Sectio is built from; read by cli/demo.sh and tests/run.sh.
# DEVELOPERS.md says what each library is for.

build_packages=(
    g++ cmake ninja-build pkg-config
    libboost-dev libfmt-dev libmpfi-dev libmpfr-dev libgmp-dev
    libfplll-dev libcli11-dev nlohmann-json3-dev libtomlplusplus-dev libutf8proc-dev
    libexpat1-dev libzip-dev libsndfile1-dev libkissfft-dev libmicrohttpd-dev
    libglib2.0-dev libcairo2-dev libpango1.0-dev fonts-noto-core
)

# patiently COMMAND…: runs it again as long as another program holds the package manager's lock, for
# ten minutes at most.
patiently() {
    local said tries=0
    until said=$("$@" 2>&1 >/dev/null); do
        if [[ $said != *"Could not get lock"* && $said != *"Unable to lock"* ]] || ((++tries >= 120)); then
            echo "$said" >&2
            return 1
        fi
        ((tries > 1)) || echo "waiting for the package manager's lock"
        sleep 5
    done
}

# install_missing PACKAGE…: installs those that are not there, as root or by sudo.
install_missing() {
    local missing=() package
    for package in "$@"; do
        dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null | grep -qx installed ||
            missing+=("$package")
    done
    [ ${#missing[@]} -gt 0 ] || return 0
    local as_root=()
    if [ "$(id -u)" -ne 0 ]; then
        if ! command -v sudo >/dev/null; then
            echo "missing packages, and neither root nor sudo: ${missing[*]}" >&2
            return 1
        fi
        as_root=(sudo)
    fi
    echo "installing: ${missing[*]}"
    local apt=("${as_root[@]}" env LC_ALL=C DEBIAN_FRONTEND=noninteractive apt-get -qq)
    patiently "${apt[@]}" update </dev/null &&
        patiently "${apt[@]}" install -y --no-install-recommends "${missing[@]}" </dev/null
}
