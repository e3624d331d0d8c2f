// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Above the desks: which of them is in front, the field for codes, who is signed in, help. Where
// room is scarce the field goes first: the press that locks then leaves out the name, which stands
// beside "Who?" as well. Knows no desk.
#pragma once

#include <QWidget>

class QHBoxLayout;
class QLineEdit;
class QPushButton;

namespace desktop {

class HeadBar : public QWidget {
    Q_OBJECT
public:
    explicit HeadBar(QWidget* parent = nullptr);

    // Beside those before it.
    void addDesk(QPushButton* button);
    // "" nobody is signed in.
    void showPerson(const QString& name);
    void focusCodes(Qt::FocusReason reason);

Q_SIGNALS:
    void typed(const QString& code);
    void personPressed();
    void helpPressed();

protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void fit();
    [[nodiscard]] bool leavesRoom() const;
    [[nodiscard]] QString initials() const;

    QHBoxLayout* m_row = nullptr;
    int m_desks = 0;
    QLineEdit* m_codes = nullptr;
    QPushButton* m_person = nullptr;
    QString m_name;
};

}  // namespace desktop
