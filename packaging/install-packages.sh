#!/bin/sh
# SPDX-FileCopyrightText: 2026 The Airmuster developers
# SPDX-License-Identifier: GPL-3.0-or-later
#
# sh packaging/install-packages.sh PURPOSE…
# Installs the packages of packages.txt for these purposes (build, test, bench, pictures, mutants,
# sanitize, fuzz) that are missing; touches nothing if none is. Not as root and without sudo it
# prints the line to type.
set -eu

list=$(dirname "$0")/packages.txt

if ! command -v dpkg-query >/dev/null 2>&1; then
    echo "This is no Debian system, so nothing is installed here. The libraries needed are" >&2
    echo "named in packaging/packages.txt; with them in place, build with cmake by hand:" >&2
    echo "    cmake -S . -B build/release -G Ninja && cmake --build build/release" >&2
    exit 1
fi

missing=
for purpose in "$@"; do
    # shellcheck disable=SC2013 # a package is one word
    for package in $(sed -n "s/^$purpose  *//p" "$list"); do
        state=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null || true)
        if [ "$state" != installed ]; then
            missing="$missing $package"
        fi
    done
done
if [ -z "$missing" ]; then
    exit 0
fi

install="apt-get install -y --no-install-recommends$missing"
as_root=
if [ "$(id -u)" != 0 ]; then
    if command -v sudo >/dev/null 2>&1 && { [ -t 0 ] || sudo -n true 2>/dev/null; }; then
        as_root=sudo
    else
        echo "Some packages are missing. Type this as root, then start this script again:" >&2
        echo "    apt-get update && $install" >&2
        exit 1
    fi
fi

echo "Installing:$missing" >&2
export DEBIAN_FRONTEND=noninteractive
$as_root apt-get update -q >&2
# shellcheck disable=SC2086 # words on purpose
$as_root env DEBIAN_FRONTEND=noninteractive $install >&2
