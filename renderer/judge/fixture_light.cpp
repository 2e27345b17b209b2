#include "judge/fixture_light.h"

#include "develop/develop.h"

namespace dapple {

LuminanceRow::LuminanceRow(const Camera& camera)
    : row_(glm::transpose(glm::inverse(develop_matrix(camera)))[1]) {}

std::vector<double> fixture_luminance(const FilmRecord& record, std::span<const int32_t> pixels) {
    std::vector<double> sums(record.fixtures.size(), 0.0);
    const std::vector<double> layers = mean_luminance(record, pixels);
    for (size_t g = 0; g < layers.size(); ++g) {
        const int fixture = record.layers[g].fixture;
        if (fixture >= 0) sums[static_cast<size_t>(fixture)] += layers[g];
    }
    return sums;
}

bool has_first_hits(const FilmRecord& record) {
    const auto pixels = static_cast<size_t>(record.pixels());
    return record.first_hits.surface.size() == pixels && record.first_hits.albedo.size() == pixels;
}

double reflectance_at(const FilmRecord& record, int32_t pixel) {
    const Rgb& c = record.first_hits.albedo[static_cast<size_t>(pixel)];
    return 0.2126 * static_cast<double>(c.r) + 0.7152 * static_cast<double>(c.g) +
           0.0722 * static_cast<double>(c.b);
}

}  // namespace dapple
