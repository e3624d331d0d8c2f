// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The labels; see labels.h.
#include "screens/labels.h"

#include <QFile>
#include <QXmlStreamReader>
#include <stdexcept>

namespace screens {

namespace {

QString unmarked(QString text) {
    return text.remove(QLatin1Char('&'));
}

}  // namespace

Labels::Labels(const std::string& language) {
    if (language == "en") return;
    const std::string path =
        AIRMUSTER_SOURCE_DIR "/data/translations/airmuster_" + language + ".ts";
    QFile file(QString::fromStdString(path));
    if (!file.open(QIODevice::ReadOnly)) throw std::runtime_error("no labels " + path);
    QXmlStreamReader xml(&file);
    QString context, source;
    bool isCounted = false;
    while (!xml.atEnd()) {
        if (xml.readNext() != QXmlStreamReader::StartElement) continue;
        if (xml.name() == QLatin1String("name")) context = xml.readElementText();
        if (xml.name() == QLatin1String("message"))
            isCounted = xml.attributes().hasAttribute(QLatin1String("numerus"));
        if (xml.name() == QLatin1String("source")) source = xml.readElementText();
        if (xml.name() != QLatin1String("translation")) continue;
        auto& forms = m_texts[context][source];
        if (!isCounted) {
            forms << xml.readElementText();
            continue;
        }
        while (xml.readNextStartElement()) forms << xml.readElementText();
    }
}

// Of one, or of several; what is counted is filled in by Qt.
QString Labels::translate(const char* context, const char* source, const char*, int count) const {
    const auto forms = m_texts.value(QString::fromUtf8(context)).value(QString::fromUtf8(source));
    if (forms.isEmpty()) return {};
    return count == 1 ? forms.front() : forms.back();
}

QStringList Labels::saidFor(const QString& english) const {
    QStringList said{english};
    for (const auto& texts : m_texts)
        for (auto each = texts.begin(); each != texts.end(); ++each)
            if (unmarked(each.key()) == english)
                for (const auto& form : each.value()) said << unmarked(form);
    said.removeDuplicates();
    return said;
}

}  // namespace screens
