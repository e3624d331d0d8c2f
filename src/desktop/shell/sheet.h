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
#include <map>
#include <optional>
#include <string>
#include <vector>

class QLabel;
class QScrollArea;
class QVBoxLayout;

namespace desktop {

class Sheet : public QWidget {
    Q_OBJECT
public:
    explicit Sheet(const QString& title, QWidget* parent = nullptr);

    void setTitle(const QString& title);

    // Where a kind of sheet puts its content, from the top; it scrolls where it is too high.
    [[nodiscard]] QVBoxLayout* content() const { return m_content; }
    // Below the content and always in sight: what ends the sheet, the way back first.
    [[nodiscard]] QLayout* foot() const { return m_foot; }
    // Between the two, and always in sight too: why it does not end yet.
    [[nodiscard]] QVBoxLayout* overFoot() const { return m_overFoot; }

    // A code was scanned while it is the uppermost. Whether it is taken; if not, the window asks
    // what is meant.
    virtual bool takeScan(const QString& text);
    // Whether a code may be all that stands in a line of it; else it is no text for it, and was
    // scanned.
    [[nodiscard]] virtual bool takesCodeAlone() const { return true; }
    // Says it above the foot: what the window says lies behind the sheet.
    void tell(const QString& text);
    void showTop();
    // What was refused is seen, and has the focus; why is said above the foot.
    void bringUp(QWidget& refused);

    // Whether it shows tables: then it is wider than a text is read well.
    [[nodiscard]] virtual bool isWide() const { return false; }

    // Whether it holds something that somebody typed or chose, or is keeping, and that must not be
    // lost when the window is locked or another unit is opened.
    [[nodiscard]] virtual bool isDraft() const { return false; }
    // It was put aside and is back: what it tells and offers may have changed meanwhile.
    virtual void comeBack() {}
    // Of what would be lost if the window were closed now, as it is told then; "" nothing.
    [[nodiscard]] virtual QString unkept() const {
        return isDraft() ? accessibleName() : QString();
    }

    void callOff();

    // While what it states is being kept: neither Escape nor its way back ends it, since nobody
    // would be told what came of it. The way back is dead then, and why is said.
    void setHeld(bool isHeld);

    // Below the title, until it is said anew: what is to be known before anything on it is read.
    void sayAtTop(const QString& text);

Q_SIGNALS:
    // By Escape, though something was typed into it.
    void escaped();
    void calledOff();
    void closed();
    void cameBack();  // it was put aside, and lies there again

protected:
    // Ends it; it deletes itself.
    void close();
    void keyPressEvent(QKeyEvent* event) override;
    bool focusNextPrevChild(bool next) override;  // stays within

private:
    bool scrolls(int key);
    [[nodiscard]] bool holdsTyped() const;

    QLabel* m_title = nullptr;
    QScrollArea* m_page = nullptr;
    QVBoxLayout* m_content = nullptr;
    QVBoxLayout* m_overFoot = nullptr;
    QLayout* m_foot = nullptr;
    QLabel* m_told = nullptr;  // none yet: nothing was told
    QLabel* m_atTop = nullptr;
    QLabel* m_isKept = nullptr;
    bool m_isHeld = false;
};

// The sheets over one widget, one upon the other.
class SheetStack : public QWidget {
    Q_OBJECT
public:
    explicit SheetStack(QWidget* under);

    // That part of it takes neither keys nor presses while a sheet lies over it.
    void covers(QWidget* part) { m_covered.push_back(part); }

    void put(Sheet* sheet);  // takes it over
    [[nodiscard]] Sheet* top() const;
    [[nodiscard]] bool isEmpty() const { return m_sheets.empty(); }
    // Whether one of those that lie here holds what must not be lost, or has been brought back.
    [[nodiscard]] bool hasDraft() const;

    // Whose draft it is, and on which unit; "" where nobody is signed in, or it is on none.
    struct Draft {
        std::string owner, unit;
        auto operator<=>(const Draft&) const = default;
    };
    // Puts aside what somebody was entering when the window was locked or another unit was opened,
    // for them alone, with the sheets that it lies upon; others that hold nothing are called off.
    // It comes back as it was left.
    void putAside(const Draft& draft);
    // Whether there was any.
    bool bringBack(const Draft& draft);

    // What would be lost if the window were closed: as each sheet is called, and of what was put
    // aside whose it is.
    struct Unkept {
        QString title;
        std::optional<Draft> aside;  // none: it lies here
        bool operator==(const Unkept&) const = default;
    };
    [[nodiscard]] std::vector<Unkept> unkept() const;

Q_SIGNALS:
    void escaped(desktop::Sheet* sheet);  // as that sheet says
    void began();  // with the first sheet over what lies below
    void draftsCalledOff();  // of those that were brought back the last one

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void place(Sheet& sheet) const;
    void takeAway(Sheet* sheet);
    void cover(bool isCovered);
    static void focus(Sheet& sheet);

    QWidget* m_under;
    std::vector<QWidget*> m_covered;  // the parts of it that sleep meanwhile
    std::vector<Sheet*> m_sheets;
    std::vector<Sheet*> m_back;  // those of them that were brought back
    std::map<Draft, std::vector<Sheet*>> m_aside;
    QPointer<QWidget> m_focusBefore;  // below all sheets
    std::map<const Sheet*, QPointer<QWidget>> m_focusBelow;  // where it was when that one came
};

}  // namespace desktop
