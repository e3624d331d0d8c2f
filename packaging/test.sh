#!/bin/sh
# SPDX-FileCopyrightText: 2026 The Airmuster developers
# SPDX-License-Identifier: GPL-3.0-or-later
#
# sh packaging/test.sh                  build with warnings as errors, run every test
# sh packaging/test.sh --cases FOLDER   only the conformance cases of a folder
# sh packaging/test.sh --mutants N      break the rules engine in N places: do the tests notice?
# sh packaging/test.sh --sanitize       threads under the thread sanitizer, every test under the
#                                       address and undefined behaviour sanitizers
# sh packaging/test.sh --fuzz SECONDS   each fuzz target for so long
# sh packaging/test.sh --faults         the disk fails at every call, with larger logs: counts
# sh packaging/test.sh --kill N         the program is killed N times in the middle of its work
# sh packaging/test.sh --accessibility  the window as a screen reader is told of it
# sh packaging/test.sh --pictures DIR   a picture of every screen of the window, in both themes
# AIRMUSTER_CASES names another folder of conformance cases, AIRMUSTER_SEED the seed of what is
# random (it is printed otherwise), AIRMUSTER_JOBS how many tests run at a time, TMPDIR where they
# write (in memory otherwise, where there is room).
set -eu

top=$(cd "$(dirname "$0")/.." && pwd)
cases=${AIRMUSTER_CASES:-$top/tests/conformance}
jobs=${AIRMUSTER_JOBS:-$(nproc)}

fail() {
    printf '%s\n' "$*" >&2
    exit 2
}

# configure NAME [OPTIONS…]: build/NAME from packaging/build/NAME.cmake; anew if that has changed,
# since a build folder keeps the values that it once got.
configure() {
    name=$1
    shift
    build=$top/build/$name
    mkdir -p "$build"
    cmp -s "$top/packaging/build/$name.cmake" "$build/made-from.cmake" || set -- --fresh "$@"
    cmake -C "$top/packaging/build/$name.cmake" -S "$top" -B "$build" -G Ninja "$@" \
        >"$build/configure.log" 2>&1 || {
        cat "$build/configure.log" >&2
        exit 2
    }
    cp "$top/packaging/build/$name.cmake" "$build/made-from.cmake"
    # Where what is run by hand keeps what belongs to a user, as CTest's tests do with theirs.
    XDG_STATE_HOME=$build/state
    export XDG_STATE_HOME
}

# What the tests write lies in memory, where it has room: they flush hundreds of thousands of times.
# Some become a user who may enter but not read that folder. A TMPDIR that is given is kept.
in_memory() {
    free=$(df --output=avail -B 1M /dev/shm 2>/dev/null | tail -n 1 | tr -d ' ')
    if [ -z "${TMPDIR-}" ] && [ -w /dev/shm ] && [ "${free:-0}" -gt 4096 ]; then
        TMPDIR=$(mktemp -d -p /dev/shm)
        chmod 711 "$TMPDIR"
        export TMPDIR
        trap 'rm -rf "$TMPDIR"' EXIT
        trap 'exit 130' INT TERM
    fi
}

# run_suite NAME [OPTIONS OF CTEST…]
run_suite() {
    name=$1
    shift
    cmake --build "$top/build/$name"
    in_memory
    ctest --test-dir "$top/build/$name" --output-on-failure --no-tests=error -j "$jobs" "$@"
}

run_cases() {
    folder=$(cd "$1" 2>/dev/null && pwd) || fail "There is no folder $1"
    configure debug -DAIRMUSTER_CASES="$folder"
    cmake --build "$top/build/debug" --target airmuster-cli airmuster_conformance_runner
    exec ctest --test-dir "$top/build/debug" --verbose --no-tests=error -L '^conformance$'
}

# One target; its new inputs stay in build/fuzz, what breaks it is kept there and shown.
fuzz_one() {
    target=$1
    seconds=$2
    work=$top/build/fuzz/inputs/$target
    longest=16384
    [ "$target" != logbook_file ] || longest=65536  # bytes: a logbook with small pages
    mkdir -p "$work"
    echo "fuzzing $target for $seconds s, seed $seed"
    # What is freed is kept from use for a while: as long as an input takes is enough.
    ASAN_OPTIONS=quarantine_size_mb=16:malloc_context_size=8 \
        "$top/build/fuzz/tests/fuzz/airmuster_${target}_fuzz" \
        -max_total_time="$seconds" -seed="$seed" -timeout=20 -rss_limit_mb=2048 \
        -max_len=$longest -print_final_stats=1 -artifact_prefix="$work-broken-" \
        "$work" "$top/tests/fuzz/corpus/$target" >"$work.log" 2>&1 || {
        tail -n 60 "$work.log" >&2
        echo "$target broke; the whole log is in $work.log" >&2
        return 1
    }
    inputs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$work.log")
    echo "$target: ${inputs:-0} inputs tried"
    [ "${inputs:-0}" -gt 0 ]
}

run_fuzz() {
    case $1 in
    '' | 0 | *[!0-9]*) fail "--fuzz wants a number of seconds" ;;
    esac
    seed=${AIRMUSTER_SEED:-$(od -An -N3 -tu4 /dev/urandom | tr -d ' ')}
    configure fuzz
    cmake --build "$top/build/fuzz" --target airmuster_record_line_fuzz \
        airmuster_rulebook_fuzz airmuster_logbook_file_fuzz
    broken=0
    for one in record_line rulebook logbook_file; do
        fuzz_one "$one" "$1" || broken=$((broken + 1))
    done
    echo "3 fuzz targets, $broken broken"
    [ "$broken" = 0 ]
}

# What each use of the store told, then what fired in all, by kind of fault and of call.
run_faults() {
    configure debug -DAIRMUSTER_CASES="$cases"
    cmake --build "$top/build/debug" --target airmuster_faults_tests
    told=$top/build/debug/faults.log
    status=0
    in_memory
    AIRMUSTER_FAULTS=full TZ=UTC LC_ALL=C.UTF-8 \
        "$top/build/debug/tests/store/faults/airmuster_faults_tests" >"$told" 2>&1 || status=$?
    if [ "$status" != 0 ]; then
        tail -n 60 "$told" >&2
    fi
    grep '^faults: ' "$told"
    awk -F ': ' '/^faults: / {
            runs[$3] += $4; all += $4
            words = split($5, word, " ")
            for (i = 1; i < words; i += 2) calls[word[i]] += word[i + 1]
        }
        END {
            for (kind in runs) printf "faults in all: %s %d\n", kind, runs[kind] | "sort"
            close("sort")
            for (kind in calls) printf "faults in all, at a %s: %d\n", kind, calls[kind] | "sort"
            close("sort")
            printf "faults in all: %d\n", all
        }' "$told"
    tail -n 3 "$told"
    return "$status"
}

# On the disk of TMPDIR, since how long a write takes hangs on it.
run_kills() {
    case $1 in
    '' | 0 | *[!0-9]*) fail "--kill wants a number" ;;
    esac
    configure debug -DAIRMUSTER_CASES="$cases"
    cmake --build "$top/build/debug" --target airmuster_program_tests
    AIRMUSTER_KILLS=$1 TZ=UTC LC_ALL=C.UTF-8 \
        exec "$top/build/debug/tests/program/airmuster_program_tests" 'Killed at any moment*'
}

# What runs in threads outside the window, and what the window's threads do with a logbook. Qt is
# not built with the sanitizer, so that of the window itself it would tell what is not so.
run_threads() {
    configure tsan -DAIRMUSTER_CASES="$cases" -DAIRMUSTER_DESKTOP=OFF
    cmake --build "$top/build/tsan" --target airmuster_station_tests airmuster_store_tests
    for layer in station store; do
        TSAN_OPTIONS=halt_on_error=1 TZ=UTC LC_ALL=C.UTF-8 \
            "$top/build/tsan/tests/$layer/airmuster_${layer}_tests" '[threads]'
    done
}

# The window on a virtual screen and an accessibility bus of its own.
run_accessibility() {
    cmake --build "$top/build/debug" --target airmuster airmuster-cli
    folder=$(mktemp -d)
    trap 'rm -rf "$folder"' EXIT
    "$top/build/debug/src/cli/airmuster-cli" demo "$folder/demo.logbook"
    QT_LINUX_ACCESSIBILITY_ALWAYS_ON=1 xvfb-run -a dbus-run-session -- sh -c '
        /usr/libexec/at-spi-bus-launcher --launch-immediately & launcher=$!
        sleep 1
        status=0
        /usr/bin/python3 "$1" "$2" "$3" KB-0101 || status=$?
        kill "$launcher"
        exit "$status"' sh "$top/tests/desktop/accessibility.py" \
        "$top/build/debug/src/desktop/airmuster" "$folder/demo.logbook"
}

# Few colours are used, so a picture with a palette shows the same and is small.
run_pictures() {
    mkdir -p "$1"
    folder=$(cd "$1" && pwd)
    configure debug -DAIRMUSTER_CASES="$cases"
    cmake --build "$top/build/debug" --target airmuster_pictures
    xvfb-run -a -s "-screen 0 1600x1000x24" env HOME=/home/therapist TZ=UTC LC_ALL=C.UTF-8 \
        QT_QPA_PLATFORM=xcb \
        "$top/build/debug/tests/pictures/airmuster_pictures" "$folder"
    for picture in "$folder"/*-light.png "$folder"/*-dark.png; do
        convert "$picture" -strip +dither -colors 64 -define png:compression-level=9 \
            "png8:$picture.small"
        mv "$picture.small" "$picture"
    done
}

case ${1-} in
'')
    sh "$top/packaging/install-packages.sh" build test
    configure debug -DAIRMUSTER_CASES="$cases"
    run_suite debug
    ;;
--cases)
    [ $# = 2 ] || fail "--cases wants a folder"
    sh "$top/packaging/install-packages.sh" build test
    run_cases "$2"
    ;;
--sanitize)
    sh "$top/packaging/install-packages.sh" build test sanitize
    run_threads
    configure asan -DAIRMUSTER_CASES="$cases"
    # Not those that look for PINs in cores: with the sanitizer's memory a core fills the disk.
    run_suite asan -LE '^secrecy$'
    ;;
--fuzz)
    [ $# = 2 ] || fail "--fuzz wants a number of seconds"
    sh "$top/packaging/install-packages.sh" build fuzz
    run_fuzz "$2"
    ;;
--faults)
    sh "$top/packaging/install-packages.sh" build test
    run_faults
    ;;
--kill)
    [ $# = 2 ] || fail "--kill wants a number"
    sh "$top/packaging/install-packages.sh" build test
    run_kills "$2"
    ;;
--accessibility)
    sh "$top/packaging/install-packages.sh" build test pictures
    configure debug -DAIRMUSTER_CASES="$cases"
    run_accessibility
    ;;
--pictures)
    [ $# = 2 ] || fail "--pictures wants a folder"
    sh "$top/packaging/install-packages.sh" build test pictures
    run_pictures "$2"
    ;;
--mutants)
    [ $# = 2 ] || fail "--mutants wants a number"
    sh "$top/packaging/install-packages.sh" build test mutants
    exec python3 "$top/packaging/mutants.py" "$top" "$2"
    ;;
*)
    sed -n '5,17p' "$0" >&2
    exit 2
    ;;
esac
