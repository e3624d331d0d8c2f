// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Records that are held against their chain in whatever order they come: what fits is not blamed,
// and of what does not the first is named.
#include "store/held_chain.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <numeric>
#include <string>
#include <vector>

using namespace store;

namespace {

using Reason = Break::Reason;

constexpr std::int64_t count = 6;

std::string contentOf(const std::string& station, std::int64_t seq) {
    return station + " " + std::to_string(seq);
}

// Of one station, in its order.
std::vector<ReadRecord> recordsOf(const std::string& station) {
    std::vector<ReadRecord> records;
    Hash before{};
    for (std::int64_t seq = 1; seq <= count; ++seq) {
        ReadRecord read;
        read.place.name = {station, seq};
        read.whole = true;
        read.record.content = contentOf(station, seq);
        read.record.body = logbook::body::Note{};
        read.hash = before = chainHash(before, read.record.content);
        records.push_back(read);
    }
    return records;
}

Head headOf(const std::vector<ReadRecord>& records) {
    return {records.back().place.name.seq, records.back().hash};
}

std::vector<Break> breaksIn(const std::vector<ReadRecord>& records, const Heads& heads) {
    HeldChain chain;
    for (const auto& read : records) {
        chain.hold(read);
    }
    return chain.breaksUpTo(heads);
}

// Each order in which the records can be read.
template <class Check>
void forEachOrder(const std::vector<ReadRecord>& records, Check check) {
    std::vector<std::size_t> order(records.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    do {
        std::vector<ReadRecord> ordered;
        for (const auto index : order) {
            ordered.push_back(records[index]);
        }
        check(ordered);
    } while (std::next_permutation(order.begin(), order.end()));
}

std::vector<Break> only(std::int64_t seq, Reason reason) {
    return {{{"icu-1", seq}, reason}};
}

}  // namespace

TEST_CASE("A chain fits in whatever order its records come", "[exhaustive]") {
    const auto records = recordsOf("icu-1");
    const Heads heads{{"icu-1", headOf(records)}};
    forEachOrder(records, [&](const auto& ordered) { REQUIRE(breaksIn(ordered, heads).empty()); });
}

TEST_CASE("A record that does not fit is named in whatever order they come", "[exhaustive]") {
    const auto records = recordsOf("icu-1");
    const Heads heads{{"icu-1", headOf(records)}};
    for (std::size_t index = 0; index < records.size(); ++index) {
        CAPTURE(index);
        const auto seq = static_cast<std::int64_t>(index) + 1;
        auto altered = records;
        altered[index].record.content += "!";
        forEachOrder(altered, [&](const auto& ordered) {
            REQUIRE(breaksIn(ordered, heads) == only(seq, Reason::WrongHash));
        });
        // With a hash of its own it fits what is before it, and nothing after it.
        const auto before = index == 0 ? Hash{} : records[index - 1].hash;
        altered[index].hash = chainHash(before, altered[index].record.content);
        const auto next = seq == count ? only(seq, Reason::NotAsNoted)
                                       : only(seq + 1, Reason::WrongHash);
        forEachOrder(altered,
                     [&](const auto& ordered) { REQUIRE(breaksIn(ordered, heads) == next); });
        auto rest = records;
        rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(index));
        const auto gone = only(seq, seq == count ? Reason::TailLost : Reason::Gap);
        forEachOrder(rest,
                     [&](const auto& ordered) { REQUIRE(breaksIn(ordered, heads) == gone); });
    }
}

TEST_CASE("What does not go up to the heads and no further is named", "[unit]") {
    const auto records = recordsOf("icu-1");
    const auto others = recordsOf("er-2");
    const Heads heads{{"icu-1", headOf(records)}};
    CHECK(breaksIn(records, {{"icu-1", {count - 1, records[count - 2].hash}}}) ==
          only(count, Reason::NotNoted));
    CHECK(breaksIn({}, heads) == only(1, Reason::TailLost));
    CHECK(breaksIn(records, {}) == only(1, Reason::NotNoted));
    auto both = records;
    both.insert(both.end(), others.begin(), others.end());
    CHECK(breaksIn(both, {{"icu-1", headOf(records)}, {"er-2", headOf(others)}}).empty());
    CHECK(breaksIn(both, heads) == std::vector<Break>{{{"er-2", 1}, Reason::NotNoted}});
    auto twice = records;
    twice.push_back(records[2]);
    CHECK(breaksIn(twice, heads) == only(3, Reason::WrongHash));
    auto unread = records;
    unread[3].whole = false;
    CHECK(breaksIn(unread, heads) == only(4, Reason::NotARecord));
}

TEST_CASE("A chain goes through the heads that it has to", "[unit]") {
    const auto records = recordsOf("icu-1");
    const Heads heads{{"icu-1", headOf(records)}};
    const auto breaksThrough = [&](const Head& through) {
        HeldChain chain;
        chain.expectHeads({{"icu-1", through}});
        for (const auto& read : records) {
            chain.hold(read);
        }
        return chain.breaksUpTo(heads);
    };
    CHECK(breaksThrough({3, records[2].hash}).empty());
    CHECK(breaksThrough({3, records[3].hash}) == only(3, Reason::NotAsNoted));
    CHECK(breaksThrough({count + 1, {}}) == only(count + 1, Reason::TailLost));
}

TEST_CASE("A strike says what it said when it was read ahead", "[unit]") {
    auto records = recordsOf("icu-1");
    records[3].record.body = logbook::body::Strike{};
    const Heads heads{{"icu-1", headOf(records)}};
    const auto breaksAfter = [&](const std::string& content) {
        HeldChain chain;
        chain.expect(records[3].place.name, content);
        for (const auto& read : records) {
            chain.hold(read);
        }
        return chain.breaksUpTo(heads);
    };
    CHECK(breaksAfter(contentOf("icu-1", 4)).empty());
    CHECK(breaksAfter(contentOf("icu-1", 5)) == only(4, Reason::WrongHash));
}
