// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A secret that a person typed, a PIN or a code: in memory that stands in no core, is wiped when it
// is not needed any more and, if the system can lock it, not swapped. Knows no person and no file.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string_view>

namespace station {

// May be moved and never copied, nor may what `text` shows be, but for a code that is to be shown.
class Secret {
public:
    static constexpr std::size_t longest = 63;

    // Empty. Stops the program if there is no memory for it.
    Secret();

    // False, with nothing added, beyond `longest`.
    bool add(char letter);
    void removeLast();
    void clear();

    [[nodiscard]] std::string_view text() const;
    [[nodiscard]] bool isSame(const Secret& other) const;

private:
    struct Release {
        void operator()(char* bytes) const;
    };
    std::unique_ptr<char[], Release> m_bytes;
    std::size_t m_length = 0;
};

// What a PIN must not be.
enum class PinFault {
    NotDigits,  // something else than 0 to 9 in it
    TooShort,   // fewer than 6
    AllEqual,   // 777777
    Sequence,   // each digit one more than the last, or each one less: 234567, 890123, 543210
};
inline constexpr std::size_t fewestDigits = 6;

[[nodiscard]] std::optional<PinFault> faultOf(const Secret& pin);

// A new recovery code, 100 random bits in groups of four: "7K3M-Q0XV-…", without I, L, O and U.
[[nodiscard]] Secret makeCode();

// The code that was meant by what was typed: small letters, blanks, missing or other hyphens, an O
// for 0 and an I or L for 1 make no difference.
[[nodiscard]] Secret codeMeant(const Secret& typed);

}  // namespace station
