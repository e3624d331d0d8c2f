# SPDX-FileCopyrightText: 2026 The Airmuster developers
# SPDX-License-Identifier: GPL-3.0-or-later
#
# cmake -C packaging/build/debug.cmake: what the tests run.
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
# Some optimisation: the tests take half the time, and compiling takes no longer.
# GCC 12 warns, falsely, of unset variants once it optimises, as it does not without.
set(CMAKE_CXX_FLAGS_DEBUG "-O1 -g1 -Wno-maybe-uninitialized" CACHE STRING "")
set(AIRMUSTER_WERROR ON CACHE BOOL "")
