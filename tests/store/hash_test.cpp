// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// SHA-256 against published values, and the chain against the project's own example.
#include "store/hash.h"

#include "logbook_files.h"

#include <catch2/catch.hpp>

using namespace store;

TEST_CASE("SHA-256 gives the published values", "[reference]") {
    struct Vector {
        std::string input, expected;
    };
    const std::vector<Vector> vectors = {
        // NIST CAVP, SHA256ShortMsg, Len 0
        {"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"},
        // NIST CAVP, SHA256ShortMsg, Len 8
        {"\xd3", "28969cdfa74a12c82f3bad960b0b000aca2ac329deea5c2328ebc6f2ba9802c1"},
        // FIPS 180-4, examples of SHA-256: one block, two blocks, a million letters
        {"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
        {"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
         "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"},
        {std::string(1'000'000, 'a'),
         "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"},
    };
    for (const Vector& vector : vectors) {
        CHECK(toHex(sha256(vector.input)) == vector.expected);
    }
}

TEST_CASE("A chain hash is that of the hash before and the content", "[unit]") {
    const Hash previous = sha256("before");
    const std::string bytes(previous.begin(), previous.end());
    CHECK(chainHash(previous, "content") == sha256(bytes + "content"));
    CHECK(chainHash(Hash{}, "") == sha256(std::string(32, '\0')));
}

TEST_CASE("The example of the data format has its content and hash", "[reference]") {
    const auto record = test::recordOf(
        R"({"station":"icu-1","seq":1,"at":"2026-03-02T14:00:00.000Z",)"
        R"("entered":"2026-03-02T14:00:05Z","by":"mt","device":"KB-0001","kind":"note",)"
        R"("body":{"text":"Größe 1","lot":null}})");
    CHECK(record.content ==
          R"({"at":"2026-03-02T14:00:00Z","body":{"text":"Größe 1"},"by":"mt",)"
          R"("device":"KB-0001","entered":"2026-03-02T14:00:05Z","kind":"note","seq":1,)"
          R"("station":"icu-1"})");
    // Computed apart from this program when the format was laid down.
    const std::string expected =
        "fd0f8c1b3b9829eb2d37c838eec212054e80adc3f3a63c4a278ccde5a637d5ee";
    CHECK(toHex(chainHash(Hash{}, record.content)) == expected);

    const test::TemporaryFolder folder;
    Logbook logbook = test::create(folder / "kestrel.airmuster");
    test::append(logbook, {record});
    CHECK(toHex(logbook.heads()->at("icu-1").head.hash) == expected);
    CHECK(logbook.findRecord({"icu-1", 1})->content == record.content);
}

TEST_CASE("A hash survives its text, and nothing else is one", "[unit]") {
    const Hash hash = sha256("abc");
    CHECK(hashFromHex(toHex(hash)) == hash);
    CHECK_FALSE(hashFromHex(""));
    CHECK_FALSE(hashFromHex(toHex(hash).substr(1)));
    CHECK_FALSE(hashFromHex(toHex(hash) + "0"));
    CHECK_FALSE(hashFromHex("BA7816BF8F01CFEA414140DE5DAE2223B00361A396177A9CB410FF61F20015AD"));
    CHECK_FALSE(hashFromHex(std::string(63, '0') + "g"));
}
