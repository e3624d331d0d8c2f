// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The layers as layers.txt has them: who may include whose headers, and who may know SQLite, Qt and
// the clock.
#include "layering/source_file.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <regex>
#include <set>
#include <sstream>

using namespace layering;

namespace {

struct Layer {
    std::set<std::string> uses;
    std::set<std::string> knows;
};

std::map<std::string, Layer> readLayers() {
    std::map<std::string, Layer> layers;
    for (const SourceFile& file : sourceFiles()) {
        if (file.path != "tests/layering/layers.txt") {
            continue;
        }
        for (const std::string& line : file.lines) {
            std::istringstream words(line.substr(0, line.find('#')));
            std::string name;
            if (!(words >> name)) {
                continue;
            }
            Layer& layer = layers[name];
            bool bar = false;
            for (std::string word; words >> word;) {
                if (word == "|") {
                    bar = true;
                } else {
                    (bar ? layer.knows : layer.uses).insert(word);
                }
            }
        }
    }
    return layers;
}

// "rules" of "src/rules/fold.cpp"; empty for other files.
std::string layerOf(const SourceFile& file) {
    const auto slash = file.path.find('/', 4);
    return file.isIn("src/") && file.isCpp() && slash != std::string::npos
               ? file.path.substr(4, slash - 4)
               : std::string();
}

template <typename Rule>
std::vector<std::string> breaches(const Rule& rule) {
    const auto layers = readLayers();
    std::vector<std::string> found;
    int files = 0;
    for (const SourceFile& file : sourceFiles()) {
        const std::string name = layerOf(file);
        if (name.empty()) {
            continue;
        }
        ++files;
        const auto layer = layers.find(name);
        if (layer == layers.end()) {
            found.push_back(file.path + " is in no layer of layers.txt");
            continue;
        }
        for (const Include& include : includesOf(file)) {
            if (!rule(name, layer->second, file, include)) {
                found.push_back(file.path + " includes " + include.name);
            }
        }
    }
    CHECK(files > 50);
    return found;
}

}  // namespace

TEST_CASE("A layer includes its own headers and those of the layers it uses", "[layering]") {
    const auto layers = readLayers();
    CHECK(layers.size() == 10);
    CHECK(breaches([&](const auto& name, const auto& layer, const auto&, const Include& include) {
              const std::string used = include.name.substr(0, include.name.find('/'));
              const bool inFolder = include.name.find('/') != std::string::npos;
              const bool known = inFolder && layers.contains(used);
              if (known) return used == name || layer.uses.contains(used);
              // Else a quoted header may only be one that the build makes of the layer's own data.
              return !include.quoted || include.name == "airmuster_" + name + "_embedded.h";
          }) == std::vector<std::string>());
}

TEST_CASE("A layer uses only layers that do not use it", "[layering]") {
    const auto layers = readLayers();
    for (const auto& [name, layer] : layers) {
        for (const std::string& used : layer.uses) {
            CAPTURE(name, used);
            REQUIRE(layers.contains(used));
            CHECK_FALSE(layers.at(used).uses.contains(name));
        }
    }
}

TEST_CASE("SQLite is known to the store only", "[layering]") {
    CHECK(breaches([](const auto&, const Layer& layer, const auto&, const Include& include) {
              const bool sqlite =
                  include.name.rfind("sqlite3", 0) == 0 || include.name.rfind("SQLiteCpp", 0) == 0;
              return !sqlite || layer.knows.contains("sqlite");
          }) == std::vector<std::string>());
}

TEST_CASE("Qt is known to paper and windows only", "[layering]") {
    CHECK(breaches(
              [](const auto& name, const Layer& layer, const auto& file, const Include& include) {
                  const bool qt = include.name.size() > 1 && include.name[0] == 'Q' &&
                                  std::isupper(static_cast<unsigned char>(include.name[1])) != 0;
                  const bool paperHeader = name == "print" && file.path.ends_with(".h");
                  return !qt || (layer.knows.contains("qt") && !paperHeader);
              }) == std::vector<std::string>());
}

TEST_CASE("Only one file reads the clock", "[layering]") {
    static const std::regex clock(
        R"(\bsystem_clock\s*::\s*now\b|\b(std\s*::\s*)?time\s*\(\s*(nullptr|NULL|0)\s*\))"
        R"(|\b(gettimeofday|clock_gettime|localtime|gmtime)(_r)?\s*\()");
    const auto layers = readLayers();
    std::vector<std::string> readers;
    for (const SourceFile& file : sourceFiles()) {
        if (!layerOf(file).empty() && std::regex_search(codeOnly(file.text), clock)) {
            CAPTURE(file.path);
            REQUIRE(layers.contains(layerOf(file)));
            CHECK(layers.at(layerOf(file)).knows.contains("clock"));
            readers.push_back(file.path);
        }
    }
    CAPTURE(readers);
    CHECK(readers.size() == 1);
}

TEST_CASE("No check of the trade has its name in the engine", "[layering]") {
    static const std::regex keys(
        R"re("(leak|oxygen_cal|flow_cal|co2_zero|self_test|circuit|flow_sensor|adult)")re");
    int files = 0;
    for (const SourceFile& file : sourceFiles()) {
        // The format itself asks for a warning where a rulebook speaks of a leak test in use.
        const bool warns = file.path == "src/rules/rulebook_lint.cpp";
        if (!file.isIn("src/rules/") || !file.isCpp() || warns) {
            continue;
        }
        ++files;
        std::size_t number = 0;
        for (const std::string& line : file.lines) {
            ++number;
            const std::string code = line.substr(0, line.find("//"));
            if (std::regex_search(code, keys)) {
                FAIL_CHECK(file.path << ":" << number << ": " << line);
            }
        }
    }
    CHECK(files > 20);
}
