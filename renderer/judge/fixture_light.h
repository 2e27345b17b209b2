// The luminance of each light group in a pixel of a record, and the fixture that gives most.
#pragma once

#include "develop/film_record.h"

namespace dapple {

// Turns a colour of a record into luminance, cd/m².
class LuminanceRow {
  public:
    explicit LuminanceRow(const Camera& camera);
    double of(const Rgb& colour) const { return glm::dot(row_, Xyz(colour)); }

  private:
    Xyz row_;
};

// Mean luminance of each fixture over the pixels, cd/m², in the order of FilmRecord::fixtures.
// Light of no fixture is left out.
std::vector<double> fixture_luminance(const FilmRecord& record, std::span<const int32_t> pixels);

// Whether it is known what each pixel sees first.
bool has_first_hits(const FilmRecord& record);

// Luminous reflectance of what a pixel sees first; 0 where it sees nothing or a lamp.
double reflectance_at(const FilmRecord& record, int32_t pixel);

}  // namespace dapple
