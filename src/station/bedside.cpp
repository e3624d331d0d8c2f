// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One unit for the Bedside desk, and what a scanned text names; see bedside.h. What a press states
// is in bedside_acts.cpp.
#include "station/bedside.h"

#include "report/part_kinds.h"
#include "report/pause_parts.h"
#include "report/place_unsaid.h"
#include "station/lowered.h"
#include "station/not_found.h"
#include "words/shown.h"

#include <algorithm>
#include <set>
#include <utility>

namespace station {

namespace {

using rules::State;

// Without what a scanner adds: control characters, and blanks around.
std::string asRead(std::string_view text) {
    std::string read;
    for (const char letter : text) {
        const auto byte = static_cast<unsigned char>(letter);
        if (byte >= 0x20 && byte != 0x7f) {
            read += letter;
        }
    }
    const auto begin = read.find_first_not_of(' ');
    if (begin == std::string::npos) {
        return "";
    }
    return read.substr(begin, read.find_last_not_of(' ') - begin + 1);
}

class Search {
public:
    Search(const Surroundings& surroundings, const Standing& standing, const std::string& open)
        : m_words(surroundings.words), m_standing(standing),
          m_context{m_words, standing.state, standing.state.device(open), standing.at,
                    std::nullopt, standing.lookup} {}

    // `log` is called only where the state does not tell, with what was read.
    template <class Log>
    Found find(std::string_view text, Log log) const {
        Found found;
        found.read = asRead(text);
        if (found.read.empty()) {
            found.sentence = m_words.say("bedside.found_no_text");
            return found;
        }
        if (findUnit(found, false) || findUnit(found, true) || findPart(found) ||
            findLot(found)) {
            return found;
        }
        const auto read = log(found.read);
        if (!read) {
            // A notice is told all the same.
            if (!takeLot(found, {})) {
                found.sentence = read.error().notice.text();
            }
        } else if (!findModel(found, **read) && !findLot(found, **read)) {
            found.sentence = m_words.say("bedside.found_nothing", {{"text", found.read}});
        }
        return found;
    }

private:
    static bool isSame(const std::string& known, const std::string& read, bool anyCase) {
        return anyCase ? lowered(known) == lowered(read) : known == read;
    }

    bool findUnit(Found& found, bool anyCase) const {
        std::vector<std::string> units, retired;
        for (const auto& [serial, device] : m_standing.state.devices) {
            const auto& asset = device->enrolment.asset;
            if (isSame(serial, found.read, anyCase) ||
                (asset && isSame(*asset, found.read, anyCase))) {
                (device->retired ? retired : units).push_back(serial);
            }
        }
        if (units.empty()) {
            units = retired;
            found.retired = !units.empty();
        }
        if (units.empty()) {
            return false;
        }
        if (units.size() == 1) {
            found.what = Found::What::Unit;
            found.device = units.front();
            found.sentence =
                m_words.say(found.retired ? "bedside.found_retired" : "bedside.found_unit",
                            {{"device", found.device}});
            return true;
        }
        found.what = Found::What::Units;
        found.sentence =
            m_words.say("bedside.found_units",
                        {{"count", std::to_string(units.size())}, {"text", found.read}});
        found.devices = std::move(units);
        return true;
    }

    [[nodiscard]] std::string positionsOf(const Found& found) const {
        std::vector<std::string> labels;
        for (const auto& part : found.parts) {
            labels.push_back(m_words.inside(part.label));
        }
        return m_words.anyOf(labels);
    }

    // As written, or else the only one that is the same but for the case.
    template <class Spellings>
    [[nodiscard]] static std::string spelling(const Spellings& known, const std::string& read) {
        if (known.contains(read)) {
            return read;
        }
        std::string only;
        for (const auto& each : known) {
            if (lowered(each) != lowered(read)) {
                continue;
            }
            if (!only.empty()) {
                return read;
            }
            only = each;
        }
        return only.empty() ? read : only;
    }

    bool findPart(Found& found) const {
        std::set<std::string> serials;
        for (const auto& [key, part] : m_standing.state.parts) {
            serials.insert(key.second);
        }
        const auto serial = spelling(serials, found.read);
        found.parts = report::proposalsForSerial(m_context, serial);
        if (found.parts.empty()) {
            return false;
        }
        found.what = Found::What::Part;
        tellKnown(found, report::PartMark::Serial, serial);
        found.sentence = m_words.say("bedside.found_part",
                                     {{"serial", serial}, {"positions", positionsOf(found)}});
        return true;
    }

    bool findModel(Found& found, const rules::Log& log) const {
        std::set<std::string> models;
        for (const auto& record : log.records()) {
            const auto* fit = std::get_if<logbook::body::Fit>(&record.body);
            if (fit == nullptr) {
                continue;
            }
            const auto model = fit->part.attributes.find("model");
            if (model != fit->part.attributes.end()) {
                models.insert(model->second);
            }
        }
        const auto model = spelling(models, found.read);
        found.parts = report::proposalsForModel(m_context, log, m_standing.knownAt, model);
        if (found.parts.empty()) {
            return false;
        }
        found.what = Found::What::Model;
        tellKnown(found, report::PartMark::Model, model);
        found.sentence = m_words.say("bedside.found_model",
                                     {{"model", model}, {"positions", positionsOf(found)}});
        return true;
    }

    bool findLot(Found& found) const {
        const auto known = report::partsOfLot(m_standing.state, found.read);
        return !known.empty() && takeLot(found, known);
    }

    bool findLot(Found& found, const rules::Log& log) const {
        return takeLot(found, report::partsOfLot(log, m_standing.state,
                                                 {m_standing.at, m_standing.knownAt},
                                                 found.read));
    }

    // A lot that only a notice names may have no position.
    bool takeLot(Found& found,
                 const std::map<std::string, rules::PartAttributes>& known) const {
        tellKnown(found, report::PartMark::Lot, found.read);
        if (known.empty() && found.notices.empty()) {
            return false;
        }
        found.what = Found::What::Lot;
        found.parts = report::proposalsForLot(m_context, known, found.read);
        words::Gaps gaps{{"lot", found.read}, {"positions", positionsOf(found)}};
        found.sentence =
            m_words.say(found.parts.empty() ? "bedside.found_lot_alone" : "bedside.found_lot",
                        gaps);
        return true;
    }

    void tellKnown(Found& found, report::PartMark mark, const std::string& text) const {
        found.places = report::placesOf(m_context, mark, text);
        found.notices = report::noticesOn(m_context, mark, text);
    }

    const words::Words& m_words;
    const Standing& m_standing;
    words::Context m_context;
};

// Another may be among what cannot be read.
Found asFarAsRead(const Surroundings& surroundings, const LogbookFacts& facts, Found found) {
    const auto& words = surroundings.words;
    if (found.read.empty() || found.what == Found::What::Unit ||
        doubtsOf(surroundings, facts).empty()) {
        return found;
    }
    found.sentence =
        found.what == Found::What::Nothing
            ? words.say("bedside.found_nothing_read", {{"text", found.read}})
            : found.sentence + " " + words.say("bedside.found_may_be_more");
    return found;
}

}  // namespace

Result<report::Bedside> bedside(const Surroundings& surroundings, const WholeStanding& standing,
                                const std::string& device) {
    const auto& log = standing.log->log;
    report::BedsideQuestion question{{device, standing.at, standing.group}};
    const report::KnownBy known{standing.at, standing.knownAt};
    question.takenOut = report::takenOutUnused(log, standing.state, known, device);
    question.takenOut.merge(report::takenOutInPause(log, standing.state, known, device));
    question.placeUnsaidSince = report::placeUnsaidSince(log, known, device);
    auto made = report::makeBedside(standing.state, standing.lookup, question,
                                    provenanceOf(surroundings, standing), surroundings.words);
    if (!made) {
        return tl::unexpected(unknownDevice(surroundings, standing.facts, device));
    }
    return std::move(*made);
}

Found find(const Surroundings& surroundings, const WholeStanding& standing, std::string_view text,
           const std::string& open) {
    return asFarAsRead(surroundings, standing.facts,
                       Search(surroundings, standing, open)
                           .find(text, [&](const std::string&) {
                               return Result<const rules::Log*>(&standing.log->log);
                           }));
}

Found find(const Surroundings& surroundings, const Standing& standing, const ModelReader& log,
           std::string_view text, const std::string& open) {
    std::shared_ptr<const WholeStanding> whole;
    auto found = Search(surroundings, standing, open).find(text, [&](const std::string& read) {
        return log(read).map([&](std::shared_ptr<const WholeStanding>&& standingRead) {
            whole = std::move(standingRead);
            return &whole->log->log;
        });
    });
    return asFarAsRead(surroundings, whole ? whole->facts : standing.facts, std::move(found));
}

}  // namespace station
