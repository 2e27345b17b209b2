#include "judge/hot_spots.h"

#include <algorithm>
#include <cmath>

#include "develop/exposure.h"
#include "develop/stops_ramp.h"
#include "judge/fixture_light.h"
#include "judge/region_cut.h"

namespace dapple {

namespace {

constexpr int kBlocksAcross = 120;
constexpr int kSpotsAcross = 8;
constexpr double kSureOf = 2;  // standard errors

struct Block {
    int x = 0, y = 0;  // of the frame of blocks
    double luminance = 0, error = 0;

    double sure() const { return luminance - kSureOf * error; }
};

// Root of the mean square noise of a block and its neighbours, or its own noise where that is more.
double noise_around(const RegionImage& blocks, int x, int y) {
    double squares = 0;
    int count = 0;
    for (int v = std::max(0, y - 1); v <= std::min(blocks.height - 1, y + 1); ++v) {
        for (int u = std::max(0, x - 1); u <= std::min(blocks.width - 1, x + 1); ++u) {
            const size_t i = blocks.index(u, v);
            if (!blocks.inside[i]) continue;
            squares += blocks.noise[i] * blocks.noise[i];
            ++count;
        }
    }
    const double own = std::abs(blocks.noise[blocks.index(x, y)]);
    return std::max(own, count > 0 ? std::sqrt(squares / count) : 0.0);
}

std::vector<Block> blocks_by_light(const RegionImage& blocks) {
    std::vector<Block> list;
    for (int y = 0; y < blocks.height; ++y) {
        for (int x = 0; x < blocks.width; ++x) {
            const size_t i = blocks.index(x, y);
            if (!blocks.inside[i]) continue;
            list.push_back({x, y, blocks.luminance[i], noise_around(blocks, x, y)});
        }
    }
    std::sort(list.begin(), list.end(), [](const Block& a, const Block& b) {
        return a.sure() > b.sure();
    });
    return list;
}

std::vector<Block> pick_apart(const std::vector<Block>& sorted, int distance) {
    std::vector<Block> picked;
    for (const Block& block : sorted) {
        if (picked.size() == kMostHotSpots || !(block.sure() > 0)) break;
        const bool near = std::any_of(picked.begin(), picked.end(), [&](const Block& other) {
            return std::hypot(other.x - block.x, other.y - block.y) < distance;
        });
        if (!near) picked.push_back(block);
    }
    return picked;
}

std::string place_of(const FilmRecord& record, int x, int y) {
    const int column = std::min(2, 3 * x / record.width());
    const int row = std::min(2, 3 * y / record.height());
    const char* const rows[] = {"upper", "middle", "lower"};
    const char* const columns[] = {"left", "centre", "right"};
    if (row == 1 && column == 1) return "centre";
    return std::string(rows[row]) + " " + columns[column];
}

// log2(light/reference) with its error, in stops.
Measure stops_over(const Block& block, double reference) {
    if (!(reference > 0)) return Measure::unknown("unlit");
    return Measure::known(std::log2(block.luminance / reference),
                          block.error / (block.luminance * std::log(2.0)));
}

std::vector<int32_t> pixels_of_block(const FilmRecord& record, const Block& block, int b) {
    std::vector<int32_t> pixels;
    for (int y = block.y * b; y < std::min((block.y + 1) * b, record.height()); ++y) {
        for (int x = block.x * b; x < std::min((block.x + 1) * b, record.width()); ++x) {
            pixels.push_back(y * record.width() + x);
        }
    }
    return pixels;
}

HotSpot describe(const FilmRecord& record, const Block& block, int b) {
    HotSpot spot;
    spot.x = std::min(block.x * b + b / 2, record.width() - 1);
    spot.y = std::min(block.y * b + b / 2, record.height() - 1);
    spot.where = place_of(record, spot.x, spot.y);
    const size_t centre = static_cast<size_t>(spot.y * record.width() + spot.x);
    if (has_first_hits(record)) {
        const auto surface = static_cast<size_t>(record.first_hits.surface[centre]);
        if (surface < record.surfaces.size()) spot.surface = record.surfaces[surface];
    }
    const std::vector<double> light = fixture_luminance(record, pixels_of_block(record, block, b));
    const auto most = std::max_element(light.begin(), light.end());
    if (most != light.end() && *most > 0) {
        spot.fixture = record.fixtures[static_cast<size_t>(most - light.begin())].name;
        spot.share = std::min(1.0, *most / block.luminance);
    }
    spot.stops = stops_over(block, kMidGrey * white_luminance(record.camera));
    return spot;
}

}  // namespace

HotSpots find_hot_spots(const FilmRecord& record,
                        const std::vector<char>& lamp_faces,
                        const std::vector<int32_t>& figure,
                        const std::vector<int32_t>& lit_side) {
    if (!record.noise_known() || record.noise.empty()) return {{}, kNotKnownYet};
    std::vector<char> left_out = lamp_faces;
    for (const int32_t pixel : figure) left_out[static_cast<size_t>(pixel)] = 1;
    const int b = std::max(2, record.width() / kBlocksAcross);
    const RegionImage blocks = make_blocks(cut_frame(record, left_out), b);
    const Measure lit = mean_luminance(cut_out(record, lit_side, lamp_faces));
    HotSpots spots;
    for (const Block& block : pick_apart(blocks_by_light(blocks), blocks.width / kSpotsAcross)) {
        HotSpot spot = describe(record, block, b);
        spot.over_lit_side =
            lit ? stops_over(block, *lit) : Measure::unknown("no lit side of a figure");
        spots.list.push_back(std::move(spot));
    }
    if (spots.list.empty()) spots.why = "nothing outside the figure stands clear of the noise";
    return spots;
}

}  // namespace dapple
