// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where PINs and their hashes must not be: in nothing that the program prints or hands out after a
// day at a station, and not in the memory of a program that has signed somebody in.
#include "support/folder.h"

#include <array>
#include <catch2/catch.hpp>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <fcntl.h>
#include <regex>
#include <set>
#include <sodium.h>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

namespace {

using support::bytesOf;
using support::Folder;

// PINs that occur nowhere by chance, hidden so that a test's own text is not what it finds.
std::string pinOf(int number) {
    constexpr std::array<std::array<int, 12>, 3> digits{{{7, 3, 1, 9, 0, 5, 4, 6, 2, 8, 8, 1},
                                                         {5, 5, 8, 2, 0, 3, 9, 9, 4, 1, 7, 2},
                                                         {2, 6, 0, 4, 1, 7, 7, 3, 9, 5, 0, 8}}};
    std::string pin;
    for (const int digit : digits.at(static_cast<std::size_t>(number))) {
        pin += static_cast<char>('0' + digit);
    }
    return pin;
}

struct Ran {
    int status = -1;
    std::string said;  // on both streams
};

// Through a shell, in the folder.
Ran shell(const Folder& folder, const std::string& command) {
    const auto log = folder.file("said.txt");
    const auto line = "cd '" + folder.path().string() + "' && { " + command + "; } >'" +
                      log.string() + "' 2>&1";
    const int status = std::system(line.c_str());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, bytesOf(log)};
}

// A folder with pin files, a rulebook and a logbook in which three people sign in.
class Station {
public:
    Station() {
        for (int number = 0; number < 3; ++number) {
            folder.write("pin" + std::to_string(number), pinOf(number) + "\n");
        }
        folder.write("new1", pinOf(0) + "\n" + pinOf(1) + "\n");
        folder.write("new2", pinOf(0) + "\n" + pinOf(2) + "\n");
        const std::string rulebook =
            AIRMUSTER_SOURCE_DIR "/data/rulebooks/adult_intensive_care.toml";
        run("init ward.logbook --station icu-1 --rulebook " + rulebook +
            " --manager r.halvorsen --name 'Runa Halvorsen' --pin-fd 3 3<pin0");
        run("person ward.logbook m.toller --name 'Mara Toller' --role charge_therapist --role "
            "therapist --as r.halvorsen --pin-fd 3 3<pin0");
        run("pin set ward.logbook m.toller --as r.halvorsen --pin-fd 3 3<new1");
        run("person ward.logbook b.wren --name 'Bastian Wren' --role biomed --as r.halvorsen "
            "--pin-fd 3 3<pin0");
        run("pin set ward.logbook b.wren --as r.halvorsen --pin-fd 3 3<new2");
    }

    void run(const std::string& words, int status = 0) {
        const auto ran = shell(folder, AIRMUSTER_CLI " " + words);
        CAPTURE(words, ran.said);
        CHECK(ran.status == status);
        said += ran.said;
    }

    Folder folder;
    std::string said;  // by all calls together
};

// Hashes as they stand in the file, as text and as the bytes of which the text is made.
std::set<std::string> hashesIn(const std::string& bytes) {
    static const std::regex shape(R"(\$argon2id\$v=19\$m=\d+,t=\d+,p=\d+\$[\w+/]+\$([\w+/]{43}))");
    std::set<std::string> hashes;
    for (std::sregex_iterator match(bytes.begin(), bytes.end(), shape), end; match != end;
         ++match) {
        const std::string text = (*match)[1];
        std::array<unsigned char, 32> raw{};
        std::size_t length = 0;
        REQUIRE(sodium_base642bin(raw.data(), raw.size(), text.data(), text.size(), nullptr,
                                  &length, nullptr,
                                  sodium_base64_VARIANT_ORIGINAL_NO_PADDING) == 0);
        hashes.insert(text);
        hashes.emplace(reinterpret_cast<const char*>(raw.data()), length);
    }
    return hashes;
}

std::set<std::string> secretsOf(const Station& station) {
    auto secrets = hashesIn(bytesOf(station.folder.file("ward.logbook")));
    CHECK(secrets.size() == 8);  // of three PINs and the recovery code
    for (int number = 0; number < 3; ++number) {
        secrets.insert(pinOf(number));
    }
    return secrets;
}

void checkNone(const std::string& bytes, const std::set<std::string>& secrets) {
    CHECK_FALSE(bytes.empty());
    for (const auto& secret : secrets) {
        const auto place = bytes.find(secret);
        INFO("a secret of " << secret.size() << " bytes at " << place << " of " << bytes.size());
        CHECK(place == std::string::npos);
    }
}

// The program that has signed in and stands still, until this ends.
class Holder {
public:
    struct Doing {
        std::string person, secretsFile;
        std::string act = "sign_in";
    };
    Holder(const Folder& folder, const Doing& doing) {
        REQUIRE(::pipe2(m_toHolder.data(), O_CLOEXEC) == 0);
        REQUIRE(::pipe2(m_fromHolder.data(), O_CLOEXEC) == 0);
        const auto logbook = folder.file("ward.logbook").string();
        const int pin = ::open(folder.file(doing.secretsFile).c_str(), O_RDONLY | O_CLOEXEC);
        REQUIRE(pin >= 0);
        m_child = ::fork();
        if (m_child == 0) {
            ::dup2(m_toHolder[0], 0);
            ::dup2(m_fromHolder[1], 1);
            if (pin == 3) {
                ::fcntl(3, F_SETFD, 0);
            } else {
                ::dup2(pin, 3);
            }
            ::execl(AIRMUSTER_SIGN_IN_HOLDER, AIRMUSTER_SIGN_IN_HOLDER, logbook.c_str(),
                    doing.person.c_str(), doing.act.c_str(), static_cast<char*>(nullptr));
            ::_exit(127);
        }
        ::close(pin);
        ::close(m_fromHolder[1]);
        char letter = 0;
        while (::read(m_fromHolder[0], &letter, 1) == 1 && letter != '\n') {
            m_said += letter;
        }
    }
    Holder(const Holder&) = delete;
    Holder& operator=(const Holder&) = delete;
    ~Holder() {
        for (const int end : {m_toHolder[0], m_toHolder[1], m_fromHolder[0]}) {
            ::close(end);
        }
        ::waitpid(m_child, nullptr, 0);
    }

    [[nodiscard]] const std::string& said() const { return m_said; }
    [[nodiscard]] std::string pid() const { return std::to_string(m_child); }

private:
    std::array<int, 2> m_toHolder{}, m_fromHolder{};
    pid_t m_child = -1;
    std::string m_said;
};

std::string coreOf(const Folder& folder, const Holder& holder) {
    const auto ran = shell(folder, "gcore -o core " + holder.pid());
    CAPTURE(ran.said);
    REQUIRE(ran.status == 0);
    return bytesOf(folder.file("core." + holder.pid()));
}

}  // namespace

TEST_CASE("After a day no PIN and no hash stands in anything that is handed out", "[unit]") {
    Station station;
    station.run("log ward.logbook enrol KB-0001 --model 'Larch 3' --group adult --commissioned "
                "2026-01-15 --as b.wren --pin-fd 3 3<pin2");
    station.run("log ward.logbook use_start KB-0001 --as m.toller");
    station.run("log ward.logbook use_end KB-0001 --as m.toller --pin-fd 3 3<pin1");
    station.run("log ward.logbook note KB-0001 --text Seen --as m.toller --pin-fd 3 3<pin2", 2);
    station.run("log ward.logbook note KB-0001 --text Seen --as m.toller </dev/null", 2);
    station.run("board ward.logbook");
    station.run("board ward.logbook --json");
    station.run("explain ward.logbook KB-0001 --json");
    station.run("month ward.logbook $(date -u +%Y-%m) --json");
    station.run("month ward.logbook $(date -u +%Y-%m)");
    station.run("confirm ward.logbook --as m.toller");
    // The wrong PIN above is waited for.
    std::this_thread::sleep_for(std::chrono::seconds(2));
    station.run("confirm ward.logbook --all --as m.toller --pin-fd 3 3<pin1");
    station.run("log ward.logbook enrol KB-0002 --model 'Larch 3' --group adult --commissioned "
                "2026-01-15 --as b.wren --pin-fd 3 3<pin2");
    station.run("log ward.logbook fit KB-0001 --position circuit --lot L7 --as m.toller "
                "--pin-fd 3 3<pin1");
    station.run("transfer ward.logbook icu-1/10 --to KB-0002 --reason 'Wrong unit' --as "
                "r.halvorsen --pin-fd 3 3<pin0");
    station.run("trace ward.logbook --lot L7");
    station.run("strike ward.logbook icu-1/12 --reason 'Not fitted' --as r.halvorsen --pin-fd 3 "
                "3<pin0");
    station.run("badge ward.logbook m.toller 0042717 --as r.halvorsen --pin-fd 3 3<pin0");
    station.run("forms ward.logbook --count 2 --to forms.txt");
    station.run("plan ward.logbook KB-0001", 1);
    station.run("export ward.logbook --without-names --coarse-places --to outside.jsonl");
    station.run("export ward.logbook");
    station.run("export ward.logbook --to all.jsonl");
    station.run("backup ward.logbook copy.logbook");
    station.run("verify ward.logbook --json");
    const auto secrets = secretsOf(station);
    checkNone(station.said, secrets);
    for (const auto* file : {"all.jsonl", "outside.jsonl", "forms.txt"}) {
        CAPTURE(file);
        checkNone(bytesOf(station.folder.file(file)), secrets);
    }
    checkNone(bytesOf(station.folder.file("copy.logbook")), secrets);
    CHECK_FALSE(std::filesystem::exists(station.folder.file("ward.logbook.holder")));
}

TEST_CASE("In a core taken after a sign-in there is neither PIN nor hash", "[unit]") {
    const Station station;
    const auto secrets = secretsOf(station);
    const Holder holder(station.folder, {"m.toller", "pin1"});
    REQUIRE(holder.said() == "in");
    const auto core = coreOf(station.folder, holder);
    // The core is one of that program, with what it had read of the log in it.
    CHECK(core.find("Mara Toller") != std::string::npos);
    checkNone(core, secrets);
}

TEST_CASE("Nor in one taken after a sign-in that was refused", "[unit]") {
    const Station station;
    const auto secrets = secretsOf(station);
    const Holder holder(station.folder, {"m.toller", "pin2"});
    REQUIRE(holder.said() == "out");
    checkNone(coreOf(station.folder, holder), secrets);
}

TEST_CASE("Nor in one taken after an entry, a new PIN or a recovery", "[unit]") {
    Station station;
    const std::regex shape("[0-9A-Z]{4}(?:-[0-9A-Z]{4}){4}");
    std::smatch code;
    REQUIRE(std::regex_search(station.said, code, shape));
    station.folder.write("own1", pinOf(1) + "\n" + pinOf(0) + "\n");
    station.folder.write("code", code.str() + "\n" + pinOf(2) + "\n");
    for (const Holder::Doing& doing : {Holder::Doing{"m.toller", "pin1", "write"},
                                       {"m.toller", "own1", "set_pin"},
                                       {"r.halvorsen", "code", "recover"}}) {
        CAPTURE(doing.act);
        const Holder holder(station.folder, doing);
        REQUIRE(holder.said() == "in");
        auto secrets = secretsOf(station);
        secrets.insert(code.str());
        checkNone(coreOf(station.folder, holder), secrets);
    }
}
