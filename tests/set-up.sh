# Sets up this folder on Debian 12 or 13 (Raspberry Pi OS is the same family).
# Read by tests/run.sh and demo/run.sh from the project's root; plain sh.
# set_up installs what is missing, makes .venv beside the code, and is quick the second time.

# What must be there, and the Debian package that brings it: a command, or a library's name.
COMMANDS="Xvfb:xvfb xdotool:xdotool xsel:xsel strace:strace"
LIBRARIES="libGL.so.1:libgl1 libEGL.so.1:libegl1 libGLESv2.so.2:libgles2 libmtdev.so.1:libmtdev1
    libX11.so.6:libx11-6 libXext.so.6:libxext6 libXcursor.so.1:libxcursor1 libXi.so.6:libxi6
    libXrandr.so.2:libxrandr2 libXss.so.1:libxss1 libXfixes.so.3:libxfixes3
    libpango-1.0.so.0:libpango-1.0-0 libpangoft2-1.0.so.0:libpangoft2-1.0-0
    libharfbuzz-subset.so.0:libharfbuzz-subset0"
FITS='import sys, venv, ensurepip; sys.exit(not (3, 11) <= sys.version_info[:2] <= (3, 13))'

stop() {
    printf '%s\n' "$@" >&2
    exit 1
}

# The first Python from 3.11 to 3.13 that can make a virtual environment; PYTHON=... chooses.
find_python() {
    for python in ${PYTHON:-python3 python3.13 python3.12 python3.11}; do
        if "$python" -c "$FITS" >/dev/null 2>&1; then
            printf '%s' "$python"
            return
        fi
    done
}

has_library() {
    PATH="$PATH:/sbin:/usr/sbin" ldconfig -p 2>/dev/null | grep -q "^[[:space:]]*$1 "
}

# The drivers of libgl1-mesa-dri are loaded by folder, not by name.
has_drivers() {
    for driver in /usr/lib/*/dri/*_dri.so; do
        [ -e "$driver" ] && return 0
    done
    return 1
}

# A database server's programs, which only the full proofs need.
has_server() {
    for program in /usr/lib/postgresql/*/bin/initdb; do
        [ -x "$program" ] && return 0
    done
    return 1
}

missing_packages() {
    [ -n "$(find_python)" ] || printf ' python3 python3-venv'
    for pair in $COMMANDS; do
        command -v "${pair%%:*}" >/dev/null 2>&1 || printf ' %s' "${pair#*:}"
    done
    for pair in $LIBRARIES; do
        has_library "${pair%%:*}" || printf ' %s' "${pair#*:}"
    done
    has_drivers || printf ' libgl1-mesa-dri'
    [ -z "${WITH_SERVER:-}" ] || has_server || printf ' postgresql'
    [ -z "${WITH_BROWSER:-}" ] || command -v chromium >/dev/null 2>&1 || printf ' chromium'
}

install_packages() {
    packages=$(missing_packages)
    [ -n "$packages" ] || return 0
    command -v apt-get >/dev/null 2>&1 ||
        stop "Missing on this computer:$packages" \
            "These are Debian's names; there is no apt-get here, so please install them by hand."
    [ "$(id -u)" -eq 0 ] ||
        stop "Missing on this computer:$packages" "Run this line once, then the same command again:" \
            "  sudo apt-get update && sudo apt-get install -y --no-install-recommends$packages"
    printf '%s\n' "Installing what is missing:$packages"
    apt-get update -q || printf '%s\n' "Going on with the package lists that are here."
    # Unquoted on purpose: one word for each package.
    DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends $packages </dev/null
}

make_environment() {
    python=$(find_python)
    [ -n "$python" ] ||
        stop "No Python from 3.11 to 3.13 with its venv module was found here." \
            "Debian 12 and 13 have one: apt-get install python3 python3-venv" \
            "Or name another: PYTHON=/path/to/python3.12 sh $0"
    printf '%s\n' "Making .venv with $("$python" --version)."
    "$python" -m venv --clear .venv
    pwd >.venv/place
}

install_libraries() {
    printf '%s\n' "Installing the libraries of requirements.lock into .venv."
    .venv/bin/python -m pip install -q --require-hashes -r requirements.lock
    .venv/bin/python -m pip install -q --no-deps --no-build-isolation -e .
    .venv/bin/python -c "from kiosk.drawings.fonts import fonts; fonts()" # made static once
}

# What a start reads is compiled here: the kiosk's own user may not write into this folder, and
# would compile it anew at every start. What has not changed is left as it is.
compile_sources() {
    .venv/bin/python -m compileall -qq kiosk hardware demo || true
}

# .venv/place says where it was made: scripts in it hold that path, so a moved one is made anew.
# .venv/stamp says for which files: as long as they have not changed, nothing is installed.
set_up() {
    install_packages
    place=$(cat .venv/place 2>/dev/null || true)
    [ "$place" = "$(pwd)" ] && .venv/bin/python -c "$FITS" 2>/dev/null || make_environment
    stamp=$(cat requirements.lock pyproject.toml | sha256sum)
    if [ "$(cat .venv/stamp 2>/dev/null || true)" != "$stamp" ]; then
        install_libraries
        printf '%s\n' "$stamp" >.venv/stamp
    fi
    compile_sources
}
