// The frame as an EXR: scanlines; 32-bit floats, and 16-bit ones for layers that lose nothing by it
// (round_layers.h).
//
// Channels
//   R G B                     all light, linear Rec.709, exposure units, white balanced
//   <fixture>.R .G .B         one fixture's light, in the same units; all add up to R G B,
//                             within 0.025 % where they have 16 bits
//   <fixture>.warm.R …, <fixture>.cool.R …    the channels of an LED
//   luminance.Y, luminance.stderr             cd/m², before white balance
//   noise.Y                   cd/m²: no signal, and the noise of luminance.Y (E132)
//   clean.R .G .B             the clean frame, in the units of R G B
//   clean.stderr              its luminance's estimated error, cd/m²
//   clean.<fixture>.R …       the clean frame by light group; all add up to clean.R .G .B
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

// Packing 960 × 640 pixels and 11 light groups takes 2.5 s more of a processor's time, and reading
// them 0.5 s, and saves a third of the file (tools/bench/README.md).
enum class ExrPacking { kNone, kZip };

// What the record has not is left out. Throws FileError.
void write_exr(const std::string& path,
               const FilmRecord& record,
               ExrPacking packing = ExrPacking::kZip);

}  // namespace dapple
