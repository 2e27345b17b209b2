#include "base/name_words.h"

#include <doctest/doctest.h>

using namespace dapple;

TEST_CASE("names are searched word by word") {
    CHECK(name_has_word("Key light, left", {"key"}));
    CHECK(name_has_word("figure_skin", {"skin"}));
    CHECK_FALSE(name_has_word("monkey", {"key"}));
    CHECK_FALSE(name_has_word("typeface", {"face"}));
    CHECK(words_of_name("Face, key-side 2") ==
          std::vector<std::string>{"face", "key", "side", "2"});
}
