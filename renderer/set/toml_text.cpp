#include "set/toml_text.h"

#include <filesystem>
#include <fstream>
#include <system_error>

#include "base/problems.h"

namespace dapple {

namespace {

namespace fs = std::filesystem;

constexpr uintmax_t kMaxSetBytes = 4 << 20;  // a set file has a few kilobytes

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

std::string toml_mistake(std::string_view description) {
    const auto says = [&](std::string_view words) {
        return description.find(words) != std::string_view::npos;
    };
    std::string text(description);
    if (says("expected a comment or whitespace, saw ','")) {
        return text + "; decimals have a point, such as 1.5";
    }
    const bool is_bare =
        says("could not determine value type") || says("expected a comment or whitespace") ||
        says("parsing boolean") ||
        ((says("parsing decimal integer") || says("parsing floating-point")) && says(", saw"));
    if (is_bare) text += "; words, fractions and units need quotation marks, such as \"1/60\"";
    return text;
}

}  // namespace dapple
