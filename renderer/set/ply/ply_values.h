// The values below the header of a PLY file, one after the other, as doubles.
#pragma once

#include <bit>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <limits>
#include <string_view>

#include "set/ply/ply_header.h"

namespace dapple {

class PlyValues {
  public:
    PlyValues(std::string_view bytes, const PlyHeader& header)
        : format_(header.format),
          at_(bytes.data() + header.size),
          end_(bytes.data() + bytes.size()),
          line_(header.lines + 1) {}

    // Returns false at the end of the file, and at a word that is not a number.
    bool next(PlyType type, double& value) {
        return format_ == PlyFormat::kAscii ? next_word(value) : next_binary(type, value);
    }

    // Of the value that was read last; 0 in binary files.
    int line() const { return format_ == PlyFormat::kAscii ? line_ : 0; }
    // The word that next() could not read; empty at the end of the file.
    std::string_view bad_word() const { return bad_word_; }
    int64_t bytes_left() const { return end_ - at_; }

  private:
    template <class Number>
    double take() {
        char bytes[sizeof(Number)];
        std::memcpy(bytes, at_, sizeof(Number));
        at_ += sizeof(Number);
        constexpr bool kLittle = std::endian::native == std::endian::little;
        if (kLittle != (format_ == PlyFormat::kLittleEndian)) {
            for (size_t i = 0; i < sizeof(Number) / 2; ++i) {
                std::swap(bytes[i], bytes[sizeof(Number) - 1 - i]);
            }
        }
        Number number;
        std::memcpy(&number, bytes, sizeof(Number));
        return static_cast<double>(number);
    }

    bool next_binary(PlyType type, double& value);
    bool next_word(double& value);

    PlyFormat format_;
    const char* at_;
    const char* end_;
    int line_;
    std::string_view bad_word_;
};

}  // namespace dapple
