#!/usr/bin/env python3
"""JSON answers are as schema/output.md says: no key that does not stand there, none left out, none of another type.

    tests/golden/shapes.py [--gamut PROGRAM]

Reads the blocks `shape` of that page, whose notation it explains, and holds two things against them: every whole JSON
answer in the golden cases, and what every command answers with --json on the sample library (ANSWERS below). Fails too
when a key stands in a block and not in the words around it, when a shape is met by no answer here, or a key that may be
absent by none. tests/golden/shapes_test.py shows that it can fail.
"""
import argparse
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile

from run import Case

HERE = pathlib.Path(__file__).resolve().parent
REPOSITORY = HERE.parents[1]
PAGE = REPOSITORY / "schema" / "output.md"
SAMPLE = REPOSITORY / "sample-library"
TODAY = "2027-02-01"

BLOCK = re.compile(r"^```shape\n(.*?)^```$", re.M | re.S)
TOKEN = re.compile(r'\s*(?:([A-Za-z_][\w/-]*\??)|"([^"]*)"|([={}\[\]|+,:]))')
NOTE = re.compile(r"[A-G](#{1,2}|b{1,2})?-?\d+")
NAME = re.compile(r"[A-G](#{1,2}|b{1,2})?")
DAY = re.compile(r"\d{4}-\d\d-\d\d")


def is_whole(value):
    return isinstance(value, int) and not isinstance(value, bool)


def is_text(form=None):
    return lambda value: isinstance(value, str) and (form is None or form.fullmatch(value) is not None)


PLAIN = {
    "whole": is_whole,
    "number": lambda value: is_whole(value) or isinstance(value, float),
    "yes/no": lambda value: isinstance(value, bool),
    "text": is_text(),
    "note": is_text(NOTE),
    "name": is_text(NAME),
    "day": is_text(DAY),
    "null": lambda value: value is None,
}


class ShapeFault(Exception):
    """The page is not written in its own notation."""


# What a type is: ("plain", NAME), ("words", TEXT), ("list", TYPE), ("map", KEY TYPE, TYPE), ("object", {key: (TYPE, may be
# absent)}), ("part", NAME), ("either", [TYPE]), ("both", [TYPE]).
class Reader:
    def __init__(self, text):
        self.tokens, at = [], 0
        text = text.rstrip()
        while at < len(text):
            match = TOKEN.match(text, at)
            if not match:
                raise ShapeFault(f"cannot read a shape at {text[at:at + 40]!r}")
            self.tokens.append((match.lastindex, match[match.lastindex]))
            at = match.end()
        self.at = 0

    def next(self, *expected):
        kind, token = self.tokens[self.at] if self.at < len(self.tokens) else (0, "the end")
        if expected and token not in expected:
            raise ShapeFault(f"expected {' or '.join(expected)}, found {token}")
        self.at += 1
        return kind, token

    def sees(self, token):
        return self.at < len(self.tokens) and self.tokens[self.at] == (3, token)

    def shapes(self):
        """(kind, name, TYPE), kind being `answer` or `part`."""
        while self.at < len(self.tokens):
            kind, name = self.next("answer", "part")[1], self.next()[1]
            self.next("=")
            yield kind, name, self.type()

    def type(self):
        each = [self.sum()]
        while self.sees("|"):
            self.next()
            each.append(self.sum())
        return each[0] if len(each) == 1 else ("either", each)

    def sum(self):
        each = [self.one()]
        while self.sees("+"):
            self.next()
            each.append(self.one())
        return each[0] if len(each) == 1 else ("both", each)

    def one(self):
        kind, token = self.next()
        if kind == 2:
            return "words", token
        if kind == 1:
            return ("plain", token) if token in PLAIN else ("part", token)
        if token == "[":
            of = self.type()
            self.next("]")
            return "list", of
        if token != "{":
            raise ShapeFault(f"expected a type, found {token}")
        return self.object()

    def object(self):
        keys = {}
        while not self.sees("}"):
            kind, key = self.next()
            if kind != 1:
                raise ShapeFault(f"expected a key, found {key}")
            if key == "each":
                of = self.type()
                self.next(":")
                mapped = ("map", of, self.type())
                self.next("}")
                return mapped
            self.next(":")
            keys[key.rstrip("?")] = (self.type(), key.endswith("?"))
            if self.sees(","):
                self.next()
        self.next("}")
        return "object", keys


class Shapes:
    def __init__(self, page):
        self.answers, self.parts, self.unsaid = {}, {}, []
        self.met = set()  # answers, and `NAME key` of keys that may be absent, that were there
        for section in re.split(r"^(?=## )", page, flags=re.M):
            prose = " ".join(re.findall(r"`([^`\n]+)`", BLOCK.sub("", section)))
            for block in BLOCK.findall(section):
                for kind, name, shape in Reader(block).shapes():
                    of = self.answers if kind == "answer" else self.parts
                    if name in of:
                        raise ShapeFault(f"{kind} {name} is there twice")
                    of[name] = shape
                    self.unsaid += [f"{kind} {name}: {key}" for key in self.keys_in(shape)
                                    if not re.search(rf"(?<![\w-]){re.escape(key)}(?![\w-])", prose)]
        for shape in [*self.answers.values(), *self.parts.values()]:
            self.check_parts(shape)

    def keys_in(self, shape):
        kind, *rest = shape
        if kind == "object":
            for key, (of, _) in rest[0].items():
                yield key
                yield from self.keys_in(of)
        elif kind in ("either", "both"):
            for of in rest[0]:
                yield from self.keys_in(of)
        elif kind in ("list", "map"):
            yield from self.keys_in(rest[-1])

    def check_parts(self, shape):
        kind, *rest = shape
        if kind == "part" and rest[0] not in self.parts:
            raise ShapeFault(f"no part is called {rest[0]}")
        for of in (rest[0] if kind in ("either", "both") else
                   [of for of, _ in rest[0].values()] if kind == "object" else
                   rest if kind in ("list", "map") else []):
            self.check_parts(of)

    def keys_of(self, shape):
        """{key: (TYPE, may be absent)} of an object, a part that is one, or a sum of these."""
        kind, *rest = shape
        if kind == "part":
            return self.keys_of(self.parts[rest[0]])
        if kind == "both":
            return {key: of for each in rest[0] for key, of in self.keys_of(each).items()}
        if kind != "object":
            raise ShapeFault(f"only objects can be put together, not {kind}")
        return rest[0]

    def optional(self):
        """`NAME key` of every key that may be absent."""
        for of in (self.answers, self.parts):
            for name, shape in of.items():
                yield from (f"{name} {key}" for key in self.optional_in(shape))

    def optional_in(self, shape):
        kind, *rest = shape
        if kind == "object":
            for key, (of, may_be_absent) in rest[0].items():
                if may_be_absent:
                    yield key
                yield from self.optional_in(of)
        elif kind in ("either", "both"):
            for of in rest[0]:
                yield from self.optional_in(of)
        elif kind in ("list", "map"):
            yield from self.optional_in(rest[-1])

    def faults_of_answer(self, name, value):
        """What is wrong with a whole answer, sentence by sentence; it counts as met."""
        self.met.add(name)
        if name not in self.answers:
            return [f"no answer is called {name}"]
        keys = {"version": (("plain", "whole"), False), **self.keys_of(self.answers[name])}
        faults = self.faults(("object", keys), value, name, name)
        if not faults and value["version"] != 1:
            faults.append(f"{name}.version is {value['version']}, not 1")
        return faults

    def faults(self, shape, value, place, inside):
        kind, *rest = shape
        if kind == "plain":
            return [] if PLAIN[rest[0]](value) else [f"{place} is {shown(value)}, not {rest[0]}"]
        if kind == "words":
            return [] if value == rest[0] else [f"{place} is {shown(value)}, not \"{rest[0]}\""]
        if kind == "part":
            return self.faults(self.parts[rest[0]], value, place, rest[0])
        if kind == "either":
            each = [self.faults(of, value, place, inside) for of in rest[0]]
            alike = [found for of, found in zip(rest[0], each) if self.could_be(of, value)]
            if [] in each or not alike:
                return [] if [] in each else [f"{place} is {shown(value)}, which may not stand there"]
            return min(alike, key=len)
        if kind == "list":
            if not isinstance(value, list):
                return [f"{place} is {shown(value)}, not a list"]
            return [fault for at, each in enumerate(value) for fault in self.faults(rest[0], each, f"{place}[{at}]", inside)]
        if not isinstance(value, dict):
            return [f"{place} is {shown(value)}, not an object"]
        if kind == "map":
            return [fault for key, each in value.items()
                    for fault in self.faults(rest[0], key, f"the key {place}.{key}", inside) +
                    self.faults(rest[1], each, f"{place}.{key}", inside)]
        keys = self.keys_of(shape)
        found = [f"{place}.{key} stands in no shape" for key in value if key not in keys]
        for key, (of, may_be_absent) in keys.items():
            if key in value:
                found += self.faults(of, value[key], f"{place}.{key}", inside)
                self.met.update({f"{inside} {key}"} if may_be_absent else ())
            elif not may_be_absent:
                found.append(f"{place}.{key} is not there")
        return found

    def could_be(self, shape, value):
        """Whether a fault is better told of what is in the value than of the whole: it is a list or an object, as the shape is."""
        kind, *rest = shape
        if kind == "part":
            return self.could_be(self.parts[rest[0]], value)
        return isinstance(value, list if kind == "list" else dict if kind in ("object", "both", "map") else ())

    def nearest(self, value):
        """The answer whose keys these are most likely."""
        def likeness(name):
            keys = {"version", *self.keys_of(self.answers[name])}
            return len(keys & value.keys()) / len(keys | value.keys())
        best = max(map(likeness, self.answers))
        return [name for name in self.answers if likeness(name) == best]


def shown(value):
    text = json.dumps(value, ensure_ascii=False)
    return text if len(text) <= 60 else text[:57] + "..."


# What is made ready in a fresh library, and what is asked: the shape, and the words of the command.
ASKED = """
import: import $SAMPLE --json
- player add Ina --instrument whistle-d --notes D:major
- player add Olli --instrument bc21
- player add Kit
- player add Wil --instrument whistle-d --notes "D4 E4 F#4"
- player tune Ina known "1,2,3,4,5" --on 2027-01-10
- player tune Ina learning 6 --on 2027-01-12
- player tune Ina wished "7,9,20"
- player tune Ina unwanted 8 --because "no time"
- player played Ina 1 --on 2027-01-20
- player tune Olli known "1,4" --on 2027-01-10
- mark 14 --tag thursday --count 3 --rhythm hornpipe --key Em
release: --version --json
help: help syllabus --json
topics: guide --json
page: guide term --json
tunes: tunes --json
tunes: tunes --settings --json
tunes: tunes --fits "G:major&D:major A3..B5" --missing 2 --json
tunes: tunes --goes "GABd edBA" --json
tunes: tunes --tonic G --mode major --rhythm jig --json
match: tunes --match list.txt --json
match: tunes --match list.txt --fits D:major --json
after: tunes --after 1 --json
after: tunes --after 14 --json
evening: evening --minutes 40 --json
evening: evening --minutes 4 --rhythm jig --json
tune: tune 1 --json
tune: tune 33 --json
tune: tune 1 --on bc21 --json
tune: tune 20 --on whistle-d --json
tune: tune 4 --on onerow-d --json
tune: tune 1 --have "D4 E4 F#4 G4 A4" --json
same: same --json
same: same 1 --least 10 --json
verdict: same 2 4 --json
tune: tune 2 --json
verdict: same --not 2 4 --json
beside: tune 1 --beside 6 --json
too_hard: tune 20 --for Ina --json
too_hard: tune 4 --for Wil --json
check: check --json
check: check --kind twin --rhythm jig --json
mark: mark 14 3 --json
facts: read odd.abc $SAMPLE/harbour.abc --json
melody: read odd.abc $SAMPLE/harbour.abc --as melody --json
notes: notes --json
notes: notes --have D:major --best-start 5 --json
notes: notes --by name --json
instruments: instrument list --json
instrument: instrument show bc21 --json
instrument: instrument show fiddle-1 --json
instrument: instrument show whistle-d --where C5 --json
fit: instrument fit --json
together: together --fits "Ina on whistle-d=D:major" --fits "Olli on bc21=G:major&D:major" --json
player: player show Ina --json
player: player show Kit --json
players: player list --json
history: player history Ina --json
export: player export
next: next Ina --json
next: next Olli --json
next: next Wil --json
ladder: next Ina --towards 20 --json
review: next Ina --review --json
review: next Ina --review --today 2027-01-21 --json
syllabus: syllabus T --from 2027-01-12 --on tuesday --lessons 8 --break 2027-02-16 --have "D4 E4 F#4 G4 A4 B4 D5" --json
syllabus: syllabus T --taught 2 --json
syllabus: syllabus T --lost 4 --json
missed: syllabus T --missed 2 --json
syllabus: syllabus U --from 2027-01-12 --lessons 5 --for Ina --for Olli --json
syllabi: syllabus --json
comparison: syllabus T --compare U --json
drill: drill --have "G:major&D:major A3..B5" --new C5 --instrument bc21 --json
drill: drill --have "G:major&D:major A3..B5" --json
path: path --have "G:major&D:major A3..B5" --json
path: path --have "G:major&D:major A3..B5" --brief --steps 3 --json
path: path --by name --json
path: path --have "G:major&D:major A3..B5" --order "C5 C#5 C4" --json
path: path --have "G:major&D:major A3..B5" --best-in 3 --json
path: path --have "G:major&D:major A3..B5" --first C4 --json
- library backup kept.db
library: library --json
soundness: library check --json
said: library said --json
error: tune zzzz --json
"""

LIST_OF_TITLES = "Kettle\nLamp in the Lee\nLampe on the Lea\nzzzz qqqq\n2 - two turns (D)\n"
ODD_TUNES = "X:1\nT:No Key\nM:4/4\nL:1/4\nABcd|\n\nX:2\nM:3/4\nK:G\n\nX:3\nT:Bad\nM:6/8\nK:Hx\nABc d2|]\n"


def make_ready(folder):
    """The files that ASKED names."""
    (folder / "list.txt").write_text(LIST_OF_TITLES)
    (folder / "odd.abc").write_text(ODD_TUNES)


def surroundings(gamut, folder):
    return {"PATH": f"{pathlib.Path(gamut).resolve().parent}:{os.environ['PATH']}", "HOME": str(folder), "TZ": "UTC", "LC_ALL": "C.UTF-8",
            "GAMUT_LIBRARY": str(folder / "library.db"), "GAMUT_TODAY": TODAY, "SAMPLE": str(SAMPLE)}


def ask(gamut, folder):
    """(shape, command, answer) for each line of ASKED that has a shape."""
    make_ready(folder)
    for line in ASKED.strip().split("\n"):
        shape, words = ("", line[2:]) if line.startswith("- ") else line.split(": ", 1)
        done = subprocess.run(["bash", "-c", "gamut " + words], cwd=folder, capture_output=True, text=True,
                              env=surroundings(gamut, folder))
        if done.returncode > 1:
            raise SystemExit(f"gamut {words}: exit {done.returncode}\n{done.stderr}")
        if shape:
            yield shape, "gamut " + words, json.loads(done.stdout)


def golden_answers():
    """(case, answer) of every line of a golden output that is a whole JSON answer."""
    for path in sorted(HERE.rglob("*.test")):
        for line in Case(path).output:
            if line.startswith('{"version":'):
                try:
                    yield str(path.relative_to(HERE)), json.loads(line)
                except json.JSONDecodeError:
                    pass  # cut short by the case itself


def faults_of_golden(shapes, value):
    return min((shapes.faults_of_answer(name, value) for name in shapes.nearest(value)), key=len)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--gamut", default=os.environ.get("GAMUT", str(REPOSITORY / "build" / "gamut")))
    gamut = parser.parse_args().gamut
    shapes = Shapes(PAGE.read_text(encoding="utf-8"))
    faults, answers = [f"{PAGE.name}: {key} stands in a shape and is not explained" for key in shapes.unsaid], 0
    with tempfile.TemporaryDirectory() as folder:
        for shape, command, value in ask(gamut, pathlib.Path(folder)):
            answers += 1
            faults += [f"{command}: {fault}" for fault in shapes.faults_of_answer(shape, value)]
    for name in shapes.answers:
        if name not in shapes.met:
            faults.append(f"{PAGE.name}: answer {name} is asked for by nothing here")
    for case, value in golden_answers():
        answers += 1
        faults += [f"{case}: {fault}" for fault in faults_of_golden(shapes, value)]
    faults += [f"{PAGE.name}: {key} may be absent, and is there in no answer" for key in shapes.optional() if key not in shapes.met]
    for fault in dict.fromkeys(faults):
        print(fault)
    print(f"{answers} answers held against {len(shapes.answers)} shapes: {'as documented' if not faults else f'{len(faults)} faults'}")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
