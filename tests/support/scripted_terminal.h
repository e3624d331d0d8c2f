// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Somebody at the terminal who answers what a test has laid out, and keeps what was asked.
#pragma once

#include "station/terminal.h"

#include <deque>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace support {

// The PIN that everybody in tests has, unless a test says otherwise.
inline constexpr std::string_view testPin = "402951";

inline station::Secret secretOf(std::string_view text) {
    station::Secret secret;
    for (const char letter : text) {
        secret.add(letter);
    }
    return secret;
}

class ScriptedTerminal : public station::Terminal {
public:
    // Leaves the terminal: nobody can be asked any more.
    void leave() { m_isThere = false; }
    void comeBack() { m_isThere = true; }
    // The next answer to what is not shown; testPin without one.
    void answerSecretly(std::string_view text) { m_secrets.emplace_back(text); }
    // The next answer to any other question; an empty line without one.
    void answer(std::string_view text) { m_answers.emplace_back(text); }
    // What was asked since, a line each.
    std::vector<std::string> takeQuestions() { return std::exchange(m_asked, {}); }

    [[nodiscard]] bool isThere() const override { return m_isThere; }
    [[nodiscard]] std::optional<std::string> ask(std::string_view question) override {
        m_asked.emplace_back(question);
        return taken(m_answers, "");
    }
    [[nodiscard]] std::optional<station::Secret> askSecret(std::string_view question) override {
        m_asked.emplace_back(question);
        return secretOf(taken(m_secrets, testPin));
    }
    [[nodiscard]] std::optional<station::Secret> secretFrom(int, std::string_view) override {
        return secretOf(taken(m_secrets, testPin));
    }

private:
    static std::string taken(std::deque<std::string>& answers, std::string_view otherwise) {
        if (answers.empty()) {
            return std::string(otherwise);
        }
        auto answer = std::move(answers.front());
        answers.pop_front();
        return answer;
    }

    bool m_isThere = true;
    std::deque<std::string> m_secrets, m_answers;
    std::vector<std::string> m_asked;
};

}  // namespace support
