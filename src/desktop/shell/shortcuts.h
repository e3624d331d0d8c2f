// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every key that does something wherever one is in the window: the one list of them, from which
// they work and from which they are shown.
#pragma once

#include <QKeySequence>
#include <QString>
#include <functional>
#include <vector>

class QWidget;

namespace desktop {

enum class Command {
    ShowBedside,
    ShowFleet,
    TypeCode,
    SignInOrLock,
    ShowWaiting,
    ShowHelp,
    ShowWay,
    ShowSetup,
    ShowActs,
    ShowHistory,
    ShowWhen,
    CloseUnit,
    StepDone,
    StepNotSo,
    StepFailed,
    ShowFigures,
    FindUnits,
    ShowTable,
    SortByNext,
    SortOtherWay,
    ShowMuster,
    LookAhead,
    EnrolUnits,
};

enum class Where { Everywhere, Bedside, Fleet };  // the desk that is in front

struct Shortcut {
    Command command;
    Where where{};
    QKeySequence keys;
    QString says;  // what it does
};

// In the order in which they are shown.
[[nodiscard]] std::vector<Shortcut> shortcuts();

[[nodiscard]] QKeySequence keysOf(Command command);

// `act` is done on its keys while `parent` can be seen and no sheet lies over it.
void addShortcut(QWidget* parent, Command command, std::function<void()> act);

}  // namespace desktop
