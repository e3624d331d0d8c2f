// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What waits for a name; see confirm_sheet.h.
#include "desktop/shell/confirm_sheet.h"

#include "desktop/shell/problem_text.h"
#include "desktop/shell/text.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/wrapped_button.h"
#include "words/shown.h"

#include <QLabel>
#include <QVBoxLayout>
#include <algorithm>
#include <utility>

namespace desktop {

ConfirmSheet::ConfirmSheet(DeskTools tools, const WaitingEntries& entries, QWidget* parent)
    : Sheet(tr("Entries that wait for your name"), parent), m_tools(tools) {
    content()->addWidget(
        textLabel(tr("They were kept under your name without your PIN, and count already. Say "
                     "whether it was you.")));
    m_list = new QWidget;
    auto* rows = new QVBoxLayout(m_list);
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setSpacing(targetGap);
    content()->addWidget(m_list);
    m_nothing = textLabel(tr("Nothing waits for your name any more."), TextRole::Strong);
    content()->addWidget(m_nothing);
    content()->addStretch();
    m_trouble = textLabel({}, TextRole::Strong);
    m_trouble->hide();
    overFoot()->addWidget(m_trouble);
    auto* back = new WrappedButton(tr("Back"));
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    m_all = new WrappedButton(QString());
    m_all->setProperty("main", true);
    connect(m_all, &QPushButton::clicked, this, [this] {
        std::vector<logbook::RecordName> records;
        for (const auto& entry : m_entries) records.push_back(entry.record);
        answer(records, true);
    });
    foot()->addWidget(back);
    foot()->addWidget(m_all);
    show(entries);
}

void ConfirmSheet::show(const WaitingEntries& entries) {
    m_entries = entries;
    while (auto* item = m_list->layout()->takeAt(0)) {
        item->widget()->hide();
        item->widget()->deleteLater();
        delete item;
    }
    for (const auto& entry : entries) addEntry(entry);
    m_all->setText(tr("It was me: confirm all %1").arg(entries.size()));
    m_all->setVisible(entries.size() > 1);
    m_nothing->setVisible(entries.empty());
    setFocus();
}

void ConfirmSheet::addEntry(const station::Unconfirmed& entry) {
    auto* row = new QWidget;
    auto* lines = new QVBoxLayout(row);
    lines->setContentsMargins(0, 0, 0, 0);
    lines->addWidget(textLabel(shownText(words::shown(entry.device)) + QStringLiteral(" · ") +
                                   shownText(entry.what),
                               TextRole::Strong));
    lines->addWidget(textLabel(shownText(entry.when), TextRole::Quiet));
    auto* answers = new WrapLayout(WrapLayout::Manner::Packed);
    lines->addLayout(answers);
    addAnswer(entry, true, *answers);
    addAnswer(entry, false, *answers);
    m_list->layout()->addWidget(row);
}

void ConfirmSheet::addAnswer(const station::Unconfirmed& entry, bool isMine, QLayout& row) {
    auto* button = new WrappedButton(isMine ? tr("It was me") : tr("It was somebody else"));
    button->setAccessibleName(tr("%1: unit %2, %3, %4")
                                  .arg(button->text(), shownText(words::shown(entry.device)),
                                       shownText(entry.what), shownText(entry.when)));
    connect(button, &QPushButton::clicked, this,
            [this, record = entry.record, isMine] { answer({record}, isMine); });
    row.addWidget(button);
}

// One press at a time: what is being answered is not answered a second time. Nobody signs in on top
// of it, since the sheet is for whoever is signed in; without them it is not answered.
void ConfirmSheet::answer(const std::vector<logbook::RecordName>& records, bool isMine) {
    const auto& session = m_tools.workplace.presence().session();
    if (!session || std::exchange(m_isAnswering, true)) return;
    setKeeping(true);
    const station::Confirmation confirmation{station::Writer(*session), records, isMine};
    m_tools.workplace.write(
        [confirmation](const auto& surroundings, const auto& file) {
            return station::confirm(surroundings, file, confirmation);
        },
        this, [this, confirmation](const station::Result<WaitingEntries>& answered) {
            m_isAnswering = false;
            setKeeping(false);
            take(answered, confirmation);
        });
}

void ConfirmSheet::take(const station::Result<WaitingEntries>& answered,
                        const station::Confirmation& asked) {
    m_trouble->setVisible(!answered);
    if (!answered) {
        m_trouble->setText(problemText(answered.error()));
        readAgain();
        return;
    }
    auto remaining = m_entries;
    std::erase_if(remaining, [&](const auto& entry) {
        return std::ranges::find(asked.records, entry.record) != asked.records.end();
    });
    // Nobody else sees what is left.
    const bool isOver = remaining.empty() || !m_tools.workplace.presence().session();
    if (isOver) close();
    Q_EMIT m_tools.workplace.told(shownText(m_tools.workplace.words().say(
        asked.isMine ? "done.confirmed" : "done.disowned",
        {{"count", std::to_string(answered->size())}})));
    if (!isOver) show(remaining);
}

// What somebody answered elsewhere meanwhile waits no more.
void ConfirmSheet::readAgain() {
    const auto& session = m_tools.workplace.presence().session();
    if (!session) {
        close();
        return;
    }
    m_tools.workplace.read(
        [person = session->person()](const auto& surroundings, const auto& file) {
            return station::unconfirmed(surroundings, file, person);
        },
        this, [this](const station::Result<WaitingEntries>& waiting) {
            if (!waiting || m_isAnswering) return;
            auto remaining = *waiting;
            std::erase_if(remaining, [](const station::Unconfirmed& entry) {
                return !entry.canBeConfirmed || entry.isDisowned;
            });
            show(remaining);
        });
}

void ConfirmSheet::setKeeping(bool isKeeping) {
    setHeld(isKeeping);
    m_list->setEnabled(!isKeeping);
    m_all->setEnabled(!isKeeping);
}

}  // namespace desktop
