#include "output/read_exr.h"

#include <OpenImageIO/half.h>
#include <OpenImageIO/imageio.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <new>
#include <unordered_set>

#include "base/parallel.h"
#include "base/problems.h"
#include "output/film_json.h"
#include "output/record_channels.h"

namespace dapple {

namespace {

using ChannelTarget = ChannelPlace<float, int32_t>;

std::string reason_of(const std::string& library) {
    return library.substr(0, library.find('\n'));
}

std::unique_ptr<OIIO::ImageInput> open_exr(const std::string& path) {
    if (std::filesystem::is_directory(path)) throw FileError(path, "is a folder, not an EXR");
    errno = 0;
    if (!std::ifstream(path)) {
        throw FileError(path, std::string("cannot be read: ") + std::strerror(errno));
    }
    auto input = OIIO::ImageInput::create("openexr");
    OIIO::ImageSpec spec;
    if (!input || !input->open(path, spec)) {
        throw FileError(path, "is not an EXR, or is damaged");
    }
    return input;
}

void check_is_film(const std::string& path, const OIIO::ImageSpec& spec) {
    if (!spec.get_string_attribute(kFilmAttribute).empty()) return;
    const bool is_older = !spec.get_string_attribute("dapple:fixtures").empty();
    throw FileError(path,
                    is_older ? "is a film of an older dapple, which kept less; render the set again"
                             : "is not a film of dapple: it has no " + std::string(kFilmAttribute));
}

// Makes room for the pixels of what the file has channels for.
void make_room(const OIIO::ImageSpec& spec, FilmRecord& record) {
    const std::unordered_set<std::string> names(spec.channelnames.begin(), spec.channelnames.end());
    const auto pixels = static_cast<size_t>(record.pixels());
    record.light.resize(pixels);
    record.luminance.resize(pixels);
    record.luminance_stderr.resize(pixels);
    if (names.contains("noise.Y")) record.noise.resize(pixels);
    if (names.contains("clean.R")) {
        record.clean.resize(pixels);
        record.clean_stderr.resize(pixels);
    }
    if (names.contains("glare.R")) record.glare.resize(pixels);
    for (LightLayer& layer : record.layers) {
        layer.light.resize(pixels);
        if (names.contains("clean." + layer.layer + ".R")) layer.clean.resize(pixels);
        if (names.contains("glare.R")) layer.glare.resize(pixels);
    }
    if (!names.contains("surface.id")) return;
    FirstHits& hits = record.first_hits;
    hits.width = record.width();
    hits.height = record.height();
    hits.albedo.resize(pixels);
    hits.normal.resize(pixels);
    hits.depth.resize(pixels);
    hits.surface.resize(pixels);
    hits.footprint_m.resize(pixels);
    if (names.contains("surface.lamp")) hits.lamp.resize(pixels);
}

// Where the values of the file's channels go; nowhere for channels that others have added.
struct FileChannel {
    std::optional<ChannelTarget> place;
    bool is_half = false;
    size_t bytes = 4;
};

std::vector<FileChannel> match_channels(const std::string& path,
                                        const OIIO::ImageSpec& spec,
                                        FilmRecord& record) {
    std::vector<FileChannel> channels(static_cast<size_t>(spec.nchannels));
    for (size_t c = 0; c < channels.size(); ++c) {
        const OIIO::TypeDesc type = spec.channelformat(static_cast<int>(c));
        channels[c].is_half = type == OIIO::TypeDesc::HALF;
        channels[c].bytes = type.size();
    }
    visit_channels(record, [&](const ChannelTarget& place) {
        const int c = spec.channelindex(place.name);
        if (c < 0) throw FileError(path, "is damaged: it has no channel " + place.name);
        const OIIO::TypeDesc type = spec.channelformat(c);
        if (type != OIIO::TypeDesc::HALF && type != OIIO::TypeDesc::FLOAT) {
            throw FileError(path, "is damaged: its channel " + place.name + " is of another type");
        }
        channels[static_cast<size_t>(c)].place = place;
    });
    return channels;
}

// A row of one channel from pixels of `stride` bytes.
void take_row(
    const FileChannel& channel, size_t first, size_t width, size_t stride, const char* bytes) {
    const ChannelTarget& target = *channel.place;
    const auto step = static_cast<size_t>(target.step);
    for (size_t x = 0; x < width; ++x, bytes += stride) {
        float value = 0;
        if (channel.is_half) {
            half narrow;
            std::memcpy(&narrow, bytes, sizeof narrow);
            value = narrow;
        } else {
            std::memcpy(&value, bytes, sizeof value);
        }
        const size_t at = (first + x) * step;
        if (target.integers) {
            target.integers[at] = value >= 0 && value < 0x1p24F ? static_cast<int32_t>(value) : -1;
        } else {
            target.floats[at] = value;
        }
    }
}

void read_pixels(const std::string& path, OIIO::ImageInput& input, FilmRecord& record) {
    const OIIO::ImageSpec& spec = input.spec();
    const std::vector<FileChannel> channels = match_channels(path, spec, record);
    constexpr int kBand = 64;
    const size_t pixel_bytes = spec.pixel_bytes(true);
    const auto width = static_cast<size_t>(spec.width);
    std::vector<char> band(width * kBand * pixel_bytes);
    for (int y = 0; y < spec.height; y += kBand) {
        const int last = std::min(y + kBand, spec.height);
        if (!input.read_native_scanlines(0, 0, spec.y + y, spec.y + last, 0, band.data())) {
            throw FileError(path, "is truncated or damaged: " + reason_of(input.geterror()));
        }
        parallel_blocks(last - y, 1, [&](int64_t row, int64_t) {
            const char* bytes = band.data() + static_cast<size_t>(row) * width * pixel_bytes;
            const size_t first = (static_cast<size_t>(y) + static_cast<size_t>(row)) * width;
            for (const FileChannel& channel : channels) {
                if (channel.place) take_row(channel, first, width, pixel_bytes, bytes);
                bytes += channel.bytes;
            }
        });
    }
}

FilmRecord read_header(const std::string& path, const OIIO::ImageSpec& spec) {
    check_is_film(path, spec);
    FilmRecord record = parse_film_json(path, spec.get_string_attribute(kFilmAttribute));
    if (spec.width != record.width() || spec.height != record.height() || spec.tile_width != 0) {
        throw FileError(path, "is damaged: its frame has another size than its film");
    }
    return record;
}

}  // namespace

FilmRecord read_exr_without_pixels(const std::string& path) {
    return read_header(path, open_exr(path)->spec());
}

FilmRecord read_exr(const std::string& path) {
    const std::unique_ptr<OIIO::ImageInput> input = open_exr(path);
    const OIIO::ImageSpec& spec = input->spec();
    FilmRecord record = read_header(path, spec);
    try {
        make_room(spec, record);
        read_pixels(path, *input, record);
    } catch (const std::bad_alloc&) {
        throw FileError(path, "is too large for this machine's memory, or damaged");
    }
    for (RegionRecord& r : record.regions) {
        r.pixels = find_pixels(record.first_hits, r.region.surface, r.region.rect_px());
    }
    return record;
}

}  // namespace dapple
