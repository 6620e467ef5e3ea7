#!/usr/bin/env python3
"""Holds every source to .clang-format, as clang-format 14 reads it.

    scripts/check_format.py

Prints `file:line: ...` for the first place of each file that is set otherwise; exit 1 when there is one, 77 where there
is no clang-format 14. `git ls-files '*.cc' '*.h' | xargs clang-format-14 -i` mends all.
"""
import pathlib
import re
import shutil
import subprocess
import sys

PROGRAM = "clang-format-14"
PLACE = re.compile(r"^(.+?:\d+):\d+: ")


def main():
    root = pathlib.Path(__file__).resolve().parent.parent
    if shutil.which(PROGRAM) is None:
        print(f"{PROGRAM} is not installed; nothing was looked at")
        return 77
    files = sorted(path for folder in ("src", "tests") for kind in ("*.cc", "*.h") for path in (root / folder).rglob(kind))
    told = subprocess.run([PROGRAM, "--dry-run", *map(str, files)], capture_output=True, text=True, check=False)
    first = {}
    for line in told.stderr.splitlines():
        if place := PLACE.match(line):
            first.setdefault(place.group(1).rsplit(":", 1)[0], place.group(1))
    for place in sorted(first.values()):
        print(f"{pathlib.Path(place).relative_to(root)}: not set as .clang-format says")
    print(f"{len(files)} files, {len(first)} set otherwise")
    return 1 if first or told.returncode else 0


if __name__ == "__main__":
    sys.exit(main())
