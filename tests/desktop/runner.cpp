// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Runs the tests of the window, without a display unless one is asked for.
#define CATCH_CONFIG_RUNNER
#include <QApplication>
#include <QSettings>
#include <QTemporaryDir>
#include <catch2/catch.hpp>

int main(int count, char** words) {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    // What a person set for their own window bears on no test.
    const QTemporaryDir settings;
    QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, settings.path());
    int one = 1;
    QApplication application(one, words);
    return Catch::Session().run(count, words);
}
