// The layers of light in the precision of the file's 16-bit numbers ("half": 11 bits, up to 65504).
//
// A rounding error is at most 2^-12 of the value, 0.025 %, and of either sign, so it averages out
// in every measure of more than a few pixels. Of glare it is at most 2^-11 of the light that it is
// added to, or of itself if it is more. What is measured of all light together (R G B, luminance
// and its error, noise), the clean frame, and the means of regions and meters stay as they are.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "develop/film_record.h"

namespace dapple {

// Rounds the measured and the clean layers, so that the record is what will be read back. A layer
// with light beyond the range keeps its 32 bits; returns the names of such layers.
std::vector<std::string> round_layers(FilmRecord& record);

// Whether the file may store these values with 16 bits, without changing them.
bool are_halves(std::span<const Rgb> light);

}  // namespace dapple
