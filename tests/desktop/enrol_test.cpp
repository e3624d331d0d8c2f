// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Units that are enrolled while the logbook is in use: offered for a code that nothing is known by,
// from the fleet desk, by whoever may.
#include "busy.h"
#include "way_world.h"

#include "desktop/bedside/bedside_desk.h"
#include "desktop/fleet/enrol_sheet.h"

using namespace support;

namespace {

constexpr std::string_view features =
    "[labels.features]\nco2 = \"CO2 sensor\"\n"
    "[checks.z_co2]\nlabel = \"CO2 sensor zero\"\ntakes = \"PT1M\"\n"
    "applies_when = { \"feature.co2\" = true }\n";

void fill(const Way& way, const QString& name, const QString& text) {
    auto* sheet = way.window->findChild<desktop::EnrolSheet*>();
    REQUIRE(sheet != nullptr);
    for (auto* field : sheet->findChildren<QLineEdit*>())
        if (field->accessibleName().startsWith(name)) {
            way.pressSeen(field);
            way.type(text);
            return;
        }
    FAIL("no field " << name.toStdString());
}

// Keys to the window itself: what has the focus goes away with the code.
void scanOver(const Way& way, const QString& text) {
    way.scanInto(way.window.get(), text);
}

bool isAtWork(const Way& way) {
    return way.window->findChild<desktop::EnrolSheet*>() != nullptr;
}

bool isInSight(const Way& way) {
    const auto* sheets = way.window->findChild<desktop::SheetStack*>();
    return qobject_cast<desktop::EnrolSheet*>(sheets->top()) != nullptr;
}

QLineEdit* fieldOf(const Way& way, const QString& name) {
    for (auto* field : way.window->findChild<desktop::EnrolSheet*>()->findChildren<QLineEdit*>())
        if (field->accessibleName().startsWith(name)) return field;
    FAIL("no field " << name.toStdString());
    return nullptr;
}

// At the fleet desk, signed in, with nothing typed yet.
struct Enrolling : Way {
    Enrolling() {
        open();
        comeIn();
        key(Qt::Key_2, Qt::ControlModifier);
        key(Qt::Key_N, Qt::ControlModifier);
        waitUntil("it is asked for", [&] { return isInSight(*this); });
    }
    void comeIn() { window->workplace().presence().begin(*manager().session); }
    void goAway() { window->workplace().presence().lock(); }
};

}  // namespace

TEST_CASE("a code that nothing is known by may be a unit to enrol", "[unit]") {
    Way way(features);
    way.open();
    const auto before = way.records().size();
    way.scan("KB-0500");
    way.waitUntil("it is asked about", [&] { return way.isSaid("No such unit in this logbook"); });
    // What is scanned next takes its place.
    scanOver(way, "KB-0501");
    way.waitUntil("that one is asked about", [&] { return !way.buttons("Enrol KB-0501").empty(); });
    way.pressButton("Enrol KB-0501 …");
    way.waitUntil("the model is asked for", [&] { return isAtWork(way); });
    CHECK(QApplication::focusWidget()->accessibleName() == "Model");
    way.type("Rowan 2");
    way.pressButton("CO2 sensor");
    // Since when it is in service is said, and can be changed.
    auto* since = fieldOf(way, "In service since");
    CHECK(since->text() == "2026-11-28");
    since->setText("29 Nov");
    way.pressButton("Enrol this unit");
    CHECK(way.isSaid("is no day, or one to come"));
    CHECK(since->hasFocus());
    since->setText("20261102");
    way.pressButton("Enrol this unit");
    way.signIn();
    way.waitUntil("it is kept", [&] { return way.records().size() == before + 1; });
    const auto line = way.records().back();
    CHECK(line.find(R"("device":"KB-0501")") != std::string::npos);
    CHECK(line.find(R"("commissioned":"2026-11-02")") != std::string::npos);
    CHECK(line.find(R"("features":["co2"],"groups":["adult"],"model":"Rowan 2")") !=
          std::string::npos);
    way.pressButton("Open KB-0501 at the Bedside desk");
    way.waitUntil("it is open", [&] { return !isAtWork(way) && way.isSaid("Rowan 2"); });
}

TEST_CASE("an unknown code over an open unit may be a unit to enrol, and switches nothing",
          "[unit]") {
    Way way;
    way.openSignedIn();
    const auto before = way.records();
    way.scan("KB-0500");
    way.waitUntil("it is offered", [&] { return !way.buttons("Enrol KB-0500").empty(); });
    CHECK(way.isSaid("If it is on a part that is to be fitted"));
    way.pressButton("Back");
    CHECK(way.window->findChild<desktop::BedsideDesk*>()->serial() == "KB-0142");
    CHECK(way.isNext("A power up"));
    CHECK(way.records() == before);
}

TEST_CASE("units are enrolled from the fleet desk", "[unit]") {
    Way way;
    way.open({1024, 700});
    way.window->workplace().presence().begin(*way.manager().session);
    const auto before = way.records().size();
    way.key(Qt::Key_2, Qt::ControlModifier);
    way.key(Qt::Key_N, Qt::ControlModifier);
    way.waitUntil("it is asked for", [&] { return isAtWork(way); });
    QTest::qWait(100);
    const auto* press = way.buttons("Enrol this unit").front();
    CHECK(way.seenOf(*press) == press->rect());
    // By keys in the order in which all is seen.
    fieldOf(way, "Model")->setFocus();
    QStringList passed;
    for (int tabs = 0; tabs < 5; ++tabs) {
        way.key(Qt::Key_Tab);
        passed << QApplication::focusWidget()->accessibleName();
        if (passed.back().isEmpty()) passed.back() = support::saysOf(*QApplication::focusWidget());
    }
    CHECK(passed == QStringList{"Model: Larch 4", "Adult", "Asset number, if it has one",
                                "Place where it stands", "In service since"});
    fieldOf(way, "Serial number")->setFocus();
    way.scan("KB-0500");
    way.scan("KB-0501");  // the first one is not enrolled yet
    CHECK(way.isSaid("KB-0500 is not enrolled yet"));
    fill(way, "Model", "Rowan 2");
    way.pressButton("Enrol this unit");
    way.waitUntil("it is kept", [&] { return way.records().size() == before + 1; });
    way.waitUntil("the next one may come", [&] { return way.isSaid("KB-0500 is enrolled"); });
    way.waitUntil("that is seen", [&] {
        for (const auto* label : way.WindowWorld::sheet()->findChildren<QLabel*>())
            if (label->text().contains("KB-0500 is enrolled"))
                return way.seenOf(*label).height() == label->height();
        return false;
    });
    way.scan("KB-0142");
    // Those of which there are units are spelt once.
    fieldOf(way, "Model")->clear();
    way.waitUntil("it is offered", [&] { return !way.buttons("Model: Rowan 2").empty(); });
    way.pressButton("Model: Rowan 2");
    CHECK(fieldOf(way, "Model")->text() == "Rowan 2");
    way.pressButton("Enrol this unit");
    way.waitUntil("it is refused",
                  [&] { return way.isSaid("KB-0142") && way.isSaid("enrolled already"); });
    const auto* again = way.buttons("Enrol this unit").front();
    way.waitUntil("it can be pressed again, whole",
                  [&] { return way.seenOf(*again) == again->rect(); }, 5'000);
    CHECK(way.records().size() == before + 1);
    way.pressButton("Open KB-0500 at the Bedside desk");
    way.waitUntil("it is open", [&] { return !isAtWork(way) && way.isSaid("Rowan 2"); });
}

TEST_CASE("whoever may not enrol is told before anything is typed", "[unit]") {
    Way way("[authority]\nenrol = [\"biomed\"]\n"
            "[labels.roles]\nbiomed = \"Biomedical engineer\"\n");
    way.person("p.quill", "Petra Quill");
    way.open();
    way.window->workplace().presence().begin(
        *station::signIn(way.surroundings(), way.file, "p.quill", secretOf(BedsideWorld::pin)));
    way.key(Qt::Key_2, Qt::ControlModifier);
    way.pressButton("Enrol units …");
    way.waitUntil("it is told", [&] { return way.isSaid("Petra Quill may not enrol units"); });
    CHECK(way.isSaid("Biomedical engineer"));
    for (const auto* button : way.buttons("Enrol this unit")) CHECK_FALSE(button->isEnabled());
    way.key(Qt::Key_Escape);
    CHECK_FALSE(isInSight(way));
}

TEST_CASE("whoever comes by is not asked about a name that somebody else typed", "[unit]") {
    Enrolling way;
    way.scan("KB-0500");
    fill(way, "Model", "Larch 4");
    fill(way, "Place", "Mrs Harebell");
    const auto before = way.records().size();
    {
        const BusyWriter busy(way);
        way.pressButton("Enrol this unit");
        QTest::qWait(100);
        way.goAway();
    }
    QTest::qWait(500);
    CHECK_FALSE(way.isSaid("Harebell"));
    CHECK(way.window->findChild<desktop::SheetStack*>()->isEmpty());
    way.comeIn();
    CHECK(isInSight(way));
    CHECK(way.isSaid("KB-0500 was not enrolled"));
    CHECK(way.records().size() == before);
    way.pressButton("Enrol this unit");
    way.pressButton("It names no patient: enrol it");
    way.waitUntil("it is kept", [&] { return way.isSaid("KB-0500 is enrolled"); });
}

TEST_CASE("nothing is left or typed while a unit is being enrolled", "[unit]") {
    Enrolling way;
    way.scan("KB-0500");
    fill(way, "Model", "Larch 4");
    {
        const BusyWriter busy(way);
        way.pressButton("Enrol this unit");
        QTest::qWait(100);
        scanOver(way, "KB-0501");
        QTest::keyClick(way.window->findChild<desktop::EnrolSheet*>(), Qt::Key_Escape);
        CHECK(isInSight(way));
        CHECK(fieldOf(way, "Serial")->text() == "KB-0500");
        CHECK_FALSE(fieldOf(way, "Serial")->isEnabled());
    }
    way.waitUntil("it is told", [&] { return way.isSaid("KB-0500 is enrolled"); });
    CHECK(fieldOf(way, "Serial")->isEnabled());
    way.key(Qt::Key_Escape);
    CHECK_FALSE(isInSight(way));
}

TEST_CASE("whatever was typed of a unit outlives the lock", "[unit]") {
    Enrolling way;
    const auto* field = GENERATE("Model", "Asset", "Place");
    fill(way, field, "Rowan 2");
    way.goAway();
    CHECK_FALSE(isInSight(way));
    way.comeIn();
    REQUIRE(isInSight(way));
    CHECK(fieldOf(way, field)->text() == "Rowan 2");
}

TEST_CASE("what stands on a new page is no draft", "[unit]") {
    Enrolling way;
    CHECK_FALSE(way.window->findChild<desktop::EnrolSheet*>()->isDraft());
    way.goAway();
    way.comeIn();
    CHECK_FALSE(isInSight(way));
}

TEST_CASE("a logbook without units says where they are enrolled", "[unit]") {
    support::BedsideWorld world;
    world.found("format = 1\ntitle = \"Ward\"\nedition = \"1\"\n"
                "time_zone = \"America/Chicago\"\n[groups.adult]\nlabel = \"Adult\"\n");
    world.open();
    world.waitUntil("it is said", [&] { return world.isSaid("No unit is enrolled"); });
    CHECK_FALSE(world.isSaid("ready by record"));
    world.pressButton("Enrol units");
    CHECK(world.awaitSheet() != nullptr);
}
