// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The labels of widgets in another language, as the translators' file has them, for programs that
// are built without it; and what an English label says there.
#pragma once

#include <QHash>
#include <QStringList>
#include <QTranslator>
#include <string>

namespace screens {

class Labels : public QTranslator {
public:
    // "es"; stops if there is no such file. "en" has none and says everything as it is.
    explicit Labels(const std::string& language);

    [[nodiscard]] QString translate(const char* context, const char* source,
                                    const char* disambiguation = nullptr,
                                    int number = -1) const override;
    [[nodiscard]] bool isEmpty() const override { return m_texts.isEmpty(); }

    // Whatever the English label may be, in any context, without the marks of letters.
    [[nodiscard]] QStringList saidFor(const QString& english) const;

private:
    // By context, by English text: the forms of one and of several, else the one there is.
    QHash<QString, QHash<QString, QStringList>> m_texts;
};

}  // namespace screens
