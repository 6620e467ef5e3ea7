#!/usr/bin/env python3
"""The help of every command fits the page, and says the same on every one.

    tests/golden/help_widths.py [--gamut PROGRAM]
"""
import argparse
import os
import pathlib
import re
import subprocess
import sys

REPOSITORY = pathlib.Path(__file__).resolve().parents[2]
COMMAND = re.compile(r"^ {2}([a-z][a-z-]*)(?:\s|$)")
QUOTED = re.compile(r'"[^"]*"')
COLUMNS = (50, 80, 100)


def help_of(gamut, words, columns):
    return subprocess.run([gamut, *words, "--help"], capture_output=True, text=True, check=True,
                          env={"PATH": os.environ["PATH"], "COLUMNS": str(columns), "LC_ALL": "C.UTF-8"}).stdout


def commands_in(text):
    """The commands a help lists."""
    section = ""
    for line in text.split("\n"):
        if line and line[0] != " ":
            section = line
        elif section.startswith("Subcommands") and (match := COMMAND.match(line)):
            yield match.group(1)


def is_one_word(line):
    """Nothing can be broken in it: a narrow page may be too narrow for a word, or for what stands in quotation marks."""
    return len(QUOTED.sub("word", line).split()) == 1


def words_of(text):
    """What is said, however it is broken into lines."""
    return [word for word in text.split() if word != "\\"]


def every_help(gamut, words=()):
    texts = {columns: help_of(gamut, words, columns) for columns in COLUMNS}
    yield words, texts
    for command in commands_in(texts[80]):
        yield from every_help(gamut, (*words, command))


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--gamut", default=os.environ.get("GAMUT", str(REPOSITORY / "build" / "gamut")))
    gamut = parser.parse_args().gamut
    faults, helps = [], 0
    for words, texts in every_help(gamut):
        helps += 1
        name = " ".join(("gamut", *words))
        for columns, text in texts.items():
            faults += [f"{name} --help at {columns}: {len(line)} columns: {line}" for line in text.split("\n")
                       if len(line) > columns and (columns >= 80 or not is_one_word(line))]
            if words_of(text) != words_of(texts[80]):
                faults.append(f"{name} --help at {columns} does not say what it says at 80")
    print("\n".join([*faults, f"{helps} helps at {', '.join(map(str, COLUMNS))} columns: {len(faults)} faults"]))
    return 1 if faults or helps < 20 else 0


if __name__ == "__main__":
    sys.exit(main())
