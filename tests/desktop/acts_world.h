// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A few units at the bedside desk, each standing in another way: sheets pressed and typed into, and
// the entries that come of it.
#pragma once

#include "logbook/json.h"
#include "bedside_world.h"
#include "desktop/bedside/bedside_desk.h"
#include "desktop/shell/pin_sheet.h"

#include <QLineEdit>
#include <algorithm>

namespace support {

// m.toller is the manager and holds every role that the edition's authority names.
struct ActsWorld : BedsideWorld {
    static constexpr const char* idle = "KB-0101";    // switched on, with parts, not in use
    static constexpr const char* inUse = "KB-0102";
    static constexpr const char* held = "KB-0106";    // after an incident, with a sheet
    static constexpr const char* repair = "KB-0107";  // out of service for repair
    static constexpr const char* sensor = "FS-9";     // the serial of a part of the one in use

    explicit ActsWorld(QSize size = {1280, 800}, const desktop::Appearance& appearance = {}) {
        makeKept("acts", [this] { enterAll(); });
        open(size, appearance);
    }

    void enterAll() {
        found(bytesOf(AIRMUSTER_SOURCE_DIR "/data/demo/kestrel_bay_2.toml"));
        person("p.quill", "Petra Quill");
        for (const auto* unit : {idle, inUse, held, repair}) enrolAdult(unit);
        for (const auto* unit : {idle, held}) fitParts(unit);
        write("power", idle, {{"on", true}});
        fit(inUse, "flow_sensor", {{"serial", sensor}, {"model", "Brookvale FS-A"}});
        write("use_start", inUse, {{"group", "adult"}, {"location", "Equipment room"}});
        write("withdraw", held, {{"hold", "incident"}, {"reason", ""}});
        write("withdraw", repair, {{"hold", "repair"}, {"reason", ""}});
    }

    void enrolAdult(const std::string& unit) {
        write("enrol", unit,
              {{"model", "Larch 4"},
               {"groups", logbook::json::Array{"adult", "adult_transport"}},
               {"features", logbook::json::Array{}},
               {"commissioned", "2026-01-15"},
               {"asset", "A-" + unit.substr(3)},
               {"location", "Equipment room"}});
        write("group", unit, {{"group", "adult"}});
    }
    void fit(const std::string& unit, const std::string& position, logbook::json::Object part) {
        write("fit", unit, {{"position", position}, {"part", std::move(part)}});
    }
    void fitParts(const std::string& unit) {
        fit(unit, "circuit",
            {{"lot", "C-4471"},
             {"model", "Fern coaxial 22"},
             {"layout", "coaxial"},
             {"expires", "2027-10-22"},
             {"groups", logbook::json::Array{"adult", "adult_transport"}}});
        fit(unit, "exhalation_valve", {{"serial", "EV-" + unit}, {"model", "Brookvale EV-2"}});
    }

    // Without the presses, which are tested elsewhere.
    void signIn(const std::string& who = "m.toller") {
        auto session = station::signIn(surroundings(), file, who, secretOf(pin));
        REQUIRE(session);
        window->workplace().presence().begin(std::move(*session));
    }

    [[nodiscard]] const rules::Device& device(const std::string& serial) const {
        return *window->workplace().fleet()->standing->state.device(serial);
    }

    // The PIN once more, where that is asked for.
    void typePin(std::string_view digits = pin) const {
        waitUntil("the PIN is asked for",
                  [this] { return qobject_cast<desktop::PinSheet*>(sheet()) != nullptr; });
        type(QString::fromLatin1(digits.data(), static_cast<qsizetype>(digits.size())));
        key(Qt::Key_Return);
    }

    // Scans it and waits until its panels show it.
    void openUnit(const std::string& serial) {
        auto* desk = window->findChild<desktop::BedsideDesk*>();
        bool isShown = false;
        const auto shown = QObject::connect(
            desk, &desktop::BedsideDesk::unitShown, window.get(),
            [&](const QString& open) { isShown |= open.toStdString() == serial; });
        scan(QString::fromStdString(serial));
        waitUntil("unit " + serial + " is shown", [&] { return isShown; });
        QObject::disconnect(shown);
    }
    // With its other entries in front.
    void openActs(const std::string& serial) {
        openUnit(serial);
        key(Qt::Key_F7);
        waitUntil("the entries are offered", [this] { return !buttons("Start of use").empty(); });
    }

    [[nodiscard]] QLineEdit* line(const QString& name) const {
        for (auto* each : awaitSheet()->findChildren<QLineEdit*>())
            if (each->isVisible() && each->accessibleName().startsWith(name)) return each;
        FAIL("no line " + name.toStdString());
        return nullptr;
    }
    void typeInto(const QString& name, const QString& text) const {
        auto* field = line(name);
        field->setFocus();
        field->selectAll();
        type(text);
    }

    // The manager has typed a note on the unit that is idle and has not kept it.
    void beginNote(const QString& text) {
        signIn();
        openUnit(idle);
        key(Qt::Key_F7);
        pressButton("Note");
        (void)awaitSheet();
        type(text);
    }

    // Of the desk's own station, oldest first, as they were last read from the file:
    // "use_end KB-0101 {}".
    [[nodiscard]] std::vector<std::string> entries() const {
        const auto& log = logRead();
        std::vector<const logbook::Record*> own;
        for (const auto& record : log.log.records())
            if (record.name.station == log.ownStation) own.push_back(&record);
        std::ranges::sort(own, {}, [](const auto* record) { return record->name.seq; });
        std::vector<std::string> lines;
        for (const auto* record : own) {
            const auto content = logbook::json::parse(record->content);
            lines.push_back(*content->find("kind")->string() + " " + record->device + " " +
                            logbook::json::canonical(*content->find("body")));
        }
        return lines;
    }
    // Waits until so many were kept since, and gives them.
    [[nodiscard]] std::vector<std::string> entriesSince(std::size_t before,
                                                        std::size_t count) const {
        waitUntil(std::to_string(count) + " entries are kept",
                  [&] { return entries().size() >= before + count; });
        waitUntil("the sheet is gone", [this] { return sheet() == nullptr; });
        auto all = entries();
        all.erase(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(before));
        return all;
    }
};

}  // namespace support
