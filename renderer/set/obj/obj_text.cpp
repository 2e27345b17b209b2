#include "set/obj/obj_text.h"

#include <array>
#include <cerrno>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <limits>
#include <system_error>

#include "base/large_memory.h"

namespace dapple {

namespace {

// Lines, columns and indices are 32-bit numbers; a scan of some 20 million triangles stays below.
constexpr uintmax_t kLargestFile = std::numeric_limits<int32_t>::max();

bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\v' || c == '\f';
}
bool is_line_end(char c) {
    return c == '\n' || c == '\r';
}

// One look-up for each character of a word: most of the reading time goes there.
constexpr std::array<bool, 256> kMayEndWord = [] {
    std::array<bool, 256> table{};
    for (const char c : {' ', '\t', '\v', '\f', '\n', '\r', '\\'}) {
        table[static_cast<unsigned char>(c)] = true;
    }
    return table;
}();

std::string why_not_a_text_file(const std::string& path, uintmax_t& size) {
    namespace fs = std::filesystem;
    std::error_code error;
    const fs::file_status status = fs::status(path, error);
    if (!fs::exists(status)) return "no such file";
    if (fs::is_directory(status)) return "is a directory; must be a file";
    if (!fs::is_regular_file(status)) return "is not a plain file";
    size = fs::file_size(path, error);
    if (error) return "cannot be read: " + error.message();
    if (size > kLargestFile) {
        return "is " + std::to_string(size >> 20U) + " MB; at most 2047 MB can be read";
    }
    return "";
}

// The start of a file tells other formats that carry the same ending (compiled code, UTF-16).
std::string why_not_text(std::string_view text) {
    const std::string_view start = text.substr(0, 4096);
    if (start.starts_with("\xff\xfe") || start.starts_with("\xfe\xff")) {
        return "is UTF-16 text; must be ASCII or UTF-8";
    }
    if (start.find('\0') != std::string_view::npos) return "is binary; must be text";
    return "";
}

}  // namespace

bool read_text_file(const std::string& path, Problems& problems, TextFile& file) {
    uintmax_t size = 0;
    std::string trouble = why_not_a_text_file(path, size);
    if (trouble.empty()) {
        file.size = static_cast<size_t>(size);
        file.bytes = std::make_unique_for_overwrite<char[]>(file.size);
        use_large_pages(file.bytes.get(), file.size);
        std::ifstream stream(path, std::ios::binary);
        if (!stream.is_open()) {
            trouble = "cannot be read: " + std::generic_category().message(errno);
        } else if (!stream.read(file.bytes.get(), static_cast<std::streamsize>(file.size))) {
            trouble = "cannot be read";
        } else {
            trouble = why_not_text(file.text());
        }
    }
    if (!trouble.empty()) problems.add({path, 0, 0}, "", trouble);
    return trouble.empty();
}

ObjScanner::ObjScanner(std::string_view text)
    : at_(text.data()), end_(text.data() + text.size()), line_start_(at_) {
    constexpr std::string_view kByteOrderMark = "\xef\xbb\xbf";
    if (text.starts_with(kByteOrderMark)) at_ += kByteOrderMark.size();
    line_start_ = at_;
}

bool ObjScanner::next_statement(std::string_view& word) {
    if (in_statement_) {
        while (!next_word().empty()) {
        }
        skip_line();
    }
    in_statement_ = true;
    while (at_ < end_) {
        word = next_word();
        if (!word.empty()) return true;
        skip_line();
    }
    return false;
}

std::string_view ObjScanner::next_word() {
    skip_blanks();
    const char* const first = at_;
    if (at_ < end_ && *at_ == '#') return {};
    while (at_ < end_) {
        const char c = *at_;
        if (kMayEndWord[static_cast<unsigned char>(c)] && (c != '\\' || joins_next_line(at_)))
            break;
        ++at_;
    }
    return {first, static_cast<size_t>(at_ - first)};
}

std::string_view ObjScanner::rest_of_line() {
    while (at_ < end_ && is_blank(*at_)) ++at_;
    const char* const first = at_;
    const auto ends_word = [this](const char* c) {
        return c == end_ || is_blank(*c) || is_line_end(*c);
    };
    const char* last = first;  // behind the last character that belongs to the name
    while (at_ < end_ && !is_line_end(*at_)) {
        const bool alone = *at_ == '#' && ends_word(at_ + 1) && (at_ == first || is_blank(at_[-1]));
        if (alone) break;
        if (!is_blank(*at_)) last = at_ + 1;
        ++at_;
    }
    while (at_ < end_ && !is_line_end(*at_)) ++at_;
    return {first, static_cast<size_t>(last - first)};
}

// Blanks between the backslash and the line's end are forgiven.
bool ObjScanner::joins_next_line(const char* backslash) const {
    const char* c = backslash + 1;
    while (c < end_ && is_blank(*c)) ++c;
    return c == end_ || is_line_end(*c);
}

void ObjScanner::skip_blanks() {
    while (at_ < end_) {
        if (is_blank(*at_)) {
            ++at_;
        } else if (*at_ == '\\' && joins_next_line(at_)) {
            skip_line();
        } else {
            return;
        }
    }
}

void ObjScanner::skip_line_break() {
    const bool two = *at_ == '\r' && at_ + 1 < end_ && at_[1] == '\n';
    at_ += two ? 2 : 1;
    line_start_ = at_;
    ++line_;
}

void ObjScanner::skip_line() {
    while (at_ < end_ && !is_line_end(*at_)) ++at_;
    if (at_ < end_) skip_line_break();
}

const char* read_number(std::string_view word, float& value) {
    const char* first = word.data();
    const char* const last = first + word.size();
    if (word.size() > 1 && *first == '+' && first[1] != '-') ++first;
    auto [stop, error] = std::from_chars(first, last, value);
    if (error == std::errc::invalid_argument || stop != last) return "is not a number";
    if (error == std::errc::result_out_of_range) {
        double wide = 0;
        const bool wider = std::from_chars(first, last, wide).ec == std::errc();
        // Too small for a float is 0 to us; whole libraries of models hold such numbers.
        const bool tiny = wider ? std::abs(wide) < 1 : word.find("e-") != std::string_view::npos;
        if (!tiny) return "is too large a number";
        value = 0;
    }
    if (!std::isfinite(value)) return "is not a finite number";
    return nullptr;
}

}  // namespace dapple
