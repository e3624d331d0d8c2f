// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The fleet; see fleet_view.h.
#include "desktop/shell/fleet_view.h"

#include "desktop/shell/clock_sentence.h"
#include "desktop/shell/large_value.h"
#include "desktop/shell/text.h"
#include "words/times.h"

#include <QCoreApplication>
#include <tuple>
#include <utility>

namespace desktop {

QString ageSentence(const FleetView& fleet, const words::Words& words, logbook::Instant now) {
    const auto span = now - fleet.readAt;
    if (span < agesAfter) return {};
    return QCoreApplication::translate(
               "desktop::FleetView",
               "As of %1. The logbook could not be read for %2: what was entered since is not "
               "shown.")
        .arg(askedText(fleet, words, now), shownText(words::duration(words, span)));
}

bool FleetView::holds(const logbook::RecordName& entry) const {
    const auto& heads = standing->facts.heads;
    const auto head = heads.find(entry.station);
    return head != heads.end() && head->second.head.seq >= entry.seq;
}

bool FleetView::isBefore(const logbook::RecordName& entry) const {
    return standing->facts.ownStation == entry.station && !holds(entry);
}

namespace {

// Within the second that the clock tells, and where nothing came in and nothing else is known of
// the logbook, all that is shown comes out the same.
bool isSame(const station::Standing& one, const station::Standing& other) {
    const auto facts = [](const station::LogbookFacts& all) {
        return std::tie(all.arrival, all.ownStation, all.staleAfter, all.unread, all.formsIssued,
                        all.isDamaged, all.isRefused);
    };
    const auto verified = [](const station::LogbookFacts& all) {
        return all.verification ? std::optional(std::tuple(all.verification->at,
                                                           all.verification->ok,
                                                           all.verification->checked,
                                                           all.verification->breaks.size()))
                                : std::nullopt;
    };
    return other.folded == 0 && one.at == other.at && one.later.size() == other.later.size() &&
           facts(one.facts) == facts(other.facts) && verified(one.facts) == verified(other.facts) &&
           one.facts.gone.size() == other.facts.gone.size();
}

// Whether what was entered up to one is what was entered up to the other, each by its time.
bool hasSameEntries(const station::Standing& one, const station::Standing& other) {
    const auto isWhole = [](const station::Standing& each) {
        return each.later.empty() && each.facts.unread.empty() && !each.facts.isDamaged;
    };
    return one.facts.arrival == other.facts.arrival && isWhole(one) && isWhole(other);
}

}  // namespace

station::Found findNamed(const FleetView& fleet, const station::Surroundings& surroundings,
                         const station::LogbookFile& file, const std::string& text,
                         const std::string& open) {
    return station::find(
        surroundings, *fleet.standing,
        [&](const std::string& model) {
            return fleet.models->of(surroundings, file, *fleet.standing, model);
        },
        text, open);
}

// Another file may have taken the place of the one that is open: a restored one.
station::Result<void> FleetSource::open(const station::Surroundings& surroundings,
                                        const station::LogbookFile& file) {
    const auto identity = station::system::identityOf(file.path);
    if (m_source && m_path == file.path && identity == m_identity) return {};
    m_source.reset();
    m_last.reset();
    m_unsaid = {.isRead = false};
    auto source = station::StandingSource::open(surroundings, file);
    if (!source) return tl::unexpected(std::move(source.error()));
    m_source = std::move(*source);
    m_models = std::make_shared<station::ModelLog>();
    m_path = file.path;
    m_identity = identity;
    return {};
}

station::Result<SharedFleetView> FleetSource::read(const station::Surroundings& surroundings,
                                                   const station::LogbookFile& file) {
    if (auto opened = open(surroundings, file); !opened)
        return tl::unexpected(std::move(opened.error()));
    auto standing = m_source->ask({});
    if (!standing) {
        m_source.reset();  // whatever it was, it is met afresh
        return tl::unexpected(std::move(standing.error()));
    }
    if (m_last && isSame(*m_last->standing, *standing)) return m_last;
    const auto view = makeLarge<FleetView>();
    view->readAt = surroundings.clock.now();
    view->standing = std::make_shared<const station::Standing>(std::move(*standing));
    view->models = m_models;
    view->board = station::board(surroundings, *view->standing);
    if (!m_unsaid.isRead || !m_last || !hasSameEntries(*m_last->standing, *view->standing))
        m_unsaid = station::placesUnsaid(surroundings, file, *view->standing);
    view->lines = report::boardLines(report::PlacedBoard{view->board, m_unsaid.places},
                                     surroundings.words);
    m_last = view;
    return view;
}

}  // namespace desktop
