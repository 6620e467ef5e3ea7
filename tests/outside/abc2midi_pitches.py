#!/usr/bin/env python3
"""The notes of every tune in the sample library, against those abc2midi (Debian package abcmidi) makes MIDI of.

The converter plays grace notes too, so they count here. Its accompaniment from chord symbols is switched off.
"""
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

import midi_file
import program


def without_accompaniment(text):
    """After each K: line a word to the converter: do not play chord symbols."""
    return re.sub(r"(?m)^(K:.*)$", r"\1\n%%MIDI gchordoff", text)


def converted(path, scratch):
    """X: number -> MIDI note numbers. The converter drops its files into the folder it runs in."""
    copy = scratch / "book.abc"
    copy.write_text(without_accompaniment(path.read_text(encoding="utf-8")), encoding="utf-8")
    subprocess.run(["abc2midi", copy.name], cwd=scratch, capture_output=True, check=True)
    return {made.stem.removeprefix("book"): midi_file.struck_keys(made.read_bytes())
            for made in scratch.glob("book*.mid")}


def main():
    if shutil.which("abc2midi") is None:
        print("skipped: abc2midi is not installed (scripts/setup does)")
        return program.SKIPPED
    checks = program.Checks()
    for path in sorted(program.SAMPLE.rglob("*.abc")):
        label = path.relative_to(program.SAMPLE)
        with tempfile.TemporaryDirectory() as scratch:
            sounding = converted(path, pathlib.Path(scratch))
        tunes = program.melodies(path)
        checks.equal(f"{label}: tunes", sorted(tune["number"] for tune in tunes), sorted(sounding))
        for tune in tunes:
            found = sorted(program.midi_numbers(tune["pitches"], graces=True))
            checks.equal(f"{label} X:{tune['number']} {tune['title']}: notes", found,
                         sorted(sounding.get(tune["number"], ())))
    return checks.exit_code()


if __name__ == "__main__":
    sys.exit(main())
