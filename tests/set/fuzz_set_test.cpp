// Damaged set files are read or give problems, and never cause a crash. Run these tests with the
// address and undefined-behaviour sanitizers too (tools/build asan).
#include <doctest/doctest.h>

#include "base/random.h"
#include "set/full_example.h"
#include "set/read_set.h"

using namespace dapple;

namespace {

// Reads the text and checks that each problem is one line.
size_t read_and_count(const std::string& text) {
    Problems problems;
    const SetDescription set = read_set_text(text, "set.toml", problems);
    for (const Problem& problem : problems.all()) {
        REQUIRE(to_string(problem).find('\n') == std::string::npos);
    }
    REQUIRE((set.parsed || problems.all().size() == 1));
    return problems.all().size();
}

std::string repeated(const std::string& part, int times) {
    std::string text;
    for (int i = 0; i < times; ++i) text += part;
    return text;
}

}  // namespace

TEST_CASE("a set file cut off anywhere is read or refused") {
    for (size_t length = 0; length < kFullExample.size(); length += 3) {
        read_and_count(kFullExample.substr(0, length));
    }
}

TEST_CASE("a set file with changed bytes is read or refused") {
    RandomStream random(1, 0, 0, Purpose::kTest);
    size_t refused = 0;
    for (int round = 0; round < 1500; ++round) {
        std::string text = round % 8 == 0 ? kTapeExample : kFullExample;
        const uint32_t changes = 1 + random.next_bits() % 4;
        for (uint32_t i = 0; i < changes; ++i) {
            text[random.next_bits() % text.size()] = static_cast<char>(random.next_bits() & 0xff);
        }
        refused += read_and_count(text) > 0;
    }
    CHECK(refused > 500);  // most bytes are part of a key or a number
}

TEST_CASE("a set file with pieces moved about is read or refused") {
    RandomStream random(2, 0, 0, Purpose::kTest);
    for (int round = 0; round < 500; ++round) {
        const size_t from = random.next_bits() % kFullExample.size();
        const size_t length = random.next_bits() % 40;
        std::string text = kFullExample;
        text.insert(random.next_bits() % text.size(), kFullExample.substr(from, length));
        text.erase(random.next_bits() % text.size(), random.next_bits() % 8);
        read_and_count(text);
    }
}

TEST_CASE("garbage is refused") {
    RandomStream random(3, 0, 0, Purpose::kTest);
    for (int round = 0; round < 300; ++round) {
        std::string text(random.next_bits() % 400, '\0');
        for (char& c : text) c = static_cast<char>(random.next_bits() & 0xff);
        read_and_count(text);
    }
}

TEST_CASE("deep nesting is refused and does not overflow the stack") {
    CHECK(read_and_count("a = " + repeated("[", 100000)) == 1);
    CHECK(read_and_count("a = " + repeated("{a = ", 100000)) == 1);
    CHECK(read_and_count("a" + repeated(".a", 100000) + " = 1") == 1);
    CHECK(read_and_count("1" + repeated(".1", 100000) + " = 1") == 1);
    CHECK(read_and_count("\"[\"" + repeated(".\"[\"", 100000) + " = 1") == 1);
    CHECK(read_and_count("[a" + repeated(" . a", 100000) + "]") == 1);
    CHECK(read_and_count(repeated("[[a]]\n", 2000)) == 1);
    // The deepest keys that are accepted are destroyed without harm.
    CHECK(read_and_count("a" + repeated(".a", 1999) + " = 1") == 1);
    CHECK(read_and_count("1.1" + repeated(" . 1.1", 1999) + " = 1") == 1);
    // Decimal points and full stops in comments do not count as dots in keys.
    CHECK(read_and_count(repeated("# 1.5\n", 100000)) == 0);
}
