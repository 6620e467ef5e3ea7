#!/usr/bin/env python3
"""Writes a folder of invented ABC tunes, as large as wanted and always the same for the same numbers.

    scripts/make_collection.py FOLDER [--files 1000] [--tunes 100] [--seed 1]

Each tune is a random walk along a mode with a tonic as players of fiddle, whistle and pipes use them: mostly steps and
thirds, beginning near the tonic, ending on it, two parts of eight bars, some with gaps in the scale, grace notes, chord
symbols, an accidental or a pick-up. It is made to load a reader and a library as real tunes do, not to be played.
"""
import argparse
import pathlib
import random

# Mode token in K:, accidentals a tune in it may add, and how often it is drawn. House choice: roughly the mix of keys in
# dance-tune books.
KEYS = (("G", 26), ("D", 24), ("Ador", 10), ("Em", 8), ("A", 8), ("Edor", 6), ("Amix", 5), ("Dmix", 5), ("Bm", 4), ("Am", 2),
        ("C", 2))
RHYTHMS = (  # R:, M:, unit notes in a bar, how often
    ("reel", "C|", 8, 35), ("jig", "6/8", 6, 30), ("hornpipe", "4/4", 8, 8), ("polka", "2/4", 4, 10), ("slip jig", "9/8", 9, 6),
    ("waltz", "3/4", 6, 6), ("march", "4/4", 8, 5))
ADJECTIVES = ("Amber Brisk Copper Dusty Early Faded Gentle Hollow Idle Jolly Knotted Lonely Merry Narrow Old Patient Quiet "
              "Rusty Salty Tall Upper Velvet Windy Yellow").split()
NOUNS = ("Anchor Basket Candle Drawer Egg Fence Gate Hammer Inkwell Jar Kettle Ladder Mitten Needle Oar Pillow Quilt Rope "
         "Saddle Table Umbrella Valley Wagon Yard").split()
PLACES = ("Attic Bridge Cellar Dairy East Field Garden Hill Island Jetty Kitchen Loft Mill North Orchard Pier Quarry River "
          "Station Tower Uplands Village West Yard").split()

LETTERS = "CDEFGAB"
LOWEST, HIGHEST = -5, 16  # scale places counted from middle C: E below it would be -5, high E 16
BARS_IN_A_PART = 8


def chosen(rng, table):
    return rng.choices([row[:-1] for row in table], weights=[row[-1] for row in table])[0]


def letter_at(place):
    octave, index = divmod(place, 7)
    letter = LETTERS[index]
    if octave >= 1:
        return letter.lower() + "'" * (octave - 1)
    return letter + "," * -octave


class Manner:
    """What one tune keeps to: its scale places, and how often it strays from its key or takes a grace note."""

    def __init__(self, rng, home):
        self.home = home
        lowest = max(LOWEST, home - rng.choice((0, 1, 3, 3, 4)))
        highest = min(HIGHEST, home + rng.choice((5, 7, 7, 8, 9)))
        left_out = rng.choice(((), (), (), (3,), (6,), (3, 6)))  # degrees above the tonic; often there is a gap
        self.places = [place for place in range(lowest, highest + 1) if (place - home) % 7 not in left_out]
        self.accidental = 0.01 if rng.random() < 0.15 else 0
        self.grace = 0.03 if rng.random() < 0.2 else 0

    def nearest(self, place):
        return min(self.places, key=lambda other: abs(other - place))


def walk(rng, place, manner):
    """The next scale place: steps most, then thirds, sometimes back to the tonic."""
    if rng.random() < 0.04:
        return manner.home
    move = rng.choices((0, 1, -1, 2, -2, 3, -3, 4, -4), weights=(6, 24, 26, 12, 12, 6, 6, 2, 2))[0]
    index = manner.places.index(place) + move
    return manner.places[min(max(index, 0), len(manner.places) - 1)]


def bar(rng, place, manner, units, is_last):
    """(ABC of one bar, scale place it ends on)."""
    words, left = [], units
    while left > 0:
        length = 2 if left >= 2 and rng.random() < 0.2 else 1
        if is_last and left <= units // 2:
            length, place = left, manner.home
        else:
            place = walk(rng, place, manner)
        word = letter_at(place) + (str(length) if length > 1 else "")
        if rng.random() < manner.accidental:
            word = "^" + word
        if rng.random() < manner.grace:
            word = "{" + letter_at(manner.nearest(place + 1)) + "}" + word
        words.append(word)
        left -= length
        if left and (units - left) % max(units // 2, 3) == 0:
            words.append(" ")
    return "".join(words), place


def tune(rng, number):
    (key,) = chosen(rng, KEYS)
    rhythm, meter, units = chosen(rng, RHYTHMS)
    home = LETTERS.index(key[0]) + (7 if key[0] in "CDE" and rng.random() < 0.3 else 0)
    title = f"The {rng.choice(ADJECTIVES)} {rng.choice(NOUNS)} of {rng.choice(PLACES)} {rng.randrange(1, 100)}"
    lines = [f"X:{number}", f"T:{title}"]
    if rng.random() < 0.1:
        lines.append(f"T:{rng.choice(ADJECTIVES)} {rng.choice(NOUNS)}")
    if rng.random() < 0.9:
        lines.append(f"R:{rhythm}")
    lines += ["Z:made by a program", f"M:{meter}", "L:1/8", f"K:{key}"]
    has_chords = rng.random() < 0.15
    manner = Manner(rng, home)
    for part in range(2):
        place = manner.nearest(home + (4 if part else 0))
        bars = []
        for index in range(BARS_IN_A_PART):
            text, place = bar(rng, place, manner, units, is_last=index == BARS_IN_A_PART - 1)
            bars.append(f'"{key[0]}"' + text if has_chords else text)
        pick_up = letter_at(walk(rng, home, manner)) + "|" if rng.random() < 0.3 else ""
        half = BARS_IN_A_PART // 2
        lines.append("|:" + pick_up + "|".join(bars[:half]) + "|")
        lines.append("|".join(bars[half:]) + ":|")
    return "\n".join(lines) + "\n"


def file_text(seed, index, tunes):
    """One file's text: depends on nothing but these numbers."""
    rng = random.Random(f"{seed}/{index}/{tunes}")
    return "%abc-2.1\n\n" + "\n".join(tune(rng, number) for number in range(1, tunes + 1))


def write_collection(folder, files, tunes, seed=1):
    folder = pathlib.Path(folder)
    for index in range(files):
        path = folder / f"shelf_{index // 100:02}" / f"book_{index:04}.abc"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(file_text(seed, index, tunes), encoding="utf-8")


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("folder")
    parser.add_argument("--files", type=int, default=1000)
    parser.add_argument("--tunes", type=int, default=100, help="in each file")
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    write_collection(options.folder, options.files, options.tunes, options.seed)


if __name__ == "__main__":
    main()
