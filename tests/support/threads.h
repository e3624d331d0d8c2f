// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Threads of a test, each of which says what went wrong in it: Catch2 is told by one thread alone.
#pragma once

#include <catch2/catch.hpp>

#include <atomic>
#include <functional>
#include <future>
#include <string>
#include <utility>
#include <vector>

namespace support {

// What went wrong; "" nothing.
using Outcome = std::string;

class Threads {
public:
    // Does it once. Those that go on beside end when all of these have.
    void once(std::function<Outcome()> work) {
        ++m_busy;
        m_outcomes.push_back(std::async(std::launch::async, [this, work = std::move(work)] {
            const Done done(m_busy);
            return work();
        }));
    }

    // Does it again and again, and once more when the others are done.
    void beside(std::function<Outcome()> work) {
        m_outcomes.push_back(std::async(std::launch::async, [this, work = std::move(work)] {
            for (;;) {
                const bool isLast = m_busy == 0;
                if (auto outcome = work(); !outcome.empty() || isLast) {
                    return outcome;
                }
            }
        }));
    }

    void join() {
        for (auto& outcome : m_outcomes) {
            CHECK(outcome.get() == Outcome());
        }
        m_outcomes.clear();
    }

private:
    struct Done {
        explicit Done(std::atomic<int>& among) : busy(among) {}
        ~Done() { --busy; }
        Done(const Done&) = delete;
        Done& operator=(const Done&) = delete;
        std::atomic<int>& busy;
    };

    std::atomic<int> m_busy = 0;
    std::vector<std::future<Outcome>> m_outcomes;  // last: its threads use the above
};

}  // namespace support
