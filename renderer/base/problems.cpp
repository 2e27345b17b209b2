#include "base/problems.h"

#include <algorithm>
#include <numeric>

#include "base/other_words.h"

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

// Damerau (1964): changes, insertions, deletions, and swaps of neighbours, each counted once.
size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<size_t> before;
    std::vector<size_t> above(b.size() + 1);
    std::iota(above.begin(), above.end(), size_t{0});
    for (size_t i = 1; i <= a.size(); ++i) {
        std::vector<size_t> row(b.size() + 1, i);
        for (size_t j = 1; j <= b.size(); ++j) {
            const size_t change = above[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            row[j] = std::min({above[j] + 1, row[j - 1] + 1, change});
            const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
            if (swapped) row[j] = std::min(row[j], before[j - 2] + 1);
        }
        before = std::move(above);
        above = std::move(row);
    }
    return above[b.size()];
}

// Without the unit at its end: beam_angle_deg and beam_angle are the same word.
std::string without_unit(std::string word) {
    for (const std::string_view unit : {"_cd_m2",
                                        "_mm",
                                        "_cm",
                                        "_m",
                                        "_deg",
                                        "_degrees",
                                        "_s",
                                        "_k",
                                        "_lm",
                                        "_lumens",
                                        "_lx",
                                        "_cd",
                                        "_w",
                                        "_a",
                                        "_px"}) {
        if (word.size() > unit.size() && word.ends_with(unit)) {
            word.resize(word.size() - unit.size());
            break;
        }
    }
    return word;
}

// More edits than this make another word.
size_t most_edits(size_t length) {
    if (length <= 3) return 1;
    return length <= 6 ? 2 : length / 3;
}

// Half of the letters alike is no likeness, but "golden" is "gold".
bool is_alike(const std::string& word, const std::string& candidate, size_t distance) {
    if (candidate.size() >= 3 && word.starts_with(candidate)) return true;
    return 2 * distance < std::max<size_t>(1, candidate.size());
}

// "beam" and "beam_range"
bool begins_with_word(const std::string& longer, const std::string& word) {
    return word.size() >= 3 && longer.starts_with(word + "_");
}

}  // namespace

std::string nearest_word(std::string_view word, const std::vector<std::string>& candidates) {
    const std::string meant = without_unit(plain_word(word));
    std::string best;
    size_t best_distance = most_edits(meant.size()) + 1;
    for (const std::string& candidate : candidates) {
        const std::string plain = without_unit(plain_word(candidate));
        const size_t distance = edit_distance(meant, plain);
        if (distance < best_distance && is_alike(meant, plain, distance)) {
            best = candidate;
            best_distance = distance;
        }
    }
    if (best_distance <= 1 && !best.empty()) return best;
    if (const OtherWord* other = find_other_word(word, candidates)) return std::string(other->ours);
    if (!best.empty()) return best;
    for (const std::string& candidate : candidates) {
        if (begins_with_word(plain_word(candidate), meant)) return candidate;
    }
    return "";
}

}  // namespace dapple
