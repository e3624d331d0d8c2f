// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The page; see scroll_page.h.
#include "desktop/theme/scroll_page.h"

#include <QApplication>
#include <QPoint>

namespace desktop {

namespace {

// What is pressed must not move under the finger. Of what is higher than the page its top is seen.
void keepInSight(QScrollArea& scroll, QWidget* focused) {
    if (focused == nullptr || QApplication::mouseButtons() != Qt::NoButton) return;
    const auto* page = scroll.widget();
    if (page == nullptr || !scroll.isVisible() || !page->isAncestorOf(focused)) return;
    constexpr int margin = 8;
    const auto place = focused->mapTo(scroll.widget(), QPoint());
    scroll.ensureVisible(place.x(), place.y() + focused->height(), 0, margin);
    scroll.ensureVisible(place.x(), place.y(), 0, margin);
}

}  // namespace

QScrollArea* scrollPage(QWidget* page) {
    auto* scroll = new QScrollArea;
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    if (page != nullptr) scroll->setWidget(page);
    QObject::connect(qApp, &QApplication::focusChanged, scroll,
                     [scroll](QWidget*, QWidget* now) { keepInSight(*scroll, now); });
    return scroll;
}

}  // namespace desktop
