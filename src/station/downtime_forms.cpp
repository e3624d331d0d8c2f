// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Forms for when no computer is to be had; see upkeep.h.
#include "report/downtime_forms.h"

#include "station/answers.h"
#include "station/forms.h"
#include "station/upkeep.h"

namespace station {

namespace {

// The log is read first: where it cannot be, no number is taken.
Result<std::vector<std::string>> takeNumbers(const Surroundings& surroundings,
                                             const LogbookFile& file, std::int64_t count) {
    auto logbook = openLogbook(surroundings, file, Access::Write);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    const auto station = logbook->station();
    if (!station) {
        return tl::unexpected(problemOf(surroundings.words, station.error()));
    }
    if (!*station) {
        return tl::unexpected(
            problemOf(surroundings.words, store::Trouble{store::Trouble::Code::NoStation}));
    }
    const auto first =
        logbook->takeNumbers("forms", count, {surroundings.login, surroundings.clock.now()});
    if (!first) {
        return tl::unexpected(problemOf(surroundings.words, first.error()));
    }
    std::vector<std::string> numbers;
    for (std::int64_t number = *first; number < *first + count; ++number) {
        numbers.push_back(formNumber(**station, number));
    }
    return numbers;
}

}  // namespace

Result<FormsAnswer> downtimeForms(const Surroundings& surroundings, const LogbookFile& file,
                                  std::int64_t count) {
    auto stands = standing(surroundings, file, {});
    if (!stands) {
        return tl::unexpected(stands.error());
    }
    const auto last = board(surroundings, *std::move(stands));
    auto numbers = takeNumbers(surroundings, file, count);
    if (!numbers) {
        return tl::unexpected(std::move(numbers.error()));
    }
    const report::DowntimeForms forms{last, std::move(*numbers)};
    return FormsAnswer{toText(forms, surroundings.words, {.width = 90}), forms.numbers.front(),
                       forms.numbers.back()};
}

}  // namespace station
