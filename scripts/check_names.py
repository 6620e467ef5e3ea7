#!/usr/bin/env python3
"""Nothing a user can type or be told goes without a test.

    scripts/check_names.py [--gamut PROGRAM]

Fails when a command or an option, as the program's own --help lists them, is used by no test; when a diagnostic code of
src/abc/codes.h is named by no test or not explained in schema/diagnostics.md; when that page explains a code there is not; or when
a file of src says that it is tested by a file or folder that is not there.
An option counts as tested where one file below tests/ names it together with its command.
"""
import argparse
import os
import pathlib
import re
import subprocess
import sys

REPOSITORY = pathlib.Path(__file__).resolve().parents[1]

# Exempt from having a test, with the reason.
EXEMPT = {
    "--help": "every command's help is read by this very check",
    "--output": "the program's own, given to every command in one place: tests/golden/program/output.test",
    "--quiet": "the program's own, given to every command in one place: tests/golden/program/quiet.test",
}

SECTION = re.compile(r"^(\S.*):\s*$")
COMMAND_LINE = re.compile(r"^ {2}([a-z][a-z-]*)(\s|$)")
OPTION_LINE = re.compile(r"^ {2}(-[^\s].*?)(\s{2,}|\s[A-Z\[]|$)")
OPTION = re.compile(r"--[a-z][a-z0-9-]*")
CODE = re.compile(r'"(abc-[a-z0-9-]+)"')
TESTED_BY = re.compile(r"Tested by\b((?:[^.\n]|\.(?=\w)|\n//)*)")  # a sentence of a comment
TEST_FILE = re.compile(r"[\w/]+_test\.cc|tests/[\w/.-]*\w")
MENTIONED_CODE = re.compile(r"\babc-[a-z0-9-]+")


def help_of(gamut, words):
    return subprocess.run([gamut, *words, "--help"], capture_output=True, text=True, check=True,
                          env={"PATH": os.environ["PATH"], "COLUMNS": "80", "NO_COLOR": "1", "HOME": "/nonexistent"}).stdout


def listed(text):
    """(commands, options) of one --help."""
    commands, options, section = [], set(), ""
    for line in text.split("\n"):
        heading = SECTION.match(line)
        if heading:
            section = heading.group(1).lower()
        elif "command" in section and (match := COMMAND_LINE.match(line)):
            commands.append(match.group(1))
        elif match := OPTION_LINE.match(line):
            options.update(OPTION.findall(match.group(1)))
    return commands, options


def every_command(gamut, words=()):
    """(words, options) of the program itself and of every command below it."""
    commands, options = listed(help_of(gamut, words))
    yield words, options
    for command in commands:
        yield from every_command(gamut, (*words, command))


def names_command(text, words):
    """Whether a test's text runs this command: `gamut player add`, or the words as strings of a list."""
    if not words:
        return True
    spoken = r"\bgamut\b[^\n|;&]*\s" + r"\s(?:[^\n|;&]*\s)?".join(map(re.escape, words)) + r"\b"
    quoted = r"""[\s\S]{0,12}?""".join(rf'"{re.escape(word)}"' for word in words)
    return re.search(spoken, text) is not None or re.search(quoted, text) is not None


def untested_words(tests):
    """A sentence for each test that src names and nobody wrote. A bare name stands for the test of that room."""
    for source in sorted((REPOSITORY / "src").rglob("*")):
        if source.suffix not in (".cc", ".h"):
            continue
        for said in TESTED_BY.findall(source.read_text(encoding="utf-8")):
            for name in TEST_FILE.findall(said):
                there = (REPOSITORY / name).exists() if name.startswith("tests/") else any(
                    path.name == name and path.parent.name == source.parent.name for path in tests)
                if not there:
                    yield f"{source.relative_to(REPOSITORY)}: says \"Tested by {name}\", and there is no such file"


def main():
    parser = argparse.ArgumentParser(description="Nothing a user can type or be told goes without a test.")
    parser.add_argument("--gamut", default=os.environ.get("GAMUT", REPOSITORY / "build" / "gamut"))
    gamut = str(pathlib.Path(parser.parse_args().gamut).resolve())

    tests = {path: path.read_text(encoding="utf-8", errors="replace")
             for path in sorted((REPOSITORY / "tests").rglob("*")) if path.suffix in (".test", ".py", ".cc", ".md")}
    wrong, used_exemptions, counts = [], set(), [0, 0, 0]

    def missing(name, sentence):
        if name in EXEMPT:
            used_exemptions.add(name)
        else:
            wrong.append(sentence)

    for words, options in every_command(gamut):
        command = " ".join(["gamut", *words])
        counts[0] += 1
        files = [text for text in tests.values() if names_command(text, words)]
        if not files:
            missing(command, f"{command}: no test runs this command")
            continue
        for option in sorted(options):
            counts[1] += 1
            pattern = re.compile(re.escape(option) + r"(?![a-z0-9-])")
            if option in EXEMPT or not any(pattern.search(text) for text in files):
                missing(option if option in EXEMPT else f"{command} {option}", f"{command} {option}: no test uses this option")

    codes_file = REPOSITORY / "src" / "abc" / "codes.h"
    page = REPOSITORY / "schema" / "diagnostics.md"
    codes = set(CODE.findall(codes_file.read_text(encoding="utf-8")))
    explained = set(MENTIONED_CODE.findall(page.read_text(encoding="utf-8"))) if page.exists() else set()
    counts[2] = len(codes)
    if not counts[1] or not codes:
        wrong.append("no option or no code was found: the way --help or src/abc/codes.h is read has come apart")
    for code in sorted(codes):
        pattern = re.compile(re.escape(code) + r"(?![a-z0-9-])")
        if not any(pattern.search(text) for text in tests.values()):
            missing(code, f"{code}: no test names this code")
        if code not in explained:
            wrong.append(f"{code}: not explained in schema/diagnostics.md")
    for code in sorted(explained - codes - {"abc-charset", "abc-version", "abc-include", "abc-creator"}):
        wrong.append(f"{code}: explained in schema/diagnostics.md, but src/abc/codes.h does not have it")
    wrong.extend(untested_words(tests))
    for name in sorted(set(EXEMPT) - used_exemptions):
        wrong.append(f"{name}: exempt in scripts/check_names.py, but needs no exemption")

    for line in wrong:
        print(line)
    print(f"{counts[0]} commands, {counts[1]} options, {counts[2]} codes; {len(wrong)} without a test or an explanation")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
