// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A device with planned tasks carried out: their effects first, then the events they raise, since
// what an event voids is read with all of them done; see plan_tasks.h.
#include "rules/folding.h"
#include "rules/plan_tasks.h"

#include <algorithm>
#include <limits>

namespace rules {
namespace {

// Planned records come after every record there is, and are covered by no waiver.
constexpr Instant plannedEntry{std::numeric_limits<std::int64_t>::max()};

class Performer {
public:
    Performer(const PlanQuestion& question, const TaskSet& tasks, const TaskInstant& when)
        : m_question(question),
          m_tasks(tasks),
          m_when(when),
          m_state(question.state),
          m_rulebook(m_state.rulebook) {}

    CarriedOut perform() {
        CarriedOut done;
        setUp();
        raisePending();
        done.before = m_state;
        for (const auto& position : m_tasks.closing) {
            putIn(position, m_tasks.fits.contains(position));
        }
        raisePending();
        done.after = m_state;
        for (const auto& check : m_tasks.checks) pass(check);
        done.finished = m_state;
        return done;
    }

private:
    struct Pending {
        logbook::Record record;
        Event event;
        std::optional<PartAttributes> before;
    };

    Device& device() { return m_state.devices.find(m_question.device)->second.edit(); }

    logbook::Record record(TaskKind kind, const std::string& subject) {
        logbook::Record planned;
        planned.name = {"~", ++m_seq};
        planned.at = m_when(kind, subject);
        planned.entered = plannedEntry;
        planned.device = m_question.device;
        Device& changed = device();
        if (!changed.last || changed.last->at < planned.at) changed.last = refOf(planned);
        return planned;
    }

    void happened(const logbook::Record& planned, EventKind kind, const std::string& subject) {
        m_pending.push_back({planned, {kind, subject}, std::nullopt});
    }

    void setUp() {
        if (m_tasks.group) {
            device().selectedGroup = m_question.group;
            happened(record(TaskKind::Group, *m_question.group), EventKind::Group, "");
        }
        if (!device().poweredSince) {
            device().poweredSince = m_question.at;
            if (m_tasks.powerOn) switchOn();
        }
        for (const auto& position : m_tasks.reprocess) reprocess(position);
        for (const auto& position : m_tasks.removes) takeOutOf(position);
        for (const auto& position : m_tasks.openings) takeOutOf(position);
        for (const auto& position : m_tasks.fits) {
            if (!m_tasks.closing.contains(position)) putIn(position, true);
        }
    }

    void switchOn() {
        logbook::Record planned = record(TaskKind::Group, "");
        planned.at = m_question.at;
        happened(planned, EventKind::PowerOn, "");
    }

    void reprocess(const std::string& position) {
        const auto fitted = device().fitted.find(position);
        if (fitted == device().fitted.end()) return;
        const std::string serial(fitted->second.attributes.serial());
        PartLife& life = serial.empty()
                             ? fitted->second.life
                             : m_state.parts.find({position, serial})->second.edit().life;
        life.used = false;
        life.firstUse.reset();
        ++life.cycles;
        happened(record(TaskKind::Reprocess, position), EventKind::Reprocess, position);
    }

    void takeOutOf(const std::string& position) {
        const auto fitted = device().fitted.find(position);
        if (fitted == device().fitted.end()) return;
        m_takenOut[position] = fitted->second;
        takeOut(m_state, device(), position);
        happened(record(TaskKind::Remove, position), EventKind::Remove, position);
    }

    // New but for the make of the last one there; it suits the group asked for.
    PartAttributes newPart(const std::string& position) {
        PartAttributes part;
        const auto held = device().lastHeld.find(position);
        if (held != device().lastHeld.end()) part = held->second;
        part.texts.erase("serial");
        part.texts.erase("lot");
        part.expires.reset();
        const auto& group = m_question.group;
        const bool suits =
            part.groups && group &&
            std::find(part.groups->begin(), part.groups->end(), *group) != part.groups->end();
        if (!suits && group) part.groups = std::vector<std::string>{*group};
        return part;
    }

    void putIn(const std::string& position, bool isNew) {
        const logbook::Record planned = record(TaskKind::Fit, position);
        FittedPart part;
        part.fit = refOf(planned);
        if (isNew) {
            part.attributes = newPart(position);
        } else {
            const auto taken = m_takenOut.find(position);
            if (taken == m_takenOut.end()) return;
            part.attributes = taken->second.attributes;
            const std::string serial(part.attributes.serial());
            if (!serial.empty()) {
                m_state.parts.find({position, serial})->second.edit().device = m_question.device;
            }
        }
        takeOut(m_state, device(), position);
        Pending fit{planned, {EventKind::Fit, position}, std::nullopt};
        const auto held = device().lastHeld.find(position);
        if (held != device().lastHeld.end()) fit.before = held->second;
        m_pending.push_back(std::move(fit));
        device().lastHeld.insert_or_assign(position, part.attributes);
        device().fitted.insert_or_assign(position, std::move(part));
    }

    void raisePending() {
        for (const Pending& pending : m_pending) {
            Effect effect;
            Folding folding{m_state, pending.record, *m_rulebook, effect};
            raise(folding, m_question.device, pending.event,
                  pending.before ? &*pending.before : nullptr);
        }
        m_pending.clear();
    }

    // Planned passes count, and count as certain.
    void pass(const std::string& check) {
        const logbook::Record planned = record(TaskKind::Check, check);
        CheckState& state = device().checks[check];
        state.last = refOf(planned);
        state.lastFailed = false;
        state.passFollows = true;
        state.certainPassFollows = true;
        state.discounted.reset();
    }

    const PlanQuestion& m_question;
    const TaskSet& m_tasks;
    const TaskInstant& m_when;
    State m_state;
    std::shared_ptr<const Rulebook> m_rulebook;
    std::map<std::string, FittedPart> m_takenOut;
    std::vector<Pending> m_pending;
    std::int64_t m_seq = 0;
};

}  // namespace

CarriedOut carryOut(const PlanQuestion& question, const TaskSet& tasks, const TaskInstant& when) {
    return Performer(question, tasks, when).perform();
}

}  // namespace rules
