#!/usr/bin/env python3
"""tests/golden/html_pages.py can fail: each thing that may be wrong of a page is told."""
import unittest

from html_pages import faults_of

HEAD = '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n<title>T</title>\n</head>\n<body>\n<main>\n'
FOOT = "</main>\n</body>\n</html>\n"
TABLE = ('<table>\n<thead>\n<tr><th scope="col">a</th><th scope="col">b</th></tr>\n</thead>\n<tbody>\n'
         '<tr><th scope="rowgroup" rowspan="2">1</th><td>x</td></tr>\n<tr><td>y</td></tr>\n</tbody>\n</table>\n')


class Faults(unittest.TestCase):
    def faults(self, body, text="", titles=0):
        return faults_of(text, HEAD + body + FOOT, titles)

    def test_what_is_right_has_none(self):
        self.assertEqual(self.faults("<h1>A &amp; B</h1>\n<section>\n<h2>C</h2>\n" + TABLE + "</section>\n", "A & B\n1  x\n   y\n", 1), [])

    def test_what_is_not_there(self):
        self.assertEqual(self.faults("<p>One two</p>", "One  two three four\n"), ["not on the page: three four"])
        self.assertEqual(self.faults("<p>One</p>", "One cu\u2026\n- 1.\n"), [])
        self.assertEqual(faults_of("", "<html></html>")[-1], "no document type")

    def test_tags(self):
        self.assertEqual(self.faults("<p>a<script>b</script></p>"), ["script in p"])
        self.assertEqual(self.faults("<p onclick=\"x\">a</p>"), ["p has onclick"])
        self.assertEqual(self.faults("<p class=\"red\">a</p>"), ["p is of class red"])
        self.assertEqual(self.faults("a"), ["text in ['main']: a"])
        self.assertEqual(self.faults("<!-- a -->"), ["a comment:  a "])
        self.assertIn("p closed in ['li']", self.faults("<ul>\n<li>a</p></li>\n</ul>\n"))
        self.assertEqual(self.faults("<p>a</p>", titles=1), ["h1 stands there 0 times"])
        self.assertEqual(self.faults("<section>\n<p>a</p>\n</section>\n"), ["a section begins with p"])
        self.assertIn("left open: ['html', 'body', 'main', 'p']", self.faults("<p>a"))

    def test_tables(self):
        for right, wrong, fault in ((' rowspan="2"', "", "a row with too few cells"), ('rowspan="2"', 'rowspan="3"', "a cell reaches below its rows"),
                                    ("<td>y</td>", "<td>y</td><td>z</td>", "a row with too many cells"),
                                    ("<td>x</td>", "<th>x</th>", "th with scope None")):
            self.assertEqual(self.faults(TABLE.replace(right, wrong)), [fault])


if __name__ == "__main__":
    unittest.main()
