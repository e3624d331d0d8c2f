// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// airmuster_pictures FOLDER [SCREEN…]: a picture of every screen, or of those named, in both
// themes. Options look at them in another size, text size or language.
#include "screens/screens.h"

#include <QApplication>
#include <QCommandLineParser>
#include <QDir>
#include <QSettings>
#include <cstdio>
#include <stdexcept>

namespace {

struct Asked {
    QDir folder;
    QStringList screens;
    screens::Look look;
};

Asked askedFor(const QApplication& application) {
    QCommandLineParser parser;
    parser.addPositionalArgument("FOLDER", "where the pictures go");
    parser.addPositionalArgument("SCREEN", "all if none is named", "[SCREEN…]");
    parser.addOptions({{"size", "1280x800", "WxH", "1280x800"},
                       {"text-size", "100 to 200 percent", "PERCENT", "100"},
                       {"language", "en or es", "CODE", "en"}});
    parser.addHelpOption();
    parser.process(application);
    auto words = parser.positionalArguments();
    if (words.isEmpty()) parser.showHelp(2);
    const auto size = parser.value("size").split(QLatin1Char('x'));
    Asked asked{QDir(words.takeFirst()), words, {}};
    asked.look.size = {size.value(0).toInt(), size.value(1).toInt()};
    asked.look.appearance.textPercent = parser.value("text-size").toInt();
    asked.look.language = parser.value("language").toStdString();
    return asked;
}

void take(const screens::Screen& screen, screens::Stage& stage, const Asked& asked) {
    screens::show(screen, stage);
    const bool isLight = stage.look().appearance.theme == desktop::Theme::Light;
    const auto* end = isLight ? "-light.png" : "-dark.png";
    const auto file = asked.folder.filePath(QString::fromStdString(screen.name + end));
    if (!stage.window().grab().save(file))
        throw std::runtime_error("cannot be written: " + file.toStdString());
}

// How many could not be taken.
int takeAll(desktop::Theme theme, const Asked& asked) {
    auto look = asked.look;
    look.appearance.theme = theme;
    screens::Stage stage(look);
    int missing = 0;
    for (const auto& screen : screens::all()) {
        const auto name = QString::fromStdString(screen.name);
        if (!asked.screens.isEmpty() && !asked.screens.contains(name)) continue;
        try {
            take(screen, stage, asked);
            std::printf("%s\n", screen.name.c_str());
        } catch (const std::runtime_error& trouble) {
            std::fprintf(stderr, "%s: no picture: %s\n", screen.name.c_str(), trouble.what());
            ++missing;
        }
        std::fflush(stdout);
    }
    return missing;
}

}  // namespace

int main(int count, char** words) {
    QApplication application(count, words);
    const auto asked = askedFor(application);
    const support::Folder settings;
    QSettings::setPath(QSettings::IniFormat, QSettings::UserScope,
                       QString::fromStdString(settings.path().string()));
    int missing = 0;
    for (const auto theme : {desktop::Theme::Light, desktop::Theme::Dark})
        missing += takeAll(theme, asked);
    return missing == 0 ? 0 : 1;
}
