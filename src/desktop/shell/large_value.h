// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A value that is made beside the thread that paints and may be as large as the fleet. Where the
// last that held it lives in that thread, taking it apart must not keep that from painting.
#pragma once

#include "station/system.h"

#include <QThreadPool>
#include <memory>

namespace desktop {

// It ends in Qt's own pool of threads.
template <class Value>
[[nodiscard]] std::shared_ptr<Value> makeLarge() {
    return {new Value, [](Value* value) {
                QThreadPool::globalInstance()->start([value] {
                    station::system::giveWay(station::system::Way::ToAll);
                    delete value;
                });
            }};
}

}  // namespace desktop
