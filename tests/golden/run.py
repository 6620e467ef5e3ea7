#!/usr/bin/env python3
"""Runs whole-program cases: input files, commands, expected output, errors and exit code, all in one file.

    tests/golden/run.py [--gamut PROGRAM] [CASE.test | FOLDER]...

A case is a text file `tests/golden/<command>/<what it shows>.test`:

    Prose: what this case is about. It is not used.

    --- file tunes.abc
    X:1
    ...
    --- file broken.abc escaped
    bytes with \\n \\r \\t \\\\ and \\xHH escapes; real line ends between the lines are left out
    --- command
    gamut read tunes.abc
    --- output
    ...
    --- errors
    ...
    --- exit 1

The commands are run by bash in a fresh folder that holds the input files; the exit code is that of the last one. `gamut`
is on the PATH, $SAMPLE is the sample library, and GAMUT_LIBRARY lies in the fresh folder. Nothing else of the surroundings
is passed on: no colour, 80 columns, UTC, and the clock stands still. Output and errors are compared byte by byte, except that the fresh folder is
called $SCRATCH, the sample library $SAMPLE, and a carriage return is shown as <CR>. A section left out is expected to be
empty, exit code 0. One empty line before a `---` line belongs to the layout.
"""
import argparse
import concurrent.futures
import os
import pathlib
import re
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
REPOSITORY = HERE.parents[1]
SAMPLE = REPOSITORY / "sample-library"
SECTION = re.compile(r"^--- (file|command|output|errors|exit)(?: (.*))?$")
PASSED_ON = ("ASAN_OPTIONS", "UBSAN_OPTIONS", "LLVM_PROFILE_FILE", "TMPDIR")
TODAY = "2029-12-31"  # later than the days of the cases, which so are none to come
SECONDS_ALLOWED = 60 * float(os.environ.get("GAMUT_TIME_FACTOR", "1"))


class Case:
    def __init__(self, path):
        self.path = path
        self.prose = []
        self.files = []  # (name, is_escaped, lines)
        self.command = []
        self.output = []
        self.errors = []
        self.exit = 0
        self._read(path.read_text(encoding="utf-8").split("\n"))

    def _read(self, lines):
        if lines and lines[-1] == "":
            lines.pop()
        into = self.prose
        for line in lines:
            match = SECTION.match(line)
            if not match:
                into.append(line)
                continue
            if into and into[-1] == "":
                into.pop()
            kind, rest = match.groups()
            if kind == "file":
                name, _, how = rest.partition(" ")
                into = []
                self.files.append((name, how == "escaped", into))
            elif kind == "exit":
                self.exit = int(rest)
                into = []
            else:
                into = getattr(self, kind)

    def name(self):
        return str(self.path.relative_to(HERE).with_suffix(""))

    def rendered(self, output, errors, exit_code):
        """The text of this case with other expectations."""
        parts = list(self.prose)
        if parts:
            parts.append("")
        for name, is_escaped, lines in self.files:
            parts += [f"--- file {name}{' escaped' if is_escaped else ''}", *section(lines)]
        parts += ["--- command", *section(self.command)]
        for heading, lines in (("output", output), ("errors", errors)):
            if lines:
                parts += [f"--- {heading}", *section(lines)]
        parts.append(f"--- exit {exit_code}")
        return "\n".join(parts) + "\n"


def section(lines):
    """A text that ends in an empty line needs one more before the next heading, which takes one away."""
    return [*lines, ""] if lines and lines[-1] == "" else lines


def unescape(text):
    table = {"n": b"\n", "r": b"\r", "t": b"\t", "\\": b"\\"}

    def byte(match):
        escape = match.group(1)
        return bytes([int(escape[1:], 16)]) if escape[:1] == b"x" else table[escape.decode()]

    return re.sub(rb"\\(x[0-9A-Fa-f]{2}|[nrt\\])", byte, text.encode("utf-8"))


def environment(scratch, gamut):
    kept = {name: os.environ[name] for name in PASSED_ON if name in os.environ}
    kept.update(PATH=f"{gamut.parent}:/usr/local/bin:/usr/bin:/bin", HOME=str(scratch), SAMPLE=str(SAMPLE),
                GAMUT_LIBRARY=str(scratch / "library.db"), COLUMNS="80", NO_COLOR="1", TZ="UTC", LC_ALL="C.UTF-8",
                GAMUT_TODAY=TODAY)
    return kept


def run(case, gamut):
    """(output lines, error lines, exit code) of the case's commands."""
    with tempfile.TemporaryDirectory() as folder:
        scratch = pathlib.Path(folder).resolve()
        for name, is_escaped, lines in case.files:
            path = scratch / name
            path.parent.mkdir(parents=True, exist_ok=True)
            if is_escaped:
                path.write_bytes(unescape("".join(lines)))
            else:
                path.write_text("".join(line + "\n" for line in lines), encoding="utf-8")
        done = subprocess.run(["bash", "-c", "\n".join(case.command)], cwd=scratch, env=environment(scratch, gamut),
                              stdin=subprocess.DEVNULL, capture_output=True, timeout=SECONDS_ALLOWED, check=False)

        def lines_of(stream):
            text = stream.decode("utf-8", "backslashreplace")
            text = text.replace("\r", "<CR>").replace(str(scratch), "$SCRATCH").replace(str(SAMPLE), "$SAMPLE")
            lines = text.split("\n")
            if lines[-1] == "":
                lines.pop()
            elif lines:
                lines[-1] += "(no newline at the end)"
            return lines

        return lines_of(done.stdout), lines_of(done.stderr), done.returncode


def cases(words):
    """The cases named, else all, in order of their paths."""
    paths = [pathlib.Path(word).resolve() for word in words] or [HERE]
    found = [file for path in paths for file in (sorted(path.rglob("*.test")) if path.is_dir() else [path])]
    return [Case(path) for path in found]


def show(heading, lines):
    print(f"  {heading}:")
    for line in lines:
        print(f"    |{line}")


def holds(case, output, errors, exit_code):
    """Whether that is what the case expects; tells what is not."""
    if (output, errors, exit_code) == (case.output, case.errors, case.exit):
        return True
    print(f"FAILED {case.name()}")
    for heading, found, expected in (("output", output, case.output), ("errors", errors, case.errors)):
        if found != expected:
            show(f"{heading} expected", expected)
            show(f"{heading} found", found)
    if exit_code != case.exit:
        print(f"  exit code expected {case.exit}, found {exit_code}")
    return False


def main():
    parser = argparse.ArgumentParser(description="Runs whole-program cases.")
    parser.add_argument("--gamut", default=os.environ.get("GAMUT", REPOSITORY / "build" / "gamut"), type=pathlib.Path)
    parser.add_argument("case", nargs="*")
    options = parser.parse_args()
    gamut = options.gamut.resolve()
    chosen = cases(options.case)
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as several:
        answers = several.map(lambda case: run(case, gamut), chosen)
        failed = sum(1 for case, answer in zip(chosen, answers) if not holds(case, *answer))
    print(f"{len(chosen) - failed} of {len(chosen)} cases hold")
    return 1 if failed or not chosen else 0


if __name__ == "__main__":
    sys.exit(main())
