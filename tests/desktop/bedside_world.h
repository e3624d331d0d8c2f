// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A small department of its own behind the window, and the presses that somebody makes there,
// counted.
#pragma once

#include "desktop/bedside/keypad.h"
#include "station/bedside.h"
#include "station/import.h"
#include "station/people.h"
#include "window_world.h"

#include <QElapsedTimer>
#include <QEvent>
#include <QMouseEvent>
#include <functional>
#include <sstream>

namespace support {

// Every press of a button and of a key that reaches the application, but the digits of values and
// PINs; nothing while it is paused, as for a scan.
class PressCounter : public QObject {
public:
    PressCounter() { qApp->installEventFilter(this); }
    [[nodiscard]] int presses() const { return m_presses; }
    void pause(bool isPaused) { m_isPaused = isPaused; }

    bool eventFilter(QObject* watched, QEvent* event) override {
        if (m_isPaused || !watched->isWidgetType()) return false;
        if (event->type() == QEvent::MouseButtonPress) countMouse(*watched, *event);
        if (event->type() == QEvent::KeyPress) countKey(static_cast<const QKeyEvent&>(*event));
        return false;
    }

private:
    // What a widget leaves unused comes to its parent again.
    void countMouse(QObject& watched, QEvent& event) {
        const auto when = static_cast<const QMouseEvent&>(event).timestamp();
        if (std::exchange(m_lastMouse, when) == when) return;
        const auto* keypad = qobject_cast<desktop::Keypad*>(watched.parent());
        if (keypad == nullptr) ++m_presses;
    }
    void countKey(const QKeyEvent& key) {
        if (key.key() >= Qt::Key_0 && key.key() <= Qt::Key_9) return;
        if (std::exchange(m_lastKey, &key) != &key) ++m_presses;
    }

    int m_presses = 0;
    bool m_isPaused = false;
    quint64 m_lastMouse = 0;
    const QKeyEvent* m_lastKey = nullptr;
};

inline station::Secret secretOf(std::string_view digits) {
    station::Secret secret;
    for (const char digit : digits) secret.add(digit);
    return secret;
}

struct BedsideWorld : WindowWorld {
    static constexpr std::string_view pin = "402816";

    [[nodiscard]] station::Surroundings surroundings() const {
        return {clock, station::system::systemZones(), *words::Words::builtIn(), "desk"};
    }

    // Station icu-1 with that policy edition; m.toller is its manager.
    void found(std::string_view policy) {
        const auto hash = std::to_string(std::hash<std::string_view>()(policy));
        makeKept("founded-" + hash, [&] {
            REQUIRE(station::foundStation(surroundings(), file, "icu-1"));
            const auto path = folder.write("policy.toml", policy);
            station::FirstStart start{"icu-1", "m.toller", "Mara Toller"};
            start.adoption = station::Adoption{"m.toller", path};
            start.askPin = [](const std::string&) { return std::optional(secretOf(pin)); };
            const auto begun = station::begin(surroundings(), file, start);
            INFO((begun ? "" : begun.error().notice.text()));
            REQUIRE(begun);
        });
    }

    // The logbook as `make` makes it, at this moment, where there is no file.
    template <class Make>
    void makeKept(const std::string& name, Make make) {
        const auto path = file.path;
        copyKept(name + "-" + std::to_string(clock.now().ms), path,
                 [&](const std::filesystem::path& made) {
                     file.path = made;
                     make();
                     file.path = path;
                 });
        m_manager.reset();  // a session is for the file that it was made at
    }

    // Signs in once: a session is good for as long as its person is known.
    [[nodiscard]] station::Writer manager() const {
        if (!m_manager) {
            auto session = station::signIn(surroundings(), file, "m.toller", secretOf(pin));
            REQUIRE(session);
            m_manager = *session;
        }
        return *m_manager;
    }

    void write(const std::string& kind, const std::string& device, logbook::json::Object body) {
        station::Entry entry{manager(), kind, device};
        entry.body = std::move(body);
        REQUIRE(station::writeEntry(surroundings(), file, entry));
    }

    void enrol(const std::string& device, const std::string& asset = "40142") {
        write("enrol", device,
              {{"model", "Larch 4"},
               {"groups", logbook::json::Array{"adult"}},
               {"features", logbook::json::Array{}},
               {"commissioned", "2026-01-15"},
               {"asset", asset},
               {"location", "Equipment room"}});
    }

    // Somebody else of the department, with the same PIN.
    void person(const std::string& key, const std::string& name) {
        write("person", "",
              {{"person", key}, {"name", name}, {"roles", logbook::json::Array{"therapist"}}});
        station::PinChange change{manager(), key, {}};
        change.askNew = [](const std::string&) { return std::optional(secretOf(pin)); };
        REQUIRE(station::setPin(surroundings(), file, change));
    }

    // The lines of the record file, as they were written one after another.
    [[nodiscard]] std::vector<std::string> records() const {
        const auto answer = station::exportRecords(surroundings(), file, {});
        REQUIRE(answer);
        std::istringstream stream(answer->bytes);
        std::vector<std::string> lines;
        for (std::string line; std::getline(stream, line);) lines.push_back(line);
        const auto place = [](const std::string& line) {
            return std::stoi(line.substr(line.find(R"("seq":)") + 6));
        };
        std::ranges::sort(lines, {}, place);
        return lines;
    }

    void openUnit(const QString& serial) const {
        scan(serial);
        waitUntil("the unit is shown",
                  [&] { return isSaid(serial) && !isSaid("ready by record."); });
    }

    void signIn(const QString& person = QStringLiteral("m.toller")) const {
        waitUntil("somebody is asked for", [&] { return isSaid("scan your badge"); });
        scan(person);
        QTest::qWait(60);
        type(QString::fromLatin1(pin.data(), static_cast<qsizetype>(pin.size())));
        key(Qt::Key_Return);
    }

private:
    mutable std::optional<station::Session> m_manager;
};

}  // namespace support
