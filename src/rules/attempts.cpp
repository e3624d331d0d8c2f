// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The log of one device; see attempts.h.
#include "rules/attempts.h"

#include "rules/running_state.h"

#include <set>

namespace rules {
namespace {

namespace body = logbook::body;
using logbook::Kind;

// Of another device a record bears on this one only through a part that was in both: what is stated
// of it there is known of it here, and a fit there takes it out here. Such a fit has effect on a
// device that is enrolled.
class Bearing {
public:
    Bearing(const Log& log, const std::string& device)
        : m_log(log), m_own(log.deviceNumber(device)), m_department(log.deviceNumber("")) {
        for (std::size_t index = 0; index < log.records().size(); ++index) {
            const auto key = isOwn(index) ? partOf(log.records()[index]) : PartKey{};
            if (!key.second.empty()) m_parts.insert(key);
        }
    }

    [[nodiscard]] bool isOwn(std::size_t index) const {
        return m_own && m_log.deviceNumber(index) == *m_own;
    }

    [[nodiscard]] bool bears(std::size_t index) const {
        if (isOwn(index) || (m_department && m_log.deviceNumber(index) == *m_department)) {
            return true;
        }
        const auto& record = m_log.records()[index];
        if (m_parts.empty()) return false;
        return record.kind() == Kind::Enrol || record.kind() == Kind::Retire ||
               m_parts.contains(partOf(record));
    }

private:
    static PartKey partOf(const logbook::Record& record) {
        const auto* fit = std::get_if<body::Fit>(&record.body);
        if (fit == nullptr) return {};
        const auto serial = fit->part.attributes.find("serial");
        return serial == fit->part.attributes.end() ? PartKey{}
                                                    : PartKey{fit->position, serial->second};
    }

    const Log& m_log;
    std::optional<std::uint32_t> m_own, m_department;
    std::set<PartKey> m_parts;
};

struct Judged {
    bool counts = false;
    const Discounted* discounted = nullptr;
};

// By the state just after it.
Judged judgedAs(const State& state, const logbook::Record& record, const body::Check& attempt) {
    const auto* device = state.device(record.device);
    if (device == nullptr) return {};
    const auto known = device->checks.find(attempt.check);
    if (known == device->checks.end()) return {};
    const auto& check = known->second;
    if (check.last && check.last->name == record.name) return {true};
    const bool isDiscounted = check.discounted && check.discounted->record.name == record.name;
    return {false, isDiscounted ? &*check.discounted : nullptr};
}

}  // namespace

void forEachUncounted(const Log& log, const AttemptsQuestion& question,
                      const std::function<void(const UncountedAttempt&)>& take) {
    const Bearing bearing(log, question.device);
    RunningState running(log.groundwork(), question.knownAt);
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        const auto& record = log.records()[index];
        if (record.at > question.at) break;
        if (!bearing.bears(index) || !log.takesPart(index, question.knownAt)) continue;
        running.add(record);
        const auto* attempt = std::get_if<body::Check>(&record.body);
        if (attempt == nullptr || !bearing.isOwn(index)) continue;
        if (const auto told = judgedAs(running.state(), record, *attempt); !told.counts) {
            take({record, running.state(), told.discounted});
        }
    }
}

}  // namespace rules
