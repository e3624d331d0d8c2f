// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A logbook that takes long, for as long as one of these is there.
#pragma once

#include "window_world.h"

#include <QSemaphore>
#include <memory>

namespace support {

// Nothing is read meanwhile: as with a log that takes long.
class BusyReader {
public:
    explicit BusyReader(const WindowWorld& world) {
        world.window->workplace().read(
            [gate = m_gate](const auto&, const auto&) {
                gate->acquire();
                return true;
            },
            world.window.get(), [](bool) {});
    }
    BusyReader(const BusyReader&) = delete;
    BusyReader& operator=(const BusyReader&) = delete;
    ~BusyReader() { m_gate->release(); }

private:
    std::shared_ptr<QSemaphore> m_gate = std::make_shared<QSemaphore>();
};

// Nothing is written meanwhile: as where another program writes.
class BusyWriter {
public:
    explicit BusyWriter(const WindowWorld& world) {
        world.window->workplace().write(
            [gate = m_gate](const auto&, const auto&) {
                gate->acquire();
                return true;
            },
            world.window.get(), [](bool) {});
    }
    BusyWriter(const BusyWriter&) = delete;
    BusyWriter& operator=(const BusyWriter&) = delete;
    ~BusyWriter() { m_gate->release(); }

private:
    std::shared_ptr<QSemaphore> m_gate = std::make_shared<QSemaphore>();
};

}  // namespace support
