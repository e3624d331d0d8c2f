// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The database's own allocator, with every block wiped before it is freed; see wiped_memory.h.
#include "store/wiped_memory.h"

#include <algorithm>
#include <cstring>
#include <sodium.h>
#include <sqlite3.h>

namespace store {

namespace {

sqlite3_mem_methods& original() {
    static sqlite3_mem_methods methods{};
    return methods;
}

void wipeAndFree(void* block) {
    if (block != nullptr) {
        sodium_memzero(block, static_cast<std::size_t>(original().xSize(block)));
        original().xFree(block);
    }
}

// Never in place: the old block would keep what a shorter one no longer covers.
void* moveAndWipe(void* block, int bytes) {
    void* moved = original().xMalloc(bytes);
    if (moved != nullptr && block != nullptr) {
        std::memcpy(moved, block,
                    static_cast<std::size_t>(std::min(bytes, original().xSize(block))));
        wipeAndFree(block);
    }
    return moved;
}

}  // namespace

bool wipeFreedMemory() {
    if (sqlite3_config(SQLITE_CONFIG_GETMALLOC, &original()) != SQLITE_OK) {
        return false;
    }
    sqlite3_mem_methods wiping = original();
    wiping.xFree = wipeAndFree;
    wiping.xRealloc = moveAndWipe;
    return sqlite3_config(SQLITE_CONFIG_MALLOC, &wiping) == SQLITE_OK;
}

}  // namespace store
