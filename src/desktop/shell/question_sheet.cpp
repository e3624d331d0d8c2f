// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Questions; see question_sheet.h.
#include "desktop/shell/question_sheet.h"

#include "desktop/theme/appearance.h"
#include "desktop/theme/wrapped_button.h"

#include <QCoreApplication>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace desktop {

namespace {

class QuestionSheet : public Sheet {
public:
    QuestionSheet(const Question& question, std::function<void(bool)> answered)
        : Sheet(QCoreApplication::translate("desktop::QuestionSheet", "A question first")),
          m_answered(std::move(answered)) {
        auto* text = new QLabel(question.text);
        text->setWordWrap(true);
        text->setTextFormat(Qt::PlainText);
        text->setFont(fontFor(TextRole::Strong));
        content()->addWidget(text);
        content()->addStretch();
        addAnswer(question.no, false);
        addAnswer(question.yes, true);
        connect(this, &Sheet::calledOff, this, [this] { answer(false); });
    }
    ~QuestionSheet() override { answer(false); }

private:
    void addAnswer(const QString& says, bool isYes) {
        auto* button = new WrappedButton(says);
        connect(button, &QPushButton::clicked, this, [this, isYes] {
            close();  // what comes of the answer finds it gone
            answer(isYes);
        });
        foot()->addWidget(button);
    }

    void answer(bool isYes) {
        if (auto answered = std::exchange(m_answered, nullptr)) answered(isYes);
    }

    std::function<void(bool)> m_answered;
};

}  // namespace

void SheetQuestions::ask(const Question& question, std::function<void(bool)> answered) {
    m_sheets.put(new QuestionSheet(question, std::move(answered)));
}

}  // namespace desktop
