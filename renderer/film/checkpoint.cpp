#include "film/checkpoint.h"

#include <cstring>
#include <istream>
#include <optional>
#include <type_traits>

#include "base/random.h"

namespace dapple {

namespace {

constexpr char kMagic[] = "dapple film 7\n";
constexpr size_t kNameLength = 12;                    // "dapple film ", without the version
constexpr uint64_t kMostValues = uint64_t{1} << 36U;  // a length beyond this is garbage

// A checksum of bytes, whatever the pieces in which they come.
class Checksum {
  public:
    void add(const void* data, size_t size) {
        const auto* bytes = static_cast<const unsigned char*>(data);
        for (; size > 0 && filled_ > 0; --size) add_byte(*bytes++);
        for (; size >= sizeof word_; size -= sizeof word_, bytes += sizeof word_) {
            std::memcpy(&word_, bytes, sizeof word_);
            end_word();
        }
        for (; size > 0; --size) add_byte(*bytes++);
    }
    uint64_t value() const { return mix_bits(mix_bits(sum_, word_), filled_); }

  private:
    void add_byte(unsigned char byte) {
        word_ |= static_cast<uint64_t>(byte) << (8 * filled_);
        if (++filled_ == sizeof word_) end_word();
    }
    void end_word() {
        // Each step is one-to-one in the sum, so a single changed word always shows.
        sum_ = (sum_ ^ word_) * 0x9e3779b97f4a7c15ULL;
        sum_ ^= sum_ >> 29U;
        word_ = filled_ = 0;
    }

    uint64_t sum_ = 0;
    uint64_t word_ = 0;
    uint64_t filled_ = 0;  // bytes of the present word
};

// Bytes that come in, with their checksum.
struct Source {
    std::istream& in;
    Checksum sum{};

    bool read(void* data, size_t size) {
        if (!in.read(static_cast<char*>(data), static_cast<std::streamsize>(size))) return false;
        sum.add(data, size);
        return true;
    }
};

template <class T>
concept Number = std::is_arithmetic_v<T> || std::is_same_v<T, SquareSum>;  // copied as bytes

template <Number T>
void put(const ByteSink& sink, const T& value) {
    sink(&value, sizeof value);
}

template <Number T, class Allocator>
void put(const ByteSink& sink, const std::vector<T, Allocator>& values) {
    put(sink, static_cast<uint64_t>(values.size()));
    if (!values.empty()) sink(values.data(), values.size() * sizeof(T));
}

template <Number T>
bool get(Source& in, T& value) {
    return in.read(&value, sizeof value);
}

// The array grows as bytes arrive, so that a false length cannot allocate more than the file holds.
template <Number T, class Allocator>
bool get(Source& in, std::vector<T, Allocator>& values) {
    constexpr uint64_t kStep = uint64_t{1} << 20U;
    uint64_t size = 0;
    if (!get(in, size) || size > kMostValues) return false;
    values.clear();
    while (values.size() < size) {
        const size_t first = values.size();
        values.resize(static_cast<size_t>(std::min<uint64_t>(size, first + kStep)));
        if (!in.read(values.data() + first, (values.size() - first) * sizeof(T))) return false;
    }
    return true;
}

// Calls `each` for every part of the state but the passes and the regions.
template <class State, class Each>
bool for_parts(State& state, const Each& each) {
    return each(state.rays) && each(state.nonfinite) && each(state.sums) && each(state.drawn_xyz) &&
           each(state.luminance_squares) && each(state.walk_differences) &&
           each(state.other_light) && each(state.odd_other_light) && each(state.brightest_pass) &&
           each(state.colour_sums) && each(state.frame_passes);
}

void put(const ByteSink& sink, const FilmState& state) {
    put(sink, state.passes.flat());
    for_parts(state, [&](const auto& part) {
        put(sink, part);
        return true;
    });
    put(sink, static_cast<uint64_t>(state.region_passes.size()));
    for (const std::vector<double>& passes : state.region_passes) put(sink, passes);
}

bool get(Source& in, PassRanges& passes) {
    std::vector<int64_t> numbers;
    if (!get(in, numbers)) return false;
    const std::optional<PassRanges> read = PassRanges::from_flat(numbers);
    if (read) passes = *read;
    return read.has_value();
}

bool get(Source& in, FilmState& state) {
    uint64_t regions = 0;
    const auto part = [&](auto& values) { return get(in, values); };
    if (!get(in, state.passes) || !for_parts(state, part) || !get(in, regions)) return false;
    if (regions > kMostValues) return false;
    for (uint64_t r = 0; r < regions; ++r) {
        state.region_passes.emplace_back();
        if (!get(in, state.region_passes.back())) return false;
    }
    return true;
}

// Reads the first line and the fingerprint; nothing was wrong if it returns nothing.
std::optional<NoCheckpoint> read_start(Source& source, uint64_t& fingerprint) {
    char magic[sizeof kMagic] = {};
    if (!source.read(magic, sizeof magic)) return NoCheckpoint::kDamaged;
    if (std::memcmp(magic, kMagic, sizeof magic) != 0) {
        const bool is_ours = std::memcmp(magic, kMagic, kNameLength) == 0;
        return is_ours ? NoCheckpoint::kOther : NoCheckpoint::kDamaged;
    }
    if (!get(source, fingerprint)) return NoCheckpoint::kDamaged;
    return std::nullopt;
}

}  // namespace

void write_checkpoint(const FilmState& frame,
                      const FilmState& meters,
                      uint64_t fingerprint,
                      const ByteSink& sink) {
    Checksum sum;
    const ByteSink summed = [&](const void* data, size_t size) {
        sum.add(data, size);
        sink(data, size);
    };
    summed(kMagic, sizeof kMagic);
    put(summed, fingerprint);
    put(summed, frame);
    put(summed, meters);
    put(sink, sum.value());
}

std::variant<CheckpointHead, NoCheckpoint> read_checkpoint_head(std::istream& in) {
    Source source{in};
    CheckpointHead head;
    if (const std::optional<NoCheckpoint> problem = read_start(source, head.fingerprint)) {
        return *problem;
    }
    if (!get(source, head.passes)) return NoCheckpoint::kDamaged;
    return head;
}

std::variant<Checkpoint, NoCheckpoint> read_checkpoint(std::istream& in, uint64_t fingerprint) {
    Source source{in};
    uint64_t found = 0;
    Checkpoint state;
    if (const std::optional<NoCheckpoint> problem = read_start(source, found)) return *problem;
    if (found != fingerprint) return NoCheckpoint::kOther;
    if (!get(source, state.frame) || !get(source, state.meters)) return NoCheckpoint::kDamaged;
    const uint64_t expected = source.sum.value();
    uint64_t sum = 0;
    if (!get(source, sum) || sum != expected) return NoCheckpoint::kDamaged;
    return state;
}

}  // namespace dapple
