#!/usr/bin/env python3
"""What each note is worth and which few notes give most, recounted in plain Python from the pitches of every tune.

Sources: O'Neill's Music of Ireland (1903) in the ABC encoding of the corpus that comes with the Python package music21. The
six names that the scales of G and D share (A B D E F# G) make the best first six: common practice, no source. The counts of
tunes below were made by trying every set of so many names on an independent reading of the notes (see corpus_oracle.py).
"""
import collections
import itertools
import pathlib
import sys
import tempfile

import program
from path_values import FOURTEEN_NAMES

NAMES = "C C# D Eb E F F# G G# A Bb B".split()
SHARED_BY_G_AND_D = {"D", "E", "F#", "G", "A", "B"}


def full_name(pitch):
    return NAMES[pitch % 12] + str(pitch // 12 - 1)


def name_of(pitch, by):
    return NAMES[pitch % 12] if by == "name" else full_name(pitch)


def note_sets(library, by):
    """What each tune with notes needs, as a set of names."""
    tunes = program.answer("tunes", "--settings", library=library)["tunes"]
    return [frozenset(name_of(pitch, by) for pitch in tune["pitches"]) for tune in tunes if tune["pitches"]]


def opened(needs, notes):
    return sum(need <= notes for need in needs)


def every_set(needs, count):
    """(tunes opened, set) of every `count` of the names that tunes need, most tunes first."""
    counted = collections.Counter(needs)
    names = sorted(set().union(*needs))
    found = [(sum(times for need, times in counted.items() if need <= chosen), chosen)
             for chosen in map(frozenset, itertools.combinations(names, count))]
    return sorted(found, key=lambda pair: -pair[0])


def asked(library, *words):
    return program.answer("notes", "--settings", *words, library=library, exits=(0,))


def check_table(checks, library, by):
    needs = note_sets(library, by)
    have = frozenset(FOURTEEN_NAMES if by == "pitch" else SHARED_BY_G_AND_D)
    in_every_octave = [full_name(pitch) for pitch in range(12, 128) if name_of(pitch, by) in have]
    page = asked(library, "--have", " ".join(in_every_octave), "--by", by)
    checks.equal(f"by {by}: tunes", page["tunes"], len(needs))
    checks.equal(f"by {by}: open now", page["open_now"], opened(needs, have))
    rows = {row["note"]: row for row in page["notes"]}
    checks.equal(f"by {by}: a row for every note that is had or needed", set(rows), have.union(*needs))
    for note, row in rows.items():
        expected = (sum(note in need for need in needs), opened(needs, have) - opened(needs, have - {note}),
                    opened(needs, have | {note}) - opened(needs, have), note in have)
        found = (row["uses"], row["lost"], row["opens"], row["have"])
        checks.equal(f"by {by}: {note} is used, lost, opens, had", found, expected)
    uses = [row["uses"] for row in page["notes"]]
    checks.equal(f"by {by}: most used first", uses, sorted(uses, reverse=True))


def check_smallest(checks, library, by):
    needs = note_sets(library, by)
    most = {}  # tunes, by the number of names
    if by == "name":
        most = {count: every_set(needs, count)[0][0] for count in range(1, len(set().union(*needs)) + 1)}
    found = asked(library, "--by", by)["smallest"]
    checks.equal(f"by {by}: percentages", [smallest["percent"] for smallest in found], [50, 80, 90, 95])
    for smallest in found:
        claim = f"by {by}: the smallest set for {smallest['percent']} %"
        checks.equal(f"{claim} opens what it says", opened(needs, frozenset(smallest["notes"])), smallest["opens"])
        checks.that(f"{claim} is enough", smallest["opens"] * 100 >= smallest["percent"] * len(needs))
        checks.equal(f"{claim} has so many", len(set(smallest["notes"])), smallest["count"])
        checks.equal(f"{claim} is proven", (smallest["fewest"], smallest["proof"]), (smallest["count"], "optimal"))
        if by == "name":
            fewest = min(count for count, tunes in most.items() if tunes * 100 >= smallest["percent"] * len(needs))
            checks.equal(f"{claim} is smallest of all", smallest["count"], fewest)
            checks.equal(f"{claim} is best of its size", smallest["opens"], most[fewest])
        else:
            spared = [opened(needs, frozenset(smallest["notes"]) - {note}) for note in smallest["notes"]]
            checks.that(f"{claim} can spare no note", max(spared) * 100 < smallest["percent"] * len(needs))


def check_best_start(checks, library):
    needs = note_sets(library, "name")
    for count in range(1, len(set().union(*needs))):
        best = asked(library, "--by", "name", "--best-start", count)["best_start"]
        trial = every_set(needs, count)
        checks.equal(f"best {count} names: opened, next best", (best["opens"], best["next"]["opens"]), (trial[0][0], trial[1][0]))
        checks.equal(f"best {count} names: it opens so many", opened(needs, frozenset(best["notes"])), best["opens"])
        checks.equal(f"best {count} names: so does the next", opened(needs, frozenset(best["next"]["notes"])),
                     best["next"]["opens"])
        checks.that(f"best {count} names: two different sets", set(best["notes"]) != set(best["next"]["notes"]))
        checks.equal(f"best {count} names: proof", (best["upper_bound"], best["proof"], best["next"]["proof"]),
                     (best["opens"], "optimal", "optimal"))


def check_published(checks, library):
    six = asked(library, "--by", "name", "--best-start", 6)["best_start"]
    checks.equal("O'Neill's: the best six names", set(six["notes"]), SHARED_BY_G_AND_D)
    checks.equal("O'Neill's: they open, the next best six open", (six["opens"], six["next"]["opens"]), (69, 30))
    seven = asked(library, "--by", "name", "--best-start", 7)["best_start"]
    checks.equal("O'Neill's: the best seven names", set(seven["notes"]), SHARED_BY_G_AND_D | {"C"})
    checks.equal("O'Neill's: they open", seven["opens"], 630)
    checks.equal("O'Neill's: with C sharp for the seventh", opened(note_sets(library, "name"), SHARED_BY_G_AND_D | {"C#"}), 524)
    checks.equal("O'Neill's: the next best seven", (set(seven["next"]["notes"]), seven["next"]["opens"]),
                 (SHARED_BY_G_AND_D | {"C#"}, 524))
    eight = asked(library, "--by", "name", "--best-start", 8)["best_start"]
    checks.equal("O'Neill's: the best eight names", set(eight["notes"]), SHARED_BY_G_AND_D | {"C", "C#"})
    checks.equal("O'Neill's: they open all that", eight["opens"], 1191)


def main():
    collection = program.shared("corpus", "oneills")
    checks = program.Checks()
    with tempfile.TemporaryDirectory() as scratch:
        for files, exits in ((collection, (0, 1)), (program.SAMPLE, (0,))):
            library = pathlib.Path(scratch) / f"{files.name}.db"
            program.run("import", files, library=library, exits=exits)
            for by in ("pitch", "name"):
                check_table(checks, library, by)
                check_smallest(checks, library, by)
            check_best_start(checks, library)
            if files == collection:
                check_published(checks, library)
    return checks.exit_code()


if __name__ == "__main__":
    sys.exit(main())
