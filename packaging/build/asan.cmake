# SPDX-FileCopyrightText: 2026 The Airmuster developers
# SPDX-License-Identifier: GPL-3.0-or-later
#
# cmake -C packaging/build/asan.cmake: everything under the address and undefined behaviour
# sanitizers; what they find ends the program.
set(CMAKE_CXX_COMPILER clang++-16 CACHE STRING "")
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS_DEBUG "-O1 -gline-tables-only" CACHE STRING "")
set(CMAKE_CXX_FLAGS
    "-fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer \
-fsanitize-ignorelist=${CMAKE_CURRENT_LIST_DIR}/sanitizer-ignore.txt"
    CACHE STRING "")
set(AIRMUSTER_PCH ON CACHE BOOL "")
set(AIRMUSTER_PLAIN words report station cli print desktop tests CACHE STRING "")
# Three of the engine have run for more than ten minutes under them.
set(AIRMUSTER_TEST_SECONDS 3600 CACHE STRING "")
