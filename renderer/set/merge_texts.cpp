#include "set/merge_texts.h"

#include <algorithm>
#include <vector>

namespace dapple {

namespace {

using Lines = std::vector<std::string>;

// Each with its end of line.
Lines split_lines(const std::string& text) {
    Lines lines;
    for (size_t at = 0; at < text.size();) {
        const size_t end = std::min(text.size(), text.find('\n', at)) + 1;
        lines.push_back(text.substr(at, end - at));
        at = end;
    }
    return lines;
}

// Lines begin to end of the old text became `lines`.
struct Hunk {
    size_t begin = 0, end = 0;
    Lines lines;

    bool operator==(const Hunk&) const = default;
};

// The lengths of the longest common subsequences of what is left of both texts from each pair of
// lines on.
std::vector<std::vector<int>> common_lengths(const Lines& before, const Lines& after) {
    std::vector<std::vector<int>> common(before.size() + 1, std::vector<int>(after.size() + 1));
    for (size_t i = before.size(); i-- > 0;) {
        for (size_t k = after.size(); k-- > 0;) {
            common[i][k] = before[i] == after[k] ? common[i + 1][k + 1] + 1
                                                 : std::max(common[i + 1][k], common[i][k + 1]);
        }
    }
    return common;
}

std::vector<Hunk> hunks_between(const Lines& before, const Lines& after) {
    const std::vector<std::vector<int>> common = common_lengths(before, after);
    std::vector<Hunk> hunks;
    size_t i = 0;
    size_t k = 0;
    while (i < before.size() || k < after.size()) {
        if (i < before.size() && k < after.size() && before[i] == after[k]) {
            ++i;
            ++k;
            continue;
        }
        if (hunks.empty() || hunks.back().end != i) hunks.push_back({i, i, {}});
        const bool takes_out =
            k == after.size() || (i < before.size() && common[i + 1][k] >= common[i][k + 1]);
        if (takes_out) {
            hunks.back().end = ++i;
        } else {
            hunks.back().lines.push_back(after[k++]);
        }
    }
    return hunks;
}

}  // namespace

std::optional<std::string> merge_texts(const std::string& before,
                                       const std::string& mine,
                                       const std::string& theirs) {
    const Lines lines = split_lines(before);
    std::vector<Hunk> hunks = hunks_between(lines, split_lines(mine));
    for (Hunk& hunk : hunks_between(lines, split_lines(theirs))) {
        bool is_known = false;
        for (const Hunk& other : hunks) {
            if (other == hunk) is_known = true;
            const bool is_apart = hunk.end < other.begin || other.end < hunk.begin;
            if (!is_apart && !(other == hunk)) return std::nullopt;
        }
        if (!is_known) hunks.push_back(std::move(hunk));
    }
    std::sort(
        hunks.begin(), hunks.end(), [](const Hunk& a, const Hunk& b) { return a.begin < b.begin; });
    std::string text;
    size_t at = 0;
    const auto copy_to = [&](size_t end) {
        for (; at < end; ++at) text += lines[at];
    };
    for (const Hunk& hunk : hunks) {
        copy_to(hunk.begin);
        for (const std::string& line : hunk.lines) text += line;
        at = hunk.end;
    }
    copy_to(lines.size());
    return text;
}

}  // namespace dapple
