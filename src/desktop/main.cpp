// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// airmuster [LOGBOOK]: assembles the window from this computer's clock, zones and language, and
// from the settings of the station whose logbook it is.
#include "desktop/shell/text.h"
#include "desktop/shell/window.h"
#include "desktop/theme/appearance.h"
#include "station/automatic_backup.h"
#include "station/problem.h"
#include "station/settings.h"
#include "station/system.h"
#include "station/system_terminal.h"
#include "words/languages.h"

#include <QApplication>
#include <QCommandLineParser>
#include <QPalette>
#include <QStandardPaths>
#include <QTranslator>
#include <algorithm>
#include <filesystem>
#include <iostream>
#include <string_view>

namespace {

void describe(QCommandLineParser& parser) {
    const auto says = [](const char* text) { return QApplication::translate("main", text); };
    parser.setApplicationDescription(
        says(QT_TRANSLATE_NOOP("main", "Ventilator readiness logbook")));
    parser.addHelpOption();
    parser.addVersionOption();
    parser.addPositionalArgument(QStringLiteral("LOGBOOK"),
                                 says(QT_TRANSLATE_NOOP("main", "The logbook file to open.")),
                                 QStringLiteral("[LOGBOOK]"));
    parser.addOptions({{QStringLiteral("theme"), says(QT_TRANSLATE_NOOP("main", "light or dark")),
                        QStringLiteral("THEME")},
                       {QStringLiteral("text-size"),
                        says(QT_TRANSLATE_NOOP("main", "100 to 200 percent")),
                        QStringLiteral("PERCENT")},
                       {QStringLiteral("language"),
                        says(QT_TRANSLATE_NOOP("main", "en or es")), QStringLiteral("CODE")}});
}

// Options go before what is set at the station, that before what the computer has.
desktop::Appearance appearanceOf(const QCommandLineParser& parser,
                                 const station::Settings& settings) {
    const bool isDarkHere = QApplication::palette().color(QPalette::Window).lightness() < 128;
    bool isDark = settings.theme == station::Theme::Dark ||
                  (settings.theme == station::Theme::AsComputer && isDarkHere);
    if (parser.isSet(QStringLiteral("theme")))
        isDark = parser.value(QStringLiteral("theme")) == QLatin1String("dark");
    int percent = settings.textSizePercent;
    if (parser.isSet(QStringLiteral("text-size")))
        percent = parser.value(QStringLiteral("text-size")).toInt();
    return {isDark ? desktop::Theme::Dark : desktop::Theme::Light, std::clamp(percent, 100, 200)};
}

const words::Words& wordsOf(const QCommandLineParser& parser,
                            const station::StationSettings& settings) {
    if (parser.isSet(QStringLiteral("language")))
        return words::wordsFor({desktop::plainText(parser.value(QStringLiteral("language")))});
    if (settings.stated.contains("language"))
        return words::wordsFor({settings.settings.language});
    return words::wordsFor(station::system::localesWanted());
}

station::StationSettings settingsOf(const station::Clock& clock,
                                    const station::LogbookFile& file) {
    if (file.path.empty() || !station::system::exists(file.path)) return {};
    const station::Surroundings surroundings{clock, station::system::systemZones(),
                                             *words::Words::builtIn(),
                                             station::system::loginName()};
    return station::settingsOf(surroundings, file).value_or(station::StationSettings{});
}

// The window is gone by then, and what is told stands in the log of the session; the next start
// tells it again.
void backUpAtClose(const station::Clock& clock, const words::Words& words,
                   const station::LogbookFile& file, logbook::Instant opened) {
    if (file.path.empty() || !station::system::exists(file.path)) return;
    const station::Surroundings surroundings{clock, station::system::systemZones(), words,
                                             station::system::loginName()};
    const auto backup = station::backUpAtClose(surroundings, file, opened);
    for (const auto& line : backup.told) std::cerr << line << '\n';
}

// Without a display too.
bool asksAboutTheProgram(int count, char** words) {
    return std::any_of(words + 1, words + count, [](const std::string_view word) {
        return word == "--help" || word == "-h" || word == "--version" || word == "-v";
    });
}

int tellAboutTheProgram(int count, char** words) {
    QCoreApplication application(count, words);
    QCommandLineParser parser;
    describe(parser);
    parser.process(application);
    return 0;
}

}  // namespace

int main(int count, char** words) {
    station::system::outliveLimits();
    QCoreApplication::setApplicationName(QStringLiteral("airmuster"));
    QCoreApplication::setApplicationVersion(QStringLiteral(AIRMUSTER_VERSION));
    if (asksAboutTheProgram(count, words)) return tellAboutTheProgram(count, words);
    QApplication application(count, words);
    QCommandLineParser parser;
    describe(parser);
    parser.process(application);
    const station::system::SystemClock clock;
    station::LogbookFile file;
    if (const auto files = parser.positionalArguments(); !files.isEmpty())
        file.path = desktop::plainText(files.front());
    const auto settings = settingsOf(clock, file);
    const auto& spoken = wordsOf(parser, settings);
    station::system::tellLackOfMemory(
        station::problemOf(spoken, "trouble.no_memory").notice.text() + "\n", 3);
    QTranslator translator;
    if (translator.load(QStringLiteral(":/translations/airmuster_%1.qm")
                            .arg(desktop::shownText(spoken.language()))))
        QApplication::installTranslator(&translator);
    desktop::apply(application, appearanceOf(parser, settings.settings));
    int status = 0;
    const auto opened = clock.now();
    {
        const auto data =
            QStandardPaths::writableLocation(QStandardPaths::AppLocalDataLocation);
        desktop::Window window({file, clock, spoken, &station::system::systemZones,
                                station::system::loginName(),
                                std::filesystem::path(desktop::plainText(data)) / "starts"});
        window.resize(1280, 800);
        window.show();
        status = QApplication::exec();
        file = window.workplace().file();
    }  // what was being written is written by now
    backUpAtClose(clock, spoken, file, opened);
    return status;
}
