#!/usr/bin/env python3
"""What fits the beginners' fourteen notes, and which note to learn next, on collections whose answers are known.

Sources: O'Neill's Music of Ireland (1903) in the ABC encoding of the corpus that comes with the Python package music21:
the counts below were made from an independent reading of its notes (see corpus_oracle.py). The acceptance file is invented
material; its answers were worked out by hand.
"""
import pathlib
import sys
import tempfile

import program

FOURTEEN = "G:major&D:major A3..B5"
FOURTEEN_NAMES = "A3 B3 D4 E4 F#4 G4 A4 B4 D5 E5 F#5 G5 A5 B5".split()


def fitting(library, notes):
    """`number` of every setting that fits, with the count of those that do not."""
    found = program.answer("tunes", "--settings", "--fits", notes, library=library)
    assert found["matched"] == len(found["tunes"])
    return sorted(int(tune["number"]) for tune in found["tunes"]), found["left_out"]


def alternative(step, note):
    """How many tunes `note` would have opened in this step."""
    for other in step["runners_up"]:
        if other["add"] == [note]:
            return other["opens"]
    return None


def check_published(checks, library):
    program.run("import", program.shared("corpus", "oneills"), library=library, exits=(0, 1))
    fit, left_out = fitting(library, FOURTEEN)
    checks.equal("O'Neill's: tunes that fit the fourteen notes", len(fit), 67)
    checks.equal("O'Neill's: tunes in all", len(fit) + left_out, 2009)
    path = program.answer("path", "--settings", "--have", FOURTEEN, library=library)
    checks.equal("the fourteen notes by name", path["have"], FOURTEEN_NAMES)
    checks.equal("path: tunes", path["tunes"], 2009)
    checks.equal("path: open now", path["open_now"], 67)
    checks.equal("path: proof", path["proof"], "optimal")
    checks.equal("path: bound meets cost", path["lower_bound"], path["cost"])
    first, second = path["steps"][:2]
    checks.equal("step 1 adds", first["add"], ["C5"])
    checks.equal("step 1 opens", first["opens"], 503)
    checks.equal("step 1 open", first["open"], 570)
    checks.equal("step 2 adds", second["add"], ["C#5"])
    checks.equal("step 2 opens", second["opens"], 461)
    checks.equal("step 2 open", second["open"], 1031)
    now_open = path["open_now"]
    for step in path["steps"]:
        now_open += step["opens"]
        checks.equal(f"step {step['step']} adds up", step["open"], now_open)
        checks.equal(f"step {step['step']} names what it opens", len(step["ids"]), step["opens"])
    checks.equal("everything is opened in the end", now_open + path["never_open"], 2009)

    # The cost by its definition: each tune waits until the notes up to the step that opens it are learnt, one after another.
    waiting = learnt = 0
    for step in path["steps"]:
        learnt += len(step["add"])
        waiting += learnt * step["opens"]
    checks.equal("cost is the sum of waiting times", path["cost"], waiting)
    checks.that("no dearer than next-note greedy", path["cost"] <= path["greedy_cost"])

    # What the path says a note opens, the list of tunes must say too.
    after_one, _ = fitting(library, FOURTEEN + " C5")
    checks.equal("tunes that fit with C5 added", len(after_one), 570)
    after_two, _ = fitting(library, FOURTEEN + " C5 C#5")
    checks.equal("tunes that fit with C5 and C#5 added", len(after_two), 1031)


def check_acceptance(checks, library):
    program.run("import", program.shared("trade", "acceptance.abc"), library=library, exits=(0, 1))
    fit, left_out = fitting(library, FOURTEEN)
    checks.equal("acceptance: tunes that fit", fit, [1, 2, 3, 4, 5, 18])
    checks.equal("acceptance: tunes in all", len(fit) + left_out, 21)
    path = program.answer("path", "--settings", "--have", FOURTEEN, library=library)
    first = path["steps"][0]
    checks.equal("acceptance: first note", first["add"], ["C5"])
    checks.equal("acceptance: C5 opens", first["opens"], 6)
    checks.equal("acceptance: C#5 would open", alternative(first, "C#5"), 3)
    with_low_and_middle, _ = fitting(library, FOURTEEN + " C#4 C#5")
    checks.equal("acceptance: C#4 and C#5 together open", len(with_low_and_middle) - len(fit), 6)


def main():
    program.shared("corpus", "oneills")
    checks = program.Checks()
    with tempfile.TemporaryDirectory() as scratch:
        check_published(checks, pathlib.Path(scratch) / "published.db")
        check_acceptance(checks, pathlib.Path(scratch) / "acceptance.db")
    return checks.exit_code()


if __name__ == "__main__":
    sys.exit(main())
