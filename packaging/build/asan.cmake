# SPDX-FileCopyrightText: 2026 The Airmuster developers
# SPDX-License-Identifier: GPL-3.0-or-later
#
# cmake -C packaging/build/asan.cmake: everything under the address and undefined behaviour
# sanitizers; what they find ends the program. By clang and without optimisation: so it is compiled
# in a quarter of the time.
set(CMAKE_CXX_COMPILER clang++-16 CACHE STRING "")
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS_DEBUG "-O0 -gline-tables-only" CACHE STRING "")
set(CMAKE_CXX_FLAGS
    "-fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer \
-fsanitize-ignorelist=${CMAKE_CURRENT_LIST_DIR}/sanitizer-ignore.txt"
    CACHE STRING "")
set(AIRMUSTER_PCH ON CACHE BOOL "")
