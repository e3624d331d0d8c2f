// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A schema before the first, of the tests' own, which the store knows while an object of this
// lives: without the index by device and the table of badges. The linker puts its list in the place
// of the store's.
#pragma once

namespace store::test {

class SchemaZero {
public:
    SchemaZero();
    ~SchemaZero();
    SchemaZero(const SchemaZero&) = delete;
    SchemaZero& operator=(const SchemaZero&) = delete;
};

}  // namespace store::test
