#!/usr/bin/env python3
"""What is printed on a terminal keeps to it: no line of a text answer is wider than the terminal, and none holds a control
character. On a pseudo terminal, over the sample library. The width of a letter is Unicode's East_Asian_Width."""
import fcntl
import os
import pathlib
import pty
import struct
import subprocess
import sys
import tempfile
import termios
import tty
import unicodedata

import program

# Longer than any page, so that every place they come to has to wrap or cut them.
LONG_TITLE = "The Lighthouse Keeper's Long and Rather Winding Way Home from the Harbour, Once More Without Hurrying"
LONG_REASON = "it asks for a breath where the tune has none, and the others always play it too fast for me"
HOSTILE = f"""X:1
T:{LONG_TITLE}
R:reel
M:4/4
L:1/8
K:D
DEFG ABcd|DEFG ABcd|^GEFG ABcd|DEFG A4|

X:2
T:Esc \033]0;pwn\007
R:reel
M:4/4
L:1/8
K:D
DEFG ABcd|

X:3
R:jig
M:6/8
L:1/8
K:G
GAB dBG|GAB dBG|
"""

COMMANDS = [
    ["tunes"],
    ["tunes", "--settings"],
    ["tunes", "--fits", "D:major", "--missing", "4"],
    ["tunes", "--after", "kettle"],
    ["tunes", "--after", "two turns"],
    ["tunes", "--after", LONG_TITLE],
    ["tunes", "--goes", "d e f d"],
    ["tune", "two turns", "--on", "whistle-d"],
    ["tune", "kettle", "--on", "bc21"],
    ["tune", LONG_TITLE, "--have", "D E F# A"],
    ["next", "Kit"],
    ["next", "Una"],
    ["next", "Kit", "--towards", "two turns"],
    ["next", "Kit", "--review", "--today", "2027-05-01"],
    ["evening", "--minutes", "30"],
    ["drill", "--new", "C#5", "--have", "D4 E4 F#4 G4 A4 B4", "--instrument", "whistle-d"],
    ["instrument", "list"],
    ["instrument", "show", "bc21"],
    ["instrument", "show", "whistle-d"],
    ["instrument", "fit"],
    ["together", "--for", "Kit", "--for", "Una"],
    ["check"],
    ["same"],
    ["player", "list"],
    ["player", "show", "Kit"],
    ["player", "history", "Kit"],
    ["notes"],
    ["notes", "--for", "Kit"],
    ["path", "--for", "Kit"],
    ["path", "--have", "D:major", "--order", "C5 G#4"],
    ["path", "--best-in", "4"],
    ["syllabus", "Tuesdays"],
    ["syllabus"],
]


def on_terminal(words, columns, library):
    """What the program prints to standard output, which is a terminal of so many columns."""
    master, slave = pty.openpty()
    fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
    tty.setraw(slave)  # line ends as they are written
    kept = program.environment(library)
    del kept["COLUMNS"]
    child = subprocess.Popen([program.PROGRAM, *words], stdin=subprocess.DEVNULL, stdout=slave, stderr=subprocess.PIPE, env=kept)
    os.close(slave)
    pieces = []
    while True:
        try:
            piece = os.read(master, 65536)
        except OSError:  # the other side was closed
            piece = b""
        if not piece:
            break
        pieces.append(piece)
    os.close(master)
    errors = child.stderr.read().decode()
    child.stderr.close()
    return child.wait(), b"".join(pieces).decode(), errors


def width(line):
    return sum(0 if unicodedata.combining(letter) else 2 if unicodedata.east_asian_width(letter) in "WF" else 1 for letter in line)


def is_control(letter):
    return unicodedata.category(letter) == "Cc" and letter not in "\r\n"


def main():
    checks = program.Checks()
    with tempfile.TemporaryDirectory() as scratch:
        folder, library = pathlib.Path(scratch), pathlib.Path(scratch) / "library.db"
        (folder / "hostile.abc").write_text(HOSTILE)
        program.run("import", program.SAMPLE, folder / "hostile.abc", library=library, exits=(0, 1))
        program.run("player", "add", "Kit", "--instrument", "whistle-d", "--notes", "D:major", "--knows", "storm",
                    "--on", "2027-01-12", library=library)
        program.run("player", "add", "Una", "--notes", "D4 E4", library=library)
        program.run("player", "tune", "Kit", "unwanted", LONG_TITLE, "--because", LONG_REASON, library=library)
        program.run("player", "tune", "Kit", "wished", "two turns", library=library)
        program.run("syllabus", "Tuesdays", "--from", "2027-01-12", "--on", "tuesday", "--lessons", "6", "--have", "D:major",
                    "--today", "2026-12-01", library=library, exits=(0, 1))
        for words in COMMANDS:
            for columns in (80, 60, 40):
                name = f"{' '.join(words)} at {columns}"
                code, text, errors = on_terminal(words, columns, library)
                checks.that(f"{name}: is answered", code in (0, 1), errors)
                wide = [line for line in text.split("\n") if width(line) > columns]
                checks.that(f"{name}: fits", not wide, *wide[:3])
                checks.that(f"{name}: no control character", not any(map(is_control, text)))
        screen, all_rows = (on_terminal(words, 80, library)[1] for words in (["tunes"], ["tunes", "--all"]))
        checks.that("tunes on a terminal: no more than a screen of 24 lines", screen.count("\n") <= 24, screen)
        checks.that("tunes on a terminal: says how to see more", "(16 shown; --all shows all)" in screen, screen)
        checks.that("tunes --all on a terminal: all", "72 tunes match; 0 left out" in all_rows and all_rows.count("\n") > 72, all_rows)
        for columns in (80, 60, 40):
            text = " ".join(on_terminal(["player", "show", "Kit"], columns, library)[1].split())
            missing = [word for word in LONG_REASON.split() + LONG_TITLE.split() if word not in text]
            checks.equal(f"player show at {columns}: words that are cut", missing, [])
        for words in (["tunes", "--title", "esc", "--csv"], ["tunes", "--settings", "--csv"], ["player", "show", "Kit", "--csv"],
                      ["tunebook", "2"], ["tune", "esc", "--json"]):
            name = " ".join(words)
            _, shown, _ = on_terminal(words, 80, library)
            checks.that(f"{name} on a terminal: no control character", not any(map(is_control, shown)))
            piped = program.run(*words, library=library, exits=(0, 1)).stdout.decode()
            checks.equal(f"{name}: the same but for control characters", shown,
                         "".join(" " if is_control(letter) else letter for letter in piped))
        piped = program.run("tunes", "--title", "esc", "--csv", library=library).stdout
        checks.that("into a pipe the bytes stay as they are", b"Esc \x1b]0;pwn\x07" in piped)
    return checks.exit_code()


if __name__ == "__main__":
    sys.exit(main())
