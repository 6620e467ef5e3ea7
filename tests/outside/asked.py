#!/usr/bin/env python3
"""Which tunes are meant? A person at a terminal is asked and answers: what was chosen is written down, what was not is told. The
terminal is a pseudo-terminal of POSIX; whole-program cases elsewhere have none."""
import os
import pathlib
import pty
import subprocess
import sys
import tempfile

import program

ONE, TWO = "gangplank", "gangplank, ferry"
SETTLED = "gamut: from now on "


def asked(titles, answer, library):
    """Exit code, answer on standard output, and what stood on the terminal, of titles for a new player."""
    program.run("player", "add", "Ina", library=library)
    terminal, child_side = pty.openpty()
    words = [program.PROGRAM, "player", "tune", "Ina", "learning", titles]
    child = subprocess.Popen(words, stdin=child_side, stdout=subprocess.PIPE, stderr=child_side,
                             env=program.environment(library))
    os.close(child_side)
    shown = b""
    while b"left out: " not in shown:  # the end of the question
        shown += os.read(terminal, 4096)
    os.write(terminal, (answer + "\n").encode() if answer is not None else b"\x04")
    output = child.communicate(timeout=60 * program.TIME_FACTOR)[0].decode()
    try:
        while more := os.read(terminal, 4096):
            shown += more
    except OSError:  # the other side is closed
        pass
    os.close(terminal)
    program.run("player", "remove", "Ina", "--yes", library=library)
    program.run("mark", "1", "--no-alias", "gangplank", "--no-alias", "ferry", library=library)  # so that it is asked anew
    question, _, told = shown.decode().replace("\r\n", "\n").partition("is left out: ")
    lines = [line for line in told.partition("\n")[2].splitlines(True) if not line.startswith(SETTLED)]
    return child.returncode, " ".join(output.split()), question, "".join(lines)


def settled_for_good(library):
    """What stands on the terminal once the question was answered and the same is typed again."""
    program.run("player", "add", "Uli", library=library)
    answered = []
    for _ in range(2):
        terminal, child_side = pty.openpty()
        child = subprocess.Popen([program.PROGRAM, "player", "tune", "Uli", "learning", ONE], stdin=child_side,
                                 stdout=subprocess.PIPE, stderr=child_side, env=program.environment(library))
        os.close(child_side)
        os.write(terminal, b"b\n")
        output = child.communicate(timeout=60 * program.TIME_FACTOR)[0].decode()
        shown = b""
        try:
            while more := os.read(terminal, 4096):
                shown += more
        except OSError:  # the other side is closed
            pass
        os.close(terminal)
        answered.append((child.returncode, " ".join(output.split()), "Which tune" in shown.decode(), SETTLED in shown.decode()))
    return answered


def main():
    checks = program.Checks()
    with tempfile.TemporaryDirectory() as scratch:
        library = pathlib.Path(scratch) / "library.db"
        program.run("import", program.SAMPLE, library=library)

        question = asked(ONE, "a", library)[2]
        checks.that("one question: a letter is the example", "Such as b, or its id;" in question, question)
        question = asked(TWO, "1a 2a", library)[2]
        checks.that("two questions: numbers and letters are", "Such as 1a 2b, or their ids;" in question, question)

        gangplank, ferry = "The Wet Gangplank", "The Ten Past Ferry"
        once, again = settled_for_good(library)
        checks.equal("what was chosen is kept", once, (0, f"Uli, learning: {gangplank}.", True, True))
        checks.equal("and nobody asks again", again, (0, f"Uli, learning: {gangplank}.", False, False))
        program.run("mark", "1", "--no-alias", ONE, library=library)
        for titles, answer, chosen in ((ONE, "a", [gangplank]), (ONE, "B", [gangplank]), (ONE, "1a", [gangplank]), (ONE, "23", [gangplank]),
                                       (TWO, "1a 2a", [gangplank, ferry]), (TWO, "1A,2 a", [gangplank, ferry]),
                                       (TWO, "21; 14", [gangplank, ferry])):
            code, output, _, told = asked(titles, answer, library)
            checks.equal(f"{titles}: {answer}: written down", output, f"Ina, learning: {'; '.join(chosen)}.")
            checks.equal(f"{titles}: {answer}: nothing is told", told, "")
            checks.equal(f"{titles}: {answer}: exit", code, 0)

        for titles, answer, chosen, expected in (
                (ONE, "", [], 'left out: "gangplank"'),
                (ONE, None, [], 'left out: "gangplank"'),
                (ONE, "c", [], 'not understood: "c"; left out: "gangplank"'),
                (TWO, "a", [], 'not understood: "a"; left out: "gangplank", "ferry"'),
                (TWO, "2a 9z", [ferry], 'not understood: "9z"; left out: "gangplank"'),
                (TWO, "1a 1b 2a", [gangplank, ferry], 'a first answer counts, so this does not: "1b"')):
            code, output, _, told = asked(titles, answer, library)
            checks.equal(f"{titles}: {answer}: written down", output, f"Ina, learning: {'; '.join(chosen)}." if chosen else "")
            checks.equal(f"{titles}: {answer}: told", told, f"gamut: {expected}\n")
            checks.equal(f"{titles}: {answer}: exit", code, 0 if "left out" not in expected else 1)
    return checks.exit_code()


if __name__ == "__main__":
    sys.exit(main())
