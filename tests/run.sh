#!/bin/sh
# Sets everything up and runs the tests. Arguments go to pytest: sh tests/run.sh --full
set -eu
CDPATH='' cd -- "$(dirname -- "$0")/.."
. tests/set-up.sh
case " $* " in *" --full "* | *" collect "*) WITH_SERVER=yes ;; esac
case " $* " in *" --full "*) WITH_BROWSER=yes ;; esac
set_up
# Two tests at a time, each process taking what the other has not begun: the computers this runs on
# have at least two cores.
exec .venv/bin/python -m pytest -n 2 --dist worksteal "$@"
