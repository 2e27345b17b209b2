#include "base/written_size.h"

#include <algorithm>
#include <cctype>

#include "base/written_number.h"

namespace dapple {

namespace {

using Parts = std::vector<std::string>;

bool is_digit(char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0;
}

// Replaces every `from`.
std::string replaced(std::string text, const std::string& from, const std::string& to) {
    for (size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
    return text;
}

// In small letters, with × for every sign that stands between two lengths, and with plain quotes
// for feet and inches.
std::string plain(const std::string& text) {
    std::string small;
    for (const char c : text)
        small += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    for (const char* sign : {"\xc3\x97", "*", ";", " by "}) small = replaced(small, sign, "x");
    for (const char* quote : {"\xe2\x80\xb2", "\xe2\x80\x99"}) small = replaced(small, quote, "'");
    for (const char* quote : {"\xe2\x80\xb3", "\xe2\x80\x9d", "''"}) {
        small = replaced(small, quote, "\"");
    }
    return small;
}

Parts split(const std::string& text, char at) {
    Parts parts(1);
    for (const char c : text) {
        if (c == at) {
            parts.emplace_back();
        } else {
            parts.back() += c;
        }
    }
    return parts;
}

std::string unit_behind(const std::string& length) {
    const size_t end = length.find_last_of("0123456789.");
    std::string unit = end == std::string::npos ? "" : length.substr(end + 1);
    std::erase(unit, ' ');
    return unit;
}

bool is_inches(const std::string& word) {
    return word == "in" || word == "\"" || word == "inch" || word == "inches";
}

// The unit for lengths that have none; feet and inches at the end mean feet.
std::string common_unit(const std::string& last) {
    const std::string unit = unit_behind(last);
    const bool has_feet =
        last.find('\'') != std::string::npos || last.find('f') != std::string::npos;
    return is_inches(unit) && has_feet ? "ft" : unit;
}

// Whether word `i` begins with the inches of a length that ends in feet: "12 ft 6 in", 12' 6".
bool are_inches_of_feet(const Parts& words, size_t i, const std::string& length) {
    const std::string before = unit_behind(length);
    const bool has_feet = before == "ft" || before == "'" || before == "feet" || before == "foot";
    const std::string unit = unit_behind(words[i]);
    const bool is_whole = words[i].find_first_of("'f") != std::string::npos;  // 12'6"
    return has_feet && !is_whole &&
           (is_inches(unit) || (unit.empty() && i + 1 < words.size() && is_inches(words[i + 1])));
}

// "9 m 12 m 4 m": a number begins a length, unless it is inches behind feet or a fraction.
Parts split_at_blanks(const std::string& text) {
    Parts words = split(text, ' ');
    std::erase(words, "");
    Parts lengths;
    for (size_t i = 0; i < words.size(); ++i) {
        const bool begins = is_digit(words[i].front()) || words[i].front() == '.';
        const bool is_fraction = words[i].find('/') != std::string::npos;
        const bool goes_on = !lengths.empty() && (!begins || is_fraction ||
                                                  are_inches_of_feet(words, i, lengths.back()));
        if (goes_on) {
            lengths.back() += " " + words[i];
        } else {
            lengths.push_back(words[i]);
        }
    }
    return lengths;
}

// A comma between digits is a decimal comma if other signs part the lengths.
Parts lengths_in(const std::string& text, size_t sides) {
    Parts parts = split(text, 'x');
    if (parts.size() == sides) {
        for (std::string& part : parts) std::replace(part.begin(), part.end(), ',', '.');
        return parts;
    }
    parts = split(text, ',');
    return parts.size() == sides ? parts : split_at_blanks(replaced(text, ",", " "));
}

}  // namespace

std::optional<std::vector<double>> size_in_words(const std::string& text, size_t sides) {
    const Parts lengths = lengths_in(plain(text), sides);
    if (lengths.size() != sides || sides == 0) return std::nullopt;
    const std::string unit = common_unit(lengths.back());
    std::vector<double> size;
    for (const std::string& length : lengths) {
        const bool has_own = !unit_behind(length).empty();
        const auto side =
            number_in_words(has_own ? length : length + " " + unit, quantity_of("height_m"));
        if (!side) return std::nullopt;
        size.push_back(*side);
    }
    return size;
}

}  // namespace dapple
