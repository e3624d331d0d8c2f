// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Runs the tests of what is printed, without a display.
#define CATCH_CONFIG_RUNNER
#include <QGuiApplication>
#include <catch2/catch.hpp>

int main(int count, char** words) {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    int one = 1;
    QGuiApplication application(one, words);
    return Catch::Session().run(count, words);
}
