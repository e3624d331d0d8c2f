// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The table of the fleet desk: its model, what it finds and how it sorts.
#include "desktop/fleet/fleet_filter.h"

#include "support/seed.h"

#include <QAbstractItemModelTester>
#include <QItemSelectionModel>
#include <QtTest/QSignalSpy>
#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

using namespace desktop;

namespace {

FleetRow unit(const QString& serial, rules::Verdict verdict, const QString& place = {}) {
    FleetRow row{serial, verdict, verdict == rules::Verdict::Ready ? "adult" : "neonatal"};
    row.texts[FleetRow::Unit] = serial;
    row.texts[FleetRow::Place] = place;
    row.sortKeys[FleetRow::Unit] = naturalKey(serial);
    row.sortKeys[FleetRow::Place] = naturalKey(place);
    row.sortKeys[FleetRow::Verdict] = static_cast<int>(verdict);
    row.folded = (serial + '\n' + place).toLower();
    return row;
}

SharedFleetTable tableOf(std::vector<FleetRow> rows) {
    auto table = std::make_shared<FleetTable>();
    table->rows = std::move(rows);
    return table;
}

std::vector<std::string> serialsOf(const FleetFilter& units) {
    std::vector<std::string> serials;
    for (int row = 0; row < units.rowCount(); ++row)
        serials.push_back(units.rowAt(units.index(row, 0)).serial.toStdString());
    return serials;
}

using Serials = std::vector<std::string>;
constexpr auto ready = rules::Verdict::Ready;
constexpr auto failsAtOnce = QAbstractItemModelTester::FailureReportingMode::Fatal;
constexpr auto notReady = rules::Verdict::NotReady;

}  // namespace

TEST_CASE("A fleet read again keeps the rows that are there", "[unit]") {
    FleetModel model;
    const QAbstractItemModelTester tester(&model, failsAtOnce);
    FleetFilter units(&model);
    model.show(tableOf({unit("A1", ready), unit("B1", ready), unit("D1", ready)}));
    const QPersistentModelIndex marked = units.indexOf("B1");
    QSignalSpy resets(&units, &QAbstractItemModel::modelReset);
    QSignalSpy changes(&model, &QAbstractItemModel::dataChanged);

    model.show(tableOf({unit("A1", ready), unit("B1", ready), unit("D1", ready)}));
    CHECK(changes.isEmpty());

    model.show(tableOf({unit("B1", ready, "Bay 2"), unit("C1", ready), unit("D1", notReady)}));
    CHECK(resets.isEmpty());
    CHECK(changes.size() == 2);  // B1 and D1, apart
    REQUIRE(marked.isValid());
    CHECK(units.rowAt(marked).serial == "B1");
    CHECK(units.rowAt(marked).texts[FleetRow::Place] == "Bay 2");
    CHECK(serialsOf(units) == Serials{"B1", "C1", "D1"});
}

TEST_CASE("A unit out of service with a patient on it is among those in use", "[unit]") {
    FleetModel model;
    FleetFilter units(&model);
    auto held = unit("A1", rules::Verdict::Withdrawn);
    held.isInUse = true;
    model.show(tableOf({held, unit("B1", rules::Verdict::InUse), unit("C1", ready),
                        unit("D1", rules::Verdict::Withdrawn)}));
    units.showVerdict(rules::Verdict::InUse);
    CHECK(std::ranges::is_permutation(serialsOf(units), Serials{"A1", "B1"}));
    units.showVerdict(rules::Verdict::Withdrawn);
    CHECK(std::ranges::is_permutation(serialsOf(units), Serials{"A1", "D1"}));
}

TEST_CASE("Whatever comes and goes, the model shows what it was given", "[property]") {
    const auto seed = support::seedOfRun();
    INFO("seed " << seed);
    std::mt19937 random(seed);
    FleetModel model;
    const QAbstractItemModelTester tester(&model, failsAtOnce);
    for (int round = 0; round < 100; ++round) {
        std::vector<FleetRow> rows;
        for (int number = 100; number < 120; ++number)
            if (random() % 3 > 0)
                rows.push_back(unit(QString::number(number), random() % 2 ? ready : notReady));
        model.show(tableOf(rows));
        REQUIRE(model.rowCount() == static_cast<int>(rows.size()));
        for (std::size_t i = 0; i < rows.size(); ++i)
            REQUIRE(model.rowAt(static_cast<int>(i)) == rows[i]);
    }
}

TEST_CASE("Units are found by every word, a verdict and a group", "[unit]") {
    FleetModel model;
    FleetFilter units(&model);
    model.show(tableOf({unit("KB-1", ready, "ICU bay 2"), unit("KB-2", notReady, "NICU bay 2"),
                        unit("KB-3", ready, "Store")}));
    units.findWords("bay kb");
    CHECK(serialsOf(units) == Serials{"KB-1", "KB-2"});
    units.findWords("  NICU ");
    CHECK(serialsOf(units) == Serials{"KB-2"});
    units.findWords("");
    units.showVerdict(ready);
    CHECK(serialsOf(units) == Serials{"KB-1", "KB-3"});
    units.showGroup("neonatal");
    CHECK(serialsOf(units).empty());
    units.showVerdict(std::nullopt);
    CHECK(serialsOf(units) == Serials{"KB-2"});
}

TEST_CASE("Columns sort by what they mean", "[unit]") {
    FleetModel model;
    FleetFilter units(&model);
    auto soon = unit("KB-10", ready, "Bay 10");
    auto late = unit("KB-9", ready, "bay 9");
    soon.sortKeys[FleetRow::Until] = qlonglong{1'000};
    late.sortKeys[FleetRow::Until] = qlonglong{20'000};
    model.show(tableOf({soon, unit("KB-11", notReady, "Bay 1"), late}));
    SECTION("ready before not ready from the first") {
        CHECK(serialsOf(units) == Serials{"KB-10", "KB-9", "KB-11"});
    }
    SECTION("figures as numbers, capitals like small letters") {
        units.sort(FleetRow::Place);
        CHECK(serialsOf(units) == Serials{"KB-11", "KB-9", "KB-10"});
        units.sort(FleetRow::Unit, Qt::DescendingOrder);
        CHECK(serialsOf(units) == Serials{"KB-11", "KB-10", "KB-9"});
    }
    SECTION("times as instants") {
        units.showVerdict(ready);
        units.sort(FleetRow::Until);
        CHECK(serialsOf(units) == Serials{"KB-10", "KB-9"});
    }
}
