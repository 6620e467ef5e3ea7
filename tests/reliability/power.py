"""The power goes: what was written but not synced may be lost, any part of it.

A command is traced, its writes are replayed up to some call, and of what no fsync or fdatasync had made safe by then some is
left out: all, only names, only contents, or a random part. A name made, dropped or changed is safe once its folder was synced.
Contents are lost by whole writes. That is harsher than most file systems are.
"""
import os
import pathlib
import random
import re
import tempfile

import kept

SEED = 20260301
CALLS = "openat,pwrite64,write,writev,ftruncate,fsync,fdatasync,unlink,link,rename,renameat2,renameat"
START = re.compile(r"^(\d+) +(\w+)\((.*)$")
RESUMED = re.compile(r"^(\d+) +<\.\.\. \w+ resumed>(.*)$")
STRING = re.compile(r'"((?:\\x[0-9a-f]{2})*)"(\.\.\.)?')
DESCRIPTOR = re.compile(r"^\d+<([^>]*)>")


def bytes_of(text):
    return bytes.fromhex(text.replace("\\x", ""))


def path_of(text):
    return bytes_of(text).decode() if text.startswith("\\x") else text


class Traced:
    """What a run did to the files of one folder, in order: (what, path, ...)."""

    def __init__(self, library, words):
        self.folder = str(library.parent)
        self.steps = []
        self.written = {}  # how far write() has come in a file
        with tempfile.TemporaryDirectory() as scratch:
            log = pathlib.Path(scratch) / "calls"
            self.done = kept.gamut(library, *words, prefix=("strace", "-f", "-qq", "-y", "-xx", "-s", "20000000", "-o", str(log),
                                                            "-e", f"trace={CALLS}"))
            waiting = {}
            with log.open(errors="replace") as lines:
                for line in lines:
                    line = line.rstrip("\n")
                    resumed = RESUMED.match(line)
                    if resumed:
                        line = waiting.pop(resumed[1], "") + resumed[2]
                    elif line.endswith("<unfinished ...>"):
                        waiting[line.split(" ", 1)[0]] = line[:-len("<unfinished ...>")]
                        continue
                    self.take(line)

    def inside(self, path):
        return path == self.folder or path.startswith(self.folder + "/")

    def take(self, line):
        found = START.match(line)
        if not found or " = -1 " in line[-80:]:
            return
        call, rest = found[2], found[3]
        strings = [bytes_of(match[1]) for match in STRING.finditer(rest)]
        if call == "openat":
            path = path_of(line.rsplit("<", 1)[1].rstrip(">")) if line.endswith(">") else strings[0].decode()
            self.written.pop(path, None)
            if self.inside(path) and "O_CREAT" in rest:
                self.steps.append(("make", path))
            if self.inside(path) and "O_TRUNC" in rest:
                self.steps.append(("size", path, 0))
            return
        if call == "unlink":
            if self.inside(strings[0].decode()):
                self.steps.append(("drop", strings[0].decode()))
            return
        if call == "link":
            if self.inside(strings[-1].decode()):
                self.steps.append(("also", strings[0].decode(), strings[-1].decode()))
            return
        if call.startswith("rename"):
            if self.inside(strings[-1].decode()):
                self.steps.append(("name", strings[0].decode(), strings[-1].decode()))
            return
        descriptor = DESCRIPTOR.match(rest)
        path = path_of(descriptor[1]) if descriptor else ""
        if not self.inside(path):
            if call in ("write", "writev") and rest.startswith("1<"):
                self.steps.append(("answer",))
            return
        if call == "pwrite64":
            self.steps.append(("write", path, strings[0], int(re.search(r", (\d+)\) *=", rest)[1])))
        elif call in ("write", "writev"):
            content = b"".join(strings)
            self.steps.append(("write", path, content, self.written.get(path, 0)))
            self.written[path] = self.written.get(path, 0) + len(content)
        elif call == "ftruncate":
            self.steps.append(("size", path, int(re.search(r", (\d+)\) *=", rest)[1])))
        elif call in ("fsync", "fdatasync"):
            self.steps.append(("sync", path))


class Disk:
    """The folder before the run, and what may be left of it when the power goes after some steps."""

    def __init__(self, folder, traced):
        self.files = {str(path): path.read_bytes() for path in folder.iterdir() if path.is_file()}
        self.traced = traced

    def unsafe(self, end):
        """Numbers of the steps before `end` that nothing has made safe, of names and of contents."""
        names, contents = [], []
        for number, step in enumerate(self.traced.steps[:end]):
            if step[0] == "sync":
                folder = step[1] == self.traced.folder
                names = [] if folder else names
                contents = contents if folder else [one for one in contents if self.traced.steps[one][1] != step[1]]
            elif step[0] in ("make", "drop", "name", "also"):
                names.append(number)
            elif step[0] in ("write", "size"):
                contents.append(number)
        return names, contents

    def after(self, end, lost, folder):
        """Writes what is left into `folder`."""
        inodes = [bytearray(content) for content in self.files.values()]
        now = {path: number for number, path in enumerate(self.files)}  # as the program sees it
        left = dict(now)                                                # as it is on the disk
        for number, step in enumerate(self.traced.steps[:end]):
            if step[0] == "make":
                if step[1] in now:
                    continue  # was there
                inodes.append(bytearray())
                now[step[1]] = len(inodes) - 1
                if number not in lost:
                    left[step[1]] = now[step[1]]
            elif step[0] == "drop":
                now.pop(step[1], None)
                if number not in lost:
                    left.pop(step[1], None)
            elif step[0] == "also":
                if step[1] in now:
                    now[step[2]] = now[step[1]]
                    if number not in lost:
                        left[step[2]] = now[step[1]]
            elif step[0] == "name":
                inode = now.pop(step[1], None)
                if inode is None:
                    continue
                now[step[2]] = inode
                if number not in lost:
                    left.pop(step[1], None)
                    left[step[2]] = inode
            elif step[0] in ("write", "size") and number not in lost and step[1] in now:
                content = inodes[now[step[1]]]
                if step[0] == "size":
                    del content[step[2]:]
                    content.extend(bytes(step[2] - len(content)))
                else:
                    content.extend(bytes(max(0, step[3] - len(content))))
                    content[step[3]:step[3] + len(step[2])] = step[2]
        folder.mkdir(parents=True, exist_ok=True)
        for path, inode in left.items():
            if not path.endswith("-shm"):  # shared memory, made anew by who comes next
                (folder / os.path.basename(path)).write_bytes(inodes[inode])
        return folder


def losses(names, contents, rng, rounds):
    yield "nothing", set()
    if names or contents:
        yield "everything", {*names, *contents}
        yield "names", set(names)
        yield "contents", set(contents)
        for _ in range(rounds):
            yield "a part", {one for one in (*names, *contents) if rng.random() < 0.5}


def power(start, scratch, most):
    rng = random.Random(SEED)
    on_the_way, answered = kept.Figures("power lost on the way"), kept.Figures("power lost after the answer")
    for name, words in kept.CHANGES.items():
        if words[0] == "import":
            continue  # computed from files that are still there
        if kept.is_short(most) and name not in kept.IN_SHORT:
            continue
        folder = scratch / "power" / name.replace(" ", "_")
        library = kept.copy(start, folder)
        before = kept.Contents(library)
        initial = kept.copy(start, scratch / "power_before" / name.replace(" ", "_")).parent
        traced = Traced(library, words)
        after, saved = kept.Contents(library), kept.Saved(library)
        disk = Disk(initial, traced)
        disk.files = {str(folder / os.path.basename(path)): content for path, content in disk.files.items()}
        steps = traced.steps
        said = next((number for number, step in enumerate(steps) if step[0] == "answer"), len(steps))
        ends = range(1, len(steps) + 1)
        if most is not None and len(ends) > most:
            ends = sorted({*(ends[index * (len(ends) - 1) // (most - 1)] for index in range(most)), said + 1, len(steps)} - {0})
        for end in ends:
            end = min(end, len(steps))
            figures = answered if end > said else on_the_way
            for which, lost in losses(*disk.unsafe(end), rng, 2 if most else 12):
                with tempfile.TemporaryDirectory() as place:
                    left = disk.after(end, lost, pathlib.Path(place)) / library.name
                    found, found_saved = kept.Contents(left), kept.Saved(left)
                what = f"{name}, after step {end} of {len(steps)}, lost: {which}"
                if end > said:
                    figures.take(not found.fault and found == after and found_saved == saved, what, found.fault or "what was answered is gone")
                else:
                    is_on_the_way = name in kept.IN_STEPS and not found.fault  # the next time it goes on
                    figures.take(not found.fault and (found == before or found == after or is_on_the_way) and
                                 (not found_saved.is_there or found_saved == saved), what, found.fault or "torn")
    return [on_the_way, answered]
