// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Texts between the layers below and Qt, both UTF-8.
#pragma once

#include <QString>
#include <string>
#include <string_view>

namespace desktop {

[[nodiscard]] inline QString shownText(std::string_view text) {
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

// For buttons, where a single "&" marks a letter.
[[nodiscard]] inline QString buttonText(std::string_view text) {
    return shownText(text).replace(QLatin1Char('&'), QLatin1String("&&"));
}

[[nodiscard]] inline std::string plainText(const QString& text) {
    return text.toStdString();
}

}  // namespace desktop
