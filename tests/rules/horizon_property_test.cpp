// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The least work of a horizon against every choice there is, on random small fleets, and carried
// out by writing the records. What work on a unit asks for is reckoned here by plain arithmetic,
// written apart from the engine. Where checks wait for something, it is only carried out.
#include "rules/horizon.h"
#include "support/random_log.h"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <iostream>
#include <set>
#include <tuple>

using namespace support;

namespace {

constexpr std::uint32_t firstSeed = 20261114;
constexpr std::uint32_t fleets = 400;

struct CheckRule {
    const char* key;
    std::int64_t takes, validFor;  // minutes; 0: for ever
};
constexpr std::array<CheckRule, 4> checks{
    {{"a", 5, 180}, {"b", 7, 300}, {"c", 20, 0}, {"d", 4, 1440}}};

// Whether checks wait for something: a for the power, c for the cell.
enum class Waits { None, Some };

const std::string bookOfCell =
    "[positions.cell]\nrequired = true\ntakes = \"PT2M\"\nchange_after = \"PT14H\"\n";

std::string waitOf(std::string_view check) {
    if (check == "a") return "not_before = [{ event = \"power_on\", wait = \"PT30M\" }]\n";
    if (check == "c") return "not_before = [{ event = \"fit cell\", wait = \"PT45M\" }]\n";
    return "";
}

std::string bookWithPar(int par, Waits waits) {
    std::string text = "format = 1\ntitle = \"Kestrel Bay\"\nedition = \"1\"\ntime_zone = \"UTC\"\n"
                       "[groups.adult]\npar = " +
                       std::to_string(par) + "\n";
    for (const auto& check : checks) {
        text += "[checks." + std::string(check.key) + "]\ntakes = \"PT" +
                std::to_string(check.takes) + "M\"\n";
        if (check.validFor > 0)
            text += "valid_for = \"PT" + std::to_string(check.validFor) + "M\"\n";
        if (waits == Waits::Some) text += waitOf(check.key);
    }
    return waits == Waits::Some ? text + bookOfCell : text;
}

// Passes by check, in minutes from the instant asked; none: never passed.
using Passes = std::array<std::optional<std::int64_t>, checks.size()>;

constexpr std::int64_t never = 1'000'000;

std::int64_t endOf(const Passes& passes, std::size_t check) {
    if (!passes[check]) return -never;
    return checks[check].validFor == 0 ? never : *passes[check] + checks[check].validFor;
}

std::int64_t lapseOf(const Passes& passes) {
    std::int64_t first = never;
    for (std::size_t check = 0; check < checks.size(); ++check)
        first = std::min(first, endOf(passes, check));
    return first;
}

// Work on one unit: from when it counts, what it costs, when each check is passed.
struct Work {
    std::int64_t from = 0, cost = 0;
    int sessions = 0;
};

std::int64_t lengthOf(const Passes& passes, std::int64_t lacking) {
    std::int64_t length = 0;
    for (std::size_t check = 0; check < checks.size(); ++check)
        if (endOf(passes, check) <= lacking) length += checks[check].takes;
    return length;
}

struct Aim {
    std::int64_t lacking = 0, deadline = 0, earliest = 0;
};

// Passes all that is out of date then, or by the end of that, one after the other; when it is done.
std::int64_t session(Passes& passes, const Aim& aim, std::int64_t& cost) {
    auto lacking = aim.lacking;
    auto by = aim.deadline;
    while (true) {
        by = std::max(aim.deadline, aim.earliest + lengthOf(passes, lacking));
        if (lengthOf(passes, std::max(lacking, by)) == lengthOf(passes, lacking)) break;
        lacking = by;
    }
    const auto length = lengthOf(passes, lacking);
    auto finish = by - length;
    for (std::size_t check = 0; check < checks.size(); ++check) {
        if (endOf(passes, check) > lacking) continue;
        finish += checks[check].takes;
        passes[check] = finish;
    }
    cost += length;
    return by;
}

// A session, made wider as long as that brings more work where it is a round.
std::int64_t sessionOrRound(Passes& passes, Aim aim, std::int64_t& cost, std::int64_t roundsTo) {
    const auto before = passes;
    std::int64_t best = 0;
    auto by = session(passes, aim, best);
    while (lapseOf(passes) <= roundsTo) {
        auto wider = before;
        std::int64_t more = 0;
        aim.lacking = lapseOf(passes);
        const auto widerBy = session(wider, aim, more);
        if (more <= best) break;
        passes = wider;
        best = more;
        by = widerBy;
    }
    cost += best;
    return by;
}

// Sessions, or rounds, for each lapse; where the next could not be done in time, the lapse goes
// with the one before. When the first is done, and what all cost.
Work stepwise(const Passes& passes, const Aim& aim, std::int64_t ahead, bool rounds,
              bool again = false) {
    const auto roundsTo = rounds ? ahead : -never;
    auto done = passes;
    Work work;
    work.from = sessionOrRound(done, aim, work.cost, again ? -never : roundsTo);
    work.sessions = 1;
    const auto next = lapseOf(done);
    if (next > ahead) return work;
    auto tried = done;
    std::int64_t ignored = 0;
    if (sessionOrRound(tried, {next, next, work.from}, ignored, roundsTo) > next)
        return stepwise(passes, {next, aim.deadline, aim.earliest}, ahead, rounds, true);
    const auto rest = stepwise(done, {next, next, work.from}, ahead, rounds);
    work.cost += rest.cost;
    work.sessions += rest.sessions;
    return work;
}

std::optional<Work> workOn(const Passes& passes, std::int64_t ahead) {
    const auto first = std::max<std::int64_t>(0, lapseOf(passes));
    const Aim aim{first, first, 0};
    auto done = passes;
    Work once;
    once.sessions = 1;
    once.from = session(done, {ahead, first, 0}, once.cost);
    auto best = stepwise(passes, aim, ahead, false);
    for (const auto& other : {stepwise(passes, aim, ahead, true), once}) {
        if (other.sessions == 1 && lapseOf(done) <= ahead) continue;
        if (std::pair(other.cost, other.sessions) < std::pair(best.cost, best.sessions))
            best = other;
    }
    return best.from <= ahead ? std::optional(best) : std::nullopt;
}

// Lower is better: lacks not filled, filled too late, attended minutes.
using Score = std::tuple<int, int, std::int64_t>;

// Every way to give each lack, in order, one of the chosen units or none.
Score assign(const std::vector<std::int64_t>& lacks, std::size_t lack, std::vector<Work> works) {
    if (lack == lacks.size()) return {0, 0, 0};
    auto best = assign(lacks, lack + 1, works);
    std::get<0>(best) += 1;
    for (std::size_t index = 0; index < works.size(); ++index) {
        auto rest = works;
        rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(index));
        auto score = assign(lacks, lack + 1, rest);
        std::get<1>(score) += lacks[lack] > 0 && works[index].from > lacks[lack] ? 1 : 0;
        std::get<2>(score) += works[index].cost;
        best = std::min(best, score);
    }
    return best;
}

class Fleet {
public:
    explicit Fleet(std::uint32_t seed, Waits waits = Waits::None) : m_random(seed) {
        m_par = 1 + m_random.below(4);
        m_log.adopt(bookWithPar(m_par, waits));
        const int count = 1 + m_random.below(6);
        for (int unit = 0; unit < count; ++unit) {
            const auto serial = "KB-" + std::to_string(unit + 1);
            addUnit(serial);
            if (waits == Waits::Some) addWaits(serial);
        }
        m_ahead = 20 + m_random.below(600);
    }

    [[nodiscard]] Instant from() const { return when("20:00"); }

    [[nodiscard]] rules::Horizon found() const {
        return rules::horizon(stateOf(m_log, {from()}), from(), minutes(m_ahead));
    }

    [[nodiscard]] Score best() const {
        std::vector<std::int64_t> lacks, lapses;
        std::vector<Work> works;
        int ready = 0;
        for (const auto& passes : m_units) {
            const auto lapse = lapseOf(passes);
            if (lapse > 0) ++ready;
            if (lapse > 0 && lapse <= m_ahead) lapses.push_back(lapse);
            const auto work = lapse <= m_ahead ? workOn(passes, m_ahead) : std::nullopt;
            if (work) works.push_back(*work);
        }
        std::sort(lapses.begin(), lapses.end());
        for (int missing = ready; missing < m_par; ++missing) lacks.push_back(0);
        for (const auto lapse : lapses)
            if (--ready < m_par) lacks.push_back(lapse);
        return assign(lacks, 0, works);
    }

    // The state at that instant, the remedies carried out.
    [[nodiscard]] rules::State carriedOut(const rules::GroupHorizon& group, Instant at) const {
        LogBuilder log = m_log;
        for (const auto& remedy : group.remedies) {
            if (m_off.contains(remedy.device))
                log.on(remedy.device).at(remedy.sessions.front().begin).power(true);
            for (const auto& each : remedy.sessions)
                for (const auto& task : each.tasks) write(log.on(remedy.device), task);
        }
        return stateOf(log, {at});
    }

    // The number of ready units then.
    [[nodiscard]] int readyAt(const rules::GroupHorizon& group, Instant at) const {
        const auto state = carriedOut(group, at);
        int ready = 0;
        for (const auto& [serial, unit] : state.devices)
            ready += rules::assess(state, *unit, {at}).verdict == rules::Verdict::Ready;
        return ready;
    }

private:
    static void write(Entry entry, const rules::Task& task) {
        entry.at(task.finish);
        if (task.kind == rules::TaskKind::Fit) {
            entry.fit(task.subject);
        } else if (task.kind == rules::TaskKind::Check) {
            entry.pass(task.subject);
        }
    }

    // Switched on a while ago, or off; a cell fitted a while ago, or soon to be changed.
    void addWaits(const std::string& serial) {
        m_log.on(serial).at("08:01").power(true);
        m_log.on(serial).at("08:01").fit("cell");
        if (m_random.chance(70)) {
            const Instant off = from() - minutes(1 + m_random.below(60));
            m_log.on(serial).at(off).power(false);
            if (m_random.chance(75)) m_log.on(serial).at(off + minutes(1)).power(true);
            else m_off.insert(serial);
        }
        if (m_random.chance(40)) {
            m_log.on(serial).at(from() - minutes(m_random.below(60))).fit("cell");
        }
    }

    void addUnit(const std::string& serial) {
        m_log.on(serial).at("08:01").enrol({"adult"});
        Passes passes;
        for (std::size_t check = 0; check < checks.size(); ++check) {
            if (m_random.chance(10)) continue;
            const auto validFor = checks[check].validFor == 0 ? 700 : checks[check].validFor;
            const auto reach = std::min<std::int64_t>(700, validFor + 60);
            const auto ago = 1 + m_random.below(static_cast<int>(reach));
            passes[check] = -ago;
            m_log.on(serial).at(from() - minutes(ago)).pass(checks[check].key);
        }
        m_units.push_back(passes);
    }

    Random m_random;
    LogBuilder m_log;
    std::vector<Passes> m_units;
    std::set<std::string> m_off;  // units that are switched on for the first session
    int m_par = 0;
    std::int64_t m_ahead = 0;
};

Score scoreOf(const Fleet& fleet, const rules::Horizon& found) {
    const auto& group = found.groups.front();
    std::vector<std::int64_t> lacks;
    int ready = group.ready;
    for (int missing = ready; missing < group.par; ++missing) lacks.push_back(0);
    for (const auto& lapse : found.lapses)
        if (--ready < group.par) lacks.push_back((lapse.at - fleet.from()).ms / 60'000);
    std::vector<Work> works;
    for (const auto& remedy : group.remedies)
        works.push_back(
            {(remedy.from - fleet.from()).ms / 60'000, remedy.attended.ms / 60'000, 1});
    return assign(lacks, 0, works);
}

}  // namespace

TEST_CASE("the least work is the least of all choices", "[exhaustive]") {
    std::cout << "fleets, seeds from " << firstSeed << std::endl;
    int lacking = 0, late = 0, remedies = 0, sessions = 0;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + fleets; ++seed) {
        const Fleet fleet(seed);
        const auto found = fleet.found();
        const auto& group = found.groups.front();
        INFO("seed " << seed);
        const auto best = fleet.best();
        CHECK(scoreOf(fleet, found) == best);
        CHECK(group.lacking == std::get<0>(best));
        std::int64_t attended = 0;
        for (const auto& remedy : group.remedies) {
            attended += remedy.attended.ms / 60'000;
            sessions += static_cast<int>(remedy.sessions.size());
        }
        CHECK(attended == std::get<2>(best));
        lacking += std::get<0>(best) > 0;
        late += std::get<1>(best) > 0;
        remedies += static_cast<int>(group.remedies.size());
    }
    // Otherwise it would have tried nothing of the kind.
    CHECK(lacking > 20);
    CHECK(late > 5);
    CHECK(remedies > 200);
    CHECK(sessions > remedies);
}

namespace {

// Whether the group is at par when it is said to be; how often that is thanks to the remedies.
int checkPromises(const Fleet& fleet, const rules::Horizon& found) {
    const auto& group = found.groups.front();
    std::vector<Instant> instants{found.from, found.to};
    for (const auto& lapse : found.lapses) instants.push_back(lapse.at);
    for (const auto& remedy : group.remedies) {
        instants.push_back(remedy.from);
        for (const auto& each : remedy.sessions) instants.push_back(each.by);
    }
    int held = 0;
    CHECK(fleet.readyAt(group, found.to) >= group.par - group.lacking);
    for (const auto at : instants) {
        const bool atPar = fleet.readyAt(group, at) >= group.par;
        if (group.heldFrom && at >= *group.heldFrom) CHECK(atPar);
        if (group.shortFrom && at >= *group.shortFrom && at <= found.to) CHECK_FALSE(atPar);
        held += group.belowFrom && atPar && at >= *group.belowFrom;
    }
    return held;
}

// Whether a remedy's sessions can be done as they say, and make the unit ready; the renewals among
// them in which something was waited for.
int checkSessions(const Fleet& fleet, const rules::GroupHorizon& group,
                  const rules::Remedy& remedy) {
    int waited = 0;
    for (const auto& session : remedy.sessions) {
        Instant free = session.begin;
        bool waits = false;
        for (const auto& task : session.tasks) {
            CHECK(task.start >= std::max(free, task.notBefore.value_or(free)));
            free = task.attended;
            waits |= task.notBefore == task.start;
        }
        waited += remedy.renewal && waits;
        const auto then = fleet.carriedOut(group, session.by);
        const auto found = rules::assess(then, *then.device(remedy.device), {session.by});
        CHECK(found.verdict == rules::Verdict::Ready);
    }
    return waited;
}

}  // namespace

TEST_CASE("with the least work carried out the group is ready as was said", "[property]") {
    std::cout << "fleets carried out, seeds from " << firstSeed << std::endl;
    const auto waits = GENERATE(Waits::None, Waits::Some);
    int held = 0, waited = 0;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + fleets / 4; ++seed) {
        const Fleet fleet(seed, waits);
        const auto found = fleet.found();
        INFO("seed " << seed << (waits == Waits::Some ? ", with waits" : ""));
        held += checkPromises(fleet, found);
        for (const auto& remedy : found.groups.front().remedies) {
            INFO(remedy.device);
            CHECK(remedy.sessions.front().begin >= found.from);
            waited += checkSessions(fleet, found.groups.front(), remedy);
        }
    }
    CHECK(held > 50);
    CHECK((waited > 10) == (waits == Waits::Some));
}
