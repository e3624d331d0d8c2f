// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where a unit was last said to be; see place_unsaid.h.
#include "report/place_unsaid.h"

namespace report {

namespace {

namespace body = logbook::body;
using logbook::Record;

class Place {
public:
    void take(const Record& record) {
        m_record = &record;
        std::visit([this](const auto& each) { hear(each); }, record.body);
    }

    [[nodiscard]] std::optional<logbook::Instant> unsaidSince() const { return m_unsaidSince; }

private:
    void hear(const body::Move&) { m_unsaidSince.reset(); }
    void hear(const body::Sighted&) { m_unsaidSince.reset(); }
    void hear(const body::Enrol& enrol) {
        if (enrol.location) m_unsaidSince.reset();
    }
    void hear(const body::UseEnd&) { m_isInUse = false; }
    void hear(const body::Retire&) {
        m_isInUse = false;
        m_unsaidSince.reset();
    }
    // For the same patient it is no start while the unit is in use.
    void hear(const body::UseStart& start) {
        if (m_isInUse && start.samePatient) return;
        m_isInUse = true;
        m_unsaidSince = start.location ? std::nullopt : std::optional(m_record->at);
    }
    template <class Other>
    void hear(const Other&) {}

    const Record* m_record = nullptr;
    bool m_isInUse = false;
    std::optional<logbook::Instant> m_unsaidSince;
};

}  // namespace

std::optional<logbook::Instant> placeUnsaidSince(const rules::Log& log, const KnownBy& known,
                                                 const std::string& device) {
    Place place;
    const auto number = log.deviceNumber(device);
    for (std::size_t index = 0; number && index < log.records().size(); ++index) {
        const auto& record = log.records()[index];
        if (log.deviceNumber(index) == *number && record.at <= known.at &&
            log.takesPart(index, known.knownAt))
            place.take(record);
    }
    return place.unsaidSince();
}

}  // namespace report
