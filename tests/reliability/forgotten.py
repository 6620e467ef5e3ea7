"""Somebody who was removed: no word of them is left in any byte of the library, and backups that hold some are named."""
import re

import kept

# Names and words that stand nowhere else.
NAME, LATER = "Wendolin", "Gundobert"
STORY = (
    ("player", "add", NAME, "--instrument", "whistle-d", "--knows", "kettle"),
    ("player", "tune", NAME, "unwanted", "two turns", "--because", "quarrelsome"),
    ("syllabus", "Zithers", "--from", "2027-01-12", "--on", "tuesday", "--lessons", "5", "--for", NAME, "--for", "Ina"),
    ("syllabus", "Zithers", "--taught", "1", "--tell-players"),
    ("player", "change", NAME, "--name", LATER),
    ("syllabus", "Zithers", "--lost", "3"),
    ("syllabus", "Yodels", "--from", "2027-01-13", "--on", "wednesday", "--lessons", "4", "--for", LATER),
    ("syllabus", "Yodels", "--forget", "--yes"),
    ("mark", "kettle", "nine eels", "--tag", f"for {NAME}"),
    ("mark", "nine eels", "--untag", f"for {NAME}"),
    ("mark", "two turns", "--rhythm", f"{LATER}-step"),
    ("player", "tune", "Olli", "unwanted", "two turns", "--because", f"{NAME} has it"),
    ("syllabus", f"With {NAME}", "--from", "2027-01-14", "--on", "thursday", "--lessons", "4", "--for", LATER),
    ("library", "backup", "@kept"),
    ("player", "remove", LATER, "--yes"),
)
# Where else the name was said is told, and erased when one says so.
ERASED = tuple(("library", "erase", name, "--yes") for name in (NAME, LATER))
WORDS = re.compile(rf"{NAME}|{LATER}|quarrelsome".encode(), re.IGNORECASE)


def forgotten(start, scratch, _):
    figures = kept.Figures("words of somebody who was removed")
    library = kept.copy(start, scratch / "forgotten")
    for words in STORY:
        done = kept.gamut(library, *words)
        figures.take(done.returncode in (0, 1), " ".join(words), done.stderr[-200:])
    figures.take(library.name.encode() + b".kept" in b"".join(done.stdout.split()), "the backup that holds them is named", done.stdout)
    told = b" ".join(done.stdout.split())
    for words in ERASED:
        figures.take(b"gamut library erase " + b'"' + words[2].encode() + b'"' in told, f"it is told where {words[2]} still stands", done.stdout)
        erased = kept.gamut(library, *words)
        figures.take(erased.returncode == 0, " ".join(words), erased.stderr[-200:])
    for path in kept.beside(library):
        if not path.name.endswith(".kept"):
            found = WORDS.search(path.read_bytes())
            figures.take(not found, f"no word in {path.name}", path.read_bytes()[max(0, found.start() - 60):found.end() + 20] if found else "")
    for words in (*kept.QUESTIONS, ("library", "check"), ("syllabus", "Zithers"), ("syllabus", "Zithers", "--replan"), ("library", "rebuild"),
                  ("syllabus", "Zithers", "--take-back")):
        done = kept.gamut(library, *words)
        figures.take(done.returncode in (0, 1) and not WORDS.search(done.stdout + done.stderr), " ".join(words), (done.stdout + done.stderr)[-200:])
    return [figures]
