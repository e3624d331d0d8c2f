// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One list of fields for both ways; see state_bytes.h. Each shape is taken apart into all its
// fields, so that one that is given another field is not compiled until it is kept too.
#include "rules/state_bytes.h"

#include "rules/bytes.h"

#include <algorithm>
#include <concepts>
#include <type_traits>

namespace rules {
namespace {

namespace body = logbook::body;

constexpr std::string_view mark = "airmuster state";
constexpr std::int64_t firstDay = -25'567;    // 1900-01-01
constexpr std::int64_t lastDay = 2'932'896;   // 9999-12-31
constexpr std::int64_t dayMs = 86'400'000;
constexpr std::uint64_t mostCycles = 1'000'000'000;
// Room is made for so many before any is read: what is no state may tell of any number.
constexpr std::uint64_t mostAtOnce = 32;

// `T`, constant where it is written.
template <class T, class Shape>
concept Is = std::same_as<std::remove_const_t<T>, Shape>;

// Instants lie close together, so each is told by how far it lies from the one before.
class Writer {
public:
    template <class... Fields>
    void operator()(const Fields&... fields) { (write(fields), ...); }

    void instant(Instant value) {
        m_bytes.signedNumber(value.ms - m_last.ms);
        m_last = value;
    }
    [[nodiscard]] BytesWriter& bytes() { return m_bytes; }

private:
    void write(bool value) { m_bytes.flag(value); }
    void write(int value) { m_bytes.number(static_cast<std::uint64_t>(value)); }
    void write(const std::string& value) { m_bytes.text(value); }
    void write(Instant value) { instant(value); }
    void write(Day value) { m_bytes.signedNumber(value.time_since_epoch().count()); }
    template <class Word>
        requires std::is_enum_v<Word>
    void write(Word word) { m_bytes.number(static_cast<std::uint64_t>(word)); }

    template <class T>
    void write(const std::optional<T>& value) {
        m_bytes.flag(value.has_value());
        if (value) write(*value);
    }
    template <class First, class Second>
    void write(const std::pair<First, Second>& pair) { (*this)(pair.first, pair.second); }
    template <class T>
    void write(const Shared<T>& shared) { write(*shared); }
    template <class Items>
        requires requires(const Items& items) { items.begin(); items.size(); }
    void write(const Items& items) {
        m_bytes.number(items.size());
        for (const auto& item : items) write(item);
    }
    template <class Shape>
        requires requires(Writer& writer, const Shape& shape) { fields(writer, shape); }
    void write(const Shape& shape) { fields(*this, shape); }

    BytesWriter m_bytes;
    Instant m_last{};
};

template <class Word>
constexpr std::uint64_t lastOf = 0;
template <>
constexpr auto lastOf<logbook::Reuse> = static_cast<std::uint64_t>(logbook::Reuse::Permanent);
template <>
constexpr auto lastOf<logbook::NoticeAction> =
    static_cast<std::uint64_t>(logbook::NoticeAction::Information);
template <>
constexpr auto lastOf<EventKind> = static_cast<std::uint64_t>(EventKind::Software);

class Reader {
public:
    explicit Reader(std::string_view bytes) : m_bytes(bytes) {}

    template <class... Fields>
    void operator()(Fields&... fields) { (read(fields), ...); }

    [[nodiscard]] BytesReader& bytes() { return m_bytes; }

private:
    void read(bool& value) { value = m_bytes.flag(); }
    void read(int& value) {
        const std::uint64_t number = m_bytes.number();
        m_bytes.require(number <= mostCycles);
        value = static_cast<int>(std::min(number, mostCycles));
    }
    void read(std::string& value) { value = m_bytes.text(); }
    void read(Instant& value) {
        const auto distance = m_bytes.signedNumber();
        const bool isNear = distance > -2 * lastDay * dayMs && distance < 2 * lastDay * dayMs;
        const Instant instant{m_last.ms + (isNear ? distance : 0)};
        m_bytes.require(isNear && instant.ms >= firstDay * dayMs &&
                        instant.ms < (lastDay + 1) * dayMs);
        if (!m_bytes.failed()) value = m_last = instant;
    }
    void read(Day& value) {
        const auto day = m_bytes.signedNumber();
        m_bytes.require(day >= firstDay && day <= lastDay);
        if (!m_bytes.failed()) value = Day(std::chrono::days(day));
    }
    template <class Word>
        requires std::is_enum_v<Word>
    void read(Word& word) {
        const std::uint64_t number = m_bytes.number();
        m_bytes.require(number <= lastOf<Word>);
        word = static_cast<Word>(std::min(number, lastOf<Word>));
    }

    template <class T>
    void read(std::optional<T>& value) {
        if (m_bytes.flag()) read(value.emplace());
    }
    template <class First, class Second>
    void read(std::pair<First, Second>& pair) { (*this)(pair.first, pair.second); }
    template <class T>
    void read(Shared<T>& shared) { read(shared.edit()); }
    template <class T>
    void read(std::vector<T>& items) {
        auto count = m_bytes.number();
        items.reserve(std::min(count, mostAtOnce));
        for (; count > 0 && !m_bytes.failed(); --count) {
            read(items.emplace_back());
        }
    }
    template <class T>
    void read(std::set<T>& items) {
        for (auto count = m_bytes.number(); count > 0 && !m_bytes.failed(); --count) {
            T item;
            read(item);
            m_bytes.require(items.empty() || *items.rbegin() < item);
            items.emplace_hint(items.end(), std::move(item));
        }
    }
    template <class Key, class Value, class Less>
    void read(std::map<Key, Value, Less>& items) {
        for (auto count = m_bytes.number(); count > 0 && !m_bytes.failed(); --count) {
            Key key;
            read(key);
            m_bytes.require(items.empty() || items.rbegin()->first < key);
            read(items.emplace_hint(items.end(), std::move(key), Value{})->second);
        }
    }
    template <class Value>
    void read(KeyMap<Value>& items) {
        auto count = m_bytes.number();
        items.reserve(std::min(count, mostAtOnce));
        for (; count > 0 && !m_bytes.failed(); --count) {
            const auto key = m_bytes.text();
            m_bytes.require(items.empty() || std::prev(items.end())->first < key);
            read(items.append(key));
        }
    }
    template <class Shape>
        requires requires(Reader& reader, Shape& shape) { fields(reader, shape); }
    void read(Shape& shape) { fields(*this, shape); }

    BytesReader m_bytes;
    Instant m_last{};
};

template <class Bytes>
void fields(Bytes& bytes, Is<RecordName> auto& name) {
    auto& [station, seq] = name;
    bytes(station);
    if constexpr (std::same_as<Bytes, Writer>) {
        bytes.bytes().number(static_cast<std::uint64_t>(seq));
    } else {
        const std::uint64_t number = bytes.bytes().number();
        bytes.bytes().require(number >= 1 && number <= logbook::largestSeq);
        seq = static_cast<std::int64_t>(number);
    }
}

template <class Bytes>
void fields(Bytes& bytes, Is<RecordRef> auto& record) {
    auto& [at, entered, name] = record;
    bytes(at, entered, name);
    if constexpr (std::same_as<Bytes, Reader>) bytes.bytes().require(entered >= at);
}

template <class Bytes>
void fields(Bytes& bytes, Is<PartAttributes> auto& attributes) {
    auto& [texts, groups, reuse, expires] = attributes;
    bytes(texts, groups, reuse, expires);
}

template <class Bytes>
void fields(Bytes& bytes, Is<PartLife> auto& life) {
    auto& [used, firstUse, cycles] = life;
    bytes(used, firstUse, cycles);
}

template <class Bytes>
void fields(Bytes& bytes, Is<KnownPart> auto& part) {
    auto& [attributes, life, device] = part;
    bytes(attributes, life, device);
}

template <class Bytes>
void fields(Bytes& bytes, Is<FittedPart> auto& part) {
    auto& [attributes, fit, life] = part;
    bytes(attributes, fit, life);
}

template <class Bytes>
void fields(Bytes& bytes, Is<Use> auto& use) {
    auto& [start, paused] = use;
    bytes(start, paused);
}

template <class Bytes>
void fields(Bytes& bytes, Is<StandingHold> auto& hold) {
    auto& [record, reason] = hold;
    bytes(record, reason);
}

template <class Bytes>
void fields(Bytes& bytes, Is<StandingFault> auto& fault) {
    auto& [record, blocking, text] = fault;
    bytes(record, blocking, text);
}

template <class Bytes>
void fields(Bytes& bytes, Is<StandingWaiver> auto& waiver) {
    auto& [record, until, reason] = waiver;
    bytes(record, until, reason);
}

template <class Bytes>
void fields(Bytes& bytes, Is<ServiceState> auto& service) {
    auto& [lastPass, lastResult, lastFailed, triggered] = service;
    bytes(lastPass, lastResult, lastFailed, triggered);
}

template <class Bytes>
void fields(Bytes& bytes, Is<Event> auto& event) {
    auto& [kind, subject] = event;
    bytes(kind, subject);
}

template <class Bytes>
void fields(Bytes& bytes, Is<Discounted> auto& discounted) {
    auto& [record, reasons] = discounted;
    bytes(record, reasons);
}

template <class Bytes>
void fields(Bytes& bytes, Is<CheckState> auto& check) {
    auto& [voided, voidedBy, last, lastFailed, lastFailure, passFollows, certainPassFollows,
           discounted, serialsAtPasses, lastUpset] = check;
    bytes(voided, voidedBy, last, lastFailed, lastFailure, passFollows, certainPassFollows,
          discounted, serialsAtPasses, lastUpset);
}

template <class Bytes>
void fields(Bytes& bytes, Is<body::Enrol> auto& enrol) {
    auto& [model, groups, features, commissioned, label, asset, maker, udi, location, owner,
           returnBy] = enrol;
    bytes(model, groups, features, commissioned, label, asset, maker, udi, location, owner,
          returnBy);
}

template <class Bytes>
void fields(Bytes& bytes, Is<Device> auto& device) {
    auto& [serial, enrolment, enrolled, retired, location, software, selectedGroup, poweredSince,
           fitted, lastHeld, use, precautions, holds, faults, waivers, noticesDone, services,
           checks, last] = device;
    bytes(serial, enrolment, enrolled, retired, location, software, selectedGroup, poweredSince,
          fitted, lastHeld, use, precautions, holds, faults, waivers, noticesDone, services,
          checks, last);
}

template <class Bytes>
void fields(Bytes& bytes, Is<KnownPerson> auto& known) {
    auto& [statement, record] = known;
    auto& [person, name, roles, until] = statement;
    bytes(person, name, roles, until, record);
}

template <class Bytes>
void fields(Bytes& bytes, Is<KnownNotice> auto& known) {
    auto& [notice, record] = known;
    auto& [key, title, action, match, cancelled] = notice;
    auto& [position, lots, serials, partModels, deviceModels, devices, software] = match;
    bytes(key, title, action, position, lots, serials, partModels, deviceModels, devices, software,
          cancelled, record);
}

// All but the rulebook.
template <class Bytes>
void fields(Bytes& bytes, Is<State> auto& state) {
    auto& [rulebook, adopted, persons, notices, parts, devices] = state;
    bytes(adopted, persons, notices, parts, devices);
}

// The engine takes these for granted wherever it folds or looks up.
bool partsAgree(const State& state) {
    std::size_t standing = 0;
    for (const auto& [serial, device] : state.devices) {
        for (const auto& [position, part] : device->fitted) {
            const auto number = part.attributes.serial();
            if (number.empty()) continue;
            const auto known = state.parts.find({position, std::string(number)});
            if (known == state.parts.end() || known->second->device != serial) return false;
            ++standing;
        }
    }
    for (const auto& [key, part] : state.parts) {
        if (key.second.empty() || part->attributes.serial() != key.second) return false;
        if (!part->device.empty()) --standing;
    }
    return standing == 0;
}

template <class Map, class NameOf>
bool namedByKeys(const Map& map, NameOf nameOf) {
    return std::all_of(map.begin(), map.end(),
                       [&](const auto& each) { return each.first == nameOf(each.second); });
}

bool agrees(const State& state) {
    return namedByKeys(state.devices, [](const auto& each) { return each->serial; }) &&
           namedByKeys(state.persons, [](const auto& each) { return each.person.person; }) &&
           namedByKeys(state.notices, [](const auto& each) { return each.notice.key; }) &&
           partsAgree(state);
}

}  // namespace

std::string toBytes(const State& state, const Editions& editions) {
    const auto edition =
        std::find_if(editions.begin(), editions.end(),
                     [&](const auto& each) { return each.second == state.rulebook; });
    Writer writer;
    writer.bytes().literal(mark);
    writer.bytes().number(engineRevision);
    writer(edition->first, state);
    return writer.bytes().take();
}

std::optional<State> stateFromBytes(std::string_view bytes, const Editions& editions) {
    Reader reader(bytes);
    reader.bytes().literal(mark);
    reader.bytes().require(reader.bytes().number() == engineRevision);
    RecordName edition;
    std::optional<State> state(std::in_place);
    reader(edition, *state);
    const auto rulebook = editions.find(edition);
    if (reader.bytes().failed() || !reader.bytes().isAtEnd() || rulebook == editions.end() ||
        !rulebook->second || (state->adopted && state->adopted->name != edition) ||
        !agrees(*state)) {
        return std::nullopt;
    }
    state->rulebook = rulebook->second;
    return state;
}

}  // namespace rules
