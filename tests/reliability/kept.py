"""What a library holds, read by SQLite itself from a copy, and the scenes that attacks are tried on.

A copy is recovered by SQLite as the next opening would recover it, so gamut has the original left to recover by itself.
"""
import contextlib
import pathlib
import re
import shutil
import sqlite3
import subprocess
import tempfile

import program

VOLATILE = {"mtime_ns", "imported_ns", "words_seal"}  # differ between two runs that did the same
SEAL = re.compile(rb"[0-9a-f]{32}")
SALT = re.compile(rb'"salt":"[0-9a-f]*"')
TODAY = "2027-03-01"
SHORT = 2  # so many places of each call or file, and fewer scenes, are the short form


def beside(library):
    """The library's file and those SQLite keeps beside it."""
    return [path for path in library.parent.glob(library.name + "*") if path.is_file()]


def copy(library, folder):
    folder.mkdir(parents=True, exist_ok=True)
    for path in beside(library):
        shutil.copy(path, folder / path.name)
    return folder / library.name


def without_chance(row, seals):
    """A row in which sayings are named by their numbers instead of by seals, in which there is chance."""
    return tuple(SEAL.sub(lambda found: seals.get(found[0], found[0]), SALT.sub(b"", value)) if seals and isinstance(value, bytes) else value
                 for value in row)


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
        seals = {}
        if "saying" in names:
            seals = {row[1]: b"saying %d" % row[0] for row in database.execute("SELECT id, seal FROM saying").fetchall()}
        for name in sorted(names):
            if name.startswith("title_search"):
                continue  # FTS5's own
            columns = [row[1].decode() for row in database.execute(f'PRAGMA table_info("{name}")')]
            wanted = ", ".join(f'"{column}"' for column in columns if column not in VOLATILE)
            self.tables[name] = sorted(repr(without_chance(row, seals)) for row in database.execute(f'SELECT {wanted} FROM "{name}"'))

    def __eq__(self, other):
        return self.fault == other.fault and self.tables == other.tables

    def said(self):
        """Only what a person said and no file can say again."""
        computed = {"file", "setting", "title", "abc", "abc_header", "diagnostic", "oddity", "outline", "note_set", "tune"}
        return {name: rows for name, rows in self.tables.items() if name not in computed}

    def kept(self):
        """What it comes to, however it was said."""
        return {name: rows for name, rows in self.said().items() if name not in ("saying", "journal_head")}

    def differences(self, other):
        return [name for name in sorted({*self.tables, *other.tables}) if self.tables.get(name) != other.tables.get(name)]


def beside_named(library, word):
    """`@other` is a file beside the library that ends so."""
    return f"{library}.{word[1:]}" if word.startswith("@") else word


def gamut(library, *words, prefix=(), stdin=subprocess.DEVNULL, seconds=60, **variables):
    """A finished run of gamut on a library, under `prefix` (a tracer). Raises subprocess.TimeoutExpired."""
    environment = program.environment(library)
    environment.update(GAMUT_TODAY=TODAY, **variables)
    words = [beside_named(library, str(word)) for word in words]
    return subprocess.run([*prefix, program.PROGRAM, *words], env=environment, stdin=stdin,
                          capture_output=True, check=False, timeout=seconds * program.TIME_FACTOR)


TERM = ("syllabus", "Tuesdays", "--from", "2027-01-12", "--on", "tuesday", "--lessons", "6", "--for", "Ina")

# How the library of every scene came to be: two players, their tunes, tags, a verdict, a term that has begun.
STORY = (
    ("mark", "nine eels", "kettle", "--tag", "thursday", "--count", "3"),
    ("player", "add", "Ina", "--instrument", "whistle-d", "--notes", "D4 E4 F#4 G4 A4 B4", "--knows",
     "two turns, eight bars", "--on", "2027-01-12"),
    ("player", "add", "Olli", "--instrument", "english48", "--notes", "G:major D4..B5"),
    ("player", "tune", "Ina", "wished", "kettle"),
    ("player", "tune", "Olli", "unwanted", "two turns", "--because", "too fast for now"),
    ("mark", "fog signal", "--rhythm", "hornpipe"),
    ("mark", "eight bars", "--key", "Em"),
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
    "player notes dropped": ("player", "notes", "Olli", "--drop", "A4 B4"),
    "player take-back": ("player", "take-back", "Ina"),
    "player renamed": ("player", "change", "Ina", "--name", "Wilma"),
    "player remove": ("player", "remove", "Olli", "--yes"),
    "term planned": ("syllabus", "Fridays", "--from", "2027-04-02", "--on", "friday", "--lessons", "4", "--fits", "D:major"),
    "term lost": ("syllabus", "Tuesdays", "--lost", "3"),
    "term taken back": ("syllabus", "Tuesdays", "--take-back"),
    "term forgotten": ("syllabus", "Tuesdays", "--forget", "--yes"),
    "class": ("player", "class", "Mondays", "Ina"),
    "alias": ("mark", "fog signal", "--alias", "fs"),
    "kind and key": ("mark", "kettle", "--rhythm", "reel", "--key", "A dorian"),
    "player import": ("player", "import", "@players"),
    "term replanned": ("syllabus", "Tuesdays", "--taught", "3", "--tell-players"),
    "library import": ("library", "import", "@elsewhere"),
    "library take-back": ("library", "take-back"),
    "library rebuild": ("library", "rebuild"),
    "library backup": ("library", "backup", "@saved"),
    "library export": ("library", "export", "@saved"),
    "library salvage": ("library", "salvage", "@saved"),
    "library erase": ("library", "erase", "thursday", "--yes"),
    "library restore": ("library", "restore", "@other"),
    "library compact": ("library", "compact"),
    "import again": ("import", program.SAMPLE),
}

# Done in more than one step, of which each is whole: done again, the rest follows.
IN_STEPS = ("term replanned",)

# In the short form: one of each kind.
IN_SHORT = ("mark", "player remove", "library import", "library restore")
OLD_IN_SHORT = (10,)
TRIES_IN_SHORT = 4  # of each scene
TRIES_OF_SCENE = None  # at most so many calls of each scene are killed or failed, drawn by chance; None: all

# What is said on another computer, of which the library of every scene has an export, a backup and the players.
ELSEWHERE = (
    ("player", "add", "Edda", "--instrument", "fiddle", "--knows", "kettle"),
    ("mark", "kettle", "--tag", "from elsewhere"),
    ("player", "played", "Edda", "fog signal", "--on", "2027-02-02"),
)


def is_short(most):
    return most is not None and most <= SHORT


class Saved:
    """What a command wrote beside the library, if anything: a backup or an export. Two are equal when they say the same."""

    def __init__(self, library):
        file = library.with_name(library.name + ".saved")
        self.is_there = file.exists()
        content = file.read_bytes() if self.is_there else b""
        self.content = Contents(file) if content.startswith(b"SQLite format 3") else content

    def __eq__(self, other):
        return self.is_there == other.is_there and self.content == other.content

# Every kind of question.
QUESTIONS = (
    ("tunes", "--json"), ("tunes", "--settings", "--csv"), ("tunes", "--tag", "thursday", "--json"),
    ("tunes", "--for", "Ina", "--json"), ("tune", "kettle", "--json"), ("path", "--for", "Ina", "--brief"), ("next", "Ina", "--json"),
    ("next", "Ina", "--review", "--json"), ("notes", "--json"), ("player", "list"), ("player", "show", "Ina"),
    ("player", "history", "Ina"), ("player", "export"), ("syllabus",), ("syllabus", "Tuesdays", "--json"),
    ("same", "--json"), ("check", "--json"), ("mark", "kettle"), ("mark", "fog signal", "--json"), ("tune", "eight bars", "--json"),
    ("library", "said", "--json"), ("library", "export", "-"), ("tunes", "--goes", "D A G F E D A", "--json"),
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


def make_start(folder):
    """The library of every scene, and beside it what came from elsewhere."""
    library = make_library(folder)
    elsewhere = make_library(folder / "elsewhere", ELSEWHERE)
    for words, ending in ((("library", "export", "-"), "elsewhere"), (("player", "export"), "players")):
        library.with_name(f"{library.name}.{ending}").write_bytes(gamut(elsewhere, *words).stdout)
    shutil.copy(elsewhere, library.with_name(library.name + ".other"))
    return library


# From when there was a journal all is said by it: how a library of such a version differs from the newest.
NO_CLASSES = "DROP TABLE player_class_member; DROP TABLE player_class"
FROM_NEWEST = {11: f"{NO_CLASSES}; DROP TABLE tune_alias", 12: NO_CLASSES}


def old_libraries(start, scratch):
    """For each earlier version of the tables, a library as the gamut of then left it, with something said in all of them."""
    with contextlib.closing(sqlite3.connect(start)) as database:
        application = database.execute("PRAGMA application_id").fetchone()[0]
        newest = database.execute("PRAGMA user_version").fetchone()[0]
    for version in range(1, newest):
        library = scratch / str(version) / "library.db"
        library.parent.mkdir(parents=True)
        if version in FROM_NEWEST:
            shutil.copy(start, library)
            with contextlib.closing(sqlite3.connect(library)) as database:
                database.executescript(f"{FROM_NEWEST[version]}; PRAGMA user_version = {version};")
            yield version, library
            continue
        with contextlib.closing(sqlite3.connect(library)) as database:
            schemas = [next((program.REPOSITORY / "schema").glob(f"{step:04}-*.sql")) for step in range(1, version + 1)]
            rows = [program.REPOSITORY / "tests" / "support" / "old_rows" / f"{step:04}.sql" for step in range(1, version + 1)]
            for file in [*schemas, *filter(pathlib.Path.exists, rows)]:
                database.executescript(file.read_text())
            database.executescript(f"PRAGMA application_id = {application}; PRAGMA user_version = {version};")
        yield version, library


class Figures:
    """Counts what was tried and what failed, and prints the failures."""

    def __init__(self, attack, is_survived=True):
        self.attack = attack
        self.is_survived = is_survived  # else it is counted and told, and nobody says that it holds
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
