// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The window in a language and a look of its own, on the demo or on nothing, at an instant that is
// always the same; and what a person does there, by what the widgets say in English, whatever
// language they speak. What cannot be done is thrown as std::runtime_error that says what.
#pragma once

#include "desktop/shell/window.h"
#include "desktop/theme/appearance.h"
#include "screens/labels.h"
#include "support/folder.h"
#include "support/key_stamps.h"
#include "support/moved_clock.h"

#include <QSize>
#include <functional>
#include <memory>
#include <optional>
#include <string>

namespace screens {

struct Look {
    desktop::Appearance appearance{};
    QSize size{1280, 800};
    std::string language = "en";
};

class Stage {
public:
    explicit Stage(Look look);
    ~Stage();

    // Opens the window there, or goes back to how it is when it has just been opened: no sheet, no
    // unit, nobody signed in. What was entered stays.
    void openDemo();
    // Opens the window anew.
    void openNothing();

    [[nodiscard]] desktop::Window& window() const { return *m_window; }
    [[nodiscard]] const Look& look() const { return m_look; }

    // A button, by the beginning of what it says or of its accessible name.
    void press(const QString& english);
    [[nodiscard]] bool offers(const QString& english) const;
    // Into a field, by its accessible name.
    void type(const QString& english, const QString& text);
    void key(Qt::Key key, Qt::KeyboardModifiers modifiers = {});
    // The clock goes on by so much, until the window is opened anew.
    void letPass(logbook::Duration span) { m_clock.advance(span); }
    void waitUntil(const std::string& what, const std::function<bool()>& isSo);
    [[nodiscard]] bool isSaid(const QString& english) const;

    // At the bedside desk.
    void openUnit(const QString& serial);
    // By its serial, into the field for codes.
    void typeUnit(const QString& serial);
    // The charge therapist of the demo.
    void signIn();

    // Until what is to be seen stands.
    void settle();

private:
    void open(const station::LogbookFile& file);
    void goBack();
    [[nodiscard]] QWidget* find(const QString& english, bool isButton) const;

    Look m_look;
    Labels m_labels;
    support::Folder m_home;  // where this person's data lie
    support::MovedClock m_clock;
    support::KeyStamps m_stamps;
    std::unique_ptr<desktop::Window> m_window;
    std::optional<station::Session> m_signedIn;  // of the logbook that is open
    bool m_isOnDemo = false;
};

}  // namespace screens
