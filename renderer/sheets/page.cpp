#include "sheets/page.h"

#include <cairo.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "base/units.h"

namespace dapple {

namespace {

void use(cairo_t* c, const Ink& ink) {
    cairo_set_source_rgba(c, ink.red, ink.green, ink.blue, ink.opacity);
}

void stroke(cairo_t* c, const Pen& pen) {
    use(c, pen.ink);
    cairo_set_line_width(c, pen.width);
    cairo_set_line_join(c, CAIRO_LINE_JOIN_ROUND);
    cairo_set_line_cap(c, pen.dashes.empty() ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
    cairo_set_dash(c, pen.dashes.data(), static_cast<int>(pen.dashes.size()), 0);
    cairo_stroke(c);
}

void trace(cairo_t* c, const std::vector<DVec2>& points, bool closed) {
    cairo_new_path(c);
    for (const DVec2& p : points) cairo_line_to(c, p.x, p.y);
    if (closed) cairo_close_path(c);
}

void trace_circle(cairo_t* c, const DVec2& centre, double radius) {
    cairo_new_path(c);
    cairo_arc(c, centre.x, centre.y, radius, 0, 2 * kPi);
    cairo_close_path(c);
}

std::vector<DVec2> corners(const PageBox& b) {
    return {b.low, DVec2(b.high.x, b.low.y), b.high, DVec2(b.low.x, b.high.y)};
}

struct SurfaceEnd {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
using SharedSurface = std::shared_ptr<cairo_surface_t>;

SharedSurface image_of(const Picture& picture) {
    SharedSurface image(
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, picture.width, picture.height),
        SurfaceEnd());
    cairo_surface_flush(image.get());
    unsigned char* bytes = cairo_image_surface_get_data(image.get());
    const int stride = cairo_image_surface_get_stride(image.get());
    if (bytes == nullptr) return image;
    const auto code = [](float value) {
        return static_cast<uint32_t>(std::lround(255.0F * std::clamp(value, 0.0F, 1.0F)));
    };
    for (int y = 0; y < picture.height; ++y) {
        auto* row = reinterpret_cast<uint32_t*>(bytes + static_cast<ptrdiff_t>(y) * stride);
        for (int x = 0; x < picture.width; ++x) {
            const Rgb& p = picture.pixels[static_cast<size_t>(y * picture.width + x)];
            row[x] = code(p.x) << 16U | code(p.y) << 8U | code(p.z);
        }
    }
    cairo_surface_mark_dirty(image.get());
    return image;
}

}  // namespace

void Page::line(std::vector<DVec2> points, const Pen& pen, bool closed) {
    acts_.emplace_back([points = std::move(points), pen, closed](cairo_t* c) {
        trace(c, points, closed);
        stroke(c, pen);
    });
}

void Page::fill(std::vector<DVec2> points, const Ink& ink) {
    acts_.emplace_back([points = std::move(points), ink](cairo_t* c) {
        trace(c, points, true);
        use(c, ink);
        cairo_fill(c);
    });
}

void Page::circle(const DVec2& centre, double radius, const Pen& pen) {
    acts_.emplace_back([centre, radius, pen](cairo_t* c) {
        trace_circle(c, centre, radius);
        stroke(c, pen);
    });
}

void Page::disc(const DVec2& centre, double radius, const Ink& ink) {
    acts_.emplace_back([centre, radius, ink](cairo_t* c) {
        trace_circle(c, centre, radius);
        use(c, ink);
        cairo_fill(c);
    });
}

void Page::rectangle(const PageBox& box, const Pen& pen) {
    line(corners(box), pen, true);
}

void Page::fill(const PageBox& box, const Ink& ink) {
    fill(corners(box), ink);
}

void Page::picture(const PageBox& box, const Picture& picture) {
    if (picture.width <= 0 || picture.height <= 0) return;
    const SharedSurface image = image_of(picture);
    const double width = picture.width;
    const double height = picture.height;
    acts_.emplace_back([image, box, width, height](cairo_t* c) {
        cairo_save(c);
        cairo_translate(c, box.low.x, box.low.y);
        cairo_scale(c, box.width() / width, box.height() / height);
        cairo_set_source_surface(c, image.get(), 0, 0);
        // Without this the edges would be mixed with what is around the picture.
        cairo_pattern_set_extend(cairo_get_source(c), CAIRO_EXTEND_PAD);
        cairo_rectangle(c, 0, 0, width, height);
        cairo_fill(c);
        cairo_restore(c);
    });
}

void Page::begin_clip(const PageBox& box) {
    acts_.emplace_back([box](cairo_t* c) {
        cairo_save(c);
        cairo_rectangle(c, box.low.x, box.low.y, box.width(), box.height());
        cairo_clip(c);
    });
}

void Page::end_clip() {
    acts_.emplace_back([](cairo_t* c) { cairo_restore(c); });
}

void Page::add_text(PlacedText placed, Act act) {
    texts_.push_back(std::move(placed));
    acts_.push_back(std::move(act));
}

void Page::replay(cairo_t* context) const {
    for (const Act& act : acts_) act(context);
}

}  // namespace dapple
