#!/usr/bin/env python3
"""What runs of bar signs repeat: the order in which gamut and abc2midi (Debian package abcmidi) play three parts around one.

The run stands between the first part and the second; the second ends in `:|`, the third in `|]`. A note a bar says which
bar is played.
"""
import pathlib
import shutil
import subprocess
import sys
import tempfile

import midi_file
import program

RUNS = ("|", "||", "|]", "[|", "[|]", "|:", ":|", "::", ":|:", ":||:", "|::", "::|", ":||", ":|]", "||:", "[|:",
        "[|]:|", "|[|:", ":|]|:", "||:|", ":|[|]", "|]:|", ":|:|", "|:|", "|::|", ":||:|", "|[|]:", "[|]:|:", "|||:|",
        "|[|]:|", ":[|]|]", "[|][|]|]", ":|||:", "|]|:", "::::", "|:::|")

TO_THE_DOUBLE_BAR = ("a `:|` that nothing opens goes back to the latest double bar (ABC 2.1, section 4.8); "
                     "the converter goes to the start")
CLOSED_BY_ITSELF = "the converter closes a repeat where another opens; gamut check asks"
NOT_OPENED = "the converter opens no repeat; everybody who writes it means one"

# (opening, run) -> why the converter is not followed.
READ_DIFFERENTLY = {
    ("", "||"): TO_THE_DOUBLE_BAR,
    ("", "|]"): TO_THE_DOUBLE_BAR,
    ("", "[|"): TO_THE_DOUBLE_BAR,
    ("", "[|][|]|]"): TO_THE_DOUBLE_BAR,
    ("|:", "|:"): CLOSED_BY_ITSELF,
    ("|:", "|::"): CLOSED_BY_ITSELF,
    ("|:", "[|:"): CLOSED_BY_ITSELF,
    ("|:", "|[|:"): CLOSED_BY_ITSELF,
    ("|:", "|]|:"): CLOSED_BY_ITSELF,
    ("", "||:"): NOT_OPENED,
    ("|:", "||:"): NOT_OPENED,
    ("", "|[|]:"): NOT_OPENED,
    ("|:", "|[|]:"): NOT_OPENED,
    ("", "|:|"): "the converter opens one; all 11 of O'Neill's Music of Ireland stand at the end of a part",
    ("", "|||:|"): "the same",
    ("", "|::|"): "the converter only opens; two colons between lines end one repeat and begin the next",
    ("", "|:::|"): "the same",
    ("", ":[|]|]"): "the converter passes over the colon",
    ("|:", ":[|]|]"): "the same",
}

PARTS = ("C4|D4|E4|F4", "G4|A4|B4|c4", "d4|e4|f4|g4")
KEYS = (60, 62, 64, 65, 67, 69, 71, 72, 74, 76, 77, 79)  # of the bars in turn


def tune(number, opening, run):
    return f"X:{number}\nT:{number}\nM:4/4\nL:1/4\nK:C\n{opening}{PARTS[0]}{run}{PARTS[1]}:|{PARTS[2]}|]\n\n"


def bars_played(row):
    """Numbers of the bars in the order of the tune's form."""
    structure = row["structure"]
    bars = {part["label"]: list(range(part["first_bar"], part["last_bar"] + 1)) for part in structure["parts"]}
    return [bar for label in structure["form"] for bar in bars[label]]


def main():
    if shutil.which("abc2midi") is None:
        print("skipped: abc2midi is not installed (scripts/setup does)")
        return program.SKIPPED
    checks = program.Checks()
    cases = [(opening, run) for opening in ("", "|:") for run in RUNS]
    differing = set()
    with tempfile.TemporaryDirectory() as scratch:
        book = pathlib.Path(scratch) / "book.abc"
        book.write_text("".join(tune(number, *case) for number, case in enumerate(cases, 1)), encoding="utf-8")
        rows = program.answer("read", book)["tunes"]
        checks.equal("tunes", len(rows), len(cases))
        subprocess.run(["abc2midi", book.name], cwd=scratch, capture_output=True, check=True)
        for number, ((opening, run), row) in enumerate(zip(cases, rows), 1):
            tracks = midi_file.strikes((book.parent / f"book{number}.mid").read_bytes())
            heard = [KEYS.index(key) + 1 for track in tracks for _, key in track]
            if (opening, run) not in READ_DIFFERENTLY:
                checks.equal(f"{opening}A {run} B", bars_played(row), heard)
            elif bars_played(row) != heard:
                differing.add((opening, run))
    checks.equal("runs read differently", sorted(differing), sorted(READ_DIFFERENTLY))
    return checks.exit_code()


if __name__ == "__main__":
    sys.exit(main())
