// The frame as an EXR: 32-bit float, scanlines, ZIP.
//
// Channels
//   R G B                     all light, linear Rec.709, exposure units, white balanced
//   <fixture>.R .G .B         one fixture's light, in the same units; all add up to R G B
//   <fixture>.warm.R …, <fixture>.cool.R …    the channels of an LED
//   luminance.Y, luminance.stderr             cd/m², before white balance
//   clean.R .G .B             the clean frame, in the units of R G B
//   clean.stderr              its luminance's estimated error, cd/m²
//   mask.in_frame             1 where fixtures, stands, glass and the like are in the frame, else 0
//   albedo.R .G .B, normal.X .Y .Z (world), depth.Z (m along the view axis, infinity where there
//   is nothing), surface.id (-1 where there is nothing)   what the centre of the pixel sees first
// Attributes: chromaticities (Rec.709), whiteLuminance (cd/m² at R = G = B = 1), expTime (s),
// aperture (f-number), isoSpeed, focus (m, infinity where everything is sharp), and our own
// dapple:whiteKelvin, dapple:passes, dapple:surfaces (a line "0 planks" for each surface),
// dapple:fixtures (a line "net<tab>net" for each layer: the layer, and the set file's name).
#pragma once

#include <string>
#include <vector>

#include "clean/clean_film.h"
#include "film/film.h"
#include "film/first_hits.h"
#include "scene/in_frame.h"
#include "scene/scene.h"

namespace dapple {

// If `first_hits` is empty, or `clean` or `in_frame` is null, the channels of that part are left
// out. Throws FileError.
void write_exr(const std::string& path,
               const Film& film,
               const Scene& scene,
               const FirstHits& first_hits,
               const CleanFrame* clean = nullptr,
               const InFrame* in_frame = nullptr);

// The layer name of every light group: the fixture's name, in which any character but letters,
// digits, - and _ is replaced by _, then ".warm" or ".cool". A number makes names different from
// each other and from the layers above.
std::vector<std::string> layer_names(const Film& film, const Scene& scene);

}  // namespace dapple
