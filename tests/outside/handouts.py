#!/usr/bin/env python3
"""Sheets of paper hold the tune: every note in order, every bar as wide as it is long, no page too full.

    tests/outside/handouts.py [--gamut PROGRAM]

For every tune of the sample library, and where the folder `shared` is beside the repository for tunes of O'Neill's, the notes
on the sheet (data-note) have to be those of `gamut read --as melody`, which an independent converter has checked
(tests/outside). Each drawing is read by Python's XML parser; with chromium and pdftotext (poppler) at hand the sheets are
printed on A4 and Letter, and counted and measured there. Exit 77 where these are not there: the rest was checked.
"""
import argparse
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree

REPOSITORY = pathlib.Path(__file__).resolve().parents[2]
SHARED = pathlib.Path(os.environ.get("GAMUT_SHARED", REPOSITORY.parent / "shared"))
INSTRUMENTS = ("whistle-d", "bc21", "fiddle-1", "english48", "anglo30", "harp-c", "highland-pipes", "harmonica-d",
               "recorder-descant", "voice-high", "mandolin-1", "onerow-d")
# The design area of a page, mm: src/paper/page.h.
WIDTH, HEIGHT = 178, 254
POINT = 25.4 / 72  # mm
NATURALS = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
EVERY_NTH_OF_BOOK = 40


def midi(note):
    letter, signs, octave = re.fullmatch(r"([A-G])(#*|b*)(-?\d)", note).groups()
    return NATURALS[letter] + signs.count("#") - signs.count("b") + 12 * (int(octave) + 1)


def struck(pitches):
    """The upper note of each sound that is struck. Section 17 of the rule book: `g` grace, `(n)` tied, `a+b` chord, `z` rest."""
    notes = []
    for sound in pitches:
        if sound.startswith("g") or sound in ("z", "x", "Z"):
            continue
        heads = sound.split("+")
        top = max(heads, key=lambda head: int(head.strip("()")))
        if not top.startswith("("):
            notes.append(int(top))
    return notes


class Checks:
    def __init__(self):
        self.done, self.faults = 0, []

    def __call__(self, is_so, what):
        self.done += 1
        if not is_so:
            self.faults.append(what)


def sheet(gamut, environment, *words):
    return subprocess.run([gamut, "handout", *map(str, words)], capture_output=True, text=True, env=environment, check=True).stdout


def check_drawings(check, html, what):
    for drawing in re.findall(r"<svg.*?</svg>", html, re.S):
        try:
            root = ElementTree.fromstring(drawing)
        except ElementTree.ParseError as fault:
            check(False, f"{what}: a drawing is no XML: {fault}")
            continue
        names = [child.tag.split("}")[1] for child in list(root)[:2]]
        check(names == ["title", "desc"], f"{what}: a drawing without title and description")
        check(float(root.get("width")[:-2]) <= WIDTH + 0.01, f"{what}: wider than the page: {root.get('width')}")
        thin = [float(width) for width in re.findall(r'stroke-width="([\d.]+)"', drawing) if float(width) < 0.3]
        check(not thin, f"{what}: strokes too thin for a copier: {thin[:3]}")
    check("<script" not in html and " onload" not in html, f"{what}: a script")
    heights = [sum(map(float, re.findall(r'^<div class="piece" style="height:([\d.]+)mm">', page, re.M)))
               for page in html.split('<section class="page">')[1:]]
    check(heights and max(heights) <= HEIGHT * 2, f"{what}: {heights}")


def check_tunes(check, gamut, folder, book, every=1):
    environment = {"PATH": os.environ["PATH"], "GAMUT_LIBRARY": str(folder / f"{book.name}.db"), "NO_COLOR": "1"}
    subprocess.run([gamut, "import", str(book)], capture_output=True, env=environment)
    rows = json.loads(subprocess.run([gamut, "tunes", "--settings", "--json"], capture_output=True, text=True, env=environment).stdout)["tunes"]
    melodies = {}
    for path in book.rglob("*.abc"):
        read = json.loads(subprocess.run([gamut, "read", "--as", "melody", "--json", str(path)], capture_output=True, text=True, env=environment).stdout)
        for tune in read["tunes"]:
            melodies[path.name, tune["line"]] = tune
    seen = set()
    for at, row in enumerate(rows[::every]):
        if row["id"] in seen or not row["pitches"]:
            continue
        seen.add(row["id"])
        tune = melodies[pathlib.Path(row["file"]).name, row["line"]]
        instrument = INSTRUMENTS[at % len(INSTRUMENTS)]
        html = sheet(gamut, environment, "--tune", row["id"], "--instrument", instrument)
        if row["title"] not in re.sub(r"&#39;|&amp;|&quot;", lambda found: {"&#39;": "'", "&amp;": "&", "&quot;": '"'}[found[0]], html):
            continue  # the family's other setting is shown
        notes = [midi(note) for note in re.findall(r'data-note="([^"]+)"', html)]
        check(notes == struck(tune["pitches"]), f"{row['title']} on {instrument}: {len(notes)} notes of {len(struck(tune['pitches']))}")
        check_drawings(check, html, f"{row['title']} on {instrument}")
    return environment


def print_pages(check, chromium, folder, html, what):
    for size in ("A4", "Letter"):
        source, target = folder / f"{size}.html", folder / f"{size}.pdf"
        source.write_text(html.replace("@page {", f"@page {{ size: {size};", 1))
        subprocess.run([chromium, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
                        "--disable-component-update", "--disable-sync", f"--user-data-dir={folder / 'profile'}", "--no-pdf-header-footer",
                        f"--print-to-pdf={target}", str(source)], capture_output=True, timeout=120)
        words = subprocess.run(["pdftotext", "-bbox", str(target), "-"], capture_output=True, text=True).stdout
        pages = words.split("<page ")[1:]
        check(len(pages) == html.count('<section class="page">'), f"{what} on {size}: {len(pages)} pages of {html.count('<section class=')}")
        for page in pages:
            width, height = (float(found) * POINT for found in re.match(r'width="([\d.]+)" height="([\d.]+)"', page).groups())
            for left, top, right, bottom in re.findall(r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)"', page):
                check(float(left) * POINT > 19 and float(right) * POINT < width - 11 and float(top) * POINT > 10 and float(bottom) * POINT < height - 10,
                      f"{what} on {size}: a word beyond the margin")
            check(">page<" in page, f"{what} on {size}: a page without a number")


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--gamut", default=REPOSITORY / "build" / "gamut", type=pathlib.Path)
    gamut = str(parser.parse_args().gamut.resolve())
    check = Checks()
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        environment = check_tunes(check, gamut, folder, REPOSITORY / "sample-library")
        book = SHARED / "corpus" / "oneills"
        if book.is_dir():
            check_tunes(check, gamut, folder, book, EVERY_NTH_OF_BOOK)
        chromium = shutil.which("chromium")
        prints = chromium is not None and shutil.which("pdftotext") is not None
        if prints:
            for words in (("--tune", "38", "--instrument", "bc21"), ("--tune", "38", "--instrument", "whistle-d"), ("--tune", "42", "--instrument", "anglo30"),
                          ("--tune", "25", "--instrument", "fiddle-1"), ("--tune", "38", "--large"), ("--step", "1", "--have", "G:major A3..B5", "--instrument", "bc21")):
                print_pages(check, chromium, folder, sheet(gamut, environment, *words), " ".join(words))
    for fault in check.faults[:20]:
        print(fault, file=sys.stderr)
    print(f"handouts: {check.done} checks, {len(check.faults)} faults" + ("" if prints else "; nothing was printed: chromium or pdftotext is not there"))
    return 1 if check.faults else 0 if prints else 77


if __name__ == "__main__":
    sys.exit(main())
