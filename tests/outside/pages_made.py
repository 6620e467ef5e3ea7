#!/usr/bin/env python3
"""Makes the manual pages and has two other programs read them: `mandoc -T lint` and `man --warnings`, where they are there.

Also holds that every option and command --help tells is on the page of its command. Exit 77 without pandoc."""
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

REPOSITORY = pathlib.Path(__file__).resolve().parents[2]
GAMUT = os.environ.get("GAMUT", str(REPOSITORY / "build" / "gamut"))
# Of mandoc: what has to do with taste, with the date that we do not print so that the same sources make the same page, with
# pages that are not installed, and with answers wider than its own idea of a page.
FORGIVEN = re.compile(r"STYLE:|missing date|cannot parse date|referenced manual not found|missing manual page")


def run(*words, **more):
    return subprocess.run(words, capture_output=True, text=True, check=False, **more)


def words_told(command):
    """Options and commands as --help prints them."""
    text = run(GAMUT, "help", *command, env={**os.environ, "COLUMNS": "100"}).stdout
    return set(re.findall(r"^  (?:-.*[ ,])?(--[a-z-]+)", text, flags=re.M)), re.findall(r"^  ([a-z][a-z-]*)(?:  |$)", text, flags=re.M)


def complaints(page):
    if shutil.which("mandoc"):
        said = run("mandoc", "-T", "lint", "-W", "warning", str(page)).stdout.splitlines()
        yield from (f"mandoc: {line}" for line in said if not FORGIVEN.search(line))
    if shutil.which("man"):
        said = run("man", "--warnings", "-l", str(page), env={**os.environ, "LC_ALL": "C.UTF-8", "MANWIDTH": "100", "MANROFFSEQ": "t"})
        yield from (f"man: {line}" for line in said.stderr.splitlines() if "can't break line" not in line and "cannot adjust line" not in line)
        if len(said.stdout) < 400:
            yield f"man: {page.name} is only {len(said.stdout)} characters long"


def main():
    with tempfile.TemporaryDirectory() as scratch:
        made = run(sys.executable, str(REPOSITORY / "scripts" / "make_pages"), GAMUT, scratch)
        if made.returncode == 77:
            print(made.stdout.strip())
            return 77
        if made.returncode != 0:
            print(made.stdout + made.stderr)
            return 1
        wrong = []
        _, commands = words_told([])
        pages = {path.name: path.read_text(encoding="utf-8").replace("\\-", "-") for path in pathlib.Path(scratch).iterdir()}
        for command in commands:
            page = pages.get(f"gamut-{command}.1")
            if page is None:
                wrong.append(f"{command}: no page")
                continue
            options, below = words_told([command])
            for word in [*options, *below, *(option for one in below for option in words_told([command, one])[0])]:
                if word not in page:
                    wrong.append(f"gamut-{command}.1: {word} is not on it")
        for path in sorted(pathlib.Path(scratch).iterdir()):
            wrong += [f"{path.name}: {line}" for line in complaints(path)]
        for line in wrong:
            print(line.replace(scratch, ""))
        readers = [name for name in ("mandoc", "man") if shutil.which(name)]
        print(f"{len(pages)} pages, {len(commands)} commands, read by {' and '.join(readers) or 'nobody'}; {len(wrong)} complaints")
        return 1 if wrong or len(commands) < 15 else 0


if __name__ == "__main__":
    sys.exit(main())
