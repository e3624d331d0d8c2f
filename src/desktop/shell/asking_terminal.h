// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The person before the screen as the use cases know them: a question that comes up while an entry
// is being kept is put to the window, and the thread that asked waits for the answer.
#pragma once

#include "station/terminal.h"

#include <QObject>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <utility>

namespace desktop {

class AskingTerminal : public QObject, public station::Terminal {
    Q_OBJECT
public:
    // `yes` is what a yes is called in the language of the questions.
    AskingTerminal(std::string yes, QObject* parent = nullptr);
    ~AskingTerminal() override;

    // The question that waits is answered with no, as is every later one.
    void callOff();

    // From the thread that asks: for whom it does, from now on. Handed on with each question.
    void askFor(std::string asker) { m_asker = std::move(asker); }

    // From any thread but the one of this object.
    [[nodiscard]] bool isThere() const override { return true; }
    [[nodiscard]] std::optional<std::string> ask(std::string_view question) override;
    [[nodiscard]] std::optional<station::Secret> askSecret(std::string_view question) override;
    [[nodiscard]] std::optional<station::Secret> secretFrom(int descriptor,
                                                            std::string_view question) override;

Q_SIGNALS:
    // In the thread of this object; `answer` takes the answer, once.
    void asked(const QString& question, const std::string& asker,
               std::function<void(bool)> answer);

private:
    void take(bool isYes);

    const std::string m_yes;
    std::string m_asker;
    std::mutex m_mutex;
    std::condition_variable m_answered;
    std::optional<bool> m_answer;
    bool m_isOff = false;
};

}  // namespace desktop
