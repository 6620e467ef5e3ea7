#!/usr/bin/env python3
"""tests/golden/shapes.py can fail: a key that is planted, taken away or of another type is told, with its place."""
import copy
import unittest

from shapes import PAGE, ShapeFault, Shapes

PAGE_OF_TWO = """
## names — `gamut names`

```shape
answer names = {names: [person], count: whole, most?: person | null, by: {each "a" | "b": whole}}
part person = {name: text, born: day | null, plays?: [note] | "nothing"}
```

`names`: `name`, `born`, `plays`; `count`, `most`, `by`.
"""

RIGHT = {"version": 1, "names": [{"name": "Ina", "born": "1990-02-03", "plays": ["C#5"]}, {"name": "Uli", "born": None}], "count": 2,
         "by": {"a": 1}}


class Faults(unittest.TestCase):
    def faults(self, change):
        value = copy.deepcopy(RIGHT)
        change(value)
        return Shapes(PAGE_OF_TWO).faults_of_answer("names", value)

    def test_what_is_right_has_none(self):
        self.assertEqual(self.faults(lambda value: None), [])

    def test_a_planted_key(self):
        self.assertEqual(self.faults(lambda value: value.update(colour="red")), ["names.colour stands in no shape"])
        self.assertEqual(self.faults(lambda value: value["names"][1].update(age=30)), ["names.names[1].age stands in no shape"])

    def test_a_key_taken_away(self):
        self.assertEqual(self.faults(lambda value: value["names"][0].pop("born")), ["names.names[0].born is not there"])
        self.assertEqual(self.faults(lambda value: value.pop("version")), ["names.version is not there"])

    def test_another_type(self):
        self.assertEqual(self.faults(lambda value: value.update(count=2.5)), ["names.count is 2.5, not whole"])
        self.assertEqual(self.faults(lambda value: value.update(count=True)), ["names.count is true, not whole"])
        self.assertEqual(self.faults(lambda value: value["names"][0].update(born="May")),
                         ['names.names[0].born is "May", which may not stand there'])
        self.assertEqual(self.faults(lambda value: value["names"][0].update(plays=["H4"])),
                         ['names.names[0].plays[0] is "H4", not note'])
        self.assertEqual(self.faults(lambda value: value.update(version=2)), ["names.version is 2, not 1"])
        self.assertEqual(self.faults(lambda value: value["by"].update(c=1)), ['the key names.by.c is "c", which may not stand there'])

    def test_faults_in_one_of_two_are_told_of_what_is_in_it(self):
        self.assertEqual(self.faults(lambda value: value.update(most={"name": "Ina"})), ["names.most.born is not there"])

    def test_a_key_nobody_explains(self):
        self.assertEqual(Shapes(PAGE_OF_TWO).unsaid, [])
        self.assertEqual(Shapes(PAGE_OF_TWO.replace("`born`, ", "")).unsaid, ["part person: born"])

    def test_keys_that_may_be_absent_are_looked_for(self):
        shapes = Shapes(PAGE_OF_TWO)
        shapes.faults_of_answer("names", RIGHT)
        self.assertEqual([key for key in shapes.optional() if key not in shapes.met], ["names most"])

    def test_a_page_not_in_its_notation(self):
        for wrong in ("answer a = {b: }", "answer a = {b: c}", "answer a = [text", "shape a = text", "answer a = {b: text} + text; c"):
            with self.assertRaises(ShapeFault, msg=wrong):
                Shapes(f"## a\n\n```shape\n{wrong}\n```\n")

    def test_the_page_itself_refuses_a_planted_key(self):
        shapes = Shapes(PAGE.read_text(encoding="utf-8"))
        self.assertEqual(shapes.faults_of_answer("fit", {"version": 1, "tunes": 3, "instruments": [], "best": 1}),
                         ["fit.best stands in no shape"])


if __name__ == "__main__":
    unittest.main()
