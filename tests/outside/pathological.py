#!/usr/bin/env python3
"""Hostile and monstrous files: every one is read to its end, within a budget of processor time and of memory.

The budgets are house choices: reading is meant to be linear in the bytes, so each is what a linear reader needs on a slow
machine, with room; a quadratic one misses them by orders of magnitude.
"""
import json
import pathlib
import sys
import tempfile

import program

MEGABYTE = 1_000_000
HEAD = b"X:1\nT:Monster\nM:4/4\nL:1/8\nK:C\n"


def many_tunes(count):
    return b"".join(b"X:%d\nK:C\nC\n\n" % number for number in range(1, count + 1))


def unbroken_tunes(count):
    return b"X:1\n" * count


# name, bytes (made when wanted), seconds, megabytes of memory, tunes found (None: not said)
CASES = (
    ("a line of 10 MB", lambda: HEAD + b"CDEF GABc|" * MEGABYTE + b"\n", 5, 2000, 1),
    ("a line of 100 MB", lambda: HEAD + b"CDEF GABc|" * (10 * MEGABYTE) + b"\n", 40, 8000, 1),
    ("ten lines of 900 kB", lambda: HEAD + (b"CDEF GABc|" * 90_000 + b"\n") * 10, 10, 2000, 1),
    ("900 kB without a bar line", lambda: HEAD + b"C" * 900_000 + b"\n", 5, 600, 1),
    ("900 kB of accidentals in one bar", lambda: HEAD + b"^C_c=c" * 150_000 + b"\n", 5, 600, 1),
    ("900 kB of chord", lambda: HEAD + b"[" + b"C" * 900_000 + b"]\n", 5, 600, 1),
    ("900 kB of grace notes", lambda: HEAD + b"{" + b"c" * 900_000 + b"}C\n", 5, 600, 1),
    ("10 MB without a bar line", lambda: HEAD + b"C" * (10 * MEGABYTE) + b"\n", 5, 2000, 1),
    ("50,000 open brackets", lambda: HEAD + b"[" * 50_000 + b"C\n", 2, 400, 1),
    ("50,000 open braces", lambda: HEAD + b"{" * 50_000 + b"C\n", 2, 400, 1),
    ("50,000 open slurs", lambda: HEAD + b"(" * 50_000 + b"C\n", 2, 400, 1),
    ("50,000 quotes", lambda: HEAD + b'"C' * 50_000 + b"\n", 2, 400, 1),
    ("50,000 exclamation marks", lambda: HEAD + b"!C|" * 50_000 + b"\n", 2, 400, 1),
    ("50,000 inline fields left open", lambda: HEAD + b"[K:" * 50_000 + b"\n", 2, 400, 1),
    ("50,000 plus signs", lambda: HEAD + b"+C" * 50_000 + b"\n", 2, 400, 1),
    ("1 MB of backslashes", lambda: HEAD + b"\\" * MEGABYTE + b"\nC\n", 2, 400, 1),
    ("1 MB of title", lambda: b"X:1\nT:" + b"&eacute;" * (MEGABYTE // 8) + b"\nK:C\nC\n", 2, 400, 1),
    ("50,000 titles", lambda: b"X:1\n" + b"T:A\n" * 50_000 + b"K:C\nC\n", 2, 400, 1),
    ("50,000 continued fields", lambda: b"X:1\nT:A\n" + b"+:B\n" * 50_000 + b"K:C\nC\n", 2, 400, 1),
    ("deep overlays", lambda: HEAD + b"C&E" * 50_000 + b"|\n", 3, 400, 1),
    ("50,000 voices", lambda: HEAD + b"".join(b"[V:%d]C" % n for n in range(50_000)) + b"\n", 2, 400, 1),
    ("50,000 key changes", lambda: HEAD + b"[K:D]F" * 50_000 + b"\n", 3, 400, 1),
    ("1 MB of accidentals", lambda: HEAD + b"^" * MEGABYTE + b"C\n", 3, 600, 1),
    ("1 MB of octave marks", lambda: HEAD + b"C" + b"'" * MEGABYTE + b"\n", 2, 400, 1),
    ("1 MB of slashes", lambda: HEAD + b"C" + b"/" * MEGABYTE + b"\n", 2, 400, 1),
    ("1 MB of broken rhythm", lambda: HEAD + b"C" + b">" * MEGABYTE + b"D\n", 2, 400, 1),
    ("200,000 nested tuplets", lambda: HEAD + b"(3:2:99999" * 200_000 + b"CDE|\n", 5, 600, 1),
    ("huge numbers", lambda: HEAD + b"C" + b"9" * 100_000 + b"/" + b"7" * 100_000 + b" Z" + b"9" * 100_000
     + b" (" + b"9" * 100_000 + b":2:3CDE|\n", 2, 400, 1),
    ("a huge X: number", lambda: b"X:" + b"9" * 100_000 + b"\nK:C\nC\n", 2, 400, 1),
    ("a huge meter", lambda: b"X:1\nM:" + b"1+" * 100_000 + b"1/8\nK:C\nC|\n", 2, 400, 1),
    ("a huge key", lambda: b"X:1\nK:C " + b"^f" * 100_000 + b"\nC|\n", 2, 400, 1),
    ("macros on macros", lambda: b"X:1\n" + b"m:a=" + b"a" * 200 + b"\n" + b"K:C\n" + b"a" * 50_000 + b"\n", 10, 2000, 1),
    ("20,000 macros", lambda: b"X:1\n" + b"".join(b"m:~%d=C\n" % n for n in range(20_000)) + b"K:C\n" + b"~CD" * 5_000 + b"\n",
     20, 400, 1),
    ("200,000 tunes", lambda: many_tunes(200_000), 15, 400, 200_000),
    ("200,000 X: lines", lambda: unbroken_tunes(200_000), 10, 400, None),
    ("200,000 empty lines", lambda: HEAD + b"\n" * 200_000, 2, 400, 1),
    ("200,000 unknown letters", lambda: HEAD + b"h" * 200_000 + b"\n", 3, 400, 1),
    ("10 MB of returns", lambda: HEAD + b"\r" * (10 * MEGABYTE), 3, 1000, 1),
    ("10 MB of no UTF-8", lambda: HEAD + b"\xff\xfe" * (5 * MEGABYTE), 5, 1500, 1),
)
# Passed over whole, without a tune: it is no text.
BINARY = b"\0" * (10 * MEGABYTE)


def facts_of(path, seconds_allowed):
    """Ended well beyond what is allowed, so that a reader gone astray does not hold up everything else."""
    return program.Measured(["read", "--as", "facts", "--json", path], round(2 * seconds_allowed * program.TIME_FACTOR) + 1)


def check_library(checks, scratch):
    """One tune in very many settings, and a player who has played another very often: asking and saying stay linear."""
    library, settings, players = scratch / "library.db", scratch / "settings.abc", scratch / "players.json"
    settings.write_text("".join(f"X:{number}\nT:Lamp\nM:4/4\nL:1/8\nK:G\n|:GABcdefg|GABcdefg:|\n\n" for number in range(1, 20_001))
                        + "X:20001\nT:Rope\nM:6/8\nL:1/8\nK:D\n|:def agf|edc d3:|\n")
    program.run("import", settings, library=library)
    days = [f"{2027 + day // 360}-{day // 30 % 12 + 1:02}-{day % 28 + 1:02}" for day in range(20_000)]
    tune = {"id": 20_001, "title": "Rope", "events": [{"day": day, "event": "played"} for day in days]}
    players.write_text(json.dumps({"version": 1, "players": [{"name": "Ina", "tunes": [tune]}]}))
    for words in (("tune", "1", "--json"), ("tune", "1"), ("check",), ("tunebook", "1"), ("player", "import", players)):
        asked = program.Measured(words, round(10 * program.TIME_FACTOR) + 1, library=library)
        name = f"20,000 settings and as many events: {words[0]} {words[1] if len(words) > 1 and words[1] in ('1', 'import') else ''}"
        print(f"{name}: {asked.seconds:.2f} s, exit {asked.code}")
        checks.equal(f"{name}: exit", asked.code, 0)
        checks.that(f"{name}: in 5 s", asked.seconds <= 5 * program.TIME_FACTOR, f"{asked.seconds:.2f} s")


def main():
    checks = program.Checks()
    is_sanitized = program.TIME_FACTOR > 1
    with tempfile.TemporaryDirectory() as scratch:
        path = pathlib.Path(scratch) / "monster.abc"
        for name, make, seconds_allowed, megabytes, tunes in CASES:
            if is_sanitized and "100 MB" in name:
                continue  # the sanitizers' own memory would be measured
            path.write_bytes(make())
            read = facts_of(path, seconds_allowed)
            code, output, errors, seconds, peak = read.code, read.output, read.errors, read.seconds, read.peak
            print(f"{name}: {seconds:.2f} s, {peak / 1e6:.0f} MB, exit {code}, "
                  f"{len(output):,} bytes out, {len(errors):,} of errors")
            checks.that(f"{name}: read", code in (0, 1), f"exit {code}", errors[-500:].decode("utf-8", "replace"))
            is_in_time = seconds <= seconds_allowed * program.TIME_FACTOR
            checks.that(f"{name}: in {seconds_allowed} s", is_in_time, f"{seconds:.2f} s")
            if not is_sanitized:
                checks.that(f"{name}: in {megabytes} MB", peak <= megabytes * 1e6, f"{peak / 1e6:.0f} MB")
            checks.that(f"{name}: few words about it", len(errors) < 4 * MEGABYTE, f"{len(errors)} bytes of errors")
            if code in (0, 1) and tunes is not None:
                checks.equal(f"{name}: tunes", len(json.loads(output)["tunes"]), tunes)
        check_library(checks, pathlib.Path(scratch))
        path.write_bytes(BINARY)
        read = facts_of(path, 1)
        checks.equal("NULs: exit code", read.code, 1)
        checks.that("NULs: in a second", read.seconds <= program.TIME_FACTOR, f"{read.seconds:.2f} s")
        checks.that("NULs: no tune", read.code != 1 or json.loads(read.output)["tunes"] == [])
        checks.that("NULs: one sentence", 0 < read.errors.count(b"\n") <= 2 and b"\0" not in read.errors, read.errors[:300])
    return checks.exit_code()


if __name__ == "__main__":
    sys.exit(main())
