// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The person before the screen; see asking_terminal.h.
#include "desktop/shell/asking_terminal.h"

#include "desktop/shell/text.h"

#include <QMetaObject>
#include <QPointer>
#include <utility>

namespace desktop {

AskingTerminal::AskingTerminal(std::string yes, QObject* parent)
    : QObject(parent), m_yes(std::move(yes)) {}

AskingTerminal::~AskingTerminal() {
    callOff();
}

void AskingTerminal::callOff() {
    const std::lock_guard lock(m_mutex);
    m_isOff = true;
    m_answered.notify_all();
}

namespace {

// Without how it is answered at a terminal, "(yes or no): ", which stands last: here buttons say
// it.
QString withoutAnswers(QString question) {
    question = question.trimmed();
    if (!question.endsWith(QLatin1String("):"))) return question;
    return question.left(question.lastIndexOf(QLatin1Char('('))).trimmed();
}

}  // namespace

void AskingTerminal::take(bool isYes) {
    const std::lock_guard lock(m_mutex);
    m_answer = isYes;
    m_answered.notify_all();
}

std::optional<std::string> AskingTerminal::ask(std::string_view question) {
    std::unique_lock lock(m_mutex);
    m_answer.reset();
    const auto put = [self = QPointer<AskingTerminal>(this),
                      text = withoutAnswers(shownText(question)), asker = m_asker] {
        if (self)
            Q_EMIT self->asked(text, asker, [self](bool isYes) {
                if (self) self->take(isYes);
            });
    };
    QMetaObject::invokeMethod(this, put, Qt::QueuedConnection);
    m_answered.wait(lock, [this] { return m_answer || m_isOff; });
    return m_answer.value_or(false) ? std::optional(m_yes) : std::nullopt;
}

// PINs are typed into the window before an entry is kept, never while it is.
std::optional<station::Secret> AskingTerminal::askSecret(std::string_view) {
    return std::nullopt;
}

std::optional<station::Secret> AskingTerminal::secretFrom(int, std::string_view) {
    return std::nullopt;
}

}  // namespace desktop
