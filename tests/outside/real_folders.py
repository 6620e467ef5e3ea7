#!/usr/bin/env python3
"""The tunes of tests/rules/real-folders.md whose fields, keys and bar signs are odd: the notes gamut reads, against those
abc2midi (Debian package abcmidi) makes MIDI of.
"""
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

import midi_file
import program

BOOK = program.REPOSITORY / "tests" / "rules" / "real-folders.md"
KINDS = ("1.", "2.", "3.")

# Title -> why the converter is not followed.
READ_DIFFERENTLY = {
    "Across the River": "the converter reads no German key, and no tune under one",
    "Harbour Lamp": "the same: it takes Es for E",
    "Linden Walk": "the same: it takes Fis for F",
    "Grey Goose": "the same",
    "Small Hours": "it reads no tune under a small tonic",
}


def examples():
    """(title, text) of the kinds above."""
    for section in BOOK.read_text(encoding="utf-8").split("\n## ")[1:]:
        if section.startswith(KINDS):
            for text in re.findall(r"```abc\n(.*?)```", section, re.DOTALL):
                yield re.search(r"(?m)^T:(.*)$", text).group(1), text


def heard(text, scratch):
    """The keys struck, or nothing where the converter made no file."""
    (scratch / "book.abc").write_text(text, encoding="utf-8")
    made = scratch / "book1.mid"
    made.unlink(missing_ok=True)
    subprocess.run(["abc2midi", "book.abc"], cwd=scratch, capture_output=True, check=False)
    return sorted(midi_file.struck_keys(made.read_bytes())) if made.exists() else []


def main():
    if shutil.which("abc2midi") is None:
        print("skipped: abc2midi is not installed (scripts/setup does)")
        return program.SKIPPED
    checks = program.Checks()
    differing = set()
    with tempfile.TemporaryDirectory() as folder:
        scratch = pathlib.Path(folder)
        for title, text in examples():
            keys = heard(text, scratch)
            (tune,) = program.melodies(scratch / "book.abc")
            found = sorted(program.midi_numbers(tune["pitches"], graces=True))
            if title not in READ_DIFFERENTLY:
                checks.equal(title, found, keys)
            elif found != keys:
                differing.add(title)
    checks.equal("tunes read differently", sorted(differing), sorted(READ_DIFFERENTLY))
    return checks.exit_code()


if __name__ == "__main__":
    sys.exit(main())
