#!/bin/sh
# SPDX-FileCopyrightText: 2026 The Airmuster developers
# SPDX-License-Identifier: GPL-3.0-or-later
#
# sh packaging/run.sh [--fresh]            build, make a demo logbook, open the window on it; where
#                                          there is no display, print what it says
# sh packaging/run.sh COMMAND [WORDS…]     run a command on the demo logbook: explain KB-0142
# Everything but the command's own answer goes to stderr.
set -eu

top=$(cd "$(dirname "$0")/.." && pwd)
build=$top/build/release
cli=$build/src/cli/airmuster-cli
window=$build/src/desktop/airmuster
folder=${XDG_DATA_HOME:-$HOME/.local/share}/airmuster
demo=$folder/demo.logbook
made=$folder/demo.made

say() {
    printf '%s\n' "$*" >&2
}

# Whether the program was built from these very files.
is_built() {
    [ -x "$cli" ] && [ -x "$window" ] && [ -e "$build/built" ] &&
        [ -z "$(find "$top/src" "$top/data" "$top/packaging/build" "$top/CMakeLists.txt" \
            -newer "$build/built" | head -n 1)" ]
}

build_release() {
    is_built && return
    sh "$top/packaging/install-packages.sh" build
    mkdir -p "$build"
    touch "$build/begun"
    if ! cmake -C "$top/packaging/build/release.cmake" -S "$top" -B "$build" -G Ninja \
        >"$build/configure.log" 2>&1; then
        cat "$build/configure.log" >&2
        exit 1
    fi
    say "Building Airmuster. The first time this takes a few minutes."
    if [ -t 2 ]; then
        cmake --build "$build" --target airmuster-cli airmuster >&2
    else
        cmake --build "$build" --target airmuster-cli airmuster -- --quiet >&2
    fi
    mv "$build/begun" "$build/built"
}

make_demo() {
    mkdir -p "$folder"
    say "Making a demo logbook of an invented hospital: $demo"
    "$cli" demo "$demo" >&2
    : >"$made"
}

# The old demo logbook is put aside, never thrown away: somebody may have tried things out in it.
make_fresh_demo() {
    aside=$folder/demo-until-$(date -r "$(ended)" +%Y%m%d-%H%M%S).logbook
    mv "$demo" "$aside"
    say "The demo logbook so far is kept as $aside"
    make_demo
}

# The file that is as old as the demo's last entry: the logbook itself changes with every try.
ended() {
    if [ -e "$made" ]; then echo "$made"; else echo "$demo"; fi
}

# A demo logbook ends when it was made. Half a day later checks have run out on its board.
offer_fresh_demo() {
    [ -n "$(find "$(ended)" -mmin +720)" ] || return 0
    say "The demo logbook's last entry is more than 12 hours old, so its board shows units that"
    say "nobody has looked after since."
    if [ -t 0 ] && [ -t 2 ]; then
        printf 'Make a fresh one? The old one is kept. [y/N] ' >&2
        read -r answer || answer=
        case $answer in
        [yY]*) make_fresh_demo ;;
        esac
    else
        say "For a fresh one (the old one is kept): sh packaging/run.sh --fresh"
    fi
}

has_display() {
    [ -n "${WAYLAND_DISPLAY-}${DISPLAY-}" ]
}

open_window() {
    say "Opening the window on the demo logbook, $demo"
    say "Its commands are there too: sh packaging/run.sh board"
    exec "$window" "$demo"
}

show_demo() {
    month=$(date -d "$(date -r "$(ended)" +%Y-%m-15) -1 month" +%Y-%m)
    "$cli" board "$demo"
    echo
    "$cli" month "$demo" "$month"
    cat <<TXT

What to type next:
    sh packaging/run.sh explain KB-0142     what stands between one unit and ready, and why
    sh packaging/run.sh board               the board again
    sh packaging/run.sh month $month       the month again
    sh packaging/run.sh --help              every command
Each command is put to the demo logbook, $demo
The program itself, for a logbook of your own: $cli
TXT
}

fresh=no
if [ "${1-}" = --fresh ]; then
    fresh=yes
    shift
fi

build_release
if [ ! -e "$demo" ]; then
    make_demo
elif [ "$fresh" = yes ]; then
    make_fresh_demo
else
    offer_fresh_demo
fi

case ${1-} in
'')
    if has_display; then open_window; else show_demo; fi
    ;;
-* | help | rulebook)
    exec "$cli" "$@"
    ;;
*)
    command=$1
    shift
    exec "$cli" "$command" "$demo" "$@"
    ;;
esac
