# SPDX-FileCopyrightText: 2026 The Airmuster developers
# SPDX-License-Identifier: GPL-3.0-or-later
#
# accessibility.py PROGRAM LOGBOOK UNIT: what a screen reader is told of the window, read over the
# accessibility bus as it reads it. Fails for whatever can be pressed or typed into and has no name
# or no role, and if a unit cannot be opened and looked through by that way alone.
import subprocess
import sys
import time

import gi

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi  # noqa: E402

ACTED_ON = {"push button", "toggle button", "text", "password text", "combo box", "check box",
            "radio button", "table", "list", "list item", "spin button"}


def is_shown(node):
    return node.get_state_set().contains(Atspi.StateType.SHOWING)


# What is shown, and in it only what is shown; empty cells of tables may be nameless.
def children(node):
    for index in range(node.get_child_count()):
        child = node.get_child_at_index(index)
        if child is not None and is_shown(child) and child.get_role_name() != "table cell":
            yield child
            yield from children(child)


def window_of(pid):
    for _ in range(100):
        desktop = Atspi.get_desktop(0)
        for index in range(desktop.get_child_count()):
            program = desktop.get_child_at_index(index)
            if program is not None and program.get_process_id() == pid \
                    and program.get_child_count() > 0:
                return program.get_child_at_index(0)
        time.sleep(0.2)
    sys.exit("The window never came to the accessibility bus.")


# Once more where something went away while it was read.
def shown(window):
    for _ in range(20):
        try:
            return list(children(window))
        except gi.repository.GLib.GError:
            time.sleep(0.5)
    sys.exit("The window does not come to rest.")


def check(where, window):
    nodes = shown(window)
    acted_on = [node for node in nodes if node.get_role_name() in ACTED_ON
                or node.get_state_set().contains(Atspi.StateType.FOCUSABLE)]
    bad = [node for node in acted_on
           if not node.get_name().strip() or node.get_role_name() in ("unknown", "invalid")]
    for node in bad:
        parent = node.get_parent()
        print(f"{where}: a {node.get_role_name()} without a name, in "
              f"{parent.get_role_name()} {parent.get_name()!r}")
    print(f"{where}: {len(nodes)} things shown, {len(acted_on)} to act on, {len(bad)} faulty")
    return len(bad)


BUTTONS = {"push button", "toggle button", "radio button", "check box"}


def button(window, name):
    for _ in range(300):
        for node in shown(window):
            if node.get_role_name() in BUTTONS and node.get_name().startswith(name):
                return node
        time.sleep(0.2)
    sys.exit(f"Nothing called {name!r} is shown.")


def press(window, name):
    Atspi.Action.do_action(button(window, name), 0)
    time.sleep(2)


def main(program, logbook, unit):
    running = subprocess.Popen([program, logbook])
    try:
        window = window_of(running.pid)
        button(window, f"Open unit {unit}")
        faults = check("no unit open", window)
        press(window, f"Open unit {unit}")
        for panel in ("Way to ready", "Set-up", "Other entries", "History"):
            press(window, panel)
            faults += check(panel, window)
        press(window, "Fleet")
        faults += check("Fleet", window)
        press(window, "Help")
        faults += check("Help", window)
        press(window, "Back")
        press(window, "Sign in")
        faults += check("Sign in", window)
    finally:
        running.kill()
    sys.exit(1 if faults else 0)


main(*sys.argv[1:])
