#!/usr/bin/env python3
"""Runs every command that README.md and the guide show with its answer (a fenced block that starts with `$ gamut ...`) on the
sample library, and compares the answer to the letter. Other fenced gamut commands only have to run. The pages of the guide follow in
the order in which src/guide/README.md lists them, in one library; a page that is not listed, or is listed and not there, fails.

    tests/golden/readme.py [--accept]

--accept writes the answers into the pages instead; read the difference before you commit it."""
import os
import pathlib
import re
import shlex
import subprocess
import sys
import tempfile

REPOSITORY = pathlib.Path(__file__).resolve().parents[2]
GUIDE = REPOSITORY / "src" / "guide"
PROGRAM = os.path.abspath(os.environ.get("GAMUT", REPOSITORY / "build" / "gamut"))


def blocks(text):
    return re.findall(r"^```\n(.*?)^```", text, flags=re.M | re.S)


def run(command, library):
    words = shlex.split(command)
    environment = {"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8", "COLUMNS": "80", "NO_COLOR": "1", "GAMUT_LIBRARY": library,
                   "GAMUT_TODAY": "2029-12-31"}
    for name in ("ASAN_OPTIONS", "UBSAN_OPTIONS"):
        if name in os.environ:
            environment[name] = os.environ[name]
    return subprocess.run([PROGRAM, *words[1:]], capture_output=True, text=True, cwd=os.path.dirname(library), env=environment, check=False)


def listed():
    """The pages of the guide's table, in its order."""
    table = (GUIDE / "README.md").read_text(encoding="utf-8")
    return [f"src/guide/{page}" for page in re.findall(r"^\|.*\]\(([a-z-]+\.md)\) \|$", table, flags=re.M)]


class Check:
    def __init__(self, library, accepts):
        self.library, self.accepts, self.tried, self.failed = library, accepts, 0, 0

    def fail(self, sentence):
        self.failed += 1
        print(sentence)

    def page(self, name):
        path = REPOSITORY / name
        text = path.read_text(encoding="utf-8")
        for block in blocks(text):
            lines = block.split("\n")
            if lines[0].startswith("$ gamut "):
                done = run(lines[0][2:], self.library)
                self.tried += 1
                shown = "\n".join(lines[1:])
                if done.stdout != shown and self.accepts:
                    text = text.replace(block, lines[0] + "\n" + done.stdout)
                elif done.stdout != shown:
                    self.fail(f"{name} shows for {lines[0]}\n{shown}\n--- but the answer is\n{done.stdout}{done.stderr}")
                continue
            for line in lines:
                if line.startswith("gamut "):
                    self.tried += 1
                    done = run(line, self.library)
                    if done.returncode != 0:
                        self.fail(f"{name}: {line}: exit {done.returncode}\n{done.stderr}")
        if self.accepts:
            path.write_text(text, encoding="utf-8")


def main():
    pages = listed()
    there = sorted(str(path.relative_to(REPOSITORY)) for path in GUIDE.glob("*.md") if path.name != "README.md")
    with tempfile.TemporaryDirectory() as scratch:
        os.symlink(REPOSITORY / "sample-library", os.path.join(scratch, "sample-library"))  # what is written stays beside it
        check = Check(os.path.join(scratch, "library.db"), sys.argv[1:] == ["--accept"])
        run("gamut import sample-library", check.library)
        if sorted(pages) != there:
            check.fail(f"src/guide/README.md lists {sorted(pages)}\nand there are {there}")
        for name in ["README.md", *[page for page in pages if page in there]]:
            check.page(name)
    print(f"{check.tried - check.failed} passed, {check.failed} failed")
    return 1 if check.failed or check.tried < 5 else 0


if __name__ == "__main__":
    sys.exit(main())
