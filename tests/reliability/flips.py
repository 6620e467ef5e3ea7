"""One bit of the library is wrong, in any byte of it, or one value in a row of what people said.

Every question is then asked. It may be refused in a sentence with exit 3, or answered as before; a crash, a wait without end and
another answer without a word are failures. Answers that change because something computed from files did are counted apart: no
checksum is over those, and the files are still there.
"""
import contextlib
import pathlib
import random
import re
import sqlite3
import subprocess
import tempfile

import kept

SEED = 20260302
# Sound values of any type, and values that no gamut wrote.
ROTTEN = (None, "", "x", "2027-02-30", "9999-99-99", "-", "{}", "[1", "\x1b[31m", "\u202e", 0, -1, 1, 2 ** 62, -2 ** 62, 1.5, b"\xff\x00")


# Tables and indexes of what people said, as SQLite names them.
SAID_IN = re.compile("saying|journal|kept_sum|player|tag|verdict|syllabus|tune_count|tune_rhythm|tune_key|tune_alias|malformed")


def answers(library, seconds=20):
    found = []
    for words in kept.QUESTIONS:
        try:
            found.append(kept.gamut(library, *words, seconds=seconds))
        except subprocess.TimeoutExpired:
            found.append(None)
    return found


class Judge:
    def __init__(self, library):
        self.sound = answers(library)
        self.said = kept.Contents(library).said()
        self.crashed = kept.Figures("a flipped bit: crashes and waits")
        self.silent = kept.Figures("a flipped bit: another answer without a word, of what people said")
        self.computed = kept.Figures("a flipped bit: another answer without a word, of what is computed from files", is_survived=False)

    def is_of_people(self, library):
        found = kept.Contents(library)
        return found.said() != self.said or bool(SAID_IN.search(found.fault))

    def judge(self, library, what):
        silent = self.silent if self.is_of_people(library) else self.computed
        for words, was, now in zip(kept.QUESTIONS, self.sound, answers(library)):
            label = f"{what}: {' '.join(map(str, words))}"
            ended = now is not None and 0 <= now.returncode <= 3
            self.crashed.take(ended, label, "never ends" if now is None else f"exit {now.returncode}: {now.stderr[-150:]!r}")
            if ended:
                told = now.stderr != was.stderr or now.returncode == 3
                silent.take(now.stdout == was.stdout or told, label)

    def figures(self):
        return [self.crashed, self.silent, *([self.computed] if self.computed is not self.silent else [])]


def used_bytes(library):
    """Places of bytes that are not zero."""
    content = library.read_bytes()
    return [place for place, value in enumerate(content) if value], content


def flips(start, scratch, most):
    library = kept.copy(start, scratch / "flips")
    with contextlib.closing(sqlite3.connect(library)) as database:
        database.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    judge = Judge(library)
    places, content = used_bytes(library)
    rng = random.Random(SEED)
    if most is not None:
        places = sorted(rng.sample(places, min(len(places), 2 * most)))
    for place in places:
        with tempfile.TemporaryDirectory() as folder:
            flipped = bytearray(content)
            flipped[place] ^= 1 << rng.randrange(8)
            copied = pathlib.Path(folder) / library.name
            copied.write_bytes(flipped)
            judge.judge(copied, f"byte {place}")
    return judge.figures()


def rotten_rows(start, scratch, most):
    library = kept.copy(start, scratch / "rotten")
    judge = Judge(library)
    judge.crashed.attack, judge.silent.attack = "a rotten row: crashes and waits", "a rotten row: another answer without a word"
    judge.computed = judge.silent  # rows of people only
    rng = random.Random(SEED)
    cells = []
    with contextlib.closing(sqlite3.connect(library)) as database:
        for table in kept.Contents(library).said():
            for column in database.execute(f'PRAGMA table_info("{table}")').fetchall():
                cells += [(table, column[1], value) for value in ROTTEN]
    if most is not None:
        cells = rng.sample(cells, min(len(cells), most))
    for table, column, value in cells:
        with tempfile.TemporaryDirectory() as folder:
            copied = kept.copy(library, pathlib.Path(folder))
            with contextlib.closing(sqlite3.connect(copied)) as database:
                database.executescript("PRAGMA ignore_check_constraints = ON; PRAGMA foreign_keys = OFF;")
                try:
                    changed = database.execute(f'UPDATE OR IGNORE "{table}" SET "{column}" = ?', (value,)).rowcount
                    database.commit()
                except (sqlite3.Error, OverflowError):
                    continue  # SQLite itself will not have it
            if changed > 0:
                judge.judge(copied, f"{table}.{column} = {value!r}")
    return judge.figures()
