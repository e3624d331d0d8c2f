// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// PINs for the commands; see signing.h.
#include "cli/signing.h"

#include "cli/description.h"

#include <charconv>

namespace cli {

namespace {

using station::Secret;

std::string_view wordOf(station::PinFault fault) {
    switch (fault) {
        case station::PinFault::NotDigits: return "pin.not_digits";
        case station::PinFault::TooShort: return "pin.too_short";
        case station::PinFault::AllEqual: return "pin.all_equal";
        case station::PinFault::Sequence: break;
    }
    return "pin.sequence";
}

// Typed twice, until it may be a PIN and both are the same, or the question is called off.
std::optional<Secret> typedTwice(station::Terminal& terminal, const words::Words& words,
                                 const std::string& name) {
    const auto asked = words.say("question.new_pin", {{"person", name}});
    auto question = asked;
    for (;;) {
        auto first = terminal.askSecret(question);
        if (!first) {
            return std::nullopt;
        }
        if (const auto fault = faultOf(*first)) {
            question = words.say(std::string(wordOf(*fault)) + ".says") + "\n" + asked;
            continue;
        }
        const auto second = terminal.askSecret(words.say("question.again"));
        if (!second) {
            return std::nullopt;
        }
        if (first->isSame(*second)) {
            return first;
        }
        question = words.say("question.not_same") + "\n" + asked;
    }
}

}  // namespace

station::Result<Signing> Signing::of(const Call& call,
                                     const station::Surroundings& surroundings) {
    Signing signing(surroundings);
    const auto text = call.value(shared::pinFd.name);
    if (!text) {
        return signing;
    }
    int descriptor = -1;
    const auto* end = text->data() + text->size();
    const auto read = std::from_chars(text->data(), end, descriptor);
    if (read.ec != std::errc{} || read.ptr != end || descriptor < 0) {
        return tl::unexpected(station::problemOf(surroundings.words, "call.bad_value",
                                                 {{"option", std::string(shared::pinFd.name)},
                                                  {"text", *text},
                                                  {"wanted", "3"}}));
    }
    signing.m_descriptor = descriptor;
    return signing;
}

station::Writer Signing::writer(const Call& call) const {
    station::Writer writer(call.value(shared::as.name).value_or(""));
    writer.ask = pin();
    writer.offered = m_descriptor.has_value();
    return writer;
}

station::Writer Signing::second(const std::string& who) const {
    station::Writer writer(who);
    writer.ask = pin();
    return writer;
}

station::AskPin Signing::asking(std::string_view question) const {
    auto* terminal = m_surroundings->terminal;
    if (terminal == nullptr || (!m_descriptor && !terminal->isThere())) {
        return {};
    }
    const auto* words = &m_surroundings->words;
    return [=, descriptor = m_descriptor](const std::string& name) {
        const auto asked = words->say(question, {{"person", name}});
        return descriptor ? terminal->secretFrom(*descriptor, asked)
                          : terminal->askSecret(asked);
    };
}

station::AskPin Signing::pin() const {
    return asking("question.pin");
}

station::AskPin Signing::newPin() const {
    if (m_descriptor) {
        return asking("question.new_pin");
    }
    auto* terminal = m_surroundings->terminal;
    if (terminal == nullptr || !terminal->isThere()) {
        return {};
    }
    return [terminal, words = &m_surroundings->words](const std::string& name) {
        return typedTwice(*terminal, *words, name);
    };
}

station::AskPin Signing::code() const {
    return asking("question.code");
}

}  // namespace cli
