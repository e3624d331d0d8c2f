#!/bin/sh
# SPDX-FileCopyrightText: 2026 The Airmuster developers
# SPDX-License-Identifier: GPL-3.0-or-later
#
# sh packaging/bench.sh [--records N]… [--seed S] [--rounds N] [--folder FOLDER] [--window no]
# Makes logbooks of that many records (100000 and 1000000 unless it is said; 10000000 takes half an
# hour and 12 GB of disk) and a plain table with the same rows, asks both, and prints medians, each
# beside what it is measured by, in the same run. Up to a million, also of the window, which needs
# Qt and no display; not with --window no.
# What is printed, and what it must come to, stands in docs/internals/performance.md.
set -eu

top=$(cd "$(dirname "$0")/.." && pwd)
build=$top/build/bench
cli=$build/src/cli/airmuster-cli
sizes=
seed=20261128
rounds=3
folder=
window=yes
of_a_million=

say() {
    printf '%s\n' "$*" >&2
}

refuse() {
    say "bench.sh: $1"
    exit 2
}

while [ $# -gt 0 ]; do
    [ $# -gt 1 ] || refuse "$1 wants a value"
    case $1 in
    --records) sizes="$sizes $2" ;;
    --seed) seed=$2 ;;
    --rounds) rounds=$2 ;;
    --folder) folder=$2 ;;
    --window) window=$2 ;;
    *) refuse "what is $1?" ;;
    esac
    shift 2
done
sizes=${sizes:-100000 1000000}
case $window in
yes) desktop=ON; window_bench=airmuster_window_bench ;;
no) desktop=OFF; window_bench= ;;
*) refuse "--window wants yes or no" ;;
esac

sh "$top/packaging/install-packages.sh" build bench

build_release() {
    mkdir -p "$build"
    cmake -C "$top/packaging/build/release.cmake" -S "$top" -B "$build" -G Ninja \
        -DBUILD_TESTING=ON "-DAIRMUSTER_DESKTOP=$desktop" >"$build/configure.log" 2>&1 ||
        { cat "$build/configure.log" >&2; exit 1; }
    # shellcheck disable=SC2086  # none, or one
    cmake --build "$build" --target airmuster-cli airmuster_bench_log airmuster_bench_append \
        $window_bench -- --quiet >&2
}

# Once; adds a line "SECONDS KILOBYTES" to the times. The answer is thrown away.
measure() {
    LC_ALL=C /usr/bin/time -a -o "$work/times" -f '%e %M' "$@" >"$work/out" 2>"$work/err" ||
        { cat "$work/err" >&2; exit 1; }
}

# median PREPARE COMMAND...: the median of the seconds in $took, the most memory in $peak. What is
# to be run before each round, PREPARE, is not measured.
median() {
    prepare=$1
    shift
    : >"$work/times"
    round=0
    while [ "$round" -lt "$rounds" ]; do
        $prepare
        measure "$@"
        round=$((round + 1))
    done
    took=$(sort -n "$work/times" | awk '{a[NR]=$1} END {print a[int((NR+1)/2)]}')
    peak=$(awk '$2>m {m=$2} END {print int(m/1024)}' "$work/times")
}

# row WHAT SECONDS AGAINST SECONDS BAR
row() {
    printf '%-34s %8.2f s  %5s MB   %-24s %8.2f s   %5.2f x   %s\n' "$1" "$2" "$peak" "$3" "$4" \
        "$(awk "BEGIN {print $2/$4}")" "$5"
}

units_of() {
    if [ "$1" -ge 10000000 ]; then echo 5000; elif [ "$1" -ge 1000000 ]; then echo 1000
    else echo 500; fi
}

# The plain table: the same statements as a text, the same pragmas, the same folder.
reference_schema() {
    cat <<'SQL'
PRAGMA journal_mode = DELETE;
PRAGMA synchronous = EXTRA;
PRAGMA cache_size = -65536;
CREATE TABLE reference (station TEXT NOT NULL, seq INTEGER NOT NULL, at TEXT NOT NULL,
    entered TEXT NOT NULL, device TEXT NOT NULL, kind TEXT NOT NULL, by TEXT NOT NULL,
    body TEXT NOT NULL, hash BLOB NOT NULL) STRICT;
CREATE INDEX reference_in_order ON reference (at, entered, station, seq);
CREATE INDEX reference_by_device ON reference (device);
CREATE TRIGGER never_updated BEFORE UPDATE ON reference
BEGIN SELECT RAISE(ABORT, 'never updated'); END;
CREATE TRIGGER never_deleted BEFORE DELETE ON reference
BEGIN SELECT RAISE(ABORT, 'never deleted'); END;
SQL
}

fill_reference() {
    rm -f "$work/reference.sqlite"
    { reference_schema
      cat <<SQL
ATTACH '$work/bench.logbook' AS logbook;
INSERT INTO reference SELECT station, seq, json_extract(content, '\$.at'),
    json_extract(content, '\$.entered'), device, kind, json_extract(content, '\$.by'),
    json_extract(content, '\$.body'), hash FROM logbook.records ORDER BY arrival;
SQL
    } | sqlite3 "$work/reference.sqlite" >/dev/null
}

# What is put in again and again, as a text of one transaction: a row each.
write_bulk() {
    { reference_schema
      echo 'BEGIN IMMEDIATE;'
      sqlite3 -cmd '.mode insert reference' "$work/reference.sqlite" \
          'SELECT station, seq, at, entered, device, kind, by, body, hash FROM reference'
      echo 'COMMIT;'
    } >"$work/bulk.sql"
}

# What a cold board may take at most, in MB.
memory_of() {
    if [ "$1" -ge 10000000 ]; then echo 600; else echo 300; fi
}

# Of the cold board; of a larger log beside that of a million before it in the same run.
per_record() {
    each=$(awk "BEGIN {printf \"%.3f\", 1e6*$cold/$records}")
    [ "$records" != 1000000 ] || of_a_million=$each
    if [ "$records" -gt 1000000 ] && [ -n "$of_a_million" ]; then
        awk "BEGIN {printf \"   a record: %.2f us, of a million %.2f us: %.2f x, at most 1.25\\n\",
            $each, $of_a_million, $each/$of_a_million}"
    else
        awk "BEGIN {printf \"   a record: %.2f us\\n\", $each}"
    fi
}

nothing() { :; }
drop_bulk() { rm -f "$work/bulk.sqlite" "$work/imported.logbook"; }

make_logs() {
    { sed 's/^edition = .*/edition = "bench"/' "$top/data/rulebooks/adult_intensive_care.toml"
      cat "$top/tests/bench/further_checks.toml"
    } >"$work/rulebook.toml"
    rm -f "$work/bench.logbook"
    say "Making $records records of $(units_of "$records") units, seed $seed"
    end=$("$build/tests/bench/airmuster_bench_log" "$work" "$records" "$(units_of "$records")" \
        "$work/rulebook.toml" "$seed")
    say "Making the plain table with the same rows"
    fill_reference
}

whole_table='SELECT count(*), sum(length(body)), sum(length(hash)) FROM reference'
query="SELECT device, json_extract(body, '\$.check'), max(at) FROM reference GROUP BY 1, 2"

# One entry after the other beside a row into the plain table; then a board after many late ones.
# The acts go into a copy: each of the two begins at the end of the log as it was made.
bench_appending() {
    append=$build/tests/bench/airmuster_bench_append
    cp "$work/bench.logbook" "$work/act.logbook"
    "$append" "$work/bench.logbook" "$work/reference.sqlite" 500 "$end" >"$work/out"
    awk '{printf "%-34s %8.2f ms %9s %-23s %8.2f ms  %5.2f x   %s\n",
        "entry on disk, new verdict", $1, "", "durable insert", $2, $3,
        "at most 2.00 x, median of 500"}' "$work/out"
    "$append" "$work/act.logbook" act 50 "$end" >"$work/out"
    rm -f "$work/act.logbook"*
    awk '{printf "%-34s %8.2f ms %9s %s\n", "   as an act at the window", $1, "",
        "(signed, held against the log; median of 50)"}' "$work/out"
    "$append" "$work/bench.logbook" late 1000 "$end"
    median nothing "$cli" board "$work/bench.logbook" --at "$end" --json
    row 'board after 1,000 late entries' "$took" 'cold board' "$cold" ''
}

# It holds the whole log in memory, 1.3 GB a million records.
bench_month() {
    [ "$records" -le 1000000 ] || return 0
    median nothing "$cli" month "$work/bench.logbook" 2026-01 --json
    row 'month' "$took" 'Q' "$q" 'under 5 s of 1 million'
}

# On a copy: the window verifies what it opens, and notes that in the file.
bench_window() {
    [ "$window" = yes ] && [ "$records" -le 1000000 ] || return 0
    cp "$work/bench.logbook" "$work/window.logbook"
    QT_QPA_PLATFORM=offscreen "$build/tests/bench/airmuster_window_bench" \
        "$work/window.logbook" "$end" \
        2>"$work/err" || { cat "$work/err" >&2; exit 1; }
    rm -f "$work/window.logbook"*
}

bench() {
    records=$1
    work=$folder/$records
    mkdir -p "$work"
    make_logs
    echo
    echo "$records records, $(units_of "$records") units, seed $seed, median of $rounds," \
        "load $(cut -d' ' -f1 /proc/loadavg) before"
    cat "$work/bench.logbook" "$work/reference.sqlite" >/dev/null
    median nothing sqlite3 "$work/reference.sqlite" "$whole_table"
    r=$took
    median nothing sqlite3 "$work/reference.sqlite" "$query"
    q=$took
    printf 'R, the table read %s s; Q, the query %s s\n' "$r" "$q"
    median nothing "$cli" board "$work/bench.logbook" --at "$end" --json --cold
    row 'cold board' "$took" 'Q' "$q" "at most 1.00 x, aim 0.70; under $(memory_of "$records") MB"
    cold=$took
    per_record
    "$cli" rebuild "$work/bench.logbook" >"$work/out"
    median nothing "$cli" board "$work/bench.logbook" --at "$end" --json
    row 'warm board' "$took" 'cold board' "$cold" 'at most 0.05 x of 10 million'
    bench_month
    median nothing "$cli" trace "$work/bench.logbook" --serial 0-7 --json
    row 'trace of a serial' "$took" 'Q' "$q" 'under 2 s of 1 million'
    bench_window
    bench_appending
    [ "$records" -le 1000000 ] || return 0
    write_bulk
    median drop_bulk sh -c "sqlite3 '$work/bulk.sqlite' <'$work/bulk.sql'"
    bulk=$took
    median drop_bulk "$cli" import "$work/imported.logbook" "$work/bench.jsonl"
    row 'import' "$took" 'bulk insert' "$bulk" 'at most 3.00 x'
}

build_release
if [ -z "$folder" ]; then
    folder=$(mktemp -d "${TMPDIR:-/tmp}/airmuster-bench.XXXXXX")
    trap 'rm -rf "$folder"' EXIT
fi
for records in $sizes; do
    bench "$records"
done
