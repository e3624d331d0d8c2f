# SPDX-FileCopyrightText: 2026 The Airmuster developers
# SPDX-License-Identifier: GPL-3.0-or-later
#
# cmake -C packaging/build/release.cmake: what is run and installed, without the tests.
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(BUILD_TESTING OFF CACHE BOOL "")
# GCC 12 warns, falsely, of overlapping copies where short texts are joined under optimisation.
set(CMAKE_CXX_FLAGS "-Wno-restrict" CACHE STRING "")
