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
    const char* keys;
    const char* says;
};

const Row rows[] = {
    {Command::TypeCode, "Ctrl+K",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "To the field for codes")},
    {Command::ShowBedside, "Ctrl+1", QT_TRANSLATE_NOOP("desktop::Shortcuts", "Bedside desk")},
    {Command::ShowFleet, "Ctrl+2", QT_TRANSLATE_NOOP("desktop::Shortcuts", "Fleet desk")},
    {Command::ShowWay, "F5", QT_TRANSLATE_NOOP("desktop::Shortcuts", "Way to ready")},
    {Command::ShowSetup, "F6", QT_TRANSLATE_NOOP("desktop::Shortcuts", "Set-up")},
    {Command::ShowActs, "F7", QT_TRANSLATE_NOOP("desktop::Shortcuts", "Other entries")},
    {Command::ShowHistory, "F8", QT_TRANSLATE_NOOP("desktop::Shortcuts", "History")},
    {Command::StepDone, "F2",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "The next step is done, as its first button says")},
    {Command::StepNotSo, "F3", QT_TRANSLATE_NOOP("desktop::Shortcuts", "The next step: not so")},
    {Command::StepFailed, "F4", QT_TRANSLATE_NOOP("desktop::Shortcuts", "The next step: failed")},
    {Command::CloseUnit, "F9",
     QT_TRANSLATE_NOOP("desktop::Shortcuts", "Close the unit, to the list of ready units")},
    {Command::SignInOrLock, "Ctrl+L", QT_TRANSLATE_NOOP("desktop::Shortcuts", "Sign in, or lock")},
    {Command::ShowHelp, "F1", QT_TRANSLATE_NOOP("desktop::Shortcuts", "Keys, settings, about")}};

}  // namespace

std::vector<Shortcut> shortcuts() {
    std::vector<Shortcut> all;
    for (const auto& row : rows)
        all.push_back({row.command, QKeySequence(QString::fromLatin1(row.keys)),
                       QCoreApplication::translate("desktop::Shortcuts", row.says)});
    return all;
}

QKeySequence keysOf(Command command) {
    const auto* found = std::ranges::find(rows, command, &Row::command);
    return QKeySequence(QString::fromLatin1(found->keys));
}

void addShortcut(QWidget* parent, Command command, std::function<void()> act) {
    QObject::connect(new QShortcut(keysOf(command), parent), &QShortcut::activated, parent,
                     std::move(act));
}

}  // namespace desktop
