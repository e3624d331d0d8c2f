// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A transcript: calls of the command line in a folder of their own, with what they print, compared
// with an approved text. With AIRMUSTER_APPROVE=1 in the environment the text is approved instead.
#pragma once

#include "support/folder.h"
#include "support/moved_clock.h"
#include "support/scripted_terminal.h"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace support {

struct Printed {
    int status = 0;
    std::string out;
    std::string error;
};

class Transcript {
public:
    // The time is 2026-03-02T14:00:00Z; the folder becomes the current one.
    Transcript();
    ~Transcript();
    Transcript(const Transcript&) = delete;
    Transcript& operator=(const Transcript&) = delete;

    // Runs one call, written as in a shell: words, and "text in quotation marks" as one word, in
    // which \" is a quotation mark. A call that ends with 2 or 3 must leave every file as it was
    // and print no answer. Told in the transcript, with what was asked on the terminal.
    Printed run(std::string_view call);

    // The same for a call whose wrong PIN or code is counted in the logbook.
    Printed runCounted(std::string_view call);

    // Somebody sits there who types testPin when asked for any PIN.
    ScriptedTerminal terminal;

    // As run, but only its exit status is told: for what prepares the ground.
    void prepare(std::string_view call);

    void at(std::string_view instant);
    void write(std::string_view name, std::string_view bytes);
    [[nodiscard]] std::string bytesOf(std::string_view name) const;

    // The approved text of that name, tests/cli/approved/NAME.txt, must be the same.
    void check(std::string_view name) const;

private:
    [[nodiscard]] std::string withoutFolder(std::string text) const;
    [[nodiscard]] Printed call(std::string_view text, bool counted = false);
    Printed told(std::string_view text, const Printed& printed);

    Folder m_folder;
    std::filesystem::path m_before;
    MovedClock m_clock;
    std::string m_text;
};

// A rulebook for transcripts: two groups, two positions, two checks, a service, roles.
[[nodiscard]] std::string smallRulebook(std::string_view edition = "2026-1");

// A logbook with an edition, two persons and a unit that lacks its leak test.
void prepareSmallWard(Transcript& transcript);

}  // namespace support
