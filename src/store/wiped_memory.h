// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Memory of the database that holds nothing once it is given back: a page of the file with the
// hash of a PIN in it is gone when its connection is closed. For this folder only.
#pragma once

namespace store {

// Before the first connection, once. False if the database had begun its work already, which then
// goes on as it was.
bool wipeFreedMemory();

}  // namespace store
