// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// From an empty folder to the end of a use, by keys and mouse alone on what can be seen and hit
// with gloves; what the command line says of the same file agrees.
#include "desktop/theme/verdict_chip.h"
#include "first_start_world.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QProcess>

using namespace support;

namespace {

struct WholeUse : FirstStartWorld {
    void enrolFirst() const {
        toUnits();
        fill("Serial number", "KB-0500");
        fill("Model", "Larch 4");
        pressButton("Enrol this unit");  // its one group is chosen
        waitUntil("it is enrolled", [this] { return isSaid("KB-0500 is enrolled"); });
        pressButton("Go on to the first check");
    }

    void check(const QString& title, const QString& value) const {
        waitUntil("next is " + title.toStdString(), [&] { return isNext(title); });
        pressButton("Passed");
        if (value.isEmpty()) return;
        waitUntil("the value is asked for", [this] { return sheet() != nullptr; });
        type(value);
        pressButton("Passed");
    }
    [[nodiscard]] bool isNext(const QString& title) const {
        for (const auto* card : window->findChildren<desktop::StepCard*>()) {
            const auto labels = card->findChildren<QLabel*>();
            if (card->isVisible() && card->isEnabled() && !labels.isEmpty() &&
                labels.front()->text().contains(title, Qt::CaseInsensitive))
                return true;
        }
        return false;
    }
    void checkAll() const {
        for (const auto& [title, value] :
             std::vector<std::pair<QString, QString>>{{"A power up", ""},
                                                      {"B leak", "180"},
                                                      {"C flow sensor", ""},
                                                      {"D oxygen", ""},
                                                      {"E alarms", ""},
                                                      {"F battery", "96"},
                                                      {"G gas", ""},
                                                      {"H filters", ""},
                                                      {"I surfaces", ""}})
            check(title, value);
    }
    void waitForVerdict(const QString& word) const {
        waitUntil("it is " + word.toStdString(),
                  [&] { return !all<desktop::VerdictChip>(word).empty(); });
    }
    void startUse() const {
        pressButton("Other entries");
        pressButton("Start of use");
        (void)awaitSheet();
        pressButton("The use began, for");
    }
    void endUse() const {
        waitUntil("the end makes sense", [this] {
            const auto found = buttons("End of use");
            return !found.empty() && !found.front()->property("off").toBool();
        });
        pressButton("End of use");
        (void)awaitSheet();
        pressButton("This use is over");
    }

    // The one unit, as the command line has it at that moment.
    [[nodiscard]] QJsonObject unitByCommand() const {
        QProcess board;
        const auto path = QString::fromStdString(window->workplace().file().path.string());
        board.start(AIRMUSTER_CLI, {"board", path, "--json", "--at",
                                    QString::fromStdString(logbook::toText(clock.now()))});
        REQUIRE(board.waitForFinished(120'000));
        const auto told = board.readAllStandardOutput();
        INFO(told.toStdString() << board.readAllStandardError().toStdString());
        const auto units = QJsonDocument::fromJson(told).array();
        REQUIRE(units.size() == 1);
        return units[0].toObject();
    }
};

struct Look {
    QSize size;
    int textPercent;
};

}  // namespace

TEST_CASE("from an empty folder to the end of a use", "[unit]") {
    const auto look = GENERATE(Look{{1280, 800}, 100}, Look{{1280, 800}, 200},
                               Look{{1024, 700}, 100}, Look{{1024, 700}, 200});
    CAPTURE(look.size.width(), look.textPercent);
    WholeUse world;
    world.open(look.size, {desktop::Theme::Light, look.textPercent}, false);
    world.enrolFirst();
    world.checkAll();
    world.waitForVerdict("ready");
    auto unit = world.unitByCommand();
    CHECK(unit["device"] == "KB-0500");
    CHECK(unit["verdict"] == "ready");
    CHECK(unit["in_use"] == false);

    world.startUse();
    world.waitForVerdict("in use");
    unit = world.unitByCommand();
    CHECK(unit["in_use"] == true);

    world.endUse();
    world.waitForVerdict("not ready");
    unit = world.unitByCommand();
    CHECK(unit["verdict"] == "not_ready");
    CHECK(unit["in_use"] == false);
    CHECK(world.window->size() == look.size);
}
