// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A step of setting up: fields below a title, a field's name above it. What was typed stays when a
// person goes back and forth.
#pragma once

#include <QWidget>
#include <functional>
#include <utility>
#include <vector>

class QLabel;
class QLineEdit;
class QVBoxLayout;

namespace desktop {

class SetupPage : public QWidget {
    Q_OBJECT
public:
    SetupPage(const QString& title, const QString& next, QWidget* parent = nullptr);

    [[nodiscard]] const QString& title() const { return m_title; }
    [[nodiscard]] const QString& next() const { return m_next; }  // what going on says

    // What is wrong with what was typed, as a sentence; "" nothing. Its field gets the focus.
    [[nodiscard]] virtual QString fault() { return {}; }
    // The same with what only a look at this computer's files tells; `told` is handed it, at once
    // or later, while the page is there.
    using Told = std::function<void(const QString& fault)>;
    virtual void check(Told told) { told(fault()); }
    // It comes into sight.
    virtual void enter() {}
    virtual bool takeScan(const QString& text) {
        Q_UNUSED(text);
        return false;
    }

protected:
    [[nodiscard]] QVBoxLayout& rows() const { return *m_rows; }
    QLabel* addText(const QString& text);
    // Enter goes on to the next field and presses nothing.
    QLineEdit* addField(const QString& name, const QString& hint = {});
    // Beside one another where the width suffices; of each its name and hint.
    std::vector<QLineEdit*> addFields(const std::vector<std::pair<QString, QString>>& fields);
    void addNamed(const QString& name, QWidget* field);

private:
    QLineEdit* makeField(const QString& name, const QString& hint);
    static void name(const QString& name, QWidget* field, QVBoxLayout& rows);

    QString m_title, m_next;
    QVBoxLayout* m_rows = nullptr;
};

}  // namespace desktop
