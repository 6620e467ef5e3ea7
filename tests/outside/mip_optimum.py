#!/usr/bin/env python3
"""A general mixed-integer solver finds the same least cost as `gamut path`, which proves its own.

Source: COIN-OR Branch and Cut, Debian's coinor-cbc, which solves the program of order_lp.py; it shares nothing with gamut's
planner. The random collections are invented, their notes drawn by numbers; what each tune needs is checked against what was
drawn.
"""
import pathlib
import random
import subprocess
import sys
import tempfile

import order_lp
import program

FOURTEEN = "G:major&D:major A3..B5"
FOURTEEN_NUMBERS = {57, 59, 62, 64, 66, 67, 69, 71, 74, 76, 78, 79, 81, 83}  # their MIDI numbers, by hand; 60 is middle C
POOL = range(55, 85)
LETTERS = "=C ^C =D ^D =E =F ^F =G ^G =A ^A =B".split()
NAMES = "C C# D D# E F F# G G# A A# B".split()
# Seed, notes, tunes, most notes a tune needs, notes known at the start. The seeds are such that always taking the note that
# opens most is dearer: where it is not, the collection cannot tell an optimum from a good guess.
COLLECTIONS = ((6, 6, 10, 3, 0), (18, 7, 15, 4, 0), (32, 8, 20, 4, 0), (10, 9, 25, 5, 0),
               (4, 6, 12, 4, 2), (31, 7, 18, 4, 3), (7, 8, 22, 5, 3), (34, 9, 25, 5, 4))


def abc_note(number):
    """With its accidental always written, so that neither key nor bar decides."""
    octave, step = divmod(number - 60, 12)
    return LETTERS[step] + ("," * -octave if octave < 0 else "'" * octave)


def note_name(number):
    return f"{NAMES[number % 12]}{number // 12 - 1}"


def write_collection(path, sets):
    lines = ["%abc-2.1", ""]
    for number, notes in enumerate(sets, 1):
        lines += [f"X:{number}", f"T:Ferry Crossing {number}", "M:4/4", "L:1/4", "K:C",
                  " | ".join(abc_note(note) * 4 for note in notes) + " |]", ""]
    path.write_text("\n".join(lines), encoding="ascii")


def solved(needed, scratch):
    """The least cost by the general solver, or None where it does not say that it is."""
    lp, solution = scratch / "order.lp", scratch / "order.txt"
    order = order_lp.OrderProgram(needed)
    order.write(lp)
    subprocess.run(order_lp.command(lp, solution), check=True, stdout=subprocess.DEVNULL, timeout=100)
    return order.cost(solution)


def compare(checks, label, library, have, known, scratch):
    """Whether always taking the note that opens most would have been dearer than the path."""
    tunes = program.answer("tunes", "--settings", library=library)["tunes"]
    needed = [lacking for tune in tunes if (lacking := frozenset(tune["pitches"]) - known)]
    path = program.answer("path", "--settings", *(["--have", have] if have else []), library=library)
    checks.equal(f"{label}: tunes", path["tunes"], len(tunes))
    checks.equal(f"{label}: open now", path["open_now"], len(tunes) - len(needed))
    checks.equal(f"{label}: proof", path["proof"], "optimal")
    checks.equal(f"{label}: cost", path["cost"], solved(needed, scratch))
    return path["greedy_cost"] > path["cost"]


def check_random(checks, scratch):
    greedy_lost = 0
    for seed, notes, tunes, most, known_notes in COLLECTIONS:
        rng = random.Random(seed)
        pool = rng.sample(POOL, notes + known_notes)
        known = frozenset(pool[notes:])
        sets = [frozenset(rng.sample(pool, rng.randint(1, most))) for _ in range(tunes)]
        label = f"collection {seed}, {notes} notes, {tunes} tunes, {known_notes} known"
        file, library = scratch / f"{seed}.abc", scratch / f"{seed}.db"
        write_collection(file, sets)
        program.run("import", file, library=library)
        read = {tune["number"]: frozenset(tune["pitches"]) for tune in program.answer("tunes", "--settings", library=library)["tunes"]}
        checks.equal(f"{label}: notes read", read, {str(number): chosen for number, chosen in enumerate(sets, 1)})
        have = " ".join(note_name(note) for note in sorted(known))
        greedy_lost += compare(checks, label, library, have, known, scratch)
    checks.that("the note that opens most is mostly not the best", greedy_lost > len(COLLECTIONS) / 2, f"{greedy_lost} times")


def check_sample(checks, scratch):
    library = scratch / "sample.db"
    program.run("import", program.SAMPLE, library=library, exits=(0, 1))
    compare(checks, "sample library", library, FOURTEEN, FOURTEEN_NUMBERS, scratch)


def main():
    if not order_lp.is_available():
        print("skipped: cbc is not installed (scripts/setup does)")
        return program.SKIPPED
    checks = program.Checks()
    with tempfile.TemporaryDirectory() as name:
        check_random(checks, pathlib.Path(name))
        check_sample(checks, pathlib.Path(name))
    return checks.exit_code()


if __name__ == "__main__":
    sys.exit(main())
