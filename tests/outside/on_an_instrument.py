#!/usr/bin/env python3
"""Tunes on instruments: what fits, what nearly fits, how few times the air must turn, and what a moved tunebook sounds like.

The tables of trade/instruments.tsv stand apart from the program's own; from them and from the pitches alone this test works out
anew, by ways of its own, which tunes fit which instrument and the fewest changes of direction. What is stated of acceptance.abc
below are facts of the trade (common practice, no source), worked out by hand. MIDI numbers and frequencies: the MIDI tuning
convention and ISO 16:1975 (A4 = 440 Hz), from memory.
"""
import csv
import pathlib
import sys
import tempfile

import program

ONE_ROW = [1, 2, 3, 5, 10, 11, 12, 13, 18, 21]
HIGHLAND_PIPES = [3, 10, 11, 21]
FEWEST_OF_X3 = {"bc21": 6, "bc23": 6, "csd21": 18, "onerow-d": 20}


def tables():
    """Instrument -> written MIDI number -> directions of its ways, `` where there is none."""
    found = {}
    with open(program.shared("trade", "instruments.tsv"), encoding="utf-8", newline="") as stream:
        for row in csv.DictReader(stream, delimiter="\t", quoting=csv.QUOTE_NONE):
            ways = found.setdefault(row["instrument"], {})
            ways.setdefault(int(row["written_midi"]), []).append(row["direction"])
    return found


def fewest_changes(notes, ways):
    """Of direction: after each note, the fewest with which it can be reached in each of its directions. Notes the instrument has
    not begin the count anew, as they do for a player who leaves them out."""
    total, reached = 0, {}
    for note in notes:
        directions = set(ways.get(note, []))
        if not directions:
            total += min(reached.values(), default=0)
            reached = {}
        elif not reached:
            reached = dict.fromkeys(directions, 0)
        else:
            reached = {to: min(count + (to != before) for before, count in reached.items()) for to in directions}
    return total + min(reached.values(), default=0)


def struck_top_notes(entries):
    """Of a `pitches` list: the top note of each sound that is struck, grace notes left out."""
    notes = []
    for entry in entries:
        heads = [head for head in entry.split("+") if not head.startswith(("g", "("))]
        if heads:
            notes.append(max(int(head) for head in heads))
    return notes


def check_fits(checks, library, known, what):
    rows = program.answer("tunes", "--settings", library=library)["tunes"]
    for instrument, ways in known.items():
        expected = sorted(row["id"] for row in rows if set(row["pitches"]) <= set(ways))
        found = program.answer("tunes", "--settings", "--instrument", instrument, library=library)["tunes"]
        named = program.answer("tunes", "--settings", "--fits", f"@{instrument}", library=library)["tunes"]
        checks.equal(f"{what}: fits {instrument}", sorted(row["id"] for row in found), expected)
        checks.equal(f"{what}: fits @{instrument}", sorted(row["id"] for row in named), expected)
        fit = program.answer("instrument", "fit", "--settings", "--instrument", instrument, library=library)
        moved = sum(any({pitch + by for pitch in row["pitches"]} <= set(ways) for by in range(-12, 13)) for row in rows)
        checks.equal(f"{what}: {instrument} now and moved",
                     (fit["instruments"][0]["fit"], fit["instruments"][0]["moved"]), (len(expected), moved))


def check_acceptance(checks, library, known):
    path = program.shared("trade", "acceptance.abc")
    program.run("import", path, library=library)
    check_fits(checks, library, known, "acceptance")

    def fitting(instrument):
        rows = program.answer("tunes", "--settings", "--instrument", instrument, library=library)["tunes"]
        return sorted(int(row["number"]) for row in rows)

    checks.equal("one-row D", fitting("onerow-d"), ONE_ROW)
    checks.equal("Highland pipes", fitting("highland-pipes"), HIGHLAND_PIPES)

    by_number = {row["number"]: row for row in program.answer("tunes", "--settings", library=library)["tunes"]}
    melodies = {tune["number"]: tune for tune in program.melodies(path)}
    both_ways = [name for name, ways in known.items() if any(way for note in ways.values() for way in note)]
    for number in ("1", "2", "3", "4", "7"):
        notes = struck_top_notes(melodies[number]["pitches"])
        for instrument in both_ways:
            on = program.answer("tune", by_number[number]["own_id"], "--on", instrument, library=library)["tune"]["on"]
            fewest = {motion["motion"]: motion["fewest"] for motion in on["motions"]}["direction"]
            checks.equal(f"X:{number} on {instrument}", fewest, fewest_changes(notes, known[instrument]))
            if number == "3" and instrument in FEWEST_OF_X3:
                checks.equal(f"X:3 on {instrument}", fewest, FEWEST_OF_X3[instrument])

    on = program.answer("tune", by_number["4"]["own_id"], "--on", "whistle-d", library=library)["tune"]["on"]
    checks.equal("X:4 on the D whistle", (on["missing"], on["notes"]), (5, 100))
    checks.equal("X:4 lacks", [(lack["note"], lack["count"]) for lack in on["lacks"]], [("A3", 2), ("B3", 3)])
    checks.equal("X:4 folded up", (on["fold"]["up"], on["fold"]["down"], on["fold"]["notes"]), (True, False, 5))


def check_moved_books(checks, library, scratch):
    plain = scratch / "plain.abc"
    plain.write_bytes(program.run("tunebook", "--settings", "--sort", "file", library=library).stdout)
    before = program.melodies(plain)
    for by in (-12, -5, 1, 2, 7):
        moved = scratch / "moved.abc"
        moved.write_bytes(program.run("tunebook", "--settings", "--sort", "file", f"--move={by}", library=library).stdout)
        after = program.melodies(moved)
        checks.equal(f"moved by {by}: tunes", len(after), len(before))
        for old, new in zip(before, after):
            checks.equal(f"moved by {by}: {old['title']}", struck_top_notes(new["pitches"]),
                         [note + by for note in struck_top_notes(old["pitches"])])
            checks.equal(f"moved by {by}: lengths of {old['title']}", new["durations"], old["durations"])


def check_frequencies(checks):
    for instrument, offset in (("flute-d", 0), ("whistle-d", 12), ("tenor-banjo-1", -12), ("highland-pipes", 1)):
        for note in program.answer("instrument", "show", instrument)["instruments"][0]["notes"]:
            checks.equal(f"{instrument} {note['note']}", (note["sounding_pitch"], note["hertz"]),
                         (note["pitch"] + offset, round(440 * 2 ** ((note["pitch"] + offset - 69) / 12), 2)))


def main():
    known = tables()
    checks = program.Checks()
    with tempfile.TemporaryDirectory() as folder:
        scratch = pathlib.Path(folder)
        check_acceptance(checks, scratch / "acceptance.db", known)
        check_moved_books(checks, scratch / "acceptance.db", scratch)
        check_frequencies(checks)
        program.run("import", program.shared("corpus"), library=scratch / "books.db", exits=(0, 1))
        check_fits(checks, scratch / "books.db", known, "books")
    return checks.exit_code()


if __name__ == "__main__":
    sys.exit(main())
