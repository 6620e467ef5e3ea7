"""What a library holds, read by SQLite itself from a copy, and the scenes that attacks are tried on.

A copy is recovered by SQLite as the next opening would recover it, so gamut has the original left to recover by itself.
"""
import contextlib
import pathlib
import shutil
import sqlite3
import subprocess
import tempfile

import program

VOLATILE = {"mtime_ns", "imported_ns"}  # differ between two runs that did the same
TODAY = "2027-03-01"


def beside(library):
    """The library's file and those SQLite keeps beside it."""
    return [path for path in library.parent.glob(library.name + "*") if path.is_file()]


def copy(library, folder):
    folder.mkdir(parents=True, exist_ok=True)
    for path in beside(library):
        shutil.copy(path, folder / path.name)
    return folder / library.name


class Contents:
    """All rows of all tables, and what SQLite thinks of the file. Two are equal when they say the same."""

    def __init__(self, library):
        self.fault = ""
        self.tables = {}
        if not library.exists():
            return
        with tempfile.TemporaryDirectory() as scratch:
            copied = copy(library, pathlib.Path(scratch))
            try:
                with contextlib.closing(sqlite3.connect(copied)) as database:
                    self.read(database)
            except sqlite3.Error as error:
                self.fault = f"SQLite: {error}"

    def read(self, database):
        database.text_factory = bytes
        verdict = database.execute("PRAGMA integrity_check").fetchall()
        astray = database.execute("PRAGMA foreign_key_check").fetchall()
        if verdict != [(b"ok",)]:
            self.fault = f"integrity: {verdict[:3]}"
        elif astray:
            self.fault = f"references: {astray[:3]}"
        names = [row[0].decode() for row in database.execute(
            "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%' AND sql NOT LIKE '%VIRTUAL%'")]
        for name in sorted(names):
            if name.startswith("title_search"):
                continue  # FTS5's own
            columns = [row[1].decode() for row in database.execute(f'PRAGMA table_info("{name}")')]
            wanted = ", ".join(f'"{column}"' for column in columns if column not in VOLATILE)
            self.tables[name] = sorted(map(repr, database.execute(f'SELECT {wanted} FROM "{name}"')))

    def __eq__(self, other):
        return self.fault == other.fault and self.tables == other.tables

    def said(self):
        """Only what a person said and no file can say again."""
        computed = {"file", "setting", "title", "abc", "abc_header", "diagnostic", "oddity", "outline", "note_set", "tune"}
        return {name: rows for name, rows in self.tables.items() if name not in computed}

    def differences(self, other):
        return [name for name in sorted({*self.tables, *other.tables}) if self.tables.get(name) != other.tables.get(name)]


def gamut(library, *words, prefix=(), stdin=subprocess.DEVNULL, seconds=60, **variables):
    """A finished run of gamut on a library, under `prefix` (a tracer). Raises subprocess.TimeoutExpired."""
    environment = program.environment(library)
    environment.update(GAMUT_TODAY=TODAY, **variables)
    return subprocess.run([*prefix, program.PROGRAM, *map(str, words)], env=environment, stdin=stdin,
                          capture_output=True, check=False, timeout=seconds * program.TIME_FACTOR)


TERM = ("syllabus", "Tuesdays", "--from", "2027-01-12", "--on", "tuesday", "--lessons", "6", "--for", "Ina")

# How the library of every scene came to be: two players, their tunes, tags, a verdict, a term that has begun.
STORY = (
    ("mark", "nine eels", "kettle", "--tag", "thursday", "--count", "3"),
    ("player", "add", "Ina", "--instrument", "whistle-d", "--notes", "D4 E4 F#4 G4 A4 B4", "--knows",
     "two turns, eight bars", "--on", "2027-01-12"),
    ("player", "add", "Olli", "--instrument", "english48", "--notes", "G:major D4..B5"),
    ("player", "tune", "Ina", "wished", "kettle"),
    ("player", "played", "Olli", "nine eels", "--on", "2027-02-01"),
    ("same", "14", "23"),
    TERM,
    ("syllabus", "Tuesdays", "--taught", "2"),
)

# Every kind of change, each asked of a copy of that library.
CHANGES = {
    "mark": ("mark", "fog signal", "--tag", "solid", "--count", "2"),
    "unmark": ("mark", "kettle", "--untag", "thursday", "--no-count"),
    "same": ("same", "--not", "14", "23"),
    "player add": ("player", "add", "Uli", "--instrument", "bc21", "--knows", "kettle"),
    "player tune": ("player", "tune", "Ina", "learning", "kettle, fog signal"),
    "player played": ("player", "played", "Ina", "two turns", "--shaky", "eight bars"),
    "player notes": ("player", "notes", "Ina", "--add", "C5"),
    "player take-back": ("player", "take-back", "Ina"),
    "player remove": ("player", "remove", "Olli", "--yes"),
    "term planned": ("syllabus", "Fridays", "--from", "2027-04-02", "--on", "friday", "--lessons", "4", "--fits", "D:major"),
    "term lost": ("syllabus", "Tuesdays", "--lost", "3"),
    "term taken back": ("syllabus", "Tuesdays", "--take-back"),
    "term forgotten": ("syllabus", "Tuesdays", "--forget", "--yes"),
    "import again": ("import", program.SAMPLE),
}

# Every kind of question.
QUESTIONS = (
    ("tunes", "--json"), ("tunes", "--settings", "--csv"), ("tunes", "--tag", "thursday", "--json"),
    ("tunes", "--for", "Ina", "--json"), ("tune", "kettle", "--json"), ("path", "--for", "Ina", "--brief"), ("next", "Ina", "--json"),
    ("next", "Ina", "--review", "--json"), ("notes", "--json"), ("player", "list"), ("player", "show", "Ina"),
    ("player", "history", "Ina"), ("player", "export"), ("syllabus",), ("syllabus", "Tuesdays", "--json"),
    ("same", "--json"), ("check", "--json"), ("mark", "kettle"), ("tunes", "--goes", "D A G F E D A", "--json"),
    ("together", "--for", "Ina", "--for", "Olli"), ("evening", "--minutes", "20"), ("tunebook", "kettle"),
)


def make_library(folder, story=STORY):
    """A library of the sample tunes with all that the story says."""
    folder.mkdir(parents=True, exist_ok=True)
    library = folder / "library.db"
    for words in (("import", program.SAMPLE), *story):
        done = gamut(library, *words)
        assert done.returncode in (0, 1), (words, done.stderr)
    return library


class Figures:
    """Counts what was tried and what failed, and prints the failures."""

    def __init__(self, attack):
        self.attack = attack
        self.tries = 0
        self.failures = []
        self.notes = []

    def take(self, holds, what, detail=""):
        self.tries += 1
        if not holds:
            self.failures.append(what)
            if len(self.failures) <= 20:
                print(f"  {self.attack}: {what} {detail}"[:400], flush=True)
        return holds
