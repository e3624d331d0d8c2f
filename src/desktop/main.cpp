// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// airmuster [LOGBOOK]: assembles the window from this computer's clock, zones and language.
#include "desktop/shell/text.h"
#include "desktop/shell/window.h"
#include "desktop/theme/appearance.h"
#include "station/system.h"

#include <QApplication>
#include <QCommandLineParser>
#include <algorithm>

namespace {

desktop::Appearance appearanceOf(const QCommandLineParser& parser) {
    desktop::Appearance appearance;
    if (parser.value(QStringLiteral("theme")) == QLatin1String("dark"))
        appearance.theme = desktop::Theme::Dark;
    appearance.textPercent =
        std::clamp(parser.value(QStringLiteral("text-size")).toInt(), 100, 200);
    return appearance;
}

}  // namespace

int main(int count, char** words) {
    QApplication application(count, words);
    QApplication::setApplicationName(QStringLiteral("airmuster"));
    QApplication::setApplicationVersion(QStringLiteral(AIRMUSTER_VERSION));
    QCommandLineParser parser;
    parser.setApplicationDescription(
        QApplication::translate("main", "Ventilator readiness logbook"));
    parser.addHelpOption();
    parser.addVersionOption();
    parser.addPositionalArgument(QStringLiteral("LOGBOOK"),
                                 QApplication::translate("main", "The logbook file to open."),
                                 QStringLiteral("[LOGBOOK]"));
    parser.addOptions(
        {{QStringLiteral("theme"), QApplication::translate("main", "light or dark"),
          QStringLiteral("THEME"), QStringLiteral("light")},
         {QStringLiteral("text-size"), QApplication::translate("main", "100 to 200 percent"),
          QStringLiteral("PERCENT"), QStringLiteral("100")}});
    parser.process(application);
    desktop::apply(application, appearanceOf(parser));

    const station::system::SystemClock clock;
    desktop::Start start{{}, clock, *words::Words::builtIn(), &station::system::systemZones,
                         station::system::loginName()};
    if (const auto files = parser.positionalArguments(); !files.isEmpty())
        start.file.path = desktop::plainText(files.front());
    desktop::Window window(std::move(start));
    window.resize(1280, 800);
    window.show();
    return QApplication::exec();
}
