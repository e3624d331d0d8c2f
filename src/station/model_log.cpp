// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking for the fits of a model or a lot; see model_log.h.
#include "station/model_log.h"

#include "station/lowered.h"
#include "station/serial_log.h"

#include <string_view>
#include <utility>

namespace station {

namespace {

std::string_view attributeOf(const logbook::body::Fit& fit, std::string_view attribute) {
    const auto found = fit.part.attributes.find(attribute);
    return found == fit.part.attributes.end() ? std::string_view() : found->second;
}

bool isOfPeopleOrStrike(const logbook::Record& record) {
    using logbook::Kind;
    return record.kind() == Kind::Adopt || record.kind() == Kind::Person ||
           record.kind() == Kind::Strike;
}

// What cannot be read may be what is asked for, though the state knows what it did: it is told.
Result<std::shared_ptr<const WholeStanding>> besideAll(const Surroundings& surroundings,
                                                       const LogbookFile& file,
                                                       const Standing& standing) {
    return readWholeLog(surroundings, file).map([&](WholeLog&& log) {
        WholeStanding whole{standing, std::make_shared<const WholeLog>(std::move(log))};
        whole.facts.unread = whole.log->unread;
        whole.facts.isDamaged = whole.log->isDamaged;
        whole.facts.isRefused = whole.log->isRefused;
        return std::make_shared<const WholeStanding>(std::move(whole));
    });
}

}  // namespace

Result<std::shared_ptr<const WholeStanding>> ModelLog::of(const Surroundings& surroundings,
                                                          const LogbookFile& file,
                                                          const Standing& standing,
                                                          const std::string& text) {
    if (!standing.facts.unread.empty()) {
        return besideAll(surroundings, file, standing);
    }
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    const auto about = aboutIn(standing.state, text);
    if (m_about != about) {
        m_found.forget();
        m_about = about;
    }
    const auto isOther = m_found.renew(surroundings, *logbook, searchFor(about));
    if (!isOther) {
        return tl::unexpected(isOther.error());
    }
    if (!m_found.hasReadAll()) {
        m_found.forget();
        m_log.reset();
        return besideAll(surroundings, file, standing);
    }
    if (!m_log || *isOther) {
        std::vector<logbook::Record> records;
        for (const auto& [name, record] : m_found.records()) {
            records.push_back(record);
        }
        m_log = std::make_shared<const WholeLog>(
            WholeLog{standing.facts, rules::Log(std::move(records), surroundings.zones)});
    }
    return std::make_shared<const WholeStanding>(WholeStanding{standing, m_log});
}

// A fit that states no model is of the one that its part is known to be of.
ModelLog::About ModelLog::aboutIn(const rules::State& state, const std::string& text) {
    About about{text, lowered(text), {}};
    for (const auto& [key, part] : state.parts) {
        if (lowered(part->attributes.text("model")) == about.model) {
            about.serials.insert(key.second);
        }
    }
    return about;
}

FoundRecords::Search ModelLog::searchFor(const About& about) {
    const auto isModel = [&about](std::string_view model) { return lowered(model) == about.model; };
    const auto isLot = [&about](std::string_view lot) { return lot == about.lot; };
    const auto isSerial = [&about](std::string_view serial) {
        return about.serials.contains(serial);
    };
    const auto mayBeFit = [=](std::string_view, std::string_view content) {
        return mayState("model", content, isModel) || mayState("lot", content, isLot) ||
               mayState("serial", content, isSerial);
    };
    const auto bears = [=](const logbook::Record& record) {
        const auto* fit = std::get_if<logbook::body::Fit>(&record.body);
        return fit != nullptr ? isModel(attributeOf(*fit, "model")) ||
                                    isLot(attributeOf(*fit, "lot")) ||
                                    isSerial(attributeOf(*fit, "serial"))
                              : isOfPeopleOrStrike(record);
    };
    return {{{{"adopt", "person", "strike"}, [](auto, auto) { return true; }}, {{"fit"}, mayBeFit}},
            bears};
}

}  // namespace station
