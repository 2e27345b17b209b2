#include "sheets/text_box.h"

#include <pango/pangocairo.h>

#include <cmath>
#include <memory>

namespace dapple {

namespace {

struct LayoutEnd {
    void operator()(PangoLayout* layout) const { g_object_unref(layout); }
};
using Layout = std::unique_ptr<PangoLayout, LayoutEnd>;

PangoAlignment alignment_of(TextSide side) {
    if (side == TextSide::kMiddle) return PANGO_ALIGN_CENTER;
    return side == TextSide::kRight ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_LEFT;
}

// Distances between glyphs that do not depend on the device.
void use_plain_metrics(PangoContext* context) {
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(context, options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(context, FALSE);
}

// A layout in typographic points. `wrap` is the width of the lines in mm, below 0 for no limit.
Layout make_layout(cairo_t* c, const std::string& text, const TextStyle& style, double wrap) {
    Layout layout(pango_cairo_create_layout(c));
    use_plain_metrics(pango_layout_get_context(layout.get()));
    PangoFontDescription* font = pango_font_description_new();
    pango_font_description_set_family(font, "sans-serif");
    pango_font_description_set_absolute_size(font, style.points * PANGO_SCALE);
    if (style.bold) pango_font_description_set_weight(font, PANGO_WEIGHT_BOLD);
    pango_layout_set_font_description(layout.get(), font);
    pango_font_description_free(font);
    pango_layout_set_alignment(layout.get(), alignment_of(style.side));
    if (wrap >= 0) {
        const double units = std::ceil(wrap / kMmPerPoint * PANGO_SCALE);
        pango_layout_set_width(layout.get(), static_cast<int>(units));
        pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
    }
    pango_layout_set_text(layout.get(), text.data(), static_cast<int>(text.size()));
    return layout;
}

DVec2 measure(const std::string& text, const TextStyle& style) {
    cairo_surface_t* surface = cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1);
    cairo_t* c = cairo_create(surface);
    int width = 0;
    int height = 0;
    {
        const Layout layout = make_layout(c, text, style, style.wrap > 0 ? style.wrap : -1);
        PangoRectangle logical{};
        pango_layout_get_extents(layout.get(), nullptr, &logical);
        width = logical.width;
        height = logical.height;
    }
    cairo_destroy(c);
    cairo_surface_destroy(surface);
    return kMmPerPoint / PANGO_SCALE * DVec2(width, height);
}

// Bytes that are not UTF-8, as names of files can have, are replaced.
std::string valid_text(const std::string& text) {
    char* valid = g_utf8_make_valid(text.data(), static_cast<gssize>(text.size()));
    std::string result = valid;
    g_free(valid);
    return result;
}

}  // namespace

TextBox::TextBox(const std::string& text, const TextStyle& style)
    : text_(valid_text(text)), style_(style), size_(measure(text_, style)) {}

void TextBox::draw(Page& page, const DVec2& corner) const {
    // The lines are as wide as the widest one, with a little to spare for rounding.
    constexpr double kSpare = 0.01;  // mm
    const double wrap = size_.x + kSpare;
    page.add_text({text_, at(corner)}, [text = text_, style = style_, corner, wrap](cairo_t* c) {
        cairo_save(c);
        cairo_translate(c, corner.x, corner.y);
        cairo_scale(c, kMmPerPoint, kMmPerPoint);
        cairo_set_source_rgba(c, style.ink.red, style.ink.green, style.ink.blue, style.ink.opacity);
        const Layout layout = make_layout(c, text, style, wrap);
        pango_cairo_show_layout(c, layout.get());
        cairo_restore(c);
    });
}

PageBox draw_text(Page& page,
                  const DVec2& corner,
                  const std::string& text,
                  const TextStyle& style) {
    const TextBox box(text, style);
    box.draw(page, corner);
    return box.at(corner);
}

}  // namespace dapple

#ifdef __SANITIZE_ADDRESS__
// Fontconfig and Pango keep their caches until the process ends.
extern "C" const char* __lsan_default_suppressions() {
    return "leak:libfontconfig\nleak:libpango\nleak:libglib\nleak:libcairo\n";
}
extern "C" const char* __lsan_default_options() {
    return "print_suppressions=0";
}
#endif
