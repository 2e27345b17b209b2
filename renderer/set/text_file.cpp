#include "set/text_file.h"

#include <cerrno>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <limits>
#include <system_error>

#include "base/large_memory.h"

namespace dapple {

namespace {

// Bytes, as lines, columns and indices are 32-bit numbers. An OBJ file of 20 million triangles is
// smaller.
constexpr uintmax_t kLargestTextFile = std::numeric_limits<int32_t>::max();

std::string why_not_a_file(const std::string& path, uintmax_t& size) {
    namespace fs = std::filesystem;
    std::error_code error;
    const fs::file_status status = fs::status(path, error);
    if (!fs::exists(status)) return "no such file";
    if (fs::is_directory(status)) return "is a folder; must be a file";
    if (!fs::is_regular_file(status)) return "is not a regular file";
    size = fs::file_size(path, error);
    if (error) return "cannot be read: " + error.message();
    if (size > kLargestTextFile) {
        return "is " + std::to_string(size >> 20U) + " MB; at most 2047 MB can be read";
    }
    return "";
}

// Recognises other formats with the same file ending (compiled code, UTF-16) by their first bytes.
std::string why_not_text(std::string_view text) {
    const std::string_view start = text.substr(0, 4096);
    if (start.starts_with("\xff\xfe") || start.starts_with("\xfe\xff")) {
        return "is UTF-16 text; must be ASCII or UTF-8";
    }
    if (start.find('\0') != std::string_view::npos) return "is binary; must be text";
    return "";
}

}  // namespace

bool read_whole_file(const std::string& path, Problems& problems, TextFile& file) {
    uintmax_t size = 0;
    std::string problem = why_not_a_file(path, size);
    if (problem.empty()) {
        file.size = static_cast<size_t>(size);
        file.bytes = std::make_unique_for_overwrite<char[]>(file.size);
        use_large_pages(file.bytes.get(), file.size);
        std::ifstream stream(path, std::ios::binary);
        if (!stream.is_open()) {
            problem = "cannot be read: " + std::generic_category().message(errno);
        } else if (!stream.read(file.bytes.get(), static_cast<std::streamsize>(file.size))) {
            problem = "cannot be read";
        }
    }
    if (!problem.empty()) problems.add({path, 0, 0}, "", problem);
    return problem.empty();
}

bool read_text_file(const std::string& path, Problems& problems, TextFile& file) {
    if (!read_whole_file(path, problems, file)) return false;
    const std::string problem = why_not_text(file.text());
    if (!problem.empty()) problems.add({path, 0, 0}, "", problem);
    return problem.empty();
}

std::string in_quotes(std::string_view word) {
    constexpr size_t kLongest = 200;
    const bool is_long = word.size() > kLongest;
    if (is_long) {
        size_t size = kLongest;
        while (size > 0 && (static_cast<unsigned char>(word[size]) & 0xc0U) == 0x80U) --size;
        word = word.substr(0, size);  // between UTF-8 characters
    }
    std::string text = "\"";
    for (const char c : word) {
        const auto byte = static_cast<unsigned char>(c);
        text += byte < 0x20 || byte == 0x7f ? '?' : c;
    }
    return text + (is_long ? "…\"" : "\"");
}

std::string lower_case(std::string_view word) {
    std::string text(word);
    for (char& c : text) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    return text;
}

}  // namespace dapple
