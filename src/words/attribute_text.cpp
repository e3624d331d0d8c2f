// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Attributes; see attribute_text.h.
#include "words/attribute_text.h"

#include "logbook/text.h"
#include "words/shown.h"
#include "words/words.h"

namespace words {

std::string attributeText(std::string_view value) {
    return logbook::isKey(value) ? readable(value) : shown(value);
}

std::string attributeLabel(const Words& words, std::string_view attribute) {
    const auto key = "attribute." + std::string(attribute);
    return words.has(key) ? words.say(key) : readable(attribute);
}

std::string featureLabel(const Context& context, const std::string& feature) {
    const auto& labels = context.state.rulebook->featureLabels;
    const auto found = labels.find(feature);
    return found == labels.end() ? readable(feature) : context.words.label(found->second, feature);
}

}  // namespace words
