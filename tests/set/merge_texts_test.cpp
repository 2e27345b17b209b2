#include "set/merge_texts.h"

#include <doctest/doctest.h>

using namespace dapple;

namespace {

const std::string kText = "a = 1\nb = 2\nc = 3\nd = 4\ne = 5";

}  // namespace

TEST_CASE("changes of different lines are both taken") {
    CHECK(merge_texts(kText,
                      "a = 9\nb = 2\nc = 3\nd = 4\ne = 5",
                      "a = 1\nb = 2\nc = 3\nd = 4\ne = 8") == "a = 9\nb = 2\nc = 3\nd = 4\ne = 8");
    CHECK(merge_texts(
              kText, "b = 2\nc = 3\nd = 4\ne = 5", "a = 1\nb = 2\nc = 3\nnew\nd = 4\ne = 5") ==
          "b = 2\nc = 3\nnew\nd = 4\ne = 5");
    CHECK(merge_texts(kText, kText, "other") == "other");
    CHECK(merge_texts(kText, "mine", kText) == "mine");
    CHECK(merge_texts("", "", "") == "");
}

TEST_CASE("the same change by both is taken once") {
    const std::string same = "a = 1\nb = 7\nc = 3\nd = 4\ne = 5";
    CHECK(merge_texts(kText, same, same) == same);
}

TEST_CASE("different changes of one line, or of lines that touch, are not merged") {
    CHECK(!merge_texts(
        kText, "a = 1\nb = 7\nc = 3\nd = 4\ne = 5", "a = 1\nb = 8\nc = 3\nd = 4\ne = 5"));
    CHECK(!merge_texts(
        kText, "a = 1\nb = 7\nc = 3\nd = 4\ne = 5", "a = 1\nb = 2\nc = 8\nd = 4\ne = 5"));
    CHECK(!merge_texts(kText, kText + "\nf = 1", kText + "\nf = 2"));
}
