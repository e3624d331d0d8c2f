// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every screen of the window, each as what a person does to get there on the demo or, at the first
// start, on nothing.
#pragma once

#include "screens/stage.h"

#include <functional>
#include <string>
#include <vector>

namespace screens {

struct Screen {
    std::string name;  // of its picture, before the theme
    bool onDemo = true;
    std::function<void(Stage&)> reach{};
};

// In the order in which a reader meets them.
[[nodiscard]] std::vector<Screen> all();

[[nodiscard]] std::vector<Screen> firstStartScreens();
[[nodiscard]] std::vector<Screen> bedsideScreens();
[[nodiscard]] std::vector<Screen> entryScreens();
[[nodiscard]] std::vector<Screen> fleetScreens();
[[nodiscard]] std::vector<Screen> sharedScreens();

// Opens what the screen is on, or goes back to its beginning, and gets there.
void show(const Screen& screen, Stage& stage);

}  // namespace screens
