#!/usr/bin/env python3
# SPDX-FileCopyrightText: 2026 The Airmuster developers
# SPDX-License-Identifier: GPL-3.0-or-later
"""Breaks the rules engine in one place at a time and asks whether the tests notice.

mutants.py PROJECT COUNT

Works on copies of the project, one for each processor. A change that does not compile is replaced
by another. Each is tried against the tests of tests/rules and the conformance cases. The seed is
printed; AIRMUSTER_SEED sets it. Exit status 0: 90 % or more were found.
"""
import concurrent.futures
import os
import queue
import random
import re
import resource
import shutil
import subprocess
import sys
import tempfile

OPERATORS = [
    (r" < ", " <= "), (r" <= ", " < "), (r" > ", " >= "), (r" >= ", " > "),
    (r" == ", " != "), (r" != ", " == "), (r" && ", " || "), (r" \|\| ", " && "),
    (r" \+ ", " - "), (r" - ", " + "), (r" \+= ", " -= "), (r" -= ", " += "),
    (r"\btrue\b", "false"), (r"\bfalse\b", "true"), (r"(?<=[ (])!(?=[A-Za-z_(])", ""),
]
# What is no code, and declarations, in which an operator is none: templates, concepts, defaults.
OTHER = re.compile(r'//[^\n]*|/\*.*?\*/|R"(\w*)\(.*?\)\1"|"(?:\\.|[^"\\\n])*"'
                   r"|'(?:\\.|[^'\\\n])+'"
                   r"|^[ ]*#[^\n]*|\btemplate <[^\n]*|\boperator[<>=!&|+-]+|\bstatic_assert[^\n]*",
                   re.S | re.M)
TARGETS = ["airmuster_rules_tests", "airmuster-cli", "airmuster_conformance_runner"]
TRY_SECONDS = 120


def code_only(text):
    return OTHER.sub(lambda m: re.sub(r"[^\n]", "\0", m.group()), text)


def places(project):
    """Every change there is: (file, offset, length, replacement)."""
    found = []
    folder = os.path.join(project, "src", "rules")
    for name in sorted(os.listdir(folder)):
        if not name.endswith(".cpp"):
            continue
        with open(os.path.join(folder, name), encoding="utf-8") as f:
            code = code_only(f.read())
        for pattern, replacement in OPERATORS:
            for m in re.finditer(pattern, code):
                path = os.path.join("src", "rules", name)
                found.append((path, m.start(), len(m.group()), replacement))
    return found


def limits():
    resource.setrlimit(resource.RLIMIT_AS, (4 << 30, 4 << 30))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def call(command, seconds=1800, limited=False):
    """(exit status, what it said); a program that does not end in time has status 124."""
    try:
        p = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                           stdin=subprocess.DEVNULL, timeout=seconds,
                           preexec_fn=limits if limited else None,
                           env=dict(os.environ, TZ="UTC", LC_ALL="C.UTF-8"))
        return p.returncode, p.stdout.decode("utf-8", "replace")
    except subprocess.TimeoutExpired:
        return 124, "did not end in %d s" % seconds


class Copy:
    """A copy of the project with a build of its own."""

    def __init__(self, project, folder, number):
        self.source = os.path.join(folder, "source%d" % number)
        self.build = os.path.join(folder, "build%d" % number)
        shutil.copytree(project, self.source, ignore=lambda at, names: [
            n for n in names if at == project and (n.startswith("build") or n == ".git")])
        self.must(["cmake", "-S", self.source, "-B", self.build, "-G", "Ninja",
                   "-DCMAKE_BUILD_TYPE=Debug", "-DCMAKE_CXX_FLAGS_DEBUG=-O0"])
        self.must(["cmake", "--build", self.build, "--target"] + TARGETS)

    @staticmethod
    def must(command):
        status, said = call(command)
        if status != 0:
            sys.exit("%s\n%s: exit status %d" % (said[-4000:], " ".join(command), status))

    def compile(self):
        return call(["ninja", "-C", self.build, "-j1"] + TARGETS)[0] == 0

    def trouble(self):
        """What the tests say against it; empty if they see nothing wrong."""
        tests = os.path.join(self.build, "tests")
        status, said = call([os.path.join(tests, "rules", "airmuster_rules_tests"), "--abort"],
                            TRY_SECONDS, limited=True)
        if status != 0:
            failed = re.search(r"^\s*(REQUIRE|CHECK|FAIL|RC_\w+|due to)\b[^\n]*", said, re.M)
            return "tests/rules, status %d %s" % (status, failed.group().strip() if failed else "")
        runner = os.path.join(tests, "conformance_runner", "airmuster_conformance_runner")
        status, said = call([runner, os.path.join(self.source, "tests", "conformance"), "--stop",
                             "--limit", "20", "--with", answers(self.source),
                             "--cli", os.path.join(self.build, "src", "cli", "airmuster-cli")],
                            600, limited=True)
        if status != 0:
            failed = re.search(r"^FAILED [^\n]*", said, re.M)
            return "conformance, %s" % (failed.group() if failed else "status %d" % status)
        return ""

    def attempt(self, place):
        """None if the change does not compile, else (diff, trouble)."""
        name, offset, length, replacement = place
        path = os.path.join(self.source, name)
        with open(path, encoding="utf-8") as f:
            text = f.read()
        changed = text[:offset] + replacement + text[offset + length:]
        line = text.count("\n", 0, offset)
        diff = "%s:%d\n    - %s\n    + %s" % (name, line + 1, text.split("\n")[line].strip(),
                                             changed.split("\n")[line].strip())
        try:
            with open(path, "w", encoding="utf-8") as f:
                f.write(changed)
            return (diff, self.trouble()) if self.compile() else None
        finally:
            with open(path, "w", encoding="utf-8") as f:
                f.write(text)


def answers(source):
    """What the conformance runner is to ask, as its own tests do."""
    path = os.path.join(source, "tests", "conformance_runner", "CMakeLists.txt")
    with open(path, encoding="utf-8") as f:
        return re.search(r'set\(AIRMUSTER_ANSWERS "([^"]*)"', f.read()).group(1)


def try_until_compiled(copies, todo):
    copy = copies.get()
    try:
        while True:
            try:
                place = todo.get_nowait()
            except queue.Empty:
                return None
            result = copy.attempt(place)
            if result:
                return result
    finally:
        copies.put(copy)


def run_all(project, count, seed, folder):
    every = places(project)
    random.Random(seed).shuffle(every)
    print("%d places to break, seed %d" % (len(every), seed), flush=True)
    todo, copies = queue.Queue(), queue.Queue()
    for place in every:
        todo.put(place)
    workers = max(1, min(count, os.cpu_count() or 1))
    for number in range(workers):
        copies.put(Copy(project, folder, number))
    whole = copies.get()
    said = whole.trouble()
    copies.put(whole)
    if said:
        sys.exit("The tests fail without any change: " + said)
    tried = found = 0
    with concurrent.futures.ThreadPoolExecutor(workers) as pool:
        for result in pool.map(lambda _: try_until_compiled(copies, todo), range(count)):
            if result:
                tried += 1
                found += bool(result[1])
                verdict = "found: " + result[1] if result[1] else "NOT FOUND"
                print("%d %s\n    %s" % (tried, result[0], verdict), flush=True)
    return tried, found


def main():
    if len(sys.argv) != 3 or not sys.argv[2].isdigit():
        sys.exit(__doc__)
    seed = int(os.environ.get("AIRMUSTER_SEED") or random.SystemRandom().randrange(1 << 32))
    with tempfile.TemporaryDirectory(prefix="airmuster-mutants-") as folder:
        tried, found = run_all(os.path.abspath(sys.argv[1]), int(sys.argv[2]), seed, folder)
    print("%d mutants, %d found" % (tried, found))
    return 0 if tried > 0 and found >= 0.9 * tried else 1


if __name__ == "__main__":
    sys.exit(main())
