// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Takes the check of hashes out of verify, to see that nothing else would have found a change.
#pragma once

#include "store/hash.h"

#include <map>
#include <string>

namespace store::test {

// While one lives, each of these contents has the hash given for it, whatever came before it.
class HashCheckOff {
public:
    explicit HashCheckOff(std::map<std::string, Hash, std::less<>> standing);
    ~HashCheckOff();
    HashCheckOff(const HashCheckOff&) = delete;
    HashCheckOff& operator=(const HashCheckOff&) = delete;
};

}  // namespace store::test
