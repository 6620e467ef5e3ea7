"""The order in which to learn notes as a mixed-integer program, for a general solver: COIN-OR Branch and Cut, the program
`cbc` of Debian's package coinor-cbc.

Every note takes time 1. `needed` lists, for each tune that is not open at the start, the set of notes it still lacks; n is the
number of notes in them together, W the number of tunes. Tunes that lack the same notes become one set i with weight w_i.

    x_j_k  1 when note j is known after k steps, k from 1 to n - 1
    y_i_k  1 when set i is open after k steps, k from the size of set i to n - 1
    maximise   sum of w_i y_i_k
    subject to sum over j of x_j_k = k,   x_j_k <= x_j_(k+1),   y_i_k <= x_j_k for every note j of set i

Before step k + 1 the tunes not yet open wait once more, so the cost of an order, the sum of the times at which tunes open,
is n W less that maximum. Only x needs to be binary: y then takes the least of its x by itself.
"""
import collections
import re
import shutil

NAMES_IN_LINE = 8
STATUS = re.compile(r"(.*) - objective value\s+(\S+)")


def is_available():
    return shutil.which("cbc") is not None


class OrderProgram:
    """The program for one collection. ValueError where fewer than two notes are lacking: there is nothing to decide."""

    def __init__(self, needed):
        self.weights = collections.Counter(frozenset(notes) for notes in needed)
        self.notes = sorted(frozenset().union(*self.weights))
        if frozenset() in self.weights or len(self.notes) < 2:
            raise ValueError("every tune must lack a note, and all together two")

    def write(self, path):
        """As an LP file."""
        number_of = {note: number for number, note in enumerate(self.notes)}
        sets = sorted((sorted(number_of[note] for note in notes), weight) for notes, weight in self.weights.items())
        last = len(self.notes) - 1
        numbers, steps = range(len(self.notes)), range(1, last + 1)
        gains = [f"{weight} y_{i}_{k}" for i, (members, weight) in enumerate(sets) for k in range(len(members), last + 1)]
        knowns = [f"x_{j}_{k}" for j in numbers for k in steps]
        lines = ["Maximize", " open:", *wrapped(gains or ["0 x_0_1"], " + "), "Subject To"]
        for k in steps:
            lines += [f" learnt_{k}:", *wrapped([f"x_{j}_{k}" for j in numbers], " + "), f"  = {k}"]
        for j in numbers:
            lines += [f" kept_{j}_{k}: x_{j}_{k} - x_{j}_{k + 1} <= 0" for k in range(1, last)]
        for i, (members, _) in enumerate(sets):
            lines += [f" needs_{i}_{j}_{k}: y_{i}_{k} - x_{j}_{k} <= 0" for k in range(len(members), last + 1) for j in members]
        lines += ["Binary", *wrapped(knowns, " "), "End", ""]
        path.write_text("\n".join(lines), encoding="ascii")

    def cost(self, solution):
        """The least cost by the solution file that the solver wrote; None when it stopped before it could prove it."""
        match = STATUS.match(solution.read_text(encoding="ascii"))
        if match is None or match.group(1) != "Optimal":
            return None
        return len(self.notes) * sum(self.weights.values()) - float(match.group(2))


def wrapped(names, joint):
    """Lines of a few names each; LP readers limit the length of a line."""
    lines = [joint.join(names[at:at + NAMES_IN_LINE]) for at in range(0, len(names), NAMES_IN_LINE)]
    return [f"  {'' if number == 0 else joint.lstrip()}{line}" for number, line in enumerate(lines)]


def command(lp, solution, most_seconds=None):
    """The words that start the solver with its defaults. `most_seconds` limits its wall-clock time."""
    limit = [] if most_seconds is None else ["timeMode", "elapsed", "sec", str(most_seconds)]
    return ["cbc", str(lp), *limit, "solve", "solution", str(solution)]
