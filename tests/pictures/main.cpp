// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// airmuster_pictures FOLDER [SCREEN…]: a picture of every screen, or of those named, in both
// themes.
#include "desktop/theme/appearance.h"
#include "pictures/screens.h"
#include "station/sample.h"
#include "station/system.h"
#include "support/folder.h"
#include "support/moved_clock.h"

#include <QApplication>
#include <QDir>
#include <QSettings>
#include <QtTest/QTest>
#include <cstdio>

namespace {

// Saturday 28 November 2026, 08:00 at Kestrel Bay.
constexpr logbook::Instant fixed{1'795'874'400'000};

struct Studio {
    support::Folder folder;
    support::MovedClock clock{fixed};
    station::LogbookFile demo{folder.file("kestrel-bay.logbook")};

    bool makeDemo() {
        const station::Surroundings surroundings{clock, station::system::systemZones(),
                                                 *words::Words::builtIn(), "desk"};
        return station::makeSample(surroundings, demo, {}).has_value();
    }

    bool take(const pictures::Screen& screen, desktop::Theme theme, const QDir& into) {
        desktop::apply(*qApp, {theme, 100});
        const support::Folder home;
        qputenv("XDG_DATA_HOME", QByteArray::fromStdString(home.path().string()));
        desktop::Window window({screen.onDemo ? demo : station::LogbookFile{}, clock,
                                *words::Words::builtIn(), &station::system::systemZones, "desk"});
        window.resize(1280, 800);
        window.show();
        if (screen.onDemo)
            pictures::waitUntil("the fleet is read",
                                [&] { return window.workplace().fleet() != nullptr; });
        screen.reach(window);
        QTest::qWait(400);
        const bool isLight = theme == desktop::Theme::Light;
        const auto name = QString::fromStdString(screen.name + (isLight ? "-light" : "-dark"));
        return window.grab().save(into.filePath(name + QStringLiteral(".png")));
    }
};

}  // namespace

int main(int count, char** words) {
    QApplication application(count, words);
    const auto arguments = QApplication::arguments();
    if (arguments.size() < 2) {
        std::fputs("airmuster_pictures FOLDER [SCREEN…]\n", stderr);
        return 2;
    }
    const support::Folder settings;
    QSettings::setPath(QSettings::IniFormat, QSettings::UserScope,
                       QString::fromStdString(settings.path().string()));
    Studio studio;
    if (!studio.makeDemo()) return 1;
    auto screens = pictures::fleetScreens();
    for (auto& screen : pictures::firstStartScreens()) screens.push_back(std::move(screen));
    for (const auto& screen : screens) {
        if (arguments.size() > 2 &&
            !arguments.mid(2).contains(QString::fromStdString(screen.name)))
            continue;
        for (const auto theme : {desktop::Theme::Light, desktop::Theme::Dark})
            if (!studio.take(screen, theme, QDir(arguments[1]))) return 1;
        std::printf("%s\n", screen.name.c_str());
    }
    return 0;
}
