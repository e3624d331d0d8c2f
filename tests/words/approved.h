// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Compares text with an approved file; with AIRMUSTER_APPROVE=1 in the environment the file is
// written anew instead, for a person to read before it is committed.
#pragma once

#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>

namespace support {

// `path` is relative to the source folder.
inline void requireApproved(const std::string& path, const std::string& text) {
    const auto full = std::string(AIRMUSTER_SOURCE_DIR) + "/" + path;
    const char* approve = std::getenv("AIRMUSTER_APPROVE");
    if (approve && std::string(approve) == "1") std::ofstream(full, std::ios::binary) << text;
    std::ifstream file(full, std::ios::binary);
    std::ostringstream approved;
    approved << file.rdbuf();
    REQUIRE(approved.str() == text);
}

}  // namespace support
