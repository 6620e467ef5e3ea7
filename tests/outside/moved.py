#!/usr/bin/env python3
"""Moved tunes sound moved to abc2midi too (Debian package abcmidi), which reads ABC by rules of its own.

    moved.py [--all]      every shift of an octave either way, instead of three a file

Every tune of the sample library, of moved.abc beside this file and, where they are there, of the published books: the
converter strikes the same keys at the same times, each exactly so much higher; and with its accompaniment from chord
symbols switched on, every strike is of the pitch class moved (tunes whose quoted texts are all chords). MOVED names the program that moves; default: build/moved.
"""
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

import abc2midi_pitches
import midi_file
import program

MOVED = os.environ.get("MOVED", str(program.REPOSITORY / "build" / "moved"))
OCTAVE = 12

def sounding(text, scratch):
    """X: number -> the strikes of its tracks, of every tune in a text. The converter drops its files where it runs."""
    for old in scratch.glob("book*.mid"):
        old.unlink()
    (scratch / "book.abc").write_text(text, encoding="utf-8")
    subprocess.run(["abc2midi", "book.abc"], cwd=scratch, capture_output=True, check=True)
    return {made.stem.removeprefix("book"): midi_file.strikes(made.read_bytes()) for made in scratch.glob("book*.mid")}


# The converter takes any text that begins like a chord for one ("A little faster"), so only tunes whose texts are all plain
# chords can be compared.
PLAIN_CHORD = re.compile(r"[A-G][#b]?(m|min|maj|dim|aug|sus)?[0-9]*(/[A-G][#b]?)?")


def only_chords(text):
    """The X: numbers of tunes that have chord symbols and no other quoted text but annotations."""
    found = set()
    for block in re.split(r"(?m)^(?=X:)", text)[1:]:
        music = "\n".join(line for line in block.split("\n") if not re.match(r"[A-Zh-w]:|%", line))
        quoted = [inside for inside in re.findall(r'"([^"\n]*)"', music) if inside[:1] not in "^_<>@"]
        if quoted and all(PLAIN_CHORD.fullmatch(inside) for inside in quoted):
            found.add(re.match(r"X:\s*0*(\d+)", block).group(1))
    return found


# O'Neill's 745 stands twice, both times under `K:Bn`: what is not understood is not moved.
STAY = {("0732-0758_bs.abc", 745), ("0732-0758_mh.abc", 745)}


def moved(path, semitones, checks):
    done = subprocess.run([MOVED, "--print", str(semitones), str(path)], capture_output=True, check=False)
    stays = any(name == path.name for name, _ in STAY)
    checks.that(f"{path.name} by {semitones:+d}: nothing else stays unmoved", done.returncode == (1 if stays else 0),
                done.stderr.decode("utf-8", "replace"))
    return done.stdout.decode("utf-8")


def by_time(tracks):
    return [sorted(track) for track in tracks]


def classes(tracks, semitones):
    return [sorted((ticks, (key + semitones) % OCTAVE) for ticks, key in track) for track in tracks]


class Book:
    """One file: how it sounds as it is, and the checks of a shift."""

    def __init__(self, path, checks, scratch):
        self.path, self.checks, self.scratch = path, checks, scratch
        self.text = path.read_text(encoding="utf-8")
        self.melodies = sounding(abc2midi_pitches.without_accompaniment(self.text), scratch)
        chords = only_chords(self.text)
        self.accompanied = {number: tracks for number, tracks in (sounding(self.text, scratch) if chords else {}).items()
                            if number in chords}
        self.right = self.right_accompanied = 0

    def check(self, semitones):
        text = moved(self.path, semitones, self.checks)
        after = sounding(abc2midi_pitches.without_accompaniment(text), self.scratch)
        self.checks.equal(f"{self.path.name} by {semitones:+d}: tunes", sorted(after), sorted(self.melodies))
        for number, tracks in self.melodies.items():
            shift = 0 if (self.path.name, int(number)) in STAY else semitones
            expected = [[(ticks, key + shift) for ticks, key in track] for track in tracks]
            self.right += self.checks.that(f"{self.path.name} X:{number} by {semitones:+d}: strikes",
                                           by_time(after.get(number, ())) == by_time(expected),
                                           difference(by_time(after.get(number, ())), by_time(expected)))
        if self.accompanied:
            after = sounding(text, self.scratch)
            for number, tracks in self.accompanied.items():
                self.right_accompanied += self.checks.that(
                    f"{self.path.name} X:{number} by {semitones:+d}: accompaniment",
                    classes(after.get(number, ()), 0) == classes(tracks, semitones))


def difference(found, expected):
    for track, (one, other) in enumerate(zip(found, expected)):
        for at, (strike, wanted) in enumerate(zip(one, other)):
            if strike != wanted:
                return f"track {track} strike {at}: (ticks, key) {strike}, expected {wanted}"
    return f"{[len(track) for track in found]} strikes in the tracks, expected {[len(track) for track in expected]}"


def books():
    yield pathlib.Path(__file__).with_name("moved.abc")
    yield from sorted(program.SAMPLE.rglob("*.abc"))
    top = pathlib.Path(os.environ.get("GAMUT_SHARED", program.REPOSITORY.parent / "shared")) / "corpus"
    # To abc2midi the residue of mail programs (`=3D`) is notes; what gamut makes of it is held by real_folders.py.
    yield from (path for path in sorted(top.rglob("*.abc")) if b"=3D" not in path.read_bytes())


def main():
    if shutil.which("abc2midi") is None:
        print("skipped: abc2midi is not installed (scripts/setup does)")
        return program.SKIPPED
    checks = program.Checks()
    tunes = right = moves = accompanied = right_accompanied = 0
    with tempfile.TemporaryDirectory() as folder:
        scratch = pathlib.Path(folder)
        for turn, path in enumerate(books()):
            book = Book(path, checks, scratch)
            step = turn % (OCTAVE - 1) + 1  # other shifts for each file
            shifts = range(-OCTAVE, OCTAVE + 1) if "--all" in sys.argv[1:] else (step, step - OCTAVE, OCTAVE)
            for semitones in shifts:
                book.check(semitones)
            tunes += len(book.melodies)
            right += book.right
            moves += len(book.melodies) * len(shifts)
            accompanied += len(book.accompanied) * len(shifts)
            right_accompanied += book.right_accompanied
    print(f"{tunes} tunes, {moves} moves, {right} of them sound exactly moved")
    print(f"with chord symbols played: {accompanied} moves, {right_accompanied} of them")
    return checks.exit_code()


if __name__ == "__main__":
    sys.exit(main())
