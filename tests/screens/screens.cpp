// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// All screens; see screens.h.
#include "screens/screens.h"

#include <iterator>

namespace screens {

std::vector<Screen> all() {
    std::vector<Screen> all;
    for (auto part : {&firstStartScreens, &bedsideScreens, &entryScreens, &fleetScreens,
                      &sharedScreens}) {
        auto screens = part();
        std::move(screens.begin(), screens.end(), std::back_inserter(all));
    }
    return all;
}

void show(const Screen& screen, Stage& stage) {
    screen.onDemo ? stage.openDemo() : stage.openNothing();
    screen.reach(stage);
    stage.settle();
}

}  // namespace screens
