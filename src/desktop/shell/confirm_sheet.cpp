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

void readWaiting(Workplace& workplace, const std::string& person, QObject* receiver,
                 std::function<void(WaitingEntries)> taken) {
    const auto fleet = workplace.fleet();
    if (!fleet || person.empty()) {
        taken({});
        return;
    }
    workplace.read(
        [fleet, person](const auto& surroundings, const auto& file) {
            const auto whole = withLog(*fleet, surroundings, file);
            return whole ? station::waitingFor(surroundings, file, *(*whole)->log, person)
                         : WaitingEntries();
        },
        receiver, std::move(taken), Background::Urgency::Later);
}

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
        answer(std::move(records), true);
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

void ConfirmSheet::answer(std::vector<logbook::RecordName> records, bool isMine) {
    m_tools.workplace.asWriter(
        true, this, [this, records = std::move(records), isMine](const station::Writer& writer) {
            setKeeping(true);
            const station::Confirmation confirmation{writer, records, isMine};
            m_tools.workplace.write(
                [confirmation](const auto& surroundings, const auto& file) {
                    return station::confirm(surroundings, file, confirmation);
                },
                this, [this, isMine](const station::Result<WaitingEntries>& answered) {
                    take(answered, isMine);
                });
        });
}

void ConfirmSheet::take(const station::Result<WaitingEntries>& answered, bool isMine) {
    setKeeping(false);
    m_trouble->setVisible(!answered);
    if (!answered) {
        m_trouble->setText(problemText(answered.error()));
        return;
    }
    auto remaining = m_entries;
    std::erase_if(remaining, [&](const auto& entry) {
        return std::ranges::find(*answered, entry.record, &station::Unconfirmed::record) !=
               answered->end();
    });
    if (remaining.empty()) close();
    Q_EMIT m_tools.workplace.told(shownText(m_tools.workplace.words().say(
        isMine ? "done.confirmed" : "done.disowned",
        {{"count", std::to_string(answered->size())}})));
    if (!remaining.empty()) show(remaining);
}

void ConfirmSheet::setKeeping(bool isKeeping) {
    setHeld(isKeeping);
    m_list->setEnabled(!isKeeping);
    m_all->setEnabled(!isKeeping);
}

}  // namespace desktop
