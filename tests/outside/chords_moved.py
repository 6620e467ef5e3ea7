#!/usr/bin/env python3
"""Chord symbols of moved tunes, as abc2midi (Debian package abcmidi) plays them.

    chords_moved.py [--tunes N]       200 where not said

The tunes are composed here: slash basses in both cases with every sign, diminished and augmented chords in full and in
short, and now and then a text that means a chord nobody understands. Before and after a move the converter strikes its
accompaniment at the same times, every strike of the pitch class moved; what is not understood is gone and told. What the
converter does not know is written for it as it does (`Gd`, `G°` as `Gdim`, `f+` as `f#`, a bass of C flat, below the octave it
looks in, as B and B sharp as C), before and after alike. MOVED
names the program that moves; default: build/moved.
"""
import os
import pathlib
import random
import re
import shutil
import subprocess
import sys
import tempfile

import midi_file
import program

MOVED = os.environ.get("MOVED", str(program.REPOSITORY / "build" / "moved"))
OCTAVE = 12
KEYS = ["C", "G", "D", "A", "E", "F", "Bb", "Eb", "Am", "Em", "Bm", "Dm", "Gm", "Ador", "Dmix", "Gmix"]
ROOTS = ["C", "D", "E", "F", "G", "A", "B", "F#", "C#", "G#", "Bb", "Eb", "Ab"]
QUALITIES = ["", "m", "7", "m7", "maj7", "dim", "dim7", "aug", "+", "sus4", "6", "d", "°"]
BASSES = ["", "", "/{b}", "/{b}", "/{l}", "/{l}", "/{b}#", "/{l}#", "/{b}b", "/{l}b", "/{l}+", "/{b}+"]
NO_CHORDS = ["Hm", "Em?", "D/F#7", "Gfoo7", "G/", "Sol7", "Fism", "A or Em"]
LETTERS = "CDEFGAB"
BARS = 8


def chord(choose):
    letter = choose.choice(LETTERS)
    bass = choose.choice(BASSES).format(b=letter, l=letter.lower())
    return choose.choice(ROOTS) + choose.choice(QUALITIES) + bass


def tune(number, choose):
    """The text of a tune, and the texts in it that are no chord."""
    lost = []
    bars = []
    for _ in range(BARS):
        bar = ""
        for _ in range(2):
            bar += f'"{chord(choose)}"' + "".join(choose.choice("DEFGABcdef") for _ in range(2)) + " "
            if choose.random() < 0.03:
                lost.append(choose.choice(NO_CHORDS))
                bar += f'"{lost[-1]}"'
        bars.append(bar + choose.choice("GABcd") + "4")
    music = "|".join(bars) + "|]"
    return f"X:{number}\nT:Composed {number}\nM:4/4\nL:1/8\nK:{choose.choice(KEYS)}\n{music}\n", lost


def as_the_converter_writes(text, lost=()):
    for word in set(lost):
        text = text.replace(f'"{word}"', "")
    text = re.sub(r'"([A-G][#b]?)(?:d|°)(?=[/"])', r'"\1dim', text)
    text = re.sub(r'/B#"', r'/C"', re.sub(r'/Cb"', r'/B"', text))
    text = re.sub(r'/b#"', r'/c"', re.sub(r'/cb"', r'/b"', text))
    return re.sub(r'("[^"]*/[A-Ga-g])\+"', r'\1#"', text)


def accompaniment(text, scratch):
    for old in scratch.glob("book*.mid"):
        old.unlink()
    (scratch / "book.abc").write_text(text, encoding="utf-8")
    done = subprocess.run(["abc2midi", "book.abc"], cwd=scratch, capture_output=True, check=True)
    unknown = re.findall(r"Unrecognized chord name .*", done.stdout.decode("utf-8", "replace"))
    made = next(iter(scratch.glob("book*.mid")), None)
    return (midi_file.strikes(made.read_bytes()) if made else []), unknown


def classes(tracks, semitones=0):
    return [sorted((ticks, (key + semitones) % OCTAVE) for ticks, key in track) for track in tracks]


def moved(text, semitones, scratch):
    path = scratch / "tune.abc"
    path.write_text(text, encoding="utf-8")
    done = subprocess.run([MOVED, "--print", str(semitones), str(path)], capture_output=True, check=False)
    return done.stdout.decode("utf-8"), done.stderr.decode("utf-8", "replace"), done.returncode


def main():
    if shutil.which("abc2midi") is None:
        print("skipped: abc2midi is not installed (scripts/setup does)")
        return program.SKIPPED
    tunes = int(sys.argv[2]) if sys.argv[1:2] == ["--tunes"] else 200
    checks = program.Checks()
    choose = random.Random(15)
    right = moves = chords = strikes = not_chords = 0
    with tempfile.TemporaryDirectory() as folder:
        scratch = pathlib.Path(folder)
        for number in range(1, tunes + 1):
            text, lost = tune(number, choose)
            before, unknown = accompaniment(as_the_converter_writes(text, lost), scratch)
            checks.equal(f"X:{number}: chords the converter does not know", unknown, [])
            strikes += sum(len(track) for track in before[1:])
            chords += text.count('"') // 2 - len(lost)
            not_chords += len(lost)
            for semitones in choose.sample([shift for shift in range(-11, 12) if shift], 3):
                there, told, code = moved(text, semitones, scratch)
                name = f"X:{number} by {semitones:+d}"
                checks.equal(f"{name}: exit code", code, 0)
                for word in set(lost):
                    checks.that(f"{name}: {word} is gone", f'"{word}"' not in there)
                    checks.that(f"{name}: {word} is told", f'"{word}" is no chord' in told, told)
                after, unknown = accompaniment(as_the_converter_writes(there), scratch)
                checks.equal(f"{name}: chords the converter does not know", unknown, [])
                moves += 1
                right += checks.that(name, len(before) > 2 and before[-1] and
                                     classes(after) == classes(before, semitones), there)
    print(f"{tunes} tunes with {chords} chords ({strikes} strikes) and {not_chords} texts that are none: "
          f"{right} of {moves} moves sound exactly moved")
    return checks.exit_code()


if __name__ == "__main__":
    sys.exit(main())
