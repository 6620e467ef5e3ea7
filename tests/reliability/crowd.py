"""Four processes at one library: one imports over and over, one marks, one says what players did, one asks.

All that was answered with 0 is there in the end.
"""
import random
import shutil
import threading
import time

import kept
import program

SEED = 20260303


def crowd(start, scratch, most):
    figures = kept.Figures("four processes at once")
    library = kept.copy(start, scratch / "crowd" / "library")
    folder = scratch / "crowd" / "tunes"
    shutil.copytree(program.SAMPLE, folder)
    until = time.monotonic() + (60 if most is None else 6)
    marked, played = [], []

    def ask(what, *words, busy_is_fine=False):
        done = kept.gamut(library, *words)
        told_busy = busy_is_fine and done.returncode == 3 and b"using it" in done.stderr
        figures.take(done.returncode in (0, 1) or told_busy, what, done.stderr[-200:])
        return done.returncode == 0

    def import_again():
        rng = random.Random(SEED)
        while time.monotonic() < until:
            one = rng.choice(sorted(folder.glob("*.abc")))
            one.write_text(one.read_text() + "\n% a remark\n")
            ask("import", "import", folder)

    def mark():
        number = 0
        while time.monotonic() < until:
            number += 1
            if ask("mark", "mark", "kettle", "--tag", f"crowd {number}", busy_is_fine=True):
                marked.append(f"crowd {number}")

    def play():
        day = 0
        while time.monotonic() < until:
            day += 1
            when = f"2027-{1 + day // 28 % 12:02}-{1 + day % 28:02}"
            if ask("played", "player", "played", "Ina", "fog signal", "--on", when, busy_is_fine=True):
                played.append(when)

    def question():
        rng = random.Random(SEED)
        while time.monotonic() < until:
            ask("question", *rng.choice(kept.QUESTIONS), busy_is_fine=True)

    threads = [threading.Thread(target=one) for one in (import_again, mark, play, question)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    contents = kept.Contents(library)
    figures.take(not contents.fault, "whole in the end", contents.fault)
    tags = " ".join(kept.gamut(library, "mark", "kettle").stdout.decode().split())  # a line may break anywhere
    for tag in marked:
        figures.take(tag in tags, f"{tag} is there")
    history = kept.gamut(library, "player", "export").stdout.decode()
    for day in played:
        figures.take(day in history, f"played {day} is there")
    return [figures]
