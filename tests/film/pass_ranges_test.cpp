#include "film/pass_ranges.h"

#include <doctest/doctest.h>

using namespace dapple;

namespace {

PassRanges ranges(const std::vector<PassRange>& list) {
    PassRanges result;
    for (const PassRange& range : list) result.add(range);
    return result;
}

}  // namespace

TEST_CASE("ranges of passes join without a gap, in whatever order they are added") {
    const PassRanges whole(PassRange{0, 9});
    CHECK(ranges({{0, 3}, {3, 7}, {7, 9}}) == whole);
    CHECK(ranges({{7, 9}, {0, 3}, {3, 7}}) == whole);
    CHECK(ranges({{3, 7}, {7, 9}, {0, 3}}) == whole);
    CHECK(ranges({{5, 6}, {0, 2}}).ranges() == std::vector<PassRange>{{0, 2}, {5, 6}});
}

TEST_CASE("passes are counted, by parity and below a number") {
    const PassRanges passes = ranges({{1, 4}, {6, 8}});  // 1 2 3, 6 7
    CHECK(passes.count() == 5);
    CHECK(passes.odd_count() == 3);
    CHECK(passes.count_below(0) == 0);
    CHECK(passes.count_below(3) == 2);
    CHECK(passes.count_below(7) == 4);
    CHECK(passes.first_missing(0) == 0);
    CHECK(passes.first_missing(1) == 4);
    CHECK(passes.first_missing(7) == 8);
}

TEST_CASE("passes that are the same are found, and passes that are missing") {
    const PassRanges passes = ranges({{0, 4}, {6, 8}});
    CHECK(passes.overlaps(ranges({{3, 5}})));
    CHECK_FALSE(passes.overlaps(ranges({{4, 6}, {8, 9}})));
    CHECK(passes.contains(ranges({{1, 3}, {7, 8}})));
    CHECK_FALSE(passes.contains(ranges({{3, 5}})));
    CHECK(missing_passes(passes, {0, 10}) == ranges({{4, 6}, {8, 10}}));
    CHECK(missing_passes(passes, {2, 5}) == ranges({{4, 5}}));
    CHECK(missing_passes({}, {3, 5}) == ranges({{3, 5}}));
    CHECK(to_string(passes) == "1 to 4, 7 to 8");
    CHECK(to_string(PassRanges(PassRange{2, 3})) == "3");
}

TEST_CASE("numbers that are no ranges are refused") {
    const auto read = [](const std::vector<int64_t>& numbers) {
        return PassRanges::from_flat(numbers).has_value();
    };
    CHECK(read({}));
    CHECK(read(ranges({{0, 4}, {6, 8}}).flat()));
    for (const auto& bad : std::vector<std::vector<int64_t>>{
             {0}, {0, 0}, {-1, 2}, {3, 2}, {0, 4, 4, 8}, {6, 8, 0, 4}, {0, 4, 2, 8}}) {
        CHECK_FALSE(read(bad));
    }
}
