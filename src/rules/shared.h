// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A value that copies share until one of them edits it, so that a whole state can be copied for
// little. One copy must not be used by two threads at once; copies that share a value may live,
// be edited and end each in a thread of its own.
#pragma once

#include <atomic>
#include <cstddef>
#include <utility>

namespace rules {

// One that was moved from may only be assigned to, or end.
template <class T>
class Shared {
public:
    Shared() : m_held(new Held) {}
    explicit Shared(T value) : m_held(new Held{{1}, std::move(value)}) {}
    Shared(const Shared& other) noexcept : m_held(other.m_held) {
        if (m_held) m_held->holders.fetch_add(1, std::memory_order_relaxed);
    }
    Shared(Shared&& other) noexcept : m_held(std::exchange(other.m_held, nullptr)) {}
    Shared& operator=(Shared other) noexcept {
        std::swap(m_held, other.m_held);
        return *this;
    }
    ~Shared() {
        const bool isLast =
            m_held && m_held->holders.fetch_sub(1, std::memory_order_acq_rel) == 1;
        if (isLast) delete m_held;
    }

    const T& operator*() const { return m_held->value; }
    const T* operator->() const { return &m_held->value; }
    [[nodiscard]] const T* get() const { return &m_held->value; }

    // The value to change, this copy's own from now on.
    [[nodiscard]] T& edit() {
        // What another thread read of it before it let go comes before what is changed here; the
        // count of a std::shared_ptr does not promise that.
        if (m_held->holders.load(std::memory_order_acquire) > 1) *this = Shared(m_held->value);
        return m_held->value;
    }

private:
    struct Held {
        std::atomic<std::size_t> holders{1};
        T value{};
    };

    Held* m_held;
};

}  // namespace rules
