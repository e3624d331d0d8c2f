// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A forecast as a sheet: what is asked, and the answer as a page to read. It is worked out in
// another thread; closing the sheet, or asking anew, calls off what was asked before.
#pragma once

#include "desktop/shell/background.h"
#include "desktop/shell/fleet_view.h"
#include "desktop/shell/sheet.h"
#include "report/outline.h"

#include <QTimer>
#include <atomic>
#include <functional>
#include <memory>
#include <string>

class QLabel;
class QPushButton;
class QTextBrowser;
class QVBoxLayout;

namespace desktop {

// All outlive the sheet; the fleet is not null.
struct ForecastTools {
    SharedFleetView fleet;
    const words::Words& words;
    Background& background;
};

class ForecastSheet : public Sheet {
    Q_OBJECT
public:
    ForecastSheet(const QString& title, ForecastTools tools);
    ~ForecastSheet() override;

protected:
    // Gives the answer; runs in the other thread, from what it captured.
    using Answer = std::function<report::Outline()>;
    [[nodiscard]] virtual Answer question() const = 0;
    void askAnew();

    // A number from 1 with a press for less and one for more.
    void addNumber(const QString& name, int* number, int most);
    // Presses of which one is chosen.
    void addChoices(const QString& name, const QStringList& labels, int* chosen);

    [[nodiscard]] const ForecastTools& tools() const { return m_tools; }

    // Of the stations only those that were heard too long ago: the desk tells of the others.
    [[nodiscard]] static report::Provenance briefly(const report::Board& board);

    [[nodiscard]] bool isWide() const override { return true; }

private:
    void workOut();

    ForecastTools m_tools;
    QWidget* m_numbers = nullptr;
    QVBoxLayout* m_asked = nullptr;
    QTextBrowser* m_page = nullptr;
    QTimer m_soon;  // several presses are one question
    std::shared_ptr<std::atomic<int>> m_round = std::make_shared<std::atomic<int>>(0);
};

}  // namespace desktop
