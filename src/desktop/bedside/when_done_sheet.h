// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Over a draft that came back after a while: since when it was begun, and when the thing was done.
// It is answered before the draft can be kept. Knows no entry.
#pragma once

#include "desktop/shell/desk.h"
#include "desktop/shell/sheet.h"
#include "logbook/instant.h"

#include <functional>
#include <optional>

namespace desktop {

// After less than this "now" is still true.
inline constexpr logbook::Duration briefly{2 * 60'000};

// What came back, and when it was begun.
struct BegunDraft {
    Sheet& sheet;
    logbook::Instant begun{};
    std::function<bool()> isTimed;  // whether it is known by now when it was done
};

// Asks over that sheet, once nothing else lies over it, if it was begun more than a brief while
// ago. Hands on the time that was said; none: now. The sheet tells it at its top from then on.
void askWhenDone(const DeskTools& tools, const BegunDraft& draft,
                 std::function<void(std::optional<logbook::Instant>)> answered);

class WhenDoneSheet : public Sheet {
    Q_OBJECT
public:
    WhenDoneSheet(const DeskTools& tools, const BegunDraft& draft, QWidget* parent = nullptr);

    // It waits with the draft, for the same person.
    [[nodiscard]] bool isDraft() const override { return true; }
    [[nodiscard]] bool asksOf(const Sheet& draft) const { return m_draft == &draft; }

Q_SIGNALS:
    void answered(std::optional<logbook::Instant> at);

protected:
    // Escape answers nothing.
    void keyPressEvent(QKeyEvent* event) override;

private:
    void answer(std::optional<logbook::Instant> at);
    void askTime();

    DeskTools m_tools;
    const Sheet* m_draft;  // over which it lies
};

}  // namespace desktop
