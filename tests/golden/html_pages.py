#!/usr/bin/env python3
"""What every command answers with --html is sound HTML and says all that the text says.

    tests/golden/html_pages.py [--gamut PROGRAM]

Asks every command of shapes.py twice, for text and for HTML, each in a library of its own, and the guide besides. A page
is read with Python's html.parser, which reads everything; so it is looked at here that each tag is closed by its own, that
only tags, attributes and classes stand there that src/report/writers/html.cc is to write, that every cell of a table has its place
and its head, and that a heading stands before its section. Then every word of the text has to stand on the page. Titles
in the library try to be tags. tests/golden/html_pages_test.py shows that it can fail.
"""
import argparse
import html.parser
import os
import pathlib
import re
import subprocess
import sys
import tempfile

import shapes

# Tags that stand alone. Source: HTML Living Standard, 13.1.2.
VOID = {"meta", "hr"}
# Which stand where; text may stand in those that are not here.
HOLDS = {
    "": {"html"},
    "html": {"head", "body"},
    "head": {"meta", "title", "style"},
    "body": {"main"},
    "main": {"h1", "section", "p", "hr", "table", "dl", "ol", "ul", "pre", "figure"},
    "section": {"h2", "p", "hr", "table", "dl", "ol", "ul", "pre", "figure"},
    "table": {"caption", "thead", "tbody"},
    "thead": {"tr"},
    "tbody": {"tr"},
    "tr": {"th", "td"},
    "dl": {"dt", "dd"},
    "ol": {"li"},
    "ul": {"li"},
    "figure": {"table", "pre", "figcaption", "svg"},
    "svg": {"title", "desc", "path", "text", "rect", "circle"},
}
IN_TEXT = {"td": {"time", "ul"}, "th": {"time", "ul"}}
ATTRIBUTES = {"html": {"lang"}, "meta": {"charset", "name", "content", "http-equiv"}, "th": {"scope", "class", "rowspan"},
              "td": {"class", "rowspan"}, "p": {"class"}, "pre": {"class"}, "dl": {"class"}, "figure": {"class"},
              "time": {"datetime"}, "svg": {"xmlns", "role", "width", "height", "viewbox", "font-family"},
              "path": {"d", "stroke", "stroke-width", "stroke-dasharray", "fill"}, "rect": {"x", "y", "width", "height", "fill", "stroke", "stroke-width"},
              "circle": {"cx", "cy", "r", "fill", "stroke", "stroke-width"}, "text": {"x", "y", "font-size", "font-weight", "text-anchor", "fill"}}
CLASSES = {"number", "notes", "unknown", "hint", "caution", "line", "abc", "example", "drawing", "bars", "instrument",
           "remarks", "curves"}

SIGN = re.compile(r"-|\d+\.")
# What is a few sentences, or several tunes one after the other, has no title.
TITLELESS = re.compile(r"gamut (read|mark|same (--not )?\d+ \d+|syllabus \S+ --missed)\b")

HOSTILE = """X:1
T:</title><script>alert("1")</script> & 'one' &amp;
T:<b onclick="x">Two</b>
R:reel
M:4/4
L:1/8
K:D
DEFG ABcd|DEFG A4|
"""
ASKED_BESIDES = ["tunes --settings --html", "tune script --html", "read hostile.abc --html", "read hostile.abc --as tokens --html",
                 "guide --html", *(f"guide {page.stem} --html" for page in sorted((shapes.REPOSITORY / "src" / "guide").glob("*.md"))
                                   if page.stem != "README")]


class Page(html.parser.HTMLParser):
    def __init__(self, text, titles=1):
        super().__init__(convert_charrefs=True)
        self.faults, self.open, self.words, self.times = [], [], [], {}
        self.rows = None  # of the table that is open: [(rows, is_head) of each cell]
        self.has_document_type = False
        self.feed(text)
        self.close()
        if self.open:
            self.faults.append(f"left open: {self.open}")
        for tag, due in (("html", 1), ("title", 1), ("main", 1), ("h1", titles)):
            if self.times.get(tag, 0) != due:
                self.faults.append(f"{tag} stands there {self.times.get(tag, 0)} times")
        if not self.has_document_type:
            self.faults.append("no document type")

    def handle_decl(self, declaration):
        self.has_document_type = declaration == "DOCTYPE html" and not self.times

    def handle_comment(self, comment):
        self.faults.append(f"a comment: {comment}")

    def handle_pi(self, instruction):
        self.faults.append(f"an instruction: {instruction}")

    def handle_starttag(self, tag, attributes):
        parent = self.open[-1] if self.open else ""
        if parent != "svg":  # whose title is its own
            self.times[tag] = self.times.get(tag, 0) + 1
        if tag not in HOLDS.get(parent, IN_TEXT.get(parent, ())):
            self.faults.append(f"{tag} in {parent or 'nothing'}")
        for name, value in attributes:
            if name not in ATTRIBUTES.get(tag, ()):
                self.faults.append(f"{tag} has {name}")
            if name == "class" and value not in CLASSES:
                self.faults.append(f"{tag} is of class {value}")
        if tag in VOID:
            return
        self.open.append(tag)
        if tag == "section":
            self.is_section_new = True
        elif parent == "section" and self.is_section_new:
            self.is_section_new = False
            if tag != "h2":
                self.faults.append(f"a section begins with {tag}")
        if tag == "table":
            self.rows = [[]]
        elif tag in ("thead", "tbody"):
            self.rows.append([])
        elif tag == "tr":
            self.rows[-1].append([])
        elif tag in ("td", "th"):
            said = dict(attributes)
            self.rows[-1][-1].append((int(said.get("rowspan", 1)), said.get("scope")))
            if (tag == "th") != ("scope" in said):
                self.faults.append(f"{tag} with scope {said.get('scope')}")

    def handle_endtag(self, tag):
        if not self.open or self.open[-1] != tag:
            self.faults.append(f"{tag} closed in {self.open[-1:]}")
            return
        self.open.pop()
        if tag == "table":
            if "figure" not in self.open:
                self.look_at_table(self.rows[1:])
            self.rows = None

    def look_at_table(self, groups):
        """Every row is as wide as the head, with what comes from above, and nothing reaches below its own body."""
        width = len(groups[0][0]) if groups and groups[0] else 0
        for group in groups:
            reach = [0] * width  # rows each column is still taken for
            for row in group:
                cells = iter(row)
                for column in range(width):
                    if reach[column] == 0:
                        reach[column] = next(cells, (0, None))[0]
                    if reach[column] == 0:
                        self.faults.append("a row with too few cells")
                    else:
                        reach[column] -= 1
                if next(cells, None):
                    self.faults.append("a row with too many cells")
            if any(reach):
                self.faults.append("a cell reaches below its rows")

    def handle_data(self, text):
        if self.open and self.open[-1] not in HOLDS:
            self.words += [text, " "] if self.open[-1] != "title" else []
        elif text.strip():
            self.faults.append(f"text in {self.open[-1:]}: {text.strip()[:40]}")


def words_missing(text, page):
    """Words of the text answer that do not stand on the page. One that is cut ends in an ellipsis; a list has its own signs there."""
    there = set("".join(page.words).split())
    return [word for word in text.split() if word not in there and not word.endswith("\u2026") and not SIGN.fullmatch(word)]


def faults_of(text, page_text, titles=1):
    """Of a page of HTML beside the text answer to the same question."""
    page = Page(page_text, titles)
    missing = words_missing(text, page)
    return page.faults + ([f"not on the page: {' '.join(missing[:8])}"] if missing else [])


def run(gamut, folder, words):
    done = subprocess.run(["bash", "-c", "gamut " + words], cwd=folder, capture_output=True, text=True,
                          env={**shapes.surroundings(gamut, folder), "COLUMNS": "200"})
    if done.returncode > 1:
        raise SystemExit(f"gamut {words}: exit {done.returncode}\n{done.stderr}")
    return done.stdout.replace(str(folder), "$HERE")


def answers(gamut, one, other):
    """(command, text, page)"""
    for folder in (one, other):
        shapes.make_ready(folder)
        (folder / "hostile.abc").write_text(HOSTILE)
    asked = [line.split(": ", 1)[-1] for line in shapes.ASKED.replace("import $SAMPLE", "import $SAMPLE hostile.abc").strip().split("\n")
             if not line.startswith(("error: ", "release: "))]  # what has no answer has no page, nor has a number alone
    for words in asked + ASKED_BESIDES:
        words = words.removeprefix("- ").replace("--json", "--html")
        text = run(gamut, one, words.replace(" --html", ""))
        page = run(gamut, other, words)
        if "--html" in words:
            yield "gamut " + words, text, page


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--gamut", default=os.environ.get("GAMUT", str(shapes.REPOSITORY / "build" / "gamut")))
    gamut = parser.parse_args().gamut
    faults, pages = [], 0
    with tempfile.TemporaryDirectory() as one, tempfile.TemporaryDirectory() as other:
        for command, text, page in answers(gamut, pathlib.Path(one), pathlib.Path(other)):
            pages += 1
            faults += [f"{command}: {fault}" for fault in faults_of(text, page, 0 if TITLELESS.match(command) else 1)]
    for fault in dict.fromkeys(faults):
        print(fault)
    print(f"{pages} pages: {'sound, and every word of the text is there' if not faults else f'{len(faults)} faults'}")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
