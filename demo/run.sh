#!/bin/sh
# Sets everything up and opens the kiosk in a window with its bench strip.
# sh demo/run.sh --tour DIR plays a whole lesson with no display and leaves its pictures in DIR.
# Both take --language and --panel after that.
set -eu

TOUR="sh demo/run.sh --tour DIR"

case "${1:-}" in
-h | --help)
    printf '%s\n' "sh demo/run.sh       opens the kiosk in a window, with its bench strip" \
        "$TOUR   plays an invented lesson with no display; pictures and record go to DIR" \
        "Both take --language en, cy, pl or uk, and --panel 7inch or 10inch, after all else."
    exit 0
    ;;
--tour)
    shift
    [ $# -ge 1 ] && [ -n "$1" ] || { echo "Say where the tour's pictures go: $TOUR" >&2; exit 1; }
    case "$1" in
    /*) folder=$1 ;;
    *) folder=$(pwd)/$1 ;;
    esac
    shift
    set -- demo.tour "$folder" "$@"
    ;;
*)
    [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ] || {
        echo "There is no display here to open a window on (DISPLAY is not set)." >&2
        echo "The tour needs none: $TOUR" >&2
        exit 1
    }
    set -- demo.window "$@"
    ;;
esac

CDPATH='' cd -- "$(dirname -- "$0")/.."
. tests/set-up.sh
set_up
exec .venv/bin/python -m "$@"
