// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One pass to find which parts are meant, one to follow them; see trace.h.
#include "rules/trace.h"

#include "rules/findings.h"

#include <algorithm>
#include <map>
#include <set>

namespace rules {
namespace {

namespace body = logbook::body;

// Which parts are traced: by what they state, or the very parts that went through a load.
struct Wanted {
    TraceQuestion question;
    std::optional<body::Notice> notice;
    std::set<PartKey> parts;
    std::set<RecordRef> fits;  // of parts without a serial
};

bool isSerial(std::string_view serial, std::string_view wanted) {
    if (serial == wanted) return true;
    const auto blank = serial.find(' ');
    return blank != std::string_view::npos && serial.substr(blank + 1) == wanted;
}

bool wants(const Wanted& wanted, const std::string& position, const FittedPart& part) {
    const auto& attributes = part.attributes;
    switch (wanted.question.by) {
        case TraceBy::Lot: return attributes.text("lot") == wanted.question.key;
        case TraceBy::Serial: return isSerial(attributes.serial(), wanted.question.key);
        case TraceBy::Load:
            return attributes.serial().empty()
                       ? wanted.fits.contains(part.fit)
                       : wanted.parts.contains({position, std::string(attributes.serial())});
        case TraceBy::Notice:
            return wanted.notice && namesPart(wanted.notice->match) &&
                   noticeMatchesPart(wanted.notice->match, position, attributes);
    }
    return false;
}

class Tracer {
public:
    Tracer(const Log& log, Wanted& wanted) : m_log(log), m_wanted(wanted) {}

    // Finds the parts of a load, or the notice as it now reads.
    void prepare() {
        walk([this](const logbook::Record& record, const State& before) {
            if (const auto* notice = std::get_if<body::Notice>(&record.body)) {
                const bool asked =
                    m_wanted.question.by == TraceBy::Notice && notice->key == m_wanted.question.key;
                if (asked) m_wanted.notice = *notice;
            }
            const auto* reprocess = std::get_if<body::Reprocess>(&record.body);
            const bool asked = reprocess && m_wanted.question.by == TraceBy::Load &&
                               reprocess->load == m_wanted.question.key;
            if (asked) addLoad(record, *reprocess, before);
        });
    }

    Trace follow() {
        walk([](const logbook::Record&, const State&) {});
        return std::move(m_trace);
    }

private:
    template <class Visit>
    void walk(Visit visit) {
        m_trace = {};
        m_open.clear();
        m_fresh.clear();
        State state;
        state.rulebook = m_log.firstEdition();
        const auto& question = m_wanted.question;
        for (std::size_t index = 0; index < m_log.records().size(); ++index) {
            const auto& record = m_log.records()[index];
            if (record.at > question.at) break;
            if (!m_log.takesPart(index, question.knownAt)) continue;
            visit(record, state);
            noteReprocess(record, state);
            const Effect effect = fold(state, record, m_log.editions());
            std::set<std::string> touched{record.device};
            for (const DeviceEvent& event : effect.events) touched.insert(event.device);
            if (record.kind() == logbook::Kind::Adopt) {
                for (const auto& [serial, device] : state.devices) touched.insert(serial);
            }
            for (const auto& serial : touched) update(serial, record, state);
        }
    }

    void addLoad(const logbook::Record& record, const body::Reprocess& reprocess,
                 const State& before) {
        for (const auto& part : reprocess.parts) {
            m_wanted.parts.insert({part.position, part.serial});
        }
        const Device* device = before.device(record.device);
        if (!device) return;
        for (const auto& position : reprocess.positions) {
            const auto fitted = device->fitted.find(position);
            if (fitted == device->fitted.end()) continue;
            const std::string serial(fitted->second.attributes.serial());
            if (serial.empty()) m_wanted.fits.insert(fitted->second.fit);
            if (!serial.empty()) m_wanted.parts.insert({position, serial});
        }
    }

    void noteReprocess(const logbook::Record& record, const State& before) {
        const auto* reprocess = std::get_if<body::Reprocess>(&record.body);
        if (!reprocess) return;
        const std::string load = reprocess->load.value_or("");
        for (const auto& position : reprocess->positions) {
            const Device* device = before.device(record.device);
            if (!device || !device->fitted.contains(position)) continue;
            const FittedPart& part = device->fitted.find(position)->second;
            if (!wants(m_wanted, position, part)) continue;
            addReprocess({refOf(record),
                          {position, std::string(part.attributes.serial())},
                          record.device,
                          load});
        }
        for (const auto& part : reprocess->parts) {
            const PartKey key{part.position, part.serial};
            const auto known = before.parts.find(key);
            FittedPart loose;
            loose.attributes.texts["serial"] = part.serial;
            if (known != before.parts.end()) loose.attributes = known->second->attributes;
            if (!wants(m_wanted, part.position, loose)) continue;
            addReprocess({refOf(record), key,
                          known == before.parts.end() ? "" : known->second->device, load});
        }
    }

    // What stood before the load asked for was in its time; what stands after it is its product,
    // until the part is reprocessed again.
    void addReprocess(TraceReprocess reprocess) {
        const bool asked =
            m_wanted.question.by == TraceBy::Load && reprocess.load == m_wanted.question.key;
        m_fresh[reprocess.part] = asked;
        m_trace.reprocesses.push_back(std::move(reprocess));
    }

    void update(const std::string& serial, const logbook::Record& record, const State& state) {
        const Device* device = state.device(serial);
        if (!device) return;
        auto& open = m_open[serial];
        for (auto stay = open.begin(); stay != open.end();) {
            const auto fitted = device->fitted.find(stay->first);
            const bool stands = fitted != device->fitted.end() &&
                                fitted->second.fit == m_trace.stays[stay->second].fit;
            if (!stands) end(stay->second, record);
            stay = stands ? std::next(stay) : open.erase(stay);
        }
        for (const auto& [position, part] : device->fitted) {
            if (open.contains(position) || !wants(m_wanted, position, part)) continue;
            open.emplace(position, begin(*device, position, part));
        }
        for (const auto& [position, stay] : open) refresh(m_trace.stays[stay], *device, record);
    }

    std::size_t begin(const Device& device, const std::string& position, const FittedPart& part) {
        TraceStay stay;
        stay.device = device.serial;
        stay.position = position;
        stay.part = part.attributes;
        stay.fit = part.fit;
        stay.period.from = part.fit.at;
        if (m_wanted.question.by == TraceBy::Load) {
            const auto fresh = m_fresh.find({position, std::string(part.attributes.serial())});
            stay.afterLoad = fresh != m_fresh.end() && fresh->second;
        }
        m_trace.stays.push_back(std::move(stay));
        return m_trace.stays.size() - 1;
    }

    void end(std::size_t index, const logbook::Record& record) {
        TraceStay& stay = m_trace.stays[index];
        stay.period.to = record.at;
        stay.ended = refOf(record);
        if (!stay.uses.empty() && !stay.uses.back().to) stay.uses.back().to = record.at;
    }

    static void refresh(TraceStay& stay, const Device& device, const logbook::Record& record) {
        if (stay.places.empty() || stay.places.back().location != device.location) {
            stay.places.push_back({device.location, std::max(record.at, stay.period.from)});
        }
        const bool onPatient = device.use && !device.use->paused;
        const bool open = !stay.uses.empty() && !stay.uses.back().to;
        if (onPatient && !open) stay.uses.push_back({record.at, std::nullopt});
        if (!onPatient && open) stay.uses.back().to = record.at;
    }

    const Log& m_log;
    Wanted& m_wanted;
    Trace m_trace;
    std::map<std::string, std::map<std::string, std::size_t>> m_open;  // device, position: stay
    std::map<PartKey, bool> m_fresh;  // whether its last reprocessing was the load asked for
};

// Of a notice about devices: each that it concerns, from its enrolment on.
void addDevices(Trace& trace, const Wanted& wanted, const State& state) {
    if (!wanted.notice || namesPart(wanted.notice->match)) return;
    for (const auto& [serial, device] : state.devices) {
        if (!noticeConcerns(*device, *wanted.notice)) continue;
        TraceStay stay;
        stay.device = serial;
        stay.fit = device->enrolled;
        stay.period.from = device->enrolled.at;
        stay.places.push_back(
            {device->location, device->last ? device->last->at : device->enrolled.at});
        trace.stays.push_back(std::move(stay));
    }
}

}  // namespace

Trace trace(const Log& log, const TraceQuestion& question) {
    Wanted wanted{question, std::nullopt, {}, {}};
    Tracer tracer(log, wanted);
    if (question.by == TraceBy::Load || question.by == TraceBy::Notice) tracer.prepare();
    Trace answer = tracer.follow();
    if (question.by == TraceBy::Notice) {
        addDevices(answer, wanted, log.stateAt(question.at, question.knownAt));
    }
    return answer;
}

}  // namespace rules
