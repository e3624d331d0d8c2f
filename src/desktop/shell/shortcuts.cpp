// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The keys; see shortcuts.h.
#include "desktop/shell/shortcuts.h"

#include <QCoreApplication>
#include <QShortcut>
#include <QWidget>
#include <algorithm>
#include <utility>

namespace desktop {

namespace {

struct Row {
    Command command;
    Where where;
    const char* keys;
    const char* says;
};

const Row rows[] = {
    {Command::TypeCode, Where::Everywhere, "Ctrl+K",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "To the field for codes")},
    {Command::ShowBedside, Where::Everywhere, "Ctrl+1",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "Bedside desk")},
    {Command::ShowFleet, Where::Everywhere, "Ctrl+2",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "Fleet desk")},
    {Command::SignInOrLock, Where::Everywhere, "Ctrl+L",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "Sign in, or lock")},
    {Command::ShowWaiting, Where::Everywhere, "Ctrl+I",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "The entries that wait for your name")},
    {Command::ShowHelp, Where::Everywhere, "F1",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "Keys, settings, about")},
    {Command::StepDone, Where::Bedside, "F2",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "The next step is done, as its first button says")},
    {Command::StepNotSo, Where::Bedside, "F3",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "The next step: not so")},
    {Command::StepFailed, Where::Bedside, "F4",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "The next step: failed")},
    {Command::ShowWay, Where::Bedside, "F5",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "Way to ready")},
    {Command::ShowSetup, Where::Bedside, "F6",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "Set-up")},
    {Command::ShowActs, Where::Bedside, "F7",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "Other entries")},
    {Command::ShowHistory, Where::Bedside, "F8",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "History")},
    {Command::ShowWhen, Where::Bedside, "Ctrl+W",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "To when it was and who did it")},
    {Command::CloseUnit, Where::Bedside, "F9",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "Close the unit, to the list of ready units")},
    {Command::ShowFigures, Where::Fleet, "Ctrl+G",
     QT_TRANSLATE_NOOP("desktop::Shortcuts",
                       "To the groups, what lapses and what is soonest ready")},
    {Command::FindUnits, Where::Fleet, "Ctrl+F",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "Find units in the table")},
    {Command::ShowTable, Where::Fleet, "Ctrl+T",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "To the table; Enter opens the unit that is marked")},
    {Command::SortByNext, Where::Fleet, "Ctrl+O",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "Sort the table by the next column")},
    {Command::SortOtherWay, Where::Fleet, "Ctrl+Shift+O",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "Sort it the other way round")},
    {Command::ShowMuster, Where::Fleet, "Ctrl+M",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "Muster")},
    {Command::LookAhead, Where::Fleet, "Ctrl+R",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "Look ahead")},
    {Command::EnrolUnits, Where::Fleet, "Ctrl+N",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "Enrol units")}};

}  // namespace

std::vector<Shortcut> shortcuts() {
    std::vector<Shortcut> all;
    for (const auto& row : rows)
        all.push_back({row.command, row.where, QKeySequence(QString::fromLatin1(row.keys)),
                       QCoreApplication::translate("desktop::Shortcuts", row.says)});
    return all;
}

QKeySequence keysOf(Command command) {
    const auto* found = std::ranges::find(rows, command, &Row::command);
    return QKeySequence(QString::fromLatin1(found->keys));
}

void addShortcut(QWidget* parent, Command command, std::function<void()> act) {
    auto* shortcut = new QShortcut(keysOf(command), parent);
    shortcut->setAutoRepeat(false);  // a key that is held down asserts nothing a second time
    QObject::connect(shortcut, &QShortcut::activated, parent, std::move(act));
}

}  // namespace desktop
