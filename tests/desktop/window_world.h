// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The window as a person uses it: widgets are found by what they say, pressed and typed into by
// mouse and keys, and only if they can be seen.
#pragma once

#include "desktop/looked_at.h"
#include "desktop/shell/window.h"
#include "desktop/theme/appearance.h"
#include "station/system.h"
#include "support/folder.h"
#include "support/kept_logbook.h"
#include "support/key_stamps.h"
#include "support/moved_clock.h"

#include <QApplication>
#include <QLabel>
#include <QPointer>
#include <QPushButton>
#include <QScrollArea>
#include <QWheelEvent>
#include <QtTest/QTest>
#include <catch2/catch.hpp>
#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace Catch {
template <>
struct StringMaker<QString> {
    static std::string convert(const QString& text) { return '"' + text.toStdString() + '"'; }
};
}  // namespace Catch

namespace support {

// Slower than any scanner, faster than nearly everybody.
inline constexpr int typingMs = 30;

inline QString saysOf(const QWidget& widget) {
    const auto text = widget.property("text").toString();
    auto says = text.isEmpty() ? widget.accessibleName() : text;
    return says.remove(QLatin1Char('&'));
}

struct WindowWorld {
    Folder folder;
    // Saturday 28 November 2026, 08:00 at Kestrel Bay: nothing in the tests depends on today.
    MovedClock clock{logbook::Instant{1'795'874'400'000}};
    station::LogbookFile file{folder.file("bedside.logbook")};
    std::unique_ptr<KeyStamps> stamps = std::make_unique<KeyStamps>();
    std::unique_ptr<desktop::Window> window;

    void makeDemo() {
        copyDemo({clock, station::system::systemZones(), *words::Words::builtIn(), "desk"}, "en",
                 file.path);
    }

    // Opens the window on the file, or on none, in that size.
    void open(QSize size = {1280, 800}, const desktop::Appearance& appearance = {},
              bool withFile = true) {
        desktop::apply(*qApp, appearance);
        window.reset();
        window = std::make_unique<desktop::Window>(
            desktop::Start{withFile ? file : station::LogbookFile{}, clock,
                           *words::Words::builtIn(), &station::system::systemZones, "desk",
                           folder.file("notes/starts")});
        stamps->install();
        window->resize(size);
        window->show();
        REQUIRE(QTest::qWaitForWindowExposed(window.get()));
        QApplication::setActiveWindow(window.get());
        if (withFile)
            waitUntil("the fleet is read",
                      [this] { return window->workplace().fleet() != nullptr; });
    }

    // All records, as the window read them last: read again once it has read more.
    [[nodiscard]] const station::WholeLog& logRead() const {
        const auto arrival = window->workplace().fleet()->standing->facts.arrival;
        if (!m_log || m_log->arrival < arrival) {
            const station::Surroundings surroundings{clock, station::system::systemZones(),
                                                     *words::Words::builtIn(), "desk"};
            auto log = station::readWholeLog(surroundings, file);
            REQUIRE(log);
            m_log = std::make_shared<const station::WholeLog>(std::move(*log));
        }
        return *m_log;
    }

    static void waitUntil(const std::string& what, const std::function<bool()>& isSo,
                          int mostMs = 120'000) {
        INFO("waiting until " << what);
        REQUIRE(QTest::qWaitFor(isSo, mostMs));
    }

    // Until what was asked of the logbook is answered, and what came of that is asked and answered.
    void awaitAnswers() const {
        for (int times = 0; times < 2; ++times) {
            bool isAnswered = false;
            window->workplace().read(
                [](const auto&, const auto&) { return true; }, window.get(),
                [&](bool isSo) { isAnswered = isSo; }, desktop::Background::Urgency::Later);
            waitUntil("all is answered",
                      [&] { return isAnswered && !window->workplace().isReading(); });
        }
    }

    // The visible widgets of that class that begin with that text, or whose accessible name does.
    template <class Kind>
    [[nodiscard]] std::vector<Kind*> all(const QString& says) const {
        std::vector<Kind*> found;
        for (auto* each : window->findChildren<Kind*>())
            if (each->isVisible() && saysOf(*each).startsWith(says)) found.push_back(each);
        return found;
    }
    template <class Kind>
    [[nodiscard]] Kind* one(const QString& says) const {
        const auto found = all<Kind>(says);
        INFO("looking for " << says.toStdString());
        REQUIRE(found.size() == 1);
        return found.front();
    }
    // Not by what a sheet covers: that is disabled.
    [[nodiscard]] bool isSaid(const QString& text) const {
        for (const auto* label : window->findChildren<QLabel*>())
            if (label->isVisible() && label->isEnabled() && label->text().contains(text))
                return true;
        return false;
    }

    // A press of the mouse in the middle of what can be seen of it. What is hidden, off, too small
    // for a glove, out of the window or under something else is not pressed.
    void press(QWidget* widget) const {
        INFO("pressing " << saysOf(*widget).toStdString());
        REQUIRE(widget->isVisible());
        REQUIRE(widget->isEnabled());
        REQUIRE(widget->height() >= desktop::targetSize);
        REQUIRE(widget->width() >= desktop::targetSize);
        const auto seen = seenOf(*widget);
        REQUIRE_FALSE(seen.isEmpty());
        const auto* there = window->childAt(widget->mapTo(window.get(), seen.center()));
        REQUIRE(there != nullptr);
        REQUIRE((there == widget || widget->isAncestorOf(there)));
        QTest::mouseClick(widget, Qt::LeftButton, {}, seen.center());
    }
    // What lies within the window and everything that scrolls, in the widget's own places.
    [[nodiscard]] QRect seenOf(const QWidget& widget) const {
        const QRect frame(widget.mapFrom(window.get(), QPoint()), window->size());
        return widget.visibleRegion().boundingRect() & frame;
    }
    void press(const QString& says) const {
        waitUntil("there is " + says.toStdString(), [&] {
            const auto found = all<QPushButton>(says);
            return !found.empty() && found.front()->isEnabled();
        });
        press(one<QPushButton>(says));
    }

    [[nodiscard]] desktop::Sheet* sheet() const {
        return window->findChild<desktop::SheetStack*>()->top();
    }
    [[nodiscard]] desktop::Sheet* awaitSheet() const {
        waitUntil("a sheet is there", [this] { return sheet() != nullptr; });
        return sheet();
    }

    // Turns the wheel until it is in sight, as far as it can be.
    void bringIntoSight(const QWidget& widget) const {
        for (auto* each = widget.parentWidget(); each != nullptr; each = each->parentWidget()) {
            auto* scroll = qobject_cast<QScrollArea*>(each);
            for (int turns = 0; scroll != nullptr && turns < 400; ++turns) {
                auto* port = scroll->viewport();
                const QRect place(widget.mapTo(port, QPoint()), widget.size());
                const bool isBelow = place.bottom() > port->rect().bottom() &&
                                     place.top() > port->rect().top();
                const bool isAbove = place.top() < port->rect().top() &&
                                     place.bottom() < port->rect().bottom();
                if (!isBelow && !isAbove) break;
                const auto middle = port->rect().center();
                QWheelEvent turn(middle, port->mapToGlobal(middle), {}, {0, isBelow ? -30 : 30},
                                 Qt::NoButton, Qt::NoModifier, Qt::NoScrollPhase, false);
                QApplication::sendEvent(port, &turn);
            }
        }
        QCoreApplication::processEvents();
    }
    // Scrolled to, as a person does, and then pressed: as much of it as a glove needs is in sight.
    void pressSeen(QWidget* button) const {
        // What was pressed before may still be moving it.
        waitUntil("all that a glove needs of " + saysOf(*button).toStdString() + " is in sight",
                  [&] {
                      layOut();
                      bringIntoSight(*button);
                      const auto seen = seenOf(*button);
                      return seen.height() >= desktop::targetSize &&
                             seen.width() >= desktop::targetSize;
                  });
        press(button);
    }

    // The buttons of the uppermost sheet, or of the window where there is none, that say so, or
    // else that begin so.
    [[nodiscard]] std::vector<QPushButton*> buttons(const QString& says) const {
        QWidget* within = sheet();
        if (within == nullptr) within = window.get();
        std::vector<QPushButton*> exact, found;
        for (auto* each : within->findChildren<QPushButton*>()) {
            if (!each->isVisible()) continue;
            if (saysOf(*each) == says || each->accessibleName() == says) exact.push_back(each);
            if (saysOf(*each).startsWith(says)) found.push_back(each);
        }
        return exact.empty() ? found : exact;
    }
    void pressButton(const QString& says) const {
        waitUntil("there is " + says.toStdString(), [&] {
            const auto found = buttons(says);
            return found.size() == 1 && found.front()->isEnabled();
        });
        pressSeen(buttons(says).front());
    }

    // Keys into whatever has the focus.
    void type(const QString& text) const {
        REQUIRE(QApplication::focusWidget() != nullptr);
        for (const auto letter : text) pressKey(letter.toLatin1(), typingMs);
        QTest::qWait(typingMs);
        // A busy computer may still hold the last letter.
        const auto* field = qobject_cast<const QLineEdit*>(QApplication::focusWidget());
        if (field != nullptr)
            (void)QTest::qWaitFor([&] { return field->text().endsWith(text); }, 1000);
    }
    void key(Qt::Key key, Qt::KeyboardModifiers modifiers = {}) const {
        QTest::qWait(typingMs);
        auto* target = QApplication::focusWidget();
        QTest::keyClick(target != nullptr ? target : window.get(), key, modifiers);
    }
    // As a scanner does: 1 ms a character, then Enter.
    void scan(const QString& text) const {
        const KeyStamps::Scanner scanner(*stamps);
        for (const auto letter : text) pressKey(letter.toLatin1(), 1);
        pressKey(Qt::Key_Return, 1);
    }
    // After so many milliseconds, to whatever has the focus by then, as the window system does:
    // a field may be made anew meanwhile.
    template <class Key>
    void pressKey(Key key, int afterMs) const {
        QTest::qWait(afterMs);
        auto* focused = QApplication::focusWidget();
        const QPointer<QWidget> target = focused != nullptr ? focused : window.get();
        QTest::keyPress(target, key);
        if (target) QTest::keyRelease(target, key);
    }
    void scanInto(QWidget* target, const QString& text) const {
        const KeyStamps::Scanner scanner(*stamps);
        for (const auto letter : text)
            QTest::keyClick(target, letter.toLatin1(), Qt::NoModifier, 1);
        QTest::keyClick(target, Qt::Key_Return, Qt::NoModifier, 1);
    }

private:
    mutable std::shared_ptr<const station::WholeLog> m_log;
};

}  // namespace support
