// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Pages; see pages.h. Measures are points of 1/72 inch, what is drawn with is dots of the device.
#include "print/pages.h"

#include <QAbstractTextDocumentLayout>
#include <QFont>
#include <QGuiApplication>
#include <QPageLayout>
#include <QPagedPaintDevice>
#include <QPainter>
#include <QScreen>
#include <QTextBlock>
#include <QTextCursor>
#include <QTextDocument>
#include <algorithm>
#include <utility>
#include <vector>

namespace print {

namespace {

constexpr double marginPoints = 48;
constexpr double footLinePoints = 12;
constexpr double footGapPoints = 10;

QString shownText(const std::string& text) {
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

struct Look {
    double points = 11;
    int weight = QFont::Normal;
    double above = 0, below = 6;
    double indent = 0;
};

Look lookOf(Block::Role role) {
    switch (role) {
        case Block::Role::Title: return {20, QFont::DemiBold, 0, 10, 0};
        case Block::Role::Large: return {26, QFont::DemiBold, 4, 4, 0};
        case Block::Role::Plain: return {};
        case Block::Role::Heading: return {12, QFont::DemiBold, 18, 8, 0};
        case Block::Role::Item: return {14, QFont::Normal, 0, 12, 18};
        case Block::Role::Blank: return {11, QFont::Normal, 16, 10, 0};
    }
    return {};
}

QFont fontOf(double points, int weight) {
    // Packaged with the program's own fonts everywhere it runs.
    QFont font(QStringLiteral("DejaVu Sans"));
    font.setPointSizeF(points);
    font.setWeight(static_cast<QFont::Weight>(weight));
    // No ligatures: what is looked for in the file is found, "off" too.
    font.setLetterSpacing(QFont::AbsoluteSpacing, 0.05);
    return font;
}

// In as many lines as it takes; a word that is wider than a line stands in one by itself.
std::vector<QString> linesOf(const QString& text, const QFontMetricsF& metrics, double width) {
    std::vector<QString> lines;
    QString line;
    for (const auto& word : text.split(QLatin1Char(' '))) {
        const auto longer = line.isEmpty() ? word : line + QLatin1Char(' ') + word;
        if (!line.isEmpty() && metrics.horizontalAdvance(longer) > width) {
            lines.push_back(std::exchange(line, word));
        } else {
            line = longer;
        }
    }
    lines.push_back(line);
    return lines;
}

// A document has its margins in dots of the screen, and scales them to the device it is drawn on.
double documentDots() {
    const auto* screen = QGuiApplication::primaryScreen();
    return (screen != nullptr ? screen->logicalDotsPerInchY() : 96) / 72;
}

void addBlock(QTextCursor& cursor, const Block& block) {
    const auto look = lookOf(block.role);
    const double dots = documentDots();
    const bool isFirst = cursor.position() == 0;
    QTextBlockFormat format;
    format.setTopMargin(isFirst ? 0 : look.above * dots);
    format.setBottomMargin(look.below * dots);
    format.setLeftMargin(look.indent * dots);
    QTextCharFormat letters;
    letters.setFont(fontOf(look.points, look.weight));
    letters.setForeground(Qt::black);
    if (isFirst) {
        cursor.setBlockFormat(format);
        cursor.setBlockCharFormat(letters);
    } else {
        cursor.insertBlock(format, letters);
    }
    cursor.insertText(shownText(block.text), letters);
}

class Pages {
public:
    Pages(QPagedPaintDevice& device, const Paper& paper)
        : m_device(device), m_paper(paper), m_dots(device.logicalDpiX() / 72.0) {
        const auto page = device.pageLayout().fullRect(QPageLayout::Point);
        const QFontMetricsF small(footFont(), &device);
        for (const auto& line : paper.foot)
            for (auto& part : linesOf(shownText(line), small,
                                      (page.width() - 2 * marginPoints) * m_dots))
                m_foot.push_back(std::move(part));
        const auto footLines = static_cast<double>(m_foot.size() + 1);
        const double foot = footGapPoints + footLinePoints * footLines;
        const auto body = page.adjusted(marginPoints, marginPoints, -marginPoints,
                                        -marginPoints - foot);
        m_body = QRectF(body.topLeft() * m_dots, body.size() * m_dots);
        m_document.documentLayout()->setPaintDevice(&device);
        m_document.setDocumentMargin(0);
        m_document.setUndoRedoEnabled(false);
        QTextCursor cursor(&m_document);
        for (const auto& block : paper.blocks) addBlock(cursor, block);
        m_document.setPageSize(m_body.size());
    }

    int draw() {
        QPainter painter;
        if (!painter.begin(&m_device)) return 0;
        const int count = m_document.pageCount();
        for (int page = 1; page <= count; ++page) {
            if (page > 1 && !m_device.newPage()) return 0;
            drawBody(painter, page);
            drawFoot(painter, page, count);
        }
        return painter.end() ? count : 0;
    }

private:
    void drawBody(QPainter& painter, int page) {
        painter.save();
        const double top = (page - 1) * m_body.height();
        painter.translate(m_body.left(), m_body.top() - top);
        const QRectF seen(0, top, m_body.width(), m_body.height());
        painter.setClipRect(seen);
        QAbstractTextDocumentLayout::PaintContext context;
        context.palette.setColor(QPalette::Text, Qt::black);
        context.clip = seen;
        m_document.documentLayout()->draw(&painter, context);
        drawBlanks(painter, seen);
        painter.restore();
    }

    // A line to write on, from the end of its text to the margin.
    void drawBlanks(QPainter& painter, const QRectF& seen) {
        painter.setPen(pen());
        const QFontMetricsF metrics(fontOf(lookOf(Block::Role::Blank).points, QFont::Normal),
                                    &m_device);
        auto block = m_document.begin();
        for (const auto& each : m_paper.blocks) {
            const auto box = m_document.documentLayout()->blockBoundingRect(block);
            block = block.next();
            if (each.role != Block::Role::Blank || !seen.intersects(box)) continue;
            const double from = metrics.horizontalAdvance(shownText(each.text)) + 6 * m_dots;
            if (from < m_body.width())
                painter.drawLine(QPointF(from, box.bottom()),
                                 QPointF(m_body.width(), box.bottom()));
        }
    }

    void drawFoot(QPainter& painter, int page, int count) {
        painter.save();
        painter.setFont(footFont());
        painter.setPen(pen());
        const double left = m_body.left(), right = m_body.right();
        double top = m_body.bottom() + footGapPoints * m_dots;
        painter.drawLine(QPointF(left, top), QPointF(right, top));
        auto lines = m_foot;
        lines.push_back(shownText(m_paper.pageOf(page, count)));
        for (const auto& line : lines) {
            top += footLinePoints * m_dots;
            painter.drawText(QPointF(left, top), line);
        }
        painter.restore();
    }

    [[nodiscard]] static QFont footFont() { return fontOf(8, QFont::Normal); }
    [[nodiscard]] QPen pen() const { return {Qt::black, 0.7 * m_dots}; }

    QPagedPaintDevice& m_device;
    const Paper& m_paper;
    const double m_dots;  // of the device a point
    QTextDocument m_document;
    std::vector<QString> m_foot;  // but the number of the page
    QRectF m_body;
};

}  // namespace

int drawPages(QPagedPaintDevice& device, const Paper& paper) {
    return Pages(device, paper).draw();
}

}  // namespace print
