// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A program that can have no other thread, as where the system gives it none.
#pragma once

#include <catch2/catch.hpp>
#include <cstddef>
#include <pthread.h>
#include <system_error>
#include <thread>

namespace support {

// While it lives no thread can be begun: each would have a stack for which there is no room.
class NoThreads {
public:
    NoThreads() {
        REQUIRE(pthread_getattr_default_np(&m_before) == 0);
        pthread_attr_t attributes;
        REQUIRE(pthread_attr_init(&attributes) == 0);
        REQUIRE(pthread_attr_setstacksize(&attributes, std::size_t{1} << 47U) == 0);
        REQUIRE(pthread_setattr_default_np(&attributes) == 0);
        pthread_attr_destroy(&attributes);
        REQUIRE_THROWS_AS(std::thread([] {}), std::system_error);
    }
    ~NoThreads() {
        pthread_setattr_default_np(&m_before);
        pthread_attr_destroy(&m_before);
    }
    NoThreads(const NoThreads&) = delete;
    NoThreads& operator=(const NoThreads&) = delete;

private:
    pthread_attr_t m_before{};
};

}  // namespace support
