#include "film/pass_ranges.h"

#include <algorithm>

namespace dapple {

std::optional<PassRanges> PassRanges::from_flat(std::span<const int64_t> numbers) {
    PassRanges result;
    if (numbers.size() % 2 != 0) return std::nullopt;
    for (size_t i = 0; i < numbers.size(); i += 2) {
        const bool follows = i == 0 ? numbers[i] >= 0 : numbers[i] > numbers[i - 1];
        if (!follows || numbers[i + 1] <= numbers[i]) return std::nullopt;
        result.ranges_.push_back({numbers[i], numbers[i + 1]});
    }
    return result;
}

std::vector<int64_t> PassRanges::flat() const {
    std::vector<int64_t> numbers;
    for (const PassRange& r : ranges_) numbers.insert(numbers.end(), {r.first, r.end});
    return numbers;
}

void PassRanges::add(PassRange range) {
    if (range.count() <= 0) return;
    const auto after = std::find_if(
        ranges_.begin(), ranges_.end(), [&](const PassRange& r) { return r.first >= range.end; });
    const auto at = ranges_.insert(after, range);
    // Joins neighbours without a gap.
    const auto next = at + 1;
    if (next != ranges_.end() && next->first == at->end) {
        at->end = next->end;
        ranges_.erase(next);
    }
    if (at != ranges_.begin() && (at - 1)->end == at->first) {
        (at - 1)->end = at->end;
        ranges_.erase(at);
    }
}

void PassRanges::add(const PassRanges& others) {
    for (const PassRange& r : others.ranges_) add(r);
}

int64_t PassRanges::count() const {
    int64_t count = 0;
    for (const PassRange& r : ranges_) count += r.count();
    return count;
}

int64_t PassRanges::odd_count() const {
    int64_t count = 0;
    for (const PassRange& r : ranges_) count += r.end / 2 - r.first / 2;
    return count;
}

int64_t PassRanges::count_below(int64_t pass) const {
    int64_t count = 0;
    for (const PassRange& r : ranges_) {
        if (r.first < pass) count += std::min(r.end, pass) - r.first;
    }
    return count;
}

int64_t PassRanges::first_missing(int64_t from) const {
    for (const PassRange& r : ranges_) {
        if (r.first <= from && from < r.end) return r.end;
    }
    return from;
}

bool PassRanges::overlaps(const PassRanges& other) const {
    for (const PassRange& a : ranges_) {
        for (const PassRange& b : other.ranges_) {
            if (a.first < b.end && b.first < a.end) return true;
        }
    }
    return false;
}

bool PassRanges::contains(const PassRanges& other) const {
    return std::all_of(other.ranges_.begin(), other.ranges_.end(), [&](const PassRange& b) {
        return std::any_of(ranges_.begin(), ranges_.end(), [&](const PassRange& a) {
            return a.first <= b.first && b.end <= a.end;
        });
    });
}

std::string to_string(const PassRanges& passes) {
    std::string text;
    for (const PassRange& r : passes.ranges()) {
        text += (text.empty() ? "" : ", ") + std::to_string(r.first + 1);
        if (r.count() > 1) text += " to " + std::to_string(r.end);
    }
    return text.empty() ? "none" : text;
}

PassRanges missing_passes(const PassRanges& passes, PassRange whole) {
    PassRanges missing;
    int64_t next = whole.first;
    for (const PassRange& r : passes.ranges()) {
        missing.add(PassRange{next, std::min(r.first, whole.end)});
        next = std::max(next, r.end);
    }
    missing.add(PassRange{next, whole.end});
    return missing;
}

}  // namespace dapple
