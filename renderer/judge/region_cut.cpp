#include "judge/region_cut.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "develop/exposure.h"
#include "judge/fixture_light.h"
#include "judge/luminance_statistics.h"

namespace dapple {

namespace {

bool counts(const std::vector<char>& left_out, int32_t pixel) {
    return left_out.empty() || !left_out[static_cast<size_t>(pixel)];
}

double median_footprint(const FilmRecord& record,
                        std::span<const int32_t> pixels,
                        const std::vector<char>& left_out) {
    std::vector<double> footprints;
    for (const int32_t pixel : pixels) {
        if (static_cast<size_t>(pixel) >= record.first_hits.footprint_m.size()) continue;
        const double f = record.first_hits.footprint_m[static_cast<size_t>(pixel)];
        if (counts(left_out, pixel) && f > 0 && std::isfinite(f)) footprints.push_back(f);
    }
    std::sort(footprints.begin(), footprints.end());
    return quantile(footprints, 0.5);
}

struct Box {
    int x0 = 0, y0 = 0, x1 = 0, y1 = 0;
};

Box box_of(std::span<const int32_t> pixels, int width) {
    if (pixels.empty()) return {};
    Box box{width, pixels.front() / width, 0, 0};
    for (const int32_t pixel : pixels) {
        box.x0 = std::min(box.x0, pixel % width);
        box.x1 = std::max(box.x1, pixel % width + 1);
        box.y0 = std::min(box.y0, pixel / width);
        box.y1 = std::max(box.y1, pixel / width + 1);
    }
    return box;
}

}  // namespace

RegionImage cut_out(const FilmRecord& record,
                    std::span<const int32_t> pixels,
                    const std::vector<char>& left_out) {
    const int width = record.width();
    const Box box = box_of(pixels, width);
    RegionImage image;
    image.width = box.x1 - box.x0;
    image.height = box.y1 - box.y0;
    image.pixel_m = median_footprint(record, pixels, left_out);
    image.floor = kFloorOverWhite * white_luminance(record.camera);
    image.noise_known = record.noise_known() && !record.noise.empty();
    const size_t count = static_cast<size_t>(image.width) * static_cast<size_t>(image.height);
    image.luminance.assign(count, 0.0);
    image.noise.assign(count, 0.0);
    image.inside.assign(count, 0);
    if (has_first_hits(record)) image.reflectance.assign(count, 0.0);
    for (const int32_t pixel : pixels) {
        if (!counts(left_out, pixel)) continue;
        const auto from = static_cast<size_t>(pixel);
        const size_t to = image.index(pixel % width - box.x0, pixel / width - box.y0);
        image.luminance[to] = static_cast<double>(record.luminance[from]);
        if (image.noise_known) image.noise[to] = static_cast<double>(record.noise[from]);
        image.inside[to] = 1;
        if (has_first_hits(record)) image.reflectance[to] = reflectance_at(record, pixel);
    }
    return image;
}

RegionImage cut_frame(const FilmRecord& record, const std::vector<char>& left_out) {
    std::vector<int32_t> pixels(static_cast<size_t>(record.pixels()));
    std::iota(pixels.begin(), pixels.end(), 0);
    return cut_out(record, pixels, left_out);
}

}  // namespace dapple
