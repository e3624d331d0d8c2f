// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The table of units: its columns fit the window and what they hold, and remember the widths that a
// person gave them; a row is opened by a press or by Enter, unless characters came just before it.
#pragma once

#include <QElapsedTimer>
#include <QTableView>

namespace desktop {

class FleetFilter;

class UnitTable : public QTableView {
    Q_OBJECT
public:
    explicit UnitTable(FleetFilter* units, QWidget* parent = nullptr);

    // Before the first rows are there nothing is known of what the columns hold.
    void measureColumns();
    void forgetWidths();
    // By the next column that can be seen; by the same the other way round.
    void sortByNext();
    void sortOtherWay();

Q_SIGNALS:
    void unitPressed(const QString& serial);
    // The row on which the keyboard stands; "" none.
    void unitMarked(const QString& serial);

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;

private:
    void fitRows();
    // Columns that say least give way first, so that what is missing is always in sight.
    void fitColumns();
    void keepWidth(int column, int width);
    [[nodiscard]] bool endsCharacters(const QKeyEvent& key) const;
    [[nodiscard]] int least() const;  // px for what is missing

    FleetFilter* m_units;
    bool m_isMeasured = false;
    bool m_isFitting = false;
    QElapsedTimer m_sinceCharacter;    // not running: none since another key
    quint64 m_characterPressed = 0;    // ms, by the system; 0: it does not tell
};

}  // namespace desktop
