#!/usr/bin/env python3
"""Looks the rooms that read and reckon over with clang-tidy 14; .clang-tidy says for what, and why the rest is off.

    scripts/check_tidy.py              those of ROOMS, as .ci/run does it: some minutes; a file takes two to five processor seconds
    scripts/check_tidy.py FILE...      these alone

Each file by itself, with the processors there are. Prints `file:line: ...` for what is found; exit 1 when there is
something, 77 where there is no clang-tidy 14.
"""
import concurrent.futures
import os
import pathlib
import shutil
import subprocess
import sys

PROGRAM = "clang-tidy-14"
ROOMS = ("abc", "base", "instruments", "music", "people", "planner", "tune")  # for now; the others were not looked at yet
ROOT = pathlib.Path(__file__).resolve().parent.parent
WORDS = ["--", "-std=c++20", "-Isrc", '-DGAMUT_VERSION="0"']


def look_over(path):
    """What is wrong with it, a list of lines."""
    told = subprocess.run([PROGRAM, "-quiet", path, *WORDS], cwd=ROOT, capture_output=True, text=True, check=False)
    found = [line.removeprefix(f"{ROOT}/") for line in told.stdout.splitlines() if ": error: " in line or ": warning: " in line]
    if told.returncode != 0 and not found:
        found = [f"{path}: {PROGRAM} ended with {told.returncode}: {told.stderr.strip()[-300:]}"]
    return found


def main():
    if shutil.which(PROGRAM) is None:
        print(f"{PROGRAM} is not installed; nothing was looked at")
        return 77
    files = sys.argv[1:] or sorted(str(path.relative_to(ROOT)) for room in ROOMS
                                   for path in (ROOT / "src" / room).glob("*.cc"))
    found = set()  # what stands in a header is met by every file that includes it
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        for lines in pool.map(look_over, files):
            found.update(lines)
    for line in sorted(found):
        print(line)
    print(f"{len(files)} files, {len(found)} things found")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
