// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What waits for a name by the few records that are looked for, against the same by the whole log.
#include "station/waiting_log.h"

#include "logbook/record_reader.h"
#include "station/ward.h"
#include "support/random_log.h"
#include "support/seed.h"

using support::Random;
using support::Ward;

namespace {

namespace json = logbook::json;

// Entries of icu-2 that are signed or not, moved, struck through, confirmed and disowned, some of
// it by whoever may not.
class RandomEntries {
public:
    RandomEntries(std::uint32_t seed, Ward& ward) : m_dice(seed), m_ward(ward) {}

    void keep(int count) {
        std::vector<logbook::Record> records;
        for (; count > 0; --count) records.push_back(next());
        auto file =
            station::openLogbook(m_ward.surroundings, m_ward.logbook, station::Access::Write);
        REQUIRE(file);
        REQUIRE(file->append(records, {"mt", m_ward.clock.now()}));
    }

private:
    [[nodiscard]] std::string earlier() {
        return "icu-2/" + std::to_string(1 + m_dice.below(m_seq));
    }

    [[nodiscard]] logbook::Record next() {
        m_ward.clock.moveTo(m_ward.clock.now() + support::minutes(1));
        const auto now = toText(m_ward.clock.now());
        json::Object record{{"station", "icu-2"},
                            {"at", now},
                            {"entered", now},
                            {"by", m_dice.chance(60) ? "mt" : "rs"},
                            {"device", m_dice.chance(70) ? "KB-0001" : "KB-0002"}};
        const auto sort = m_seq == 0 ? 0 : m_dice.below(8);
        if (sort < 3) {
            add(record, "soil", {{"reason", "Splash"}});
        } else if (sort == 3) {
            record.emplace_back("moved_from", earlier());
            add(record, "soil", {{"reason", "Splash"}});
        } else if (sort == 4) {
            add(record, "strike", {{"target", earlier()}, {"reason", "Twice"}});
        } else {
            const auto* said = m_dice.chance(70) ? "confirmed" : "not_mine";
            add(record, "review",
                {{"target", earlier()}, {"disposition", said}, {"text", ""}});
        }
        if (m_dice.chance(sort < 4 ? 70 : 10)) record.emplace_back("confirmed", false);
        record.emplace_back("seq", static_cast<double>(++m_seq));
        const auto read = logbook::readRecord(json::Value(record));
        REQUIRE(read);
        return *read;
    }

    static void add(json::Object& record, const char* kind, json::Object body) {
        record.emplace_back("kind", kind);
        record.emplace_back("body", std::move(body));
    }

    Random m_dice;
    Ward& m_ward;
    int m_seq = 0;
};

std::string told(const std::vector<station::Unconfirmed>& entries) {
    std::string all;
    for (const auto& entry : entries)
        all += entry.line + " " + entry.name + (entry.isKnown ? "" : " unknown") + "\n";
    return all;
}

}  // namespace

TEST_CASE("What waits for a name is that by the whole log", "[property]") {
    const auto firstSeed = support::seedOfRun();
    INFO("AIRMUSTER_SEED=" << firstSeed);
    std::size_t found = 0;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 12; ++seed) {
        CAPTURE(seed);
        Ward ward;
        ward.found();
        ward.person("rs", "biomed");
        for (const auto* unit : {"KB-0001", "KB-0002"}) ward.enrol(unit);
        RandomEntries entries(seed, ward);
        station::WaitingLog waiting;
        for (const int more : {40, 0, 1, 30}) {
            if (more > 0) entries.keep(more);
            const auto whole = station::wholeStanding(ward.surroundings, ward.logbook, {});
            REQUIRE(whole);
            for (const auto* person : {"mt", "rs", "nobody"}) {
                CAPTURE(person);
                const auto own = waiting.of(ward.surroundings, ward.logbook, *whole, person);
                REQUIRE(own);
                found += own->entries.size();
                CHECK(own->doubts.empty());
                const auto all = station::waitingFor(ward.surroundings, ward.logbook, *whole->log,
                                                     person);
                CHECK(told(own->entries) == told(all));
            }
        }
    }
    CHECK(found > 100);
}
