#include "film/merge_films.h"

#include <algorithm>

namespace dapple {

namespace {

template <class Sums>
void add_sums(Sums& to, const Sums& part) {
    for (size_t i = 0; i < to.size(); ++i) to[i] += part[i];
}

// Entries of equal length for each pass of a film, in the order of their numbers.
struct PassRows {
    const PassRanges& passes;
    const std::vector<double>& values;

    size_t length() const {
        const auto count = static_cast<size_t>(passes.count());
        return count > 0 ? values.size() / count : 0;
    }
};

std::vector<double> merged_rows(const PassRows& a, const PassRows& b) {
    struct Piece {
        PassRange range;
        const PassRows* from;
    };
    std::vector<Piece> pieces;
    for (const PassRows* rows : {&a, &b}) {
        for (const PassRange& range : rows->passes.ranges()) pieces.push_back({range, rows});
    }
    std::sort(pieces.begin(), pieces.end(), [](const Piece& x, const Piece& y) {
        return x.range.first < y.range.first;
    });
    std::vector<double> merged;
    merged.reserve(a.values.size() + b.values.size());
    for (const Piece& piece : pieces) {
        const size_t length = piece.from->length();
        const auto row =
            static_cast<size_t>(piece.from->passes.count_below(piece.range.first)) * length;
        const auto count = static_cast<size_t>(piece.range.count()) * length;
        const auto first = piece.from->values.begin() + static_cast<std::ptrdiff_t>(row);
        merged.insert(merged.end(), first, first + static_cast<std::ptrdiff_t>(count));
    }
    return merged;
}

bool can_add(const FilmState& to, const FilmState& part) {
    return is_like(to, part) && to.region_passes.size() == part.region_passes.size() &&
           !to.passes.overlaps(part.passes);
}

}  // namespace

bool add_film(FilmState& to, const FilmState& part) {
    if (!can_add(to, part)) return false;
    to.rays += part.rays;
    to.nonfinite += part.nonfinite;
    add_sums(to.sums, part.sums);
    add_sums(to.drawn_xyz, part.drawn_xyz);
    add_sums(to.luminance_squares, part.luminance_squares);
    add_sums(to.walk_differences, part.walk_differences);
    add_sums(to.other_light, part.other_light);
    add_sums(to.odd_other_light, part.odd_other_light);
    add_sums(to.colour_sums, part.colour_sums);
    for (size_t i = 0; i < to.brightest_pass.size(); ++i) {
        to.brightest_pass[i] = std::max(to.brightest_pass[i], part.brightest_pass[i]);
    }
    const auto merge_rows = [&](std::vector<double>& rows, const std::vector<double>& others) {
        rows = merged_rows({to.passes, rows}, {part.passes, others});
    };
    merge_rows(to.frame_passes, part.frame_passes);
    for (size_t r = 0; r < to.region_passes.size(); ++r) {
        merge_rows(to.region_passes[r], part.region_passes[r]);
    }
    to.passes.add(part.passes);
    return true;
}

bool add_checkpoint(Checkpoint& to, const Checkpoint& part) {
    if (!can_add(to.frame, part.frame) || !can_add(to.meters, part.meters)) return false;
    return add_film(to.frame, part.frame) && add_film(to.meters, part.meters);
}

}  // namespace dapple
