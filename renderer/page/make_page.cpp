#include "page/make_page.h"

#include <algorithm>

#include "base/parallel.h"
#include "page/html_text.h"
#include "page/layer_codec.h"
#include "page/page_json.h"
#include "page/page_parts.h"
#include "page/shrink_light.h"

namespace dapple {

namespace {

// How precisely, and how small, in the order in which they are tried.
struct Quality {
    double steps = 0;
    int shrink = 1;
};
constexpr Quality kQualities[] = {{1000, 1},
                                  {800, 1},
                                  {650, 1},
                                  {500, 1},
                                  {350, 1},
                                  {500, 2},
                                  {350, 2},
                                  {350, 3},
                                  {350, 4},
                                  {350, 6},
                                  {350, 8}};

// Four bytes as five digits of 85, which takes 6 % less than base64. The last bytes are filled up
// with zeros. No digit means anything to HTML.
std::string base85(const std::vector<uint8_t>& bytes) {
    constexpr char kDigits[] =
        "0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ.-:+=^!/*?,;>()[]{}@%$#";
    std::string text;
    text.reserve((bytes.size() + 3) / 4 * 5);
    for (size_t i = 0; i < bytes.size(); i += 4) {
        uint32_t word = 0;
        for (size_t k = 0; k < 4; ++k) {
            word = word << 8U | (i + k < bytes.size() ? bytes[i + k] : 0U);
        }
        char digits[5];
        for (int k = 4; k >= 0; --k, word /= 85) digits[k] = kDigits[word % 85];
        text.append(digits, 5);
    }
    return text;
}

// The page turns a fixture up to a dimmer of 1. Below a twentieth the highest lights would be cut.
double full_of(const FilmRecord& film, const LightLayer& layer) {
    if (layer.fixture < 0) return 1;
    const double dimmer = film.fixtures[static_cast<size_t>(layer.fixture)].dimmer;
    return std::clamp(dimmer, 0.05, 1.0);
}

struct Packed {
    PageFrame frame;
    std::vector<std::string> layers;  // base85
    size_t bytes = 0;
};

Packed pack_layers(const FilmRecord& film, const std::string& name, const Quality& quality) {
    Packed packed;
    packed.frame = {name, film.width() / quality.shrink, film.height() / quality.shrink, {}};
    packed.layers.resize(film.layers.size());
    for (const LightLayer& layer : film.layers) {
        packed.frame.layers.push_back({.code = {full_of(film, layer), quality.steps}});
    }
    parallel_blocks(static_cast<int64_t>(packed.layers.size()), 1, [&](int64_t g, int64_t) {
        const auto at = static_cast<size_t>(g);
        const LightLayer& layer = film.layers[at];
        PageLayer& kept = packed.frame.layers[at];
        const EncodedLayer encoded = encode_layer(
            shrink_light(shown_light(layer), film.width(), film.height(), quality.shrink),
            packed.frame.width,
            kept.code);
        kept.red = encoded.red;
        kept.blue = encoded.blue;
        kept.bytes = encoded.bytes.size();
        packed.layers[at] = base85(encoded.bytes);
    });
    for (const std::string& layer : packed.layers) packed.bytes += layer.size();
    return packed;
}

std::string assemble(const FilmRecord& film, const Packed& packed, const std::string& json) {
    std::string data = "<script type=\"application/json\" id=\"film\">" + json + "</script>\n";
    for (const std::string& layer : packed.layers) {
        data += "<script type=\"text/plain\" class=\"layer\">" + layer + "</script>\n";
    }
    std::string html = kPageHtml;
    replace_mark(html, "@STYLE@", kPageStyle);
    replace_mark(html, "@CODE@", kPageCode);
    replace_mark(html, "@TITLE@", in_html(film.title.empty() ? packed.frame.name : film.title));
    replace_mark(html, "@DATA@", data);
    return html;
}

}  // namespace

FilmPage make_page(const FilmRecord& film, const PageOptions& options) {
    FilmPage page;
    for (const Quality& quality : kQualities) {
        if (options.keeps_size && quality.shrink > 1) break;
        if (film.width() < quality.shrink || film.height() < quality.shrink) break;
        const Packed packed = pack_layers(film, options.name, quality);
        page.width = packed.frame.width;
        page.height = packed.frame.height;
        page.steps = quality.steps;
        if (packed.bytes > options.most_bytes && quality.shrink < 8) continue;
        page.html = assemble(film, packed, page_json_text(film, packed.frame));
        if (page.html.size() <= options.most_bytes) break;
    }
    return page;
}

}  // namespace dapple
