#include "output/write_exr.h"

#include <OpenImageIO/half.h>

#include <algorithm>
#include <cstring>

#include "base/parallel.h"
#include "develop/exposure.h"
#include "output/film_json.h"
#include "output/image_file.h"
#include "output/record_channels.h"

namespace dapple {

namespace {

using ChannelSource = ChannelPlace<const float, const int32_t>;

std::string surface_table(const FilmRecord& record) {
    std::string table;
    for (size_t i = 0; i < record.surfaces.size(); ++i) {
        table += std::to_string(i) + " " + record.surfaces[i] + "\n";
    }
    return table;
}

std::string fixture_table(const FilmRecord& record) {
    std::string table;
    for (const LightLayer& layer : record.layers) table += layer.layer + "\t" + layer.name + "\n";
    return table;
}

OIIO::ImageSpec make_spec(const FilmRecord& record,
                          const std::vector<ChannelSource>& channels,
                          ExrPacking packing) {
    const Camera& camera = record.camera;
    OIIO::ImageSpec spec(
        record.width(), record.height(), static_cast<int>(channels.size()), OIIO::TypeDesc::FLOAT);
    spec.channelnames.clear();
    for (const ChannelSource& channel : channels) {
        spec.channelnames.push_back(channel.name);
        spec.channelformats.emplace_back(channel.is_half ? OIIO::TypeDesc::HALF
                                                         : OIIO::TypeDesc::FLOAT);
    }
    spec.attribute("compression", packing == ExrPacking::kZip ? "zip:1" : "none");
    spec.attribute("oiio:ColorSpace", "Linear");
    // ITU-R BT.709-6: primaries and D65.
    const float chromaticities[8] = {0.64F, 0.33F, 0.30F, 0.60F, 0.15F, 0.06F, 0.3127F, 0.3290F};
    spec.attribute("chromaticities", OIIO::TypeDesc(OIIO::TypeDesc::FLOAT, 8), chromaticities);
    spec.attribute("whiteLuminance", static_cast<float>(white_luminance(camera)));
    spec.attribute("expTime", camera.shutter);
    spec.attribute("aperture", camera.f_number);
    spec.attribute("isoSpeed", camera.iso);
    spec.attribute("focus", camera.focus_distance > 0 ? camera.focus_distance : kInfinity);
    if (!record.title.empty()) spec.attribute("comments", record.title);
    spec.attribute("dapple:whiteKelvin", camera.white_k);
    spec.attribute("dapple:passes", record.run.passes);
    spec.attribute("dapple:surfaces", surface_table(record));
    spec.attribute("dapple:fixtures", fixture_table(record));
    spec.attribute(kFilmAttribute, film_json_text(record));
    return spec;
}

// A row of one channel into pixels of `stride` bytes, in the file's type. Row by row and channel by
// channel is twice as fast as pixel by pixel.
void put_row(const ChannelSource& channel, size_t first, size_t width, size_t stride, char* out) {
    const auto step = static_cast<size_t>(channel.step);
    for (size_t x = 0; x < width; ++x, out += stride) {
        const size_t at = (first + x) * step;
        const float value =
            channel.integers ? static_cast<float>(channel.integers[at]) : channel.floats[at];
        if (channel.is_half) {
            const half narrow(value);
            std::memcpy(out, &narrow, sizeof narrow);
        } else {
            std::memcpy(out, &value, sizeof value);
        }
    }
}

}  // namespace

void write_exr(const std::string& path, const FilmRecord& record, ExrPacking packing) {
    std::vector<ChannelSource> channels;
    visit_channels(record, [&](const ChannelSource& channel) { channels.push_back(channel); });
    const OIIO::ImageSpec spec = make_spec(record, channels, packing);
    ImageFile file(path, "openexr", spec);
    // Written in bands of rows, so that a large frame needs no second copy in memory.
    constexpr int kBand = 64;
    const size_t pixel_bytes = spec.pixel_bytes(true);
    const auto width = static_cast<size_t>(record.width());
    std::vector<char> band(width * kBand * pixel_bytes);
    for (int y = 0; y < record.height(); y += kBand) {
        const int last = std::min(y + kBand, record.height());
        parallel_blocks(last - y, 1, [&](int64_t row, int64_t) {
            char* out = band.data() + static_cast<size_t>(row) * width * pixel_bytes;
            const size_t first = (static_cast<size_t>(y) + static_cast<size_t>(row)) * width;
            for (const ChannelSource& channel : channels) {
                put_row(channel, first, width, pixel_bytes, out);
                out += channel.is_half ? sizeof(half) : sizeof(float);
            }
        });
        file.write_rows(y, last, OIIO::TypeDesc::UNKNOWN, band.data());
    }
    file.commit();
}

}  // namespace dapple
