// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The screens of which pictures are made, each as what a person does to get there on the demo, at
// an instant that is always the same.
#pragma once

#include "desktop/shell/window.h"

#include <functional>
#include <string>
#include <vector>

namespace pictures {

struct Screen {
    std::string name;  // of its file, before the theme
    bool onDemo = true;  // else the window is opened on no logbook
    std::function<void(desktop::Window&)> reach{};
};

[[nodiscard]] std::vector<Screen> fleetScreens();
[[nodiscard]] std::vector<Screen> firstStartScreens();

// What a person does. A step that cannot be done stops the program and says which.
void press(desktop::Window& window, const QString& says);
void type(desktop::Window& window, const QString& field, const QString& text);
void key(desktop::Window& window, Qt::Key key, Qt::KeyboardModifiers modifiers = {});
void waitUntil(const std::string& what, const std::function<bool()>& isSo);
[[nodiscard]] bool isSaid(const desktop::Window& window, const QString& text);

}  // namespace pictures
