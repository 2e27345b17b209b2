// The numbers of the passes that a film has. Passes count from 0, and a film may have gaps.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace dapple {

struct PassRange {
    int64_t first = 0;
    int64_t end = 0;  // after the last

    int64_t count() const { return end - first; }
    bool operator==(const PassRange&) const = default;
};

class PassRanges {
  public:
    PassRanges() = default;
    explicit PassRanges(PassRange range) { add(range); }
    // From the numbers of flat(); nothing if they are not those of ranges.
    static std::optional<PassRanges> from_flat(std::span<const int64_t> numbers);
    std::vector<int64_t> flat() const;  // first, end, first, end …

    // The range must have none of the passes.
    void add(PassRange range);
    void add(const PassRanges& others);

    int64_t count() const;
    int64_t odd_count() const;                  // of the passes 1, 3, 5 …
    int64_t count_below(int64_t pass) const;    // of the passes with smaller numbers
    int64_t first_missing(int64_t from) const;  // the first pass from there on that is not there
    bool overlaps(const PassRanges& other) const;
    bool contains(const PassRanges& other) const;  // all of its passes
    // Ascending, none empty, with a gap between any two.
    const std::vector<PassRange>& ranges() const { return ranges_; }
    bool operator==(const PassRanges&) const = default;

  private:
    std::vector<PassRange> ranges_;
};

// "1 to 16, 33": as users count passes, from 1. "none" if there is none.
std::string to_string(const PassRanges& passes);
// The passes of `whole` that `passes` does not have.
PassRanges missing_passes(const PassRanges& passes, PassRange whole);

}  // namespace dapple
