// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The conformance runner's command line: which cases, which program, how many at a time; counts,
// prints and says by its exit status whether all agreed.
#include "conformance_runner/case_run.h"

#include <algorithm>
#include <atomic>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <mutex>
#include <random>
#include <sstream>
#include <thread>

namespace {

using namespace conformance;

constexpr const char* usage =
    "airmuster_conformance_runner CASES --cli PROGRAM [options]\n"
    "  --with LIST     what to ask: board,plan,month,starts,rulebook,import\n"
    "                  (default starts,board,rulebook,import)\n"
    "  --rename SEED   other names for all keys; 'random': AIRMUSTER_SEED or a new seed\n"
    "  --name TEXT     only case files whose name contains it\n"
    "  --jobs N        cases at a time (default 2)\n"
    "  --limit S       seconds for each call (default 120)\n"
    "  --stop          stop at the first case that fails\n"
    "Exit status 0: all passed; 1: one failed; 2: none was run, or one is not understood.\n";

struct Options {
    std::filesystem::path cases;
    std::string name;
    Settings settings;
    unsigned jobs = 2;
    bool stop = false;
};

bool readAsked(const std::string& list, Asked& asked) {
    asked = {};
    std::istringstream words(list);
    for (std::string word; std::getline(words, word, ',');) {
        bool* wanted = word == "board"      ? &asked.board
                       : word == "plan"     ? &asked.plan
                       : word == "month"    ? &asked.month
                       : word == "starts"   ? &asked.starts
                       : word == "rulebook" ? &asked.rulebook
                       : word == "import"   ? &asked.import
                                            : nullptr;
        if (wanted == nullptr) {
            return false;
        }
        *wanted = true;
    }
    return true;
}

std::uint64_t seedOf(const std::string& word) {
    if (word != "random") {
        return std::strtoull(word.c_str(), nullptr, 10);
    }
    if (const char* given = std::getenv("AIRMUSTER_SEED"); given != nullptr && *given != '\0') {
        return std::strtoull(given, nullptr, 10);
    }
    return std::random_device{}();
}

bool readOption(const std::string& option, const std::string& value, Options& options) {
    if (option == "--cli") {
        options.settings.program = std::filesystem::absolute(value);
    } else if (option == "--with") {
        return readAsked(value, options.settings.asked);
    } else if (option == "--rename") {
        options.settings.renameSeed = seedOf(value);
    } else if (option == "--name") {
        options.name = value;
    } else if (option == "--jobs") {
        options.jobs = static_cast<unsigned>(std::max(1, std::atoi(value.c_str())));
    } else if (option == "--limit") {
        options.settings.limit = std::chrono::seconds(std::max(1, std::atoi(value.c_str())));
    } else {
        return false;
    }
    return true;
}

bool readOptions(const std::vector<std::string>& words, Options& options) {
    readAsked("starts,board,rulebook,import", options.settings.asked);
    for (std::size_t place = 0; place < words.size(); ++place) {
        if (words[place] == "--stop") {
            options.stop = true;
        } else if (words[place].rfind("--", 0) == 0) {
            if (place + 1 == words.size() || !readOption(words[place], words[place + 1], options)) {
                return false;
            }
            ++place;
        } else if (options.cases.empty()) {
            options.cases = words[place];
        } else {
            return false;
        }
    }
    return !options.cases.empty() && !options.settings.program.empty();
}

struct Total {
    Counts counts;
    int passed = 0;
    int failed = 0;
    int empty = 0;  // cases of which nothing is asked
};

void add(const Case& given, const CaseResult& result, Total& total) {
    constexpr std::size_t most = 6;
    total.counts += result.counts;
    if (!result.failures.empty()) {
        ++total.failed;
        std::printf("FAILED %s [%s]\n", given.name.c_str(), given.clause.c_str());
        for (std::size_t place = 0; place < std::min(most, result.failures.size()); ++place) {
            std::printf("    %s\n", result.failures[place].c_str());
        }
        if (result.failures.size() > most) {
            std::printf("    … and %zu more\n", result.failures.size() - most);
        }
    } else if (result.counts.questions() + result.counts.refusedImports == 0) {
        ++total.empty;
    } else {
        ++total.passed;
    }
}

Total runAll(const std::vector<Case>& cases, const Options& options) {
    Total total;
    std::mutex lock;
    std::atomic<std::size_t> next{0};
    const auto work = [&] {
        for (std::size_t place = next++; place < cases.size(); place = next++) {
            CaseResult result;
            try {
                result = runCase(cases[place], options.settings);
            } catch (const std::exception& trouble) {
                result.failures.emplace_back(trouble.what());
            }
            const std::lock_guard guard(lock);
            add(cases[place], result, total);
            if (options.stop && total.failed > 0) {
                next = cases.size();
            }
        }
    };
    std::vector<std::jthread> threads;
    for (unsigned job = 0; job < options.jobs; ++job) {
        threads.emplace_back(work);
    }
    threads.clear();
    return total;
}

void report(const Total& total) {
    const Counts& counts = total.counts;
    std::printf("%d cases with %d questions asked:", total.passed + total.failed,
                counts.questions());
    for (const auto& [command, count] : counts.asked) {
        std::printf(" %s %d,", std::string(commandName(command)).c_str(), count);
    }
    std::printf(" and %d imports to be refused.\n", counts.refusedImports);
    if (counts.monthsInPart > 0) {
        std::printf("Compared in their starts only, the rest comes next: month %d.\n",
                    counts.monthsInPart);
    }
    for (const auto& [command, count] : counts.passedOver) {
        std::printf("Not asked: %s %d.\n", std::string(commandName(command)).c_str(), count);
    }
    if (total.empty > 0) {
        std::printf("Cases of which nothing was asked: %d.\n", total.empty);
    }
    std::printf("%d passed, %d failed\n", total.passed, total.failed);
}

}  // namespace

int main(int count, char** words) {
    Options options;
    if (!readOptions({words + 1, words + count}, options)) {
        std::fputs(usage, stderr);
        return 2;
    }
    if (options.settings.renameSeed) {
        // The faults of a rulebook are in its words, so those questions stay out.
        options.settings.asked.rulebook = false;
        std::printf("Other names for every key; again with --rename %llu\n",
                    static_cast<unsigned long long>(*options.settings.renameSeed));
    }
    const auto cases = readCases(options.cases, options.name);
    if (!cases) {
        std::fprintf(stderr, "%s\n", cases.error().c_str());
        return 2;
    }
    const Total total = runAll(*cases, options);
    report(total);
    if (total.passed + total.failed == 0) {
        std::fprintf(stderr, "No case was run from %s.\n", options.cases.c_str());
        return 2;
    }
    return total.failed == 0 ? 0 : 1;
}
