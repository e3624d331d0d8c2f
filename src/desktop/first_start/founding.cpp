// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The first start's deed; see founding.h.
#include "desktop/first_start/founding.h"

#include "desktop/shell/text.h"
#include "station/shipped_rulebooks.h"

#include <QDir>
#include <QTemporaryDir>
#include <algorithm>

namespace desktop {

namespace {

station::Secret copyOf(const station::Secret& secret) {
    station::Secret copy;
    for (const char letter : secret.text()) copy.add(letter);
    return copy;
}

// Adopting takes a file; that of a shipped one lasts as long as `folder`.
std::string rulebookFile(const Founding& founding, const QTemporaryDir& folder) {
    const auto shipped = station::shippedRulebooks();
    const auto chosen = std::find_if(shipped.begin(), shipped.end(), [&](const auto& each) {
        return each.name == founding.shippedRulebook;
    });
    if (chosen == shipped.end()) return founding.rulebook;
    const auto path = plainText(folder.filePath(shownText(chosen->name + ".toml")));
    // Where it cannot be written, adopting says that it cannot be read.
    (void)station::system::writeNewFile(path, chosen->text).has_value();
    return path;
}

station::Result<Founded> begin(const station::Surroundings& surroundings,
                               const Founding& founding, const station::Secret& pin) {
    const station::LogbookFile file{founding.path};
    const QTemporaryDir folder;
    station::FirstStart start{founding.station, founding.manager, founding.name};
    if (!founding.rulebook.empty() || !founding.shippedRulebook.empty())
        start.adoption = station::Adoption{founding.manager, rulebookFile(founding, folder),
                                           std::nullopt, founding.department, founding.facility};
    start.askPin = [&pin](const std::string&) { return std::optional(copyOf(pin)); };
    auto begun = station::begin(surroundings, file, start);
    if (!begun) return tl::unexpected(std::move(begun.error()));
    Founded founded{std::move(*begun), std::nullopt};
    // Who cannot be signed in at once is asked when it is needed.
    if (auto session = station::signIn(surroundings, file, founding.manager, pin))
        founded.session = std::move(*session);
    return founded;
}

}  // namespace

station::Result<Founded> found(const station::Surroundings& surroundings, const Founding& founding,
                               const station::Secret& pin) {
    const station::LogbookFile file{founding.path};
    bool isMade = false;  // by this call: another program may have been faster
    if (founding.isNew && !station::system::exists(file.path)) {
        QDir().mkpath(QFileInfo(shownText(founding.path)).absolutePath());
        const auto made = station::foundStation(surroundings, file, founding.station);
        if (!made) return tl::unexpected(made.error());
        isMade = *made;
    }
    auto founded = begin(surroundings, founding, pin);
    if (!founded && isMade) station::removeIfEmpty(file);
    return founded;
}

}  // namespace desktop
