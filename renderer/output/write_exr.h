// The frame as an EXR: 32-bit float, scanlines, ZIP.
//
// Channels
//   R G B                     all light, linear Rec.709, exposure units, white balanced
//   <fixture>.R .G .B         one fixture's light, in the same units; they add up to R G B
//   <fixture>.warm.R …, <fixture>.cool.R …    the channels of an LED
//   luminance.Y, luminance.stderr             cd/m², before white balance
//   albedo.R .G .B, normal.X .Y .Z (world), depth.Z (m along the view axis, infinity where
//   nothing), surface.id (-1 where nothing)   what the centre of the pixel sees first
// Attributes: chromaticities (Rec.709), whiteLuminance (cd/m² at R = G = B = 1), expTime (s),
// aperture (f-number), isoSpeed, focus (m, infinity where everything is sharp), and our own
// dapple:whiteKelvin, dapple:passes, dapple:surfaces ("0 planks", a line each),
// dapple:fixtures ("net<tab>net", layer and name as the set file has it, a line each).
#pragma once

#include <string>
#include <vector>

#include "film/film.h"
#include "film/first_hits.h"
#include "scene/scene.h"

namespace dapple {

// `first_hits` may be empty: its channels are then left out. Throws FileError.
void write_exr(const std::string& path,
               const Film& film,
               const Scene& scene,
               const FirstHits& first_hits);

// Layer name of every light group: letters, digits, - and _ of the fixture's name, _ for anything
// else, made different from each other and from the layers above, then ".warm" or ".cool".
std::vector<std::string> layer_names(const Film& film, const Scene& scene);

}  // namespace dapple
