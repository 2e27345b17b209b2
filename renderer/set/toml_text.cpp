#include "set/toml_text.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <system_error>

#include "base/problems.h"

namespace dapple {

namespace {

namespace fs = std::filesystem;

constexpr uintmax_t kMaxSetBytes = 4 << 20;  // a set file has a few kilobytes

std::string_view line_of(std::string_view text, size_t line) {
    for (; line > 1; --line) {
        const size_t end = text.find('\n');
        if (end == std::string_view::npos) return {};
        text.remove_prefix(end + 1);
    }
    return text.substr(0, text.find('\n'));
}

bool has_printed_quotes(std::string_view line) {
    constexpr std::array<std::string_view, 6> kQuotes = {"“", "”", "„", "‘", "’", "‚"};
    line = line.substr(0, line.find('"'));  // inside straight ones they are text
    line = line.substr(0, line.find('#'));
    return std::any_of(kQuotes.begin(), kQuotes.end(), [&](std::string_view quote) {
        return line.find(quote) != std::string_view::npos;
    });
}

std::string_view without_indent(std::string_view line) {
    const size_t first = line.find_first_not_of(" \t");
    return first == std::string_view::npos ? std::string_view() : line.substr(first);
}

// The nearest line above that gives the key in the same table, or that begins the table; 0: none.
size_t earlier_line(std::string_view text, size_t line, const std::string& name, bool is_table) {
    for (size_t above = line - 1; above > 0; --above) {
        const std::string_view words = without_indent(line_of(text, above));
        if (is_table && words.starts_with("[" + name + "]")) return above;
        if (is_table) continue;
        if (words.starts_with('[')) return 0;
        const bool is_key =
            words.starts_with(name) && without_indent(words.substr(name.size())).starts_with('=');
        if (is_key) return above;
    }
    return 0;
}

// "gel is given twice, first in line 55"; "" if the mistake is another.
std::string given_twice(std::string_view description, std::string_view text, size_t line) {
    if (description.find("cannot redefine existing ") == std::string_view::npos) return "";
    const size_t end = description.rfind('\'');
    const size_t begin = description.rfind('\'', end - 1);
    if (begin == std::string_view::npos || begin == end) return "";
    const std::string name(description.substr(begin + 1, end - begin - 1));
    const bool is_table = without_indent(line_of(text, line)).starts_with('[');
    const size_t earlier = earlier_line(text, line, name, is_table);
    const std::string first = earlier > 0 ? ", first in line " + std::to_string(earlier) : "";
    return (is_table ? "[" + name + "]" : name) + " is given twice" + first;
}

// As text editors for other systems save it: with a mark at its start, or every other byte 0.
bool is_utf16(std::string_view text) {
    return text.starts_with("\xff\xfe") || text.starts_with("\xfe\xff") ||
           text.substr(0, 2).find('\0') != std::string_view::npos;
}

}  // namespace

std::string read_toml_text(const std::string& path) {
    std::error_code error;
    const fs::file_status status = fs::status(path, error);
    if (!fs::exists(status)) throw FileError(path, "no such file");
    if (fs::is_directory(status)) throw FileError(path, "is a folder; must be a set file (TOML)");
    if (!fs::is_regular_file(status)) throw FileError(path, "is not a regular file");
    std::ifstream stream(path, std::ios::binary);
    const uintmax_t size = fs::file_size(path, error);
    if (!stream || error) throw FileError(path, "cannot be read");
    if (size > kMaxSetBytes) throw FileError(path, "has more than 4 MB; must be a set file (TOML)");
    std::string text(static_cast<size_t>(size), '\0');
    stream.read(text.data(), static_cast<std::streamsize>(size));
    if (stream.bad()) throw FileError(path, "cannot be read");
    text.resize(static_cast<size_t>(stream.gcount()));
    if (is_utf16(text)) throw FileError(path, "is UTF-16; save it as plain text in UTF-8");
    return text;
}

std::string toml_mistake(std::string_view description, std::string_view text, size_t line) {
    if (has_printed_quotes(line_of(text, line))) {
        return std::string(description) +
               "; quotation marks must be straight ones, \"like these\", not those of a word "
               "processor";
    }
    const auto says = [&](std::string_view words) {
        return description.find(words) != std::string_view::npos;
    };
    if (says("utf-8")) return "is not UTF-8; save it as plain text in UTF-8";
    const std::string twice = given_twice(description, text, line);
    if (!twice.empty()) return twice;
    std::string mistake(description);
    if (says("expected a comment or whitespace, saw ','")) {
        return mistake + "; decimals have a point, such as 1.5";
    }
    const bool is_bare =
        says("could not determine value type") || says("expected a comment or whitespace") ||
        says("parsing boolean") ||
        ((says("parsing decimal integer") || says("parsing floating-point")) && says(", saw"));
    if (is_bare) mistake += "; words, fractions and units need quotation marks, such as \"1/60\"";
    return mistake;
}

}  // namespace dapple
