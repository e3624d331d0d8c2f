# SPDX-FileCopyrightText: 2026 The Airmuster developers
# SPDX-License-Identifier: GPL-3.0-or-later
#
# cmake -C packaging/build/debug.cmake: what the tests run. All of it is compiled in half the
# time by clang, behind headers compiled once, without symbols for a debugger, and optimised only
# where the tests spend their time. For a debugger: -DCMAKE_CXX_FLAGS_DEBUG=-g.
set(CMAKE_CXX_COMPILER clang++-16 CACHE STRING "")
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS_DEBUG "-O1" CACHE STRING "")
set(AIRMUSTER_WERROR ON CACHE BOOL "")
set(AIRMUSTER_PCH ON CACHE BOOL "")
set(AIRMUSTER_PLAIN words report station cli print desktop tests CACHE STRING "")
