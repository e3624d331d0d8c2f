// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Sheets; see sheet.h.
#include "desktop/shell/sheet.h"

#include "desktop/theme/appearance.h"
#include "desktop/theme/scroll_page.h"
#include "desktop/theme/wrap_layout.h"

#include <QApplication>
#include <QEvent>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPainter>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QVBoxLayout>
#include <algorithm>
#include <utility>
#include <vector>

namespace desktop {

Sheet::Sheet(const QString& title, QWidget* parent) : QWidget(parent) {
    setAutoFillBackground(true);
    setFocusPolicy(Qt::StrongFocus);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(24, 20, 24, 20);
    layout->setSpacing(targetGap);
    m_title = new QLabel;
    auto font = fontFor(TextRole::Large);
    font.setWeight(QFont::DemiBold);
    m_title->setFont(font);
    m_title->setWordWrap(true);
    layout->addWidget(m_title);
    setTitle(title);
    auto* inside = new QWidget;
    m_content = new QVBoxLayout(inside);
    m_content->setContentsMargins(0, 0, 0, 0);
    m_content->setSpacing(targetGap);
    m_page = scrollPage(inside);
    layout->addWidget(m_page, 1);
    m_overFoot = new QVBoxLayout;
    layout->addLayout(m_overFoot);
    m_foot = new WrapLayout(WrapLayout::Manner::Foot);
    layout->addLayout(m_foot);
}

void Sheet::setTitle(const QString& title) {
    setAccessibleName(title);
    m_title->setText(title);
}

bool Sheet::takeScan(const QString&) {
    return false;
}

void Sheet::tell(const QString& text) {
    if (m_told == nullptr) {
        m_told = new QLabel;
        m_told->setWordWrap(true);
        m_told->setTextFormat(Qt::PlainText);
        m_told->setAccessibleName(tr("What was told last"));
        auto* rows = static_cast<QVBoxLayout*>(layout());
        rows->insertWidget(rows->count() - 2, m_told);
    }
    m_told->setText(text);
    m_told->setVisible(!text.isEmpty());
}

void Sheet::showTop() {
    m_page->verticalScrollBar()->setValue(0);
}

// Once there is room for what is said of it: then the page is lower.
void Sheet::bringUp(QWidget& refused) {
    refused.setFocus();
    QMetaObject::invokeMethod(
        this,
        [this, widget = QPointer<QWidget>(&refused)] {
            constexpr int margin = 8;
            if (widget && m_page->widget()->isAncestorOf(widget))
                m_page->ensureWidgetVisible(widget, 0, margin);
        },
        Qt::QueuedConnection);
}

// The way back stands first of what ends the sheet.
void Sheet::setHeld(bool isHeld) {
    m_isHeld = isHeld;
    for (int i = 0; i < m_foot->count(); ++i) {
        auto* back = qobject_cast<QPushButton*>(m_foot->itemAt(i)->widget());
        if (back == nullptr) continue;
        back->setEnabled(!isHeld);
        break;
    }
    if (m_isKept == nullptr) {
        m_isKept = new QLabel(tr("Being kept …"));
        m_isKept->setFont(fontFor(TextRole::Strong));
        m_overFoot->addWidget(m_isKept);
    }
    m_isKept->setVisible(isHeld);
}

void Sheet::sayAtTop(const QString& text) {
    if (m_atTop == nullptr) {
        m_atTop = new QLabel;
        m_atTop->setWordWrap(true);
        m_atTop->setTextFormat(Qt::PlainText);
        m_atTop->setFont(fontFor(TextRole::Strong));
        static_cast<QVBoxLayout*>(layout())->insertWidget(1, m_atTop);
    }
    m_atTop->setText(text);
}

void Sheet::callOff() {
    if (m_isHeld) return;
    Q_EMIT calledOff();
    close();
}

void Sheet::close() {
    Q_EMIT closed();
    deleteLater();
}

void Sheet::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        if (holdsTyped()) {
            Q_EMIT escaped();
        } else {
            callOff();
        }
    } else if (!scrolls(event->key())) {
        QWidget::keyPressEvent(event);
    }
}

// What was pressed is pressed again soon; what was typed is not.
bool Sheet::holdsTyped() const {
    return isDraft() && !m_isHeld &&
           std::ranges::any_of(findChildren<QLineEdit*>(), [](const QLineEdit* line) {
               return line->isModified() && !line->text().trimmed().isEmpty();
           });
}

// By the keys that nothing on the sheet has taken.
bool Sheet::scrolls(int key) {
    using Action = QAbstractSlider::SliderAction;
    static const std::map<int, Action> actions{{Qt::Key_Up, Action::SliderSingleStepSub},
                                               {Qt::Key_Down, Action::SliderSingleStepAdd},
                                               {Qt::Key_PageUp, Action::SliderPageStepSub},
                                               {Qt::Key_PageDown, Action::SliderPageStepAdd},
                                               {Qt::Key_Home, Action::SliderToMinimum},
                                               {Qt::Key_End, Action::SliderToMaximum}};
    const auto action = actions.find(key);
    if (action == actions.end()) return false;
    m_page->verticalScrollBar()->triggerAction(action->second);
    return true;
}

bool Sheet::focusNextPrevChild(bool next) {
    QWidget* widget = focusWidget() != nullptr ? focusWidget() : this;
    for (auto* each = widget;;) {
        each = next ? each->nextInFocusChain() : each->previousInFocusChain();
        if (each == widget) return true;
        const bool takes = (each->focusPolicy() & Qt::TabFocus) != 0 && each->isEnabled();
        if (each != this && isAncestorOf(each) && takes && each->isVisibleTo(this)) {
            each->setFocus(next ? Qt::TabFocusReason : Qt::BacktabFocusReason);
            return true;
        }
    }
}

SheetStack::SheetStack(QWidget* under) : QWidget(under), m_under(under) {
    under->installEventFilter(this);
    hide();
}

void SheetStack::put(Sheet* sheet) {
    if (m_sheets.empty()) {
        m_focusBefore = QApplication::focusWidget();
        Q_EMIT began();
    }
    m_focusBelow[sheet] = QApplication::focusWidget();
    cover(true);
    if (auto* below = top()) below->setEnabled(false);
    sheet->setParent(this);
    m_sheets.push_back(sheet);
    connect(sheet, &Sheet::closed, this, [this, sheet] { takeAway(sheet); });
    connect(sheet, &Sheet::escaped, this, [this, sheet] { Q_EMIT escaped(sheet); });
    setGeometry(m_under->rect());
    place(*sheet);
    raise();
    show();
    sheet->show();
    sheet->raise();
    focus(*sheet);
    sheet->showTop();  // what it is about is read first, wherever the first field lies
}

// The first field, else the sheet itself, which Escape calls off: never a button. A field that is
// dead takes no focus.
void SheetStack::focus(Sheet& sheet) {
    const auto* first = sheet.focusProxy();
    if (first != nullptr && !first->isEnabled()) sheet.setFocusProxy(nullptr);
    sheet.setFocus();
}

Sheet* SheetStack::top() const {
    return m_sheets.empty() ? nullptr : m_sheets.back();
}

std::vector<SheetStack::Unkept> SheetStack::unkept() const {
    std::vector<Unkept> all;
    const auto add = [&all](const Sheet& sheet, const std::optional<Draft>& aside) {
        Unkept one{sheet.unkept(), aside};
        if (one.title.isEmpty()) return;
        // What is asked of a draft bears its name.
        if (all.empty() || all.back() != one) all.push_back(std::move(one));
    };
    for (const auto* sheet : m_sheets) add(*sheet, std::nullopt);
    for (const auto& [draft, sheets] : m_aside)
        for (const auto* sheet : sheets) add(*sheet, draft);
    return all;
}

bool SheetStack::hasDraft() const {
    return !m_back.empty() || std::ranges::any_of(m_sheets, &Sheet::isDraft);
}

void SheetStack::putAside(const Draft& draft) {
    const std::vector<Sheet*> all(m_sheets.rbegin(), m_sheets.rend());
    std::vector<Sheet*> kept;
    for (auto* sheet : all) {
        // One of those above may have ended it.
        if (std::ranges::find(m_sheets, sheet) == m_sheets.end()) continue;
        if (kept.empty() && !sheet->isDraft()) {
            sheet->callOff();
            continue;
        }
        std::erase(m_sheets, sheet);
        std::erase(m_back, sheet);
        sheet->hide();
        kept.insert(kept.begin(), sheet);
    }
    auto& aside = m_aside[draft];
    aside.insert(aside.end(), kept.begin(), kept.end());
    if (!m_sheets.empty()) return;
    cover(false);
    hide();
}

void SheetStack::cover(bool isCovered) {
    for (auto* part : m_covered) part->setEnabled(!isCovered);
}

bool SheetStack::bringBack(const Draft& draft) {
    const auto found = m_aside.find(draft);
    if (found == m_aside.end() || found->second.empty()) return false;
    cover(true);
    for (auto* sheet : std::exchange(found->second, {})) {
        if (auto* below = top()) below->setEnabled(false);
        sheet->setEnabled(true);
        m_sheets.push_back(sheet);
        m_back.push_back(sheet);
        place(*sheet);
        raise();
        show();
        sheet->show();
        sheet->raise();
        focus(*sheet);
        connect(sheet, &Sheet::calledOff, this, [this, sheet] {
            if (m_back == std::vector{sheet}) Q_EMIT draftsCalledOff();
        });
        sheet->comeBack();
        Q_EMIT sheet->cameBack();
    }
    return true;
}

void SheetStack::takeAway(Sheet* sheet) {
    std::erase(m_sheets, sheet);
    std::erase(m_back, sheet);
    for (auto& [draft, sheets] : m_aside) std::erase(sheets, sheet);
    sheet->hide();
    const auto before = m_focusBelow[sheet];
    m_focusBelow.erase(sheet);
    if (auto* below = top()) {
        below->setEnabled(true);
        const bool goesOn = before && before->isEnabled() && below->isAncestorOf(before);
        if (goesOn) {
            before->setFocus();
        } else {
            focus(*below);
        }
        return;
    }
    cover(false);
    hide();
    if (m_focusBefore) m_focusBefore->setFocus();
}

bool SheetStack::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_under && event->type() == QEvent::Resize) setGeometry(m_under->rect());
    return false;
}

void SheetStack::resizeEvent(QResizeEvent*) {
    for (auto* sheet : m_sheets) place(*sheet);
}

// As wide as a text is read well, in the middle; on a small window all of it.
void SheetStack::place(Sheet& sheet) const {
    const int most = (sheet.isWide() ? 1100 : 760) * appearance().textPercent / 100;
    const int wide = std::min(width(), most);
    sheet.setGeometry((width() - wide) / 2, 0, wide, height());
}

void SheetStack::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const bool isLight = appearance().theme == Theme::Light;
    painter.fillRect(rect(), QColor(0, 0, 0, isLight ? 90 : 140));
}

}  // namespace desktop
