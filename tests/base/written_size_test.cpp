#include "base/written_size.h"

#include <doctest/doctest.h>

using namespace dapple;

namespace {

struct WrittenSize {
    const char* text;
    std::vector<double> metres;
};

}  // namespace

TEST_CASE("a size may be written as people say it") {
    for (const WrittenSize& size :
         std::vector<WrittenSize>{{"8 x 12 x 4 m", {8, 12, 4}},
                                  {"8,5 x 12 x 4", {8.5, 12, 4}},
                                  {"800 x 1200 x 400 cm", {8, 12, 4}},
                                  {"26' 40' 12'6\"", {7.9248, 12.192, 3.81}},
                                  {"90 x 60 cm", {0.9, 0.6}},
                                  {"0.9, 0.6", {0.9, 0.6}},
                                  {"1,2 by 0,9 m", {1.2, 0.9}},
                                  {"24 in x 36 in", {0.6096, 0.9144}},
                                  {"4 x 6 ft", {1.2192, 1.8288}}}) {
        CAPTURE(std::string(size.text));
        const auto found = size_in_words(size.text, size.metres.size());
        REQUIRE(found);
        for (size_t i = 0; i < size.metres.size(); ++i) {
            CHECK((*found)[i] == doctest::Approx(size.metres[i]));
        }
    }
}

TEST_CASE("what is not as many lengths is no size") {
    for (const char* text :
         {"", "large", "8 x 12", "8 x 12 x 4 x 2 m", "8 x 12 x", "8 x 12 x 4 kg"}) {
        CAPTURE(text);
        CHECK_FALSE(size_in_words(text, 3));
    }
    CHECK_FALSE(size_in_words("90 cm", 2));
}
