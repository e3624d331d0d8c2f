// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The units: typed or scanned one by one, or from a fleet list.
#pragma once

#include "desktop/first_start/setup_page.h"
#include "desktop/shell/desk.h"
#include "station/fleet_list.h"

#include <vector>

class QBoxLayout;
class QPushButton;

namespace desktop {

class KnownModels;

class UnitsPage : public SetupPage {
    Q_OBJECT
public:
    explicit UnitsPage(DeskTools tools, QWidget* parent = nullptr);

    // The first one that was enrolled here; "" none.
    [[nodiscard]] const QString& firstSerial() const { return m_first; }
    [[nodiscard]] QString fault() override;
    void enter() override;
    bool takeScan(const QString& text) override;
    // Where its presses are always in sight, as far as there is room for them.
    void putPresses(QBoxLayout& under);
    // With that serial typed already.
    void beginWith(const QString& serial);
    // Something that a new page has not stands in the fields or is pressed, or is being enrolled.
    [[nodiscard]] bool isDraft() const;
    // A unit's serial is there: what stays for the next one is none yet.
    [[nodiscard]] bool holdsUnit() const;

Q_SIGNALS:
    void changed();
    void troubled(const QString& text);
    // Until it is told what came of it nothing can be changed here.
    void keepingChanged(bool isKeeping);

protected:
    void changeEvent(QEvent* event) override;

private:
    // What is chosen by pressing it, by the key of the edition.
    using Presses = std::vector<std::pair<std::string, QPushButton*>>;
    void showChoices();
    void showEdition(const FleetView& fleet);
    void putInTabOrder();
    void showTold();
    [[nodiscard]] static std::vector<std::string> pressedOf(const Presses& presses);
    void addPress(QWidget& row, Presses& presses, const std::string& key,
                  const std::string& label);
    void takeModel(const QString& model);
    void add();
    [[nodiscard]] QString lacking();  // as a sentence; its field gets the focus
    [[nodiscard]] logbook::Day today() const;
    void addBy(const station::Writer& writer);
    [[nodiscard]] bool isStillThere(const station::Writer& writer, const QString& serial);
    void setKeeping(bool isKeeping);
    void refuse(const QString& text);
    void enrol(const station::Writer& writer, const station::NewUnit& unit);
    void askAboutNames(const station::Writer& writer, const station::NewUnit& unit,
                       const station::Problem& refused);
    void chooseList();
    void showList(const QString& path, bool namesNoPatient);
    void takeList(const station::FleetPreview& preview);
    void takeListBy(const station::Writer& writer, const station::FleetPreview& preview);
    void tellAdded(const QStringList& serials);

    DeskTools m_tools;
    QLineEdit* m_serial = nullptr;
    QLineEdit* m_model = nullptr;
    KnownModels* m_models = nullptr;
    QLineEdit* m_asset = nullptr;
    QLineEdit* m_place = nullptr;
    QLineEdit* m_commissioned = nullptr;  // a day; today until it is changed
    QWidget* m_groups = nullptr;
    Presses m_groupPresses;
    QLabel* m_featuresHead = nullptr;
    QWidget* m_features = nullptr;
    Presses m_featurePresses;
    QPushButton* m_add = nullptr;
    QPushButton* m_list = nullptr;
    QWidget* m_presses = nullptr;
    QLabel* m_told = nullptr;
    QString m_first;
    int m_count = 0;
    bool m_isKeeping = false;
};

}  // namespace desktop
