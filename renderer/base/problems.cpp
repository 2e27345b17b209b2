#include "base/problems.h"

#include <algorithm>
#include <numeric>

namespace dapple {

std::string to_string(const Place& place) {
    std::string text = place.file;
    if (place.line > 0) {
        text += ":" + std::to_string(place.line);
        if (place.column > 0) text += ":" + std::to_string(place.column);
    }
    return text;
}

std::string to_string(const Problem& problem) {
    std::string text = to_string(problem.place);
    if (!text.empty()) text += ": ";
    if (!problem.key.empty()) text += problem.key + ": ";
    text += problem.message;
    // Names come from the user's files. A line break in a name must not break the printed line.
    std::replace_if(
        text.begin(),
        text.end(),
        [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; },
        '?');
    return text;
}

void Problems::add(Place place, std::string key, std::string message) {
    problems_.push_back({std::move(place), std::move(key), std::move(message)});
}

void Problems::note(Place place, std::string key, std::string message) {
    notes_.push_back({std::move(place), std::move(key), std::move(message)});
}

namespace {

// Levenshtein (1966), one row at a time.
size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), size_t{0});
    for (size_t i = 1; i <= a.size(); ++i) {
        size_t diagonal = row[0];
        row[0] = i;
        for (size_t j = 1; j <= b.size(); ++j) {
            const size_t change = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
            diagonal = row[j];
            row[j] = std::min({row[j] + 1, row[j - 1] + 1, change});
        }
    }
    return row[b.size()];
}

}  // namespace

std::string nearest_word(std::string_view word, const std::vector<std::string>& candidates) {
    std::string best;
    size_t best_distance = std::max<size_t>(2, word.size() / 2);
    for (const std::string& candidate : candidates) {
        const size_t distance = edit_distance(word, candidate);
        if (distance <= best_distance && (best.empty() || distance < best_distance)) {
            best = candidate;
            best_distance = distance;
        }
    }
    return best;
}

}  // namespace dapple
