#include "set/obj/obj_text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <system_error>

namespace dapple {

namespace {

bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\v' || c == '\f';
}
bool is_line_end(char c) {
    return c == '\n' || c == '\r';
}

// A table, because most of the time to read a file is spent on this question.
constexpr std::array<bool, 256> kMayEndWord = [] {
    std::array<bool, 256> table{};
    for (const char c : {' ', '\t', '\v', '\f', '\n', '\r', '\\'}) {
        table[static_cast<unsigned char>(c)] = true;
    }
    return table;
}();

}  // namespace

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
    const char* last = first;  // end of the name
    while (at_ < end_ && !is_line_end(*at_)) {
        const bool alone = *at_ == '#' && ends_word(at_ + 1) && (at_ == first || is_blank(at_[-1]));
        if (alone) break;
        if (!is_blank(*at_)) last = at_ + 1;
        ++at_;
    }
    while (at_ < end_ && !is_line_end(*at_)) ++at_;
    return {first, static_cast<size_t>(last - first)};
}

// Blanks between the backslash and the line's end are allowed.
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

bool is_one_of(std::string_view word, std::span<const std::string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

namespace {

template <class Number>
const char* read_finite(std::string_view word, Number& value) {
    const char* first = word.data();
    const char* const last = first + word.size();
    if (word.size() > 1 && *first == '+' && first[1] != '-') ++first;
    auto [stop, error] = std::from_chars(first, last, value);
    if (error == std::errc::invalid_argument || stop != last) return "is not a number";
    if (error == std::errc::result_out_of_range) {
        double wide = 0;
        const bool wider = std::from_chars(first, last, wide).ec == std::errc();
        // A number too small for its type is read as 0: many models contain such numbers.
        const bool tiny = wider ? std::abs(wide) < 1 : word.find("e-") != std::string_view::npos;
        if (!tiny) return "is too large a number";
        value = 0;
    }
    if (!std::isfinite(value)) return "is not a finite number";
    return nullptr;
}

}  // namespace

const char* read_number(std::string_view word, float& value) {
    return read_finite(word, value);
}

const char* read_number(std::string_view word, double& value) {
    return read_finite(word, value);
}

}  // namespace dapple
