// The frame as an EXR: scanlines, not packed; 32-bit floats, and 16-bit ones for the clean layers.
//
// Channels
//   R G B                     all light, linear Rec.709, exposure units, white balanced
//   <fixture>.R .G .B         one fixture's light, in the same units; all add up to R G B
//   <fixture>.warm.R …, <fixture>.cool.R …    the channels of an LED
//   luminance.Y, luminance.stderr             cd/m², before white balance
//   noise.Y                   cd/m²: no signal, and the noise of luminance.Y (E93)
//   clean.R .G .B             the clean frame, in the units of R G B
//   clean.stderr              its luminance's estimated error, cd/m²
//   clean.<fixture>.R …       the clean frame by light group, 16 bits; all add up to clean.R .G .B
//   albedo.R .G .B, normal.X .Y .Z (world), depth.Z (m along the view axis, infinity where there
//   is nothing), surface.id (-1 where there is nothing), surface.pixel_m (width of a pixel on the
//   surface, m)               what the centre of the pixel sees first
//   surface.lamp              the fixture whose own face the pixel shows, also in part; else -1
// Attributes: chromaticities (Rec.709), whiteLuminance (cd/m² at R = G = B = 1), expTime (s),
// aperture (f-number), isoSpeed, focus (m, infinity where everything is sharp), and our own
// dapple:whiteKelvin, dapple:passes, dapple:surfaces (a line "0 planks" for each surface),
// dapple:fixtures (a line "net<tab>net" for each layer: the layer, and the set file's name),
// dapple:film (everything else that a FilmRecord has, as JSON; film_json.h).
#pragma once

#include <string>

#include "develop/film_record.h"

namespace dapple {

// Not packed, because light with its noise packs badly: ZIP takes 5 s in place of 0.15 s for 960 ×
// 640 pixels and 11 light groups, reading it takes a second longer, and a quarter of the file is
// saved. What the record has not is left out. Throws FileError.
void write_exr(const std::string& path, const FilmRecord& record);

}  // namespace dapple
