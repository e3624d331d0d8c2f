// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every label of a widget is there in every other language that the program speaks.
#include "support/folder.h"

#include <QFile>
#include <QProcess>
#include <QRegularExpression>
#include <QXmlStreamReader>
#include <catch2/catch.hpp>
#include <filesystem>
#include <set>
#include <string>
#include <vector>

namespace {

struct Label {
    QString context, source, translation;
    bool isFinished = true;
};

std::vector<Label> labelsOf(const std::filesystem::path& path) {
    QFile file(QString::fromStdString(path.string()));
    REQUIRE(file.open(QIODevice::ReadOnly));
    QXmlStreamReader xml(&file);
    std::vector<Label> labels;
    QString context;
    while (!xml.atEnd()) {
        if (xml.readNext() != QXmlStreamReader::StartElement) continue;
        if (xml.name() == QLatin1String("name")) context = xml.readElementText();
        if (xml.name() == QLatin1String("source"))
            labels.push_back({context, xml.readElementText(), {}, true});
        if (xml.name() == QLatin1String("translation")) {
            labels.back().isFinished = !xml.attributes().hasAttribute(QLatin1String("type"));
            labels.back().translation =
                xml.readElementText(QXmlStreamReader::IncludeChildElements);
        }
    }
    REQUIRE_FALSE(xml.hasError());
    return labels;
}

std::set<QString> gapsOf(const QString& text) {
    static const QRegularExpression gap(QStringLiteral("%[0-9n]"));
    std::set<QString> gaps;
    for (auto found = gap.globalMatch(text); found.hasNext();) gaps.insert(found.next().captured());
    return gaps;
}

}  // namespace

TEST_CASE("every label of a widget is translated, with its gaps", "[exhaustive]") {
    const std::filesystem::path source(AIRMUSTER_SOURCE_DIR);
    const support::Folder folder;
    int languages = 0;
    for (const auto& entry : std::filesystem::directory_iterator(source / "data/translations")) {
        const auto copy = folder.file(entry.path().filename().string());
        std::filesystem::copy_file(entry.path(), copy);
        // What the program says now, by the tool that collects it.
        QProcess collect;
        collect.start(QStringLiteral(AIRMUSTER_LUPDATE),
                      {QStringLiteral("-silent"), QStringLiteral("-locations"),
                       QStringLiteral("none"), QStringLiteral("-no-obsolete"),
                       QStringLiteral("-I"), QStringLiteral(AIRMUSTER_DESKTOP_INCLUDES),
                       QString::fromStdString((source / "src/desktop").string()),
                       QStringLiteral("-ts"), QString::fromStdString(copy.string())});
        REQUIRE(collect.waitForFinished(120'000));
        REQUIRE(collect.exitCode() == 0);
        const auto labels = labelsOf(copy);
        CHECK(labels.size() > 100);
        CHECK(labels.size() == labelsOf(entry.path()).size());
        for (const auto& label : labels) {
            INFO(entry.path().filename() << ": " << label.context.toStdString() << ": "
                                         << label.source.toStdString());
            CHECK(label.isFinished);
            CHECK_FALSE(label.translation.isEmpty());
            CHECK(gapsOf(label.source) == gapsOf(label.translation));
        }
        ++languages;
    }
    CHECK(languages > 0);
}
