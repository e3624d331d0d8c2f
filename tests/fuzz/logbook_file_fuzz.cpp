// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A logbook file with any damage, or any bytes that begin as a database does: it is refused, or
// read as far as it is whole. What verifies holds only what was written, and so does what is
// salvaged. The bytes say what is done to a whole logbook, one change after the other (`damaged`),
// and what is done with the file (`deedOf`).
#include "logbook/record_reader.h"
#include "store/logbook.h"
#include "store/salvage.h"

#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <string>
#include <unistd.h>
#include <vector>

namespace {

namespace fs = std::filesystem;
using Access = store::OpenOptions::Access;

constexpr std::size_t pageSize = 4096;
constexpr std::size_t kinds = 5;  // of changes, see `damaged`
const logbook::Instant now{1'772'460'000'000};

void demand(bool holds, const char* what) {
    if (!holds) {
        std::fprintf(stderr, "broken: %s\n", what);
        std::abort();
    }
}

// In memory, where it can be: a file is flushed tens of times for an input.
const fs::path& folder() {
    static const fs::path path = [] {
        const fs::path memory = "/dev/shm";
        const bool isThere = ::access(memory.c_str(), W_OK | X_OK) == 0;
        auto made = (isThere ? memory : fs::temp_directory_path()) /
                    ("airmuster-fuzz-" + std::to_string(::getpid()));
        fs::create_directories(made);
        std::atexit([] {
            std::error_code ignored;
            fs::remove_all(folder(), ignored);
        });
        return made;
    }();
    return path;
}

std::string bytesOf(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

logbook::Record note(int seq) {
    const std::string line =
        R"({"station":"icu-1","seq":)" + std::to_string(seq) +
        R"(,"at":"2026-03-02T14:00:00Z","entered":"2026-03-02T14:00:00Z","by":"mt",)"
        R"("device":"KB-0001","kind":"note","body":{"text":")" +
        std::string(seq == 3 ? 6000 : 20, 'x') + R"("}})";
    return *logbook::readRecord(std::string_view(line));
}

// A whole one, with a record that takes several pages and a kept state.
struct Whole {
    std::string bytes;
    std::set<std::string> contents;
};

const Whole& whole() {
    static const Whole made = [] {
        Whole all;
        const auto path = folder() / "whole.logbook";
        {
            auto logbook = store::Logbook::open(path, {Access::Create});
            demand(logbook.has_value(), "a logbook can be made");
            std::vector<logbook::Record> records;
            for (int seq = 1; seq <= 8; ++seq) {
                records.push_back(note(seq));
                all.contents.insert(records.back().content);
            }
            demand(logbook->setStation("icu-1", {"mt", now}).has_value() &&
                       logbook->append(records, {"mt", now}).has_value(),
                   "records can be kept");
            store::Snapshot state;
            state.place = store::placeOf(records[3]);
            state.arrival = 8;
            state.heads = store::headsOf(*logbook->heads());
            state.engine = 1;
            state.bytes = "state";
            demand(logbook->keepSnapshots(std::vector{state}, {}, {"mt", now}).has_value(),
                   "a state can be kept");
        }
        all.bytes = bytesOf(path);
        fs::remove(path);
        return all;
    }();
    return made;
}

// Reads numbers of one to three bytes off the front; zeros when there are no more.
class Input {
public:
    Input(const std::uint8_t* data, std::size_t size) : m_data(data), m_left(size) {}
    [[nodiscard]] bool atEnd() const { return m_left == 0; }
    std::size_t number(int bytes) {
        std::size_t value = 0;
        for (int i = 0; i < bytes; ++i) {
            value = value << 8 | next();
        }
        return value;
    }
    char byte() { return static_cast<char>(next()); }

private:
    std::uint8_t next() {
        if (m_left == 0) return 0;
        --m_left;
        return *m_data++;
    }
    const std::uint8_t* m_data;
    std::size_t m_left;
};

// 0: bytes written over, 1: cut short, 2: a page of zeros, 3: a page in the place of another,
// else: one bit turned.
std::string damaged(Input input) {
    std::string bytes = whole().bytes;
    while (!input.atEnd()) {
        const auto kind = input.number(1) % kinds;
        const auto place = input.number(3) % bytes.size();
        const auto page = place / pageSize * pageSize;
        const auto length = std::min(pageSize, bytes.size() - page);
        if (kind == 0) {
            for (auto i = place, end = std::min(bytes.size(), place + input.number(1)); i < end;
                 ++i) {
                bytes[i] = input.byte();
            }
        } else if (kind == 1 && place > 0) {
            bytes.resize(place);
        } else if (kind == 2) {
            bytes.replace(page, length, length, '\0');
        } else if (kind == 3) {
            const auto from = input.number(3) % bytes.size() / pageSize * pageSize;
            bytes.replace(page, length, std::string(bytes, from, length));
        } else {
            bytes[place] = static_cast<char>(bytes[place] ^ (1 << input.number(1) % 8));
        }
    }
    return bytes;
}

// Everything that is asked of a file; whatever it says is right, as long as it says something.
void askAll(const store::Logbook& logbook) {
    const auto report = logbook.verify();
    bool isWhole = report && report->ok();
    const auto read = logbook.records();
    if (isWhole) {
        demand(read.has_value(), "what verifies can be read");
        for (const auto& record : read->records) {
            demand(whole().contents.contains(record.content), "what verifies was written");
        }
        // With the last note of them gone too, nothing in the file can show that they were there.
        const auto noted = logbook.heads();
        demand(read->records.size() == whole().contents.size() || (noted && noted->empty()),
               "of what verifies nothing is lacking");
    }
    (void)logbook.heads();
    (void)logbook.settings();
    (void)logbook.imports();
    (void)logbook.station();
    (void)logbook.lastVerification();
    (void)logbook.latestEntered(now);
    (void)logbook.snapshotFor({now, 1});
    if (const auto kept = logbook.snapshotsKept()) {
        for (const auto& state : *kept) {
            (void)logbook.snapshotAt(state.place);
        }
    }
}

// `isOurs`: whether the file was made of the whole one.
void trySalvage(const fs::path& path, bool isOurs) {
    const auto target = folder() / "salvaged.logbook";
    const auto salvaged = store::salvage(path, target, now);
    if (salvaged && salvaged->records > 0) {
        const auto logbook = store::Logbook::open(target, {Access::Read});
        const auto report = logbook ? logbook->verify() : tl::unexpected(store::Trouble{});
        demand(report && report->ok(), "what is salvaged is whole");
        const auto read = logbook->records();
        demand(read.has_value(), "what is salvaged can be read");
        for (const auto& record : read->records) {
            demand(!isOurs || whole().contents.contains(record.content),
                   "what is salvaged was written");
        }
    }
    fs::remove(target);
}

void tryWrite(const fs::path& path) {
    static const std::vector next{note(9)};
    if (auto logbook = store::Logbook::open(path, {Access::Write})) {
        (void)logbook->append(next, {"mt", now});
        (void)logbook->dropDerived({"mt", now});
    }
}

// Most inputs get one of them, so that more can be tried.
enum class Deed { All, Ask, Backup, Salvage, Write };

// By what else decides nothing: of the first change the higher bits; of a database the size, if it
// is not a whole number of words, as that of each whole one is.
Deed deedOf(std::string_view given, bool isDatabase) {
    if (given.empty() || (isDatabase && given.size() % 4 == 0)) return Deed::All;
    const auto chosen =
        isDatabase ? given.size() : static_cast<unsigned char>(given.front()) / kinds;
    return static_cast<Deed>(chosen % 5);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view given(reinterpret_cast<const char*>(data), size);
    const auto path = folder() / "damaged.logbook";
    const bool isDatabase = given.starts_with("SQLite format 3");
    const auto deed = deedOf(given, isDatabase);
    const auto does = [deed](Deed wanted) { return deed == Deed::All || deed == wanted; };
    std::ofstream(path, std::ios::binary)
        << (isDatabase ? std::string(given) : damaged({data, size}));
    if (const auto logbook = store::Logbook::open(path, {Access::Read})) {
        if (does(Deed::Ask)) askAll(*logbook);
        if (does(Deed::Backup)) (void)logbook->backup(folder() / "copy.logbook");
    }
    if (does(Deed::Salvage)) trySalvage(path, !isDatabase);
    if (does(Deed::Write)) tryWrite(path);
    for (const auto* name : {"damaged.logbook", "damaged.logbook-journal", "copy.logbook"}) {
        std::error_code ignored;
        fs::remove(folder() / name, ignored);
    }
    return 0;
}
