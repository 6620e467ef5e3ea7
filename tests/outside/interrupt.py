#!/usr/bin/env python3
"""Ctrl-C while a path is planned: the best order so far with its bound, never a false claim. Invented collections of note
sets drawn by numbers, too dense to be proven in any patience; the signal is POSIX's SIGINT."""
import json
import pathlib
import random
import signal
import subprocess
import sys
import tempfile
import time

import mip_optimum
import program


def interrupted(library, *words):
    """Exit code and JSON answer of a path that is stopped after a second."""
    command = [program.PROGRAM, "path", "--settings", "--json", "--max-seconds", "600", *words]
    child = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=program.environment(library))
    time.sleep(min(program.TIME_FACTOR, 4))  # a slow build takes longer to begin, and much longer to end
    still_thinking = child.poll() is None
    child.send_signal(signal.SIGINT)
    output, errors = child.communicate(timeout=60 * program.TIME_FACTOR)
    return still_thinking, child.returncode, json.loads(output), errors.decode()


def main():
    checks = program.Checks()
    with tempfile.TemporaryDirectory() as scratch:
        folder, library = pathlib.Path(scratch), pathlib.Path(scratch) / "library.db"
        draw = random.Random(34)
        sets = [set(draw.sample(range(40, 100), draw.randint(3, 7))) for _ in range(800)]
        mip_optimum.write_collection(folder / "dense.abc", sets)
        program.run("import", folder / "dense.abc", library=library)
        for words in ((), ("--best-in", "25"), ("--order", "C4 D4 E4")):
            name = " ".join(words) or "path"
            still_thinking, code, path, errors = interrupted(library, *words)
            checks.that(f"{name}: was still thinking", still_thinking)
            checks.equal(f"{name}: exit", code, 1)
            checks.that(f"{name}: says that it stopped", "stopped" in errors)
            checks.equal(f"{name}: tunes", path["tunes"], 800)
            checks.that(f"{name}: bound and cost agree with the word", (path["lower_bound"] == path["cost"]) == (path["proof"] == "optimal"))
            if words[:1] == ("--best-in",):
                checks.that("best in: the bound is no less", path["best_in"]["upper_bound"] >= path["best_in"]["met"])
            else:
                checks.equal(f"{name}: proof", path["proof"], "gap")
                waiting = sum(step["time"] * step["opens"] for step in path["steps"])
                checks.equal(f"{name}: the order shown costs what is said", path["cost"], waiting)
    return checks.exit_code()


if __name__ == "__main__":
    sys.exit(main())
