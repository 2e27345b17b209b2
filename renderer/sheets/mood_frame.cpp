#include "sheets/mood_frame.h"

#include <algorithm>
#include <cmath>

#include "sheets/fit_text.h"
#include "sheets/page_files.h"

namespace dapple {

namespace {

// The caption is drawn on a page whose millimetres are pixels.
constexpr double kPixelDpi = kMmPerInch;
constexpr double kMount = 24.0 / 255;
const Ink kTitleInk = grey_ink(0.86);
const Ink kLightInk = grey_ink(0.62);

TextStyle style_of(double type_px, const Ink& ink, double wrap) {
    return {.points = type_px / kMmPerPoint, .ink = ink, .wrap = wrap};
}

// The mount below the frame, with the caption.
Picture make_band(const MoodCaption& caption, int frame_width, int margin) {
    const double type = std::max(12.0, frame_width / 56.0);
    const double small = std::max(11.0, frame_width / 68.0);
    constexpr int kMostLines = 4;
    TextStyle title_style = style_of(type, kTitleInk, frame_width);
    title_style.bold = true;
    const TextBox title = fit_text(name_of(caption), title_style, kMostLines);
    const TextBox light(caption.light, style_of(small, kLightInk, frame_width));
    const double top = 0.75 * margin;
    const double between = 0.25 * type;
    const double height = top + title.height() + between + light.height() + margin;
    Page page({frame_width + 2.0 * margin, std::ceil(height)});
    page.fill(PageBox{DVec2(0), page.size()}, grey_ink(kMount));
    title.draw(page, DVec2(margin, top));
    light.draw(page, DVec2(margin, top + title.height() + between));
    return picture_of(page, kPixelDpi);
}

}  // namespace

std::string name_of(const MoodCaption& caption) {
    if (caption.title.empty() || caption.variant.empty()) return caption.title + caption.variant;
    return caption.title + ": " + caption.variant;
}

MoodFrame make_mood_frame(const Picture& frame, const MoodCaption& caption) {
    const int margin = std::max(12, static_cast<int>(std::lround(0.03 * frame.width)));
    const Picture band = make_band(caption, frame.width, margin);
    MoodFrame mood{{band.width, margin + frame.height + band.height, {}}, margin, margin};
    std::vector<Rgb>& pixels = mood.picture.pixels;
    const auto width = static_cast<size_t>(band.width);
    pixels.assign(width * static_cast<size_t>(margin + frame.height),
                  Rgb(static_cast<float>(kMount)));
    for (int y = 0; y < frame.height; ++y) {
        const auto from = frame.pixels.begin() + static_cast<ptrdiff_t>(y) * frame.width;
        std::copy_n(from,
                    frame.width,
                    pixels.begin() + static_cast<ptrdiff_t>(margin + y) * band.width + margin);
    }
    pixels.insert(pixels.end(), band.pixels.begin(), band.pixels.end());
    return mood;
}

}  // namespace dapple
