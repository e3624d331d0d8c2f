// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Numbers of forms; see forms.h.
#include "station/forms.h"

#include <charconv>

namespace station {

namespace {

using logbook::Record;

// Of a check or service the same one, whatever came of it: a line has one outcome.
bool sameLine(const Record& one, const Record& other) {
    if (one.form != other.form || one.device != other.device || one.kind() != other.kind() ||
        one.at != other.at) {
        return false;
    }
    if (const auto* check = std::get_if<logbook::body::Check>(&one.body)) {
        return check->check == std::get<logbook::body::Check>(other.body).check;
    }
    if (const auto* service = std::get_if<logbook::body::Service>(&one.body)) {
        return service->service == std::get<logbook::body::Service>(other.body).service;
    }
    const auto bodyOf = [](const Record& record) {
        const auto content = logbook::json::parse(record.content);
        return logbook::json::canonical(*content->find("body"));
    };
    return bodyOf(one) == bodyOf(other);
}

}  // namespace

std::string formNumber(std::string_view station, std::int64_t number) {
    return std::string(station) + "-F" + std::to_string(number);
}

FormStanding standingOf(const WholeLog& log, std::string_view form) {
    const auto prefix = log.ownStation.value_or("") + "-F";
    if (!log.ownStation || !form.starts_with(prefix)) {
        return FormStanding::Foreign;
    }
    std::int64_t number = 0;
    const auto digits = form.substr(prefix.size());
    std::from_chars(digits.data(), digits.data() + digits.size(), number);
    const bool isIssued = number >= 1 && number <= log.formsIssued &&
                          form == formNumber(*log.ownStation, number);
    return isIssued ? FormStanding::Issued : FormStanding::NotYet;
}

const Record* enteredBefore(const rules::Log& log, const Record& record) {
    const auto& records = log.records();
    for (std::size_t index = 0; index < records.size(); ++index) {
        if (records[index].form && sameLine(records[index], record) &&
            log.struckBy(index) == nullptr) {
            return &records[index];
        }
    }
    return nullptr;
}

}  // namespace station
