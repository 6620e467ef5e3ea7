#!/usr/bin/env python3
"""Runs every command that README.md shows with its answer (a fenced block that starts with `$ gamut ...`) on the sample library,
and compares the answer to the letter. Other fenced gamut commands only have to run.

    tests/golden/readme.py [--accept]

--accept writes the answers into README.md instead; read the difference before you commit it."""
import os
import pathlib
import re
import shlex
import subprocess
import sys
import tempfile

REPOSITORY = pathlib.Path(__file__).resolve().parents[2]
PROGRAM = os.environ.get("GAMUT", str(REPOSITORY / "build" / "gamut"))


def blocks(text):
    return re.findall(r"^```\n(.*?)^```", text, flags=re.M | re.S)


def run(command, library):
    words = shlex.split(command)
    environment = {"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8", "COLUMNS": "80", "NO_COLOR": "1", "GAMUT_LIBRARY": library,
                   "GAMUT_TODAY": "2029-12-31"}
    for name in ("ASAN_OPTIONS", "UBSAN_OPTIONS"):
        if name in os.environ:
            environment[name] = os.environ[name]
    return subprocess.run([PROGRAM, *words[1:]], capture_output=True, text=True, cwd=REPOSITORY, env=environment, check=False)


def main():
    readme = REPOSITORY / "README.md"
    accepts = sys.argv[1:] == ["--accept"]
    text = readme.read_text(encoding="utf-8")
    failed = tried = 0
    with tempfile.TemporaryDirectory() as scratch:
        library = os.path.join(scratch, "library.db")
        run("gamut import sample-library", library)
        for block in blocks(text):
            lines = block.split("\n")
            if lines[0].startswith("$ gamut "):
                done = run(lines[0][2:], library)
                tried += 1
                shown = "\n".join(lines[1:])
                if done.stdout != shown and accepts:
                    text = text.replace(block, lines[0] + "\n" + done.stdout)
                elif done.stdout != shown:
                    failed += 1
                    print(f"README.md shows for {lines[0]}\n{shown}\n--- but the answer is\n{done.stdout}{done.stderr}")
                continue
            for line in lines:
                if line.startswith("gamut "):
                    tried += 1
                    done = run(line, library)
                    if done.returncode != 0:
                        failed += 1
                        print(f"README.md: {line}: exit {done.returncode}\n{done.stderr}")
    if accepts:
        readme.write_text(text, encoding="utf-8")
    print(f"{tried - failed} passed, {failed} failed")
    return 1 if failed or tried < 5 else 0


if __name__ == "__main__":
    sys.exit(main())
