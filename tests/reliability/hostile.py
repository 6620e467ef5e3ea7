"""Tune files made to harm: through import, then every question of each tune; and titles through every output.

No crash, no wait, no control character or sign of writing direction on a terminal, no cell that a spreadsheet would run, and JSON
that is JSON.
"""
import csv
import io
import json
import pathlib
import re
import subprocess

import kept

TITLES = (
    "\x1b]0;owned\x07 bell", "\x1b[2J\x1b[1;1H gone", "right \u202e tfel", "marks \u200e\u200f\u061c\u2066\u2069 of direction",
    "=cmd|' /C calc'!A0", "+1+1", "-2+3", "@SUM(1)", "\uff1d1+1", "\u00a0=1+1", "\t=1+1", "\uff0b1", "\uff201", "\uff0d1", "<script>alert(1)</script>",
    "a\"; DROP TABLE tune; --", "%s%n%x", "../../etc/passwd", "a\u0000b", "\ufeffmark", "\u0085next", "\u2028line", "C1 \u009b31m", "z\u0351\u0352" * 40,
    "\U000e0041tag", "x" * 5000, "\u200b", "'", "`id`", "$(id)",
)
# Controls of ASCII and of ISO 8859, and signs that change the direction of writing (Unicode Standard Annex 9, section 2).
HARMFUL = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]")
# What makes a spreadsheet run a cell. Source: OWASP, "CSV Injection"; full-width forms and blanks in front: house choice.
FORMULA = re.compile("^[\\s\u00a0\ufeff]*[=+\\-@\uff1d\uff0b\uff0d\uff20\t\r]")
NOTES = "M:4/4\nL:1/8\nK:D\n|:DEFA BAFA|d2 fd edBA|DEFA BAFA|edcB A4:|\n|:f2 af edBA|f2 af e4|f2 af edBA|BdcB A4:|\n"


def tunes():
    """Texts of files by a word for what is wrong with them."""
    for number, title in enumerate(TITLES, 1):
        yield f"title {number}", f"X:{number}\nT:{title}\nR:reel\nS:{title}\n{NOTES}"
    yield "open brackets", "X:1\nT:a\nK:D\n" + "[" * 50000 + "D|\n"
    yield "open slurs", "X:1\nT:a\nK:D\n" + "(" * 50000 + "D|\n"
    yield "repeats", "X:1\nT:a\nK:D\n" + "|:" * 20000 + "D" + ":|" * 20000 + "\n"
    yield "endings", "X:1\nT:a\nK:D\n" + "|1 D2 :|2 E2 |" * 3000 + "\n"
    yield "parts", "X:1\nT:a\nP:" + "(" * 200 + "A9" + ")9" * 200 + "\nK:D\nP:A\nDEFG|\n"
    yield "macros", "X:1\nT:a\n" + "".join(f"m:~{'abcdefg'[n % 7]}{n} = {'abc' * 60}\n" for n in range(300)) + "K:D\n" + "~a7 " * 2000 + "|\n"
    yield "lengths", "X:1\nT:a\nL:1/512\nK:D\nD99999999999999999999/3 E/99999999999 F2147483648|\n"
    yield "tuplets", "X:1\nT:a\nK:D\n" + "(9:9:9" * 3000 + "DEF|\n"
    yield "meters", "X:1\nT:a\nM:999999999/1\nK:D\nDEF|[M:0/0]DEF|[M:1/0]DEF|[M:-3/4]D|\n"
    yield "keys", "X:1\nT:a\nK:D ^^^^f " + "^g" * 5000 + "\n" + "[K:Bbm]D[K:G#lyd]^^F" * 2000 + "|\n"
    yield "voices", "X:1\nT:a\nK:D\n" + "".join(f"V:{n}\nD|\n" for n in range(3000))
    yield "octaves", "X:1\nT:a\nK:D octave=99999 transpose=-99999\nD" + "'" * 9000 + "|C" + "," * 9000 + "|\n"
    yield "no end", "X:1\nT:a\nK:D\n" + "D" * 2_000_000
    yield "one bar a note", "X:1\nT:a\nK:D\n" + "D|" * 200000 + "\n"
    yield "nulls", "X:1\nT:a\nK:D\n" + "\0" * 100000 + "D|\n"
    yield "includes", "%%abc-include /etc/passwd\n\nX:1\nT:a\nI:abc-include ../../../../etc/passwd\nF:file:///etc/passwd\nK:D\nDEF|\n"
    yield "many titles", "X:1\n" + "T:again\n" * 20000 + "K:D\nDEF|\n"
    yield "chords", "X:1\nT:a\nK:D\n" + "[" + "CDEFGAB" * 5000 + "]|\n" + '"' + "A/" * 20000 + '"D|\n'


def judge_outputs(figures, library, ids):
    for words in (("tunes",), ("tunes", "--settings"), ("check",), ("notes",), ("same",), ("evening", "--minutes", "30"), ("path", "--steps", "2"),
                  ("tunes", "--match", "-"), *(("tune", str(one)) for one in ids)):
        options = {}
        if "-" in words:
            options = {"stdin": subprocess.PIPE}
        for form in ((), ("--csv",), ("--json",)):
            if form and words[0] == "evening":
                continue
            what = " ".join((*words, *form))
            try:
                done = kept.gamut(library, *words, *form, seconds=60) if not options else subprocess.run(
                    [kept.program.PROGRAM, *words, *form], input="\n".join(TITLES).replace("\0", "").encode(), capture_output=True,
                    env=kept.program.environment(library), check=False, timeout=60)
            except subprocess.TimeoutExpired:
                figures.take(False, what, "never ends")
                continue
            if not figures.take(0 <= done.returncode <= 3, what, f"exit {done.returncode} {done.stderr[-200:]!r}"):
                continue
            text = (done.stdout + (b"" if form else done.stderr)).decode("utf-8", "replace")
            if form == ("--json",) and done.stdout:
                try:
                    json.loads(done.stdout)
                    figures.take(True, what)
                except ValueError as error:
                    figures.take(False, what, str(error))
            elif form == ("--csv",):
                cells = [cell for row in csv.reader(io.StringIO(text)) for cell in row]
                figures.take(not any(FORMULA.match(cell) and not re.fullmatch(r"-?[\d.]+", cell) for cell in cells), what,
                             repr([cell for cell in cells if FORMULA.match(cell)][:2]))
            else:
                found = HARMFUL.search(text)
                figures.take(not found, what, repr(text[max(0, found.start() - 30):found.end() + 10]) if found else "")


def hostile(start, scratch, most):
    figures = kept.Figures("hostile tune files and titles")
    library = scratch / "hostile" / "library.db"
    folder = scratch / "hostile" / "tunes"
    folder.mkdir(parents=True)
    for number, (what, text) in enumerate(tunes()):
        if kept.is_short(most) and (number % 5 != 0 or len(text) > 20000):
            continue
        (folder / (what.replace(" ", "_") + ".abc")).write_bytes(text.encode("utf-8", "surrogatepass"))
    try:
        done = kept.gamut(library, "import", folder, seconds=120)
        figures.take(done.returncode in (0, 1), "import", f"exit {done.returncode} {done.stderr[-300:]!r}")
        found = HARMFUL.search(done.stderr.decode("utf-8", "replace"))
        figures.take(not found, "import: what it prints")
    except subprocess.TimeoutExpired:
        figures.take(False, "import", "never ends")
        return [figures]
    listed = json.loads(kept.gamut(library, "tunes", "--json").stdout)["tunes"]
    ids = [tune["id"] for tune in listed]
    judge_outputs(figures, library, ids if most is None else ids[::7])
    for one in ids:
        for words in (("tunebook", str(one)), ("tunebook", str(one), "--move", "2"), ("tune", str(one), "--on", "bc21")):
            try:
                done = kept.gamut(library, *words, seconds=60)
                figures.take(0 <= done.returncode <= 3, " ".join(words), f"exit {done.returncode} {done.stderr[-200:]!r}")
            except subprocess.TimeoutExpired:
                figures.take(False, " ".join(words), "never ends")
    for path in pathlib.Path(folder).iterdir():
        for shape in ("tokens", "melody", "facts"):
            try:
                done = kept.gamut(library, "read", "--as", shape, path, seconds=60)
                figures.take(0 <= done.returncode <= 3 and not HARMFUL.search(done.stderr.decode("utf-8", "replace")), f"read --as {shape} {path.name}",
                             f"exit {done.returncode}")
            except subprocess.TimeoutExpired:
                figures.take(False, f"read --as {shape} {path.name}", "never ends")
    return [figures]
