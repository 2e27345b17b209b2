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
