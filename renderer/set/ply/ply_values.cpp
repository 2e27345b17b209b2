#include "set/ply/ply_values.h"

#include <charconv>

namespace dapple {

bool PlyValues::next_binary(PlyType type, double& value) {
    if (end_ - at_ < ply_type_size(type)) return false;
    switch (type) {
        case PlyType::kInt8:
            value = take<int8_t>();
            break;
        case PlyType::kUint8:
            value = take<uint8_t>();
            break;
        case PlyType::kInt16:
            value = take<int16_t>();
            break;
        case PlyType::kUint16:
            value = take<uint16_t>();
            break;
        case PlyType::kInt32:
            value = take<int32_t>();
            break;
        case PlyType::kUint32:
            value = take<uint32_t>();
            break;
        case PlyType::kFloat:
            value = take<float>();
            break;
        case PlyType::kDouble:
            value = take<double>();
            break;
    }
    return true;
}

bool PlyValues::next_word(double& value) {
    const auto is_blank = [](char c) { return c == ' ' || (c >= '\t' && c <= '\r'); };
    for (; at_ < end_ && is_blank(*at_); ++at_) {
        const bool two = *at_ == '\r' && at_ + 1 < end_ && at_[1] == '\n';
        if (*at_ == '\n' || (*at_ == '\r' && !two)) ++line_;
    }
    const char* first = at_;
    while (at_ < end_ && !is_blank(*at_)) ++at_;
    bad_word_ = {first, static_cast<size_t>(at_ - first)};
    if (at_ - first > 1 && *first == '+') ++first;
    const auto [stop, error] = std::from_chars(first, at_, value);
    if (stop != at_ || first == at_ || error == std::errc::invalid_argument) return false;
    // Numbers too small for a double are read as 0, larger ones as infinite.
    if (error == std::errc::result_out_of_range) {
        const bool tiny = bad_word_.find("e-") != std::string_view::npos;
        value = tiny ? 0 : std::numeric_limits<double>::infinity();
    }
    return true;
}

}  // namespace dapple
