#include "film/checkpoint.h"

#include <cstring>
#include <istream>
#include <type_traits>

namespace dapple {

namespace {

constexpr char kMagic[] = "dapple film 5\n";
constexpr uint64_t kMostValues = uint64_t{1} << 36U;  // a length beyond this is garbage

template <class T>
concept Number = std::is_arithmetic_v<T>;  // may be copied as bytes

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
bool get(std::istream& in, T& value) {
    return static_cast<bool>(in.read(reinterpret_cast<char*>(&value), sizeof value));
}

// The array grows as bytes arrive, so that a false length cannot allocate more than the file holds.
template <Number T, class Allocator>
bool get(std::istream& in, std::vector<T, Allocator>& values) {
    constexpr uint64_t kStep = uint64_t{1} << 20U;
    uint64_t size = 0;
    if (!get(in, size) || size > kMostValues) return false;
    values.clear();
    while (values.size() < size) {
        const size_t first = values.size();
        values.resize(static_cast<size_t>(std::min<uint64_t>(size, first + kStep)));
        const auto bytes = static_cast<std::streamsize>((values.size() - first) * sizeof(T));
        if (!in.read(reinterpret_cast<char*>(values.data() + first), bytes)) return false;
    }
    return true;
}

void put(const ByteSink& sink, const FilmState& state) {
    put(sink, state.passes);
    put(sink, state.nonfinite);
    put(sink, state.sums);
    put(sink, state.luminance_sums);
    put(sink, state.luminance_squares);
    put(sink, state.drawn_xyz);
    put(sink, state.frame_passes);
    put(sink, state.walk_differences);
    put(sink, state.other_light);
    put(sink, state.odd_other_light);
    put(sink, state.brightest_pass);
    put(sink, static_cast<uint64_t>(state.region_passes.size()));
    for (const std::vector<double>& passes : state.region_passes) put(sink, passes);
}

bool get(std::istream& in, FilmState& state) {
    uint64_t regions = 0;
    const bool body = get(in, state.passes) && get(in, state.nonfinite) && get(in, state.sums) &&
                      get(in, state.luminance_sums) && get(in, state.luminance_squares) &&
                      get(in, state.drawn_xyz) && get(in, state.frame_passes) &&
                      get(in, state.walk_differences) && get(in, state.other_light) &&
                      get(in, state.odd_other_light) && get(in, state.brightest_pass) &&
                      get(in, regions);
    if (!body || regions > kMostValues) return false;
    for (uint64_t r = 0; r < regions; ++r) {
        state.region_passes.emplace_back();
        if (!get(in, state.region_passes.back())) return false;
    }
    return true;
}

}  // namespace

void write_checkpoint(const FilmState& frame,
                      const FilmState& meters,
                      uint64_t fingerprint,
                      const ByteSink& sink) {
    sink(kMagic, sizeof kMagic);
    put(sink, fingerprint);
    put(sink, frame);
    put(sink, meters);
}

std::optional<Checkpoint> read_checkpoint(std::istream& in, uint64_t fingerprint) {
    char magic[sizeof kMagic] = {};
    uint64_t found = 0;
    Checkpoint state;
    const bool head = in.read(magic, sizeof magic) && std::memcmp(magic, kMagic, sizeof magic) == 0;
    if (!head || !get(in, found) || found != fingerprint) return std::nullopt;
    if (!get(in, state.frame) || !get(in, state.meters)) return std::nullopt;
    return state;
}

}  // namespace dapple
