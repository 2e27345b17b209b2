#include "set/text_lines.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace dapple {

namespace {

constexpr size_t kLargestPhotometricFile =
    16 << 20;  // bytes; the largest photometric files have about 2 MB

}  // namespace

bool read_text_lines(const std::string& path, Problems& problems, TextLines& text) {
    if (!read_text_file(path, problems, text.file)) return false;
    if (text.file.size > kLargestPhotometricFile) {
        problems.add({path}, "", "has more than 16 MB; must be a table of at most 16 MB");
        return false;
    }
    text.lines = split_lines(text.file.text());
    return true;
}

std::vector<std::string_view> split_lines(std::string_view text) {
    if (text.starts_with("\xef\xbb\xbf")) text.remove_prefix(3);
    std::vector<std::string_view> lines;
    while (!text.empty()) {
        const size_t end = std::min(text.find_first_of("\r\n"), text.size());
        lines.push_back(text.substr(0, end));
        const bool two = text.substr(end).starts_with("\r\n");
        text.remove_prefix(std::min(end + (two ? 2 : 1), text.size()));
    }
    return lines;
}

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view kBlanks = " \t\v\f";
    const size_t first = text.find_first_not_of(kBlanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(kBlanks) - first + 1);
}

std::vector<std::string_view> split_words(std::string_view line, std::string_view separators) {
    std::vector<std::string_view> words;
    for (;;) {
        const size_t first = line.find_first_not_of(separators);
        if (first == std::string_view::npos) return words;
        line.remove_prefix(first);
        const size_t end = std::min(line.find_first_of(separators), line.size());
        words.push_back(line.substr(0, end));
        line.remove_prefix(end);
    }
}

bool parse_number(std::string_view word, double& value, bool decimal_comma) {
    std::string text(word.starts_with('+') ? word.substr(1) : word);
    if (text.starts_with('-') && word.starts_with('+')) return false;
    if (decimal_comma) std::replace(text.begin(), text.end(), ',', '.');
    const char* end = text.data() + text.size();
    const auto [parsed_to, error] = std::from_chars(text.data(), end, value);
    return error == std::errc() && parsed_to == end && std::isfinite(value);
}

}  // namespace dapple
