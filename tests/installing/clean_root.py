"""A new Debian in a folder, with a mount and process space of its own for what runs in it."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

SPACE = ["unshare", "--mount", "--pid", "--fork", "--kill-child", "sh", "-euc"]
ENTER = """
mount --bind "$1" "$1"
mount -t proc proc "$1/proc"
mount -t tmpfs tmpfs "$1/run"
mount -t tmpfs -o mode=1777 tmpfs "$1/tmp"
mount --rbind /dev "$1/dev"
exec chroot "$1" /usr/bin/env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin HOME=/root LC_ALL=C.UTF-8 \
    PIP_CERT=/etc/ssl/certs/ca-certificates.crt sh -euc "$2"
"""
WITH = "python3,python3-venv,systemd,udev"
CERTIFICATES = "etc/ssl/certs/ca-certificates.crt"


def why_not() -> str:
    """Why no root can be made here, or an empty text."""
    if not shutil.which("debootstrap"):
        return "there is no debootstrap here: apt-get install debootstrap"
    if subprocess.run([*SPACE[:-2], "true"], check=False, capture_output=True).returncode:
        return "no mount space of its own may be made here; it takes root"
    return ""


class CleanRoot:
    """A root made by debootstrap, with the program in /opt/pillarside."""

    def __init__(self, folder: Path, suite: str) -> None:
        self.folder = folder
        words = ["debootstrap", "--variant=minbase", f"--include={WITH}", suite, str(folder)]
        done = subprocess.run(words, check=False, capture_output=True, text=True)
        assert done.returncode == 0, done.stdout[-2000:]
        for name in (CERTIFICATES, "etc/resolv.conf", "etc/hosts"):
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(f"/{name}", folder / name)

    def put(self, tree: Path) -> None:
        """Copy what git has of the program."""
        place = self.folder / "opt" / "pillarside"
        place.mkdir(parents=True)
        listed = subprocess.run(
            ["git", "ls-files", "-z"], cwd=tree, check=True, capture_output=True, text=True
        )
        for name in filter(None, listed.stdout.split("\0")):
            (place / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(tree / name, place / name)

    def run(self, script: str) -> str:
        """What a shell script prints in the root, run by its root user; it must end well."""
        words = [*SPACE, ENTER, "sh", str(self.folder), script]
        done = subprocess.run(words, check=False, capture_output=True, text=True)
        assert done.returncode == 0, f"{script}\n{done.stdout[-3000:]}\n{done.stderr[-3000:]}"
        return done.stdout

    def files(self) -> set[str]:
        """Every path, but for the package manager's own, logs, caches and compiled Python."""
        script = "find / -xdev \\( -path /var/lib/dpkg -o -path /var/lib/apt -o -path /var/log"
        script += " -o -path /var/cache -o -name __pycache__ \\) -prune -o -print"
        return set(self.run(script).splitlines())

    def files_of(self, said: str) -> tuple[str, ...]:
        """What belongs to the packages that were left because Debian protects them."""
        names = [line for line in said.splitlines() if line.startswith("packages the system")]
        packages = names[0].partition(": ")[2] if names else ""
        return tuple(self.run(f"dpkg -L {packages}").splitlines()[1:]) if packages else ()
