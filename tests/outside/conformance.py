#!/usr/bin/env python3
"""Every worked case of the ABC rules: exact pitches, lengths and key.

Source: the open ABC music standard 2.1 (December 2011), by section in the case table. Cases marked `firm` follow from its
letter and must hold; `volatile`, `silent` and `legacy` ones are common practice or tolerant reading and must hold unless
they are listed below with the reason.
"""
import collections
import pathlib
import sys
import tempfile

import program

# id -> why gamut reads this differently. Never a firm case.
READ_DIFFERENTLY = {
}

ESCAPES = {"n": "\n", "r": "\r", "t": "\t", "\\": "\\"}


def unescape(text):
    result, position = [], 0
    while position < len(text):
        if text[position] == "\\":
            result.append(ESCAPES[text[position + 1]])
            position += 2
        else:
            result.append(text[position])
            position += 1
    return "".join(result)


def rows(path):
    lines = path.read_text(encoding="utf-8").split("\n")
    names = lines[0].split("\t")
    for line in lines[1:]:
        if line:
            yield dict(zip(names, line.split("\t"), strict=True))


def differences(row, tunes):
    if len(tunes) != 1:
        return [f"expected one tune, found {len(tunes)}"]
    tune = tunes[0]
    found = {"pitches": " ".join(tune["pitches"]), "durations": " ".join(tune["durations"]),
             "key": tune["key_stated"]}
    return [f"{name}: expected {row[name]!r}, found {found[name]!r}" for name in found
            if not (name == "durations" and row[name] == "-") and found[name] != row[name]]


def main():
    table = program.shared("abc", "conformance.tsv")
    passed, failed, listed = collections.Counter(), collections.Counter(), collections.Counter()
    unused = set(READ_DIFFERENTLY)
    with tempfile.TemporaryDirectory() as scratch:
        path = pathlib.Path(scratch) / "case.abc"
        for row in rows(table):
            weight = row["note"].split(":")[0].split()[0]
            path.write_bytes(unescape(row["abc"]).encode("utf-8"))
            wrong = differences(row, program.melodies(path))
            if not wrong:
                passed[weight] += 1
            elif row["id"] in READ_DIFFERENTLY and weight != "firm":
                listed[weight] += 1
                unused.discard(row["id"])
            else:
                failed[weight] += 1
                print(f"{row['id']} (section {row['section']}, {weight}): {row['what']}")
                print(f"    {row['abc']}")
                for line in wrong:
                    print(f"    {line}")
    for name in sorted(unused):
        print(f"{name} is listed as read differently, but is firm, unknown or read as in the table: take it off the list")
    for weight in sorted(passed | failed | listed):
        print(f"{weight}: {passed[weight]} passed, {failed[weight]} failed, {listed[weight]} listed as read differently")
    return 1 if failed or unused or not passed else 0


if __name__ == "__main__":
    sys.exit(main())
