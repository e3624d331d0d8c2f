// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A file layer for SQLite that ends the program at a chosen write, sync, truncation or deletion and
// cleans nothing up. It stands in for the system's own while an object of it lives, so that the
// store under test is the one that people run.
#pragma once

namespace store::test {

class KillingFiles {
public:
    KillingFiles();
    ~KillingFiles();
    KillingFiles(const KillingFiles&) = delete;
    KillingFiles& operator=(const KillingFiles&) = delete;

    // At the call of that number from now on.
    void killAt(int call);
};

}  // namespace store::test
