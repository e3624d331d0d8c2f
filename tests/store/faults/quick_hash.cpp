// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Hashes of secrets that cost next to nothing: the linker puts this in front of the library's call
// in this test program (--wrap). What makes them slow is not what a failing disk is swept for, and
// would take a tenth of a second for each of thousands.
#include <sodium.h>

extern "C" {

int __real_crypto_pwhash_str(char* text, const char* secret, unsigned long long length,
                             unsigned long long passes, size_t memory);

int __wrap_crypto_pwhash_str(char* text, const char* secret, unsigned long long length,
                             unsigned long long, size_t) {
    return __real_crypto_pwhash_str(text, secret, length, crypto_pwhash_OPSLIMIT_MIN,
                                    crypto_pwhash_MEMLIMIT_MIN);
}

}  // extern "C"
