// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A scanner over whatever is open: everything there is given the focus in turn, and a code is
// scanned. Afterwards all is as it was: what was typed, what was pressed, what lies uppermost.
#pragma once

#include "desktop/shell/pin_field.h"
#include "window_world.h"

#include <QLineEdit>
#include <QPlainTextEdit>
#include <algorithm>
#include <map>

namespace support {

class ScanReplay {
public:
    explicit ScanReplay(const WindowWorld& world) : m_world(world) {}

    // Over what is open now. What can be typed into has something in it first.
    void over(const std::string& where) {
        INFO("over " << where);
        typeEverywhere();
        waitUntilSettled();
        const auto targets = focusable();
        CHECK_FALSE(targets.empty());
        for (const auto& target : targets) {
            if (!target || !target->isVisible() || !target->isEnabled()) continue;
            target->setFocus();
            const auto code = QStringLiteral("ZX-%1").arg(++m_count, 4, 10, QLatin1Char('0'));
            INFO("with the focus on " << saysOf(*target).toStdString());
            scanAndCompare(code);
        }
    }
    // A code that means something; where a question comes of it, the answer is no.
    void overWith(const std::string& where, const QString& code) {
        INFO("over " << where << ", " << code.toStdString());
        scanAndCompare(code);
    }
    [[nodiscard]] int count() const { return m_count; }

private:
    using Seen = std::map<const QWidget*, QString>;

    [[nodiscard]] QWidget& scope() const {
        QWidget* top = m_world.sheet();
        return top != nullptr ? *top : *m_world.window;
    }

    void typeEverywhere() const {
        for (auto* field : scope().findChildren<QLineEdit*>()) {
            if (!field->isVisible() || !field->isEnabled() || field->isReadOnly()) continue;
            field->setFocus();
            field->end(false);
            m_world.type("12");
        }
        for (auto* field : scope().findChildren<desktop::PinField*>()) {
            if (!field->isVisible()) continue;
            field->setFocus();
            m_world.type("12");
        }
    }
    // What is worked out beside the window is there.
    void waitUntilSettled() const {
        m_world.awaitAnswers();
        auto before = seen();
        int same = 0;
        for (int tries = 0; tries < 1000 && same < 3; ++tries) {
            QTest::qWait(30);
            const auto now = seen();
            const bool isWorking = std::any_of(now.begin(), now.end(), [](const auto& each) {
                return each.second == QStringLiteral("Working it out.");
            });
            same = !isWorking && now == before ? same + 1 : 0;
            before = now;
        }
        REQUIRE(same == 3);
    }

    [[nodiscard]] std::vector<QPointer<QWidget>> focusable() const {
        constexpr std::size_t most = 30;
        std::vector<QPointer<QWidget>> found;
        for (auto* each : scope().findChildren<QWidget*>())
            if (each->isVisible() && each->isEnabled() && (each->focusPolicy() & Qt::TabFocus) &&
                found.size() < most)
                found.emplace_back(each);
        if (m_world.sheet() != nullptr) found.emplace_back(m_world.sheet());
        return found;
    }

    // What is typed and pressed everywhere in the window, also behind a sheet.
    [[nodiscard]] Seen seen() const {
        Seen all;
        for (const auto* each : m_world.window->findChildren<QLineEdit*>())
            if (each->isVisible()) all[each] = each->text();
        for (const auto* each : m_world.window->findChildren<QPlainTextEdit*>())
            if (each->isVisible()) all[each] = each->toPlainText();
        for (const auto* each : m_world.window->findChildren<desktop::PinField*>())
            if (each->isVisible()) all[each] = QString::number(each->secret().text().size());
        for (const auto* each : m_world.window->findChildren<QAbstractButton*>())
            if (each->isVisible() && each->isCheckable())
                all[each] = each->isChecked() ? QStringLiteral("on") : QStringLiteral("off");
        all[m_world.window.get()] = QString::number(reinterpret_cast<quintptr>(m_world.sheet()));
        return all;
    }

    // A label that lies uppermost where it is.
    [[nodiscard]] bool isSaidInSight(const QString& text) const {
        for (const auto* label : m_world.window->findChildren<QLabel*>()) {
            if (!label->isVisible() || !label->text().contains(text)) continue;
            const auto middle = label->visibleRegion().boundingRect().center();
            const auto* there =
                m_world.window->childAt(label->mapTo(m_world.window.get(), middle));
            if (there == label || label->isAncestorOf(there)) return true;
        }
        return false;
    }

    void scanAndCompare(const QString& code) {
        const auto before = seen();
        auto* top = m_world.sheet();
        // What may be a PIN is told without being shown.
        const bool isOverPin =
            qobject_cast<const desktop::PinField*>(QApplication::focusWidget()) != nullptr;
        m_world.scan(code);
        INFO("scanning " << code.toStdString());
        CHECK(QTest::qWaitFor(
            [&] {
                return isSaidInSight(code) || (isOverPin && isSaidInSight("may be a PIN"));
            },
            10'000));
        if (m_world.sheet() != nullptr && m_world.sheet() != top) {
            const auto name = m_world.sheet()->accessibleName();
            CHECK((name == "A question first" || name == "No such unit in this logbook"));
            m_world.key(Qt::Key_Escape);
        }
        CHECK(QTest::qWaitFor([&] { return seen() == before; }, 10'000));
        tellDifferences(before, seen());
    }

    void tellDifferences(const Seen& before, const Seen& after) const {
        for (const auto& [widget, text] : before) {
            const auto now = after.find(widget);
            if (now == after.end()) {
                FAIL_CHECK("gone: \"" << text.toStdString() << "\"");
            } else if (now->second != text) {
                FAIL_CHECK(saysOf(*widget).toStdString() << " was \"" << text.toStdString()
                                                         << "\", is \""
                                                         << now->second.toStdString() << "\"");
            }
        }
    }

    const WindowWorld& m_world;
    int m_count = 0;
};

}  // namespace support
