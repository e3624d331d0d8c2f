// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A value that copies share until one of them edits it, so that a whole state can be copied for
// little. Copies that live in different threads must not be edited at the same time.
#pragma once

#include <memory>
#include <utility>

namespace rules {

template <class T>
class Shared {
public:
    Shared() : m_value(std::make_shared<T>()) {}
    explicit Shared(T value) : m_value(std::make_shared<T>(std::move(value))) {}

    const T& operator*() const { return *m_value; }
    const T* operator->() const { return m_value.get(); }
    [[nodiscard]] const T* get() const { return m_value.get(); }

    // The value to change, this copy's own from now on.
    [[nodiscard]] T& edit() {
        if (m_value.use_count() > 1) m_value = std::make_shared<T>(*m_value);
        return *m_value;
    }

private:
    std::shared_ptr<T> m_value;
};

}  // namespace rules
