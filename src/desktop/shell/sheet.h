// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A sheet lies over the desk and asks for something: a sign-in, a value, an answer. It takes the
// place of dialogs: nothing behind it can be pressed, Escape calls it off, and no button of it is
// pressed by Enter.
#pragma once

#include <QPointer>
#include <QString>
#include <QWidget>
#include <vector>

class QLabel;
class QVBoxLayout;

namespace desktop {

class Sheet : public QWidget {
    Q_OBJECT
public:
    explicit Sheet(const QString& title, QWidget* parent = nullptr);

    // Where a kind of sheet puts its content, from the top; it scrolls where it is too high.
    [[nodiscard]] QVBoxLayout* content() const { return m_content; }
    // Below the content and always in sight: what ends the sheet.
    [[nodiscard]] QVBoxLayout* foot() const { return m_foot; }

    // A code was scanned while it is the uppermost. Whether it is taken; if not, the window asks
    // what is meant.
    virtual bool takeScan(const QString& text);

    void callOff();

Q_SIGNALS:
    void calledOff();
    void closed();

protected:
    // Ends it; it deletes itself.
    void close();
    void keyPressEvent(QKeyEvent* event) override;
    bool focusNextPrevChild(bool next) override;  // stays within

private:
    QVBoxLayout* m_content = nullptr;
    QVBoxLayout* m_foot = nullptr;
};

// The sheets over one widget, one upon the other.
class SheetStack : public QWidget {
    Q_OBJECT
public:
    explicit SheetStack(QWidget* under);

    void put(Sheet* sheet);  // takes it over
    [[nodiscard]] Sheet* top() const;
    [[nodiscard]] bool isEmpty() const { return m_sheets.empty(); }

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void place(Sheet& sheet) const;
    void takeAway(Sheet* sheet);

    QWidget* m_under;
    std::vector<Sheet*> m_sheets;
    QPointer<QWidget> m_focusBefore;
};

}  // namespace desktop
