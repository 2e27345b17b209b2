#include "output/cut_off_jpeg.h"

namespace dapple {

namespace {

constexpr unsigned kEndOfImage = 0xd9;

// Markers that no length follows: stuffed zeros, restarts, and those of T.81 without parameters.
bool stands_alone(unsigned marker) {
    return marker <= 0x01 || (marker >= 0xd0 && marker <= 0xd8) || marker == 0xff;
}

}  // namespace

bool is_cut_off_jpeg(std::string_view bytes) {
    const auto byte = [&](size_t i) {
        return static_cast<unsigned>(static_cast<unsigned char>(bytes[i]));
    };
    if (!bytes.starts_with("\xff\xd8\xff")) return false;
    for (size_t i = 2; i + 1 < bytes.size();) {
        if (byte(i) != 0xff) {
            ++i;  // of a scan, or filling between segments
            continue;
        }
        const unsigned marker = byte(i + 1);
        if (marker == kEndOfImage) return false;
        if (stands_alone(marker)) {
            i += marker == 0xff ? 1 : 2;
            continue;
        }
        if (i + 3 >= bytes.size()) return true;
        i += 2 + (byte(i + 2) << 8U | byte(i + 3));
    }
    return true;
}

}  // namespace dapple
