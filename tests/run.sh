#!/bin/sh
# Sets everything up and runs the tests. Arguments go to pytest: sh tests/run.sh --full
set -eu
CDPATH='' cd -- "$(dirname -- "$0")/.."
. tests/set-up.sh
set_up
exec .venv/bin/python -m pytest "$@"
