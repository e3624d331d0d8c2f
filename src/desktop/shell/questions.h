// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Questions to the person before the screen. Both answers say what they do; none is pressed by
// Enter.
#pragma once

#include <QString>
#include <functional>

namespace desktop {

struct Question {
    QString text;
    QString yes, no;  // what the two buttons say
};

class Questions {
public:
    Questions() = default;
    Questions(const Questions&) = delete;
    Questions& operator=(const Questions&) = delete;
    virtual ~Questions() = default;

    // `answered` is called once, later; with false too where the question is called off.
    virtual void ask(const Question& question, std::function<void(bool)> answered) = 0;
};

}  // namespace desktop
