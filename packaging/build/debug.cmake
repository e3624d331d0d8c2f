# SPDX-FileCopyrightText: 2026 The Airmuster developers
# SPDX-License-Identifier: GPL-3.0-or-later
#
# cmake -C packaging/build/debug.cmake: what the tests run.
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(AIRMUSTER_WERROR ON CACHE BOOL "")
