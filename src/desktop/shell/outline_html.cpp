// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The page; see outline_html.h.
#include "desktop/shell/outline_html.h"

#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/text_label.h"

#include <QStringList>

namespace desktop {

namespace {

using Kind = report::Piece::Kind;

// For each blank by which a text is set in.
constexpr std::size_t indentPixels = 5;

QString escaped(const std::string& text) {
    return shownText(text).toHtmlEscaped();
}

QString rowHtml(const std::vector<std::string>& cells, const char* kind) {
    QString html = QStringLiteral("<tr>");
    for (const auto& cell : cells)
        html += QStringLiteral("<%1>%2</%1>").arg(QLatin1String(kind), escaped(cell));
    return html + QStringLiteral("</tr>");
}

// Its edges come on top of its width.
QString tableHtml(const report::Table& table) {
    QString html = QStringLiteral("<table width=\"99%\" cellspacing=\"0\">");
    html += rowHtml(table.titles(), "th");
    for (const auto& row : table.cells()) html += rowHtml(row, "td");
    return html + QStringLiteral("</table>");
}

// The first line says what was asked.
QString answerHtml(const report::Piece& piece, bool isFirst) {
    switch (piece.kind) {
        case Kind::Heading: return QStringLiteral("<h3>%1</h3>").arg(escaped(piece.text));
        case Kind::Table: return tableHtml(*piece.table);
        case Kind::Paragraph:
            return QStringLiteral("<p style=\"margin-left: %1px\">%2</p>")
                .arg(piece.indent * indentPixels)
                .arg(isFirst ? QStringLiteral("<b>%1</b>").arg(escaped(piece.text))
                             : escaped(piece.text));
        case Kind::Gap:
        case Kind::Doubt:
        case Kind::Origin:
        case Kind::Caution: break;
    }
    return {};
}

QString styleOf() {
    const auto& hues = colours();
    return QStringLiteral("<style>h3 { font-size: medium; margin-top: 18px; margin-bottom: 4px; }"
                          " p { margin-top: 4px; margin-bottom: 4px; }"
                          " th { text-align: left; font-weight: normal; color: %1;"
                          " padding: 5px 14px 5px 0; border-bottom: 1px solid %2; }"
                          " td { padding: 5px 14px 5px 0; border-bottom: 1px solid %2; }"
                          " .doubt { background-color: %3; color: %4; font-weight: bold; }"
                          " .quiet { color: %1; }</style>")
        .arg(hues.quietText.name(), hues.line.name(), hues.past.name(), hues.pastText.name());
}

}  // namespace

QString htmlOf(const report::Outline& outline) {
    QString doubts, answer;
    QStringList rests;
    for (const auto& piece : outline.pieces()) {
        if (piece.kind == Kind::Doubt)
            doubts += QStringLiteral("<p class=\"doubt\">%1</p>").arg(escaped(piece.text));
        if (piece.kind == Kind::Origin) rests << escaped(piece.text);
        if (piece.kind == Kind::Caution) rests << QString() << emphasised(shownText(piece.text));
        answer += answerHtml(piece, answer.isEmpty());
    }
    return styleOf() + doubts + answer +
           QStringLiteral("<p>&nbsp;</p><p class=\"quiet\">%1</p>")
               .arg(rests.join(QStringLiteral("<br>")));
}

}  // namespace desktop
