#include "sheets/page_files.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <stdexcept>

namespace dapple {

namespace {

constexpr double kPointsPerMm = 1 / kMmPerPoint;
constexpr double kMostRows = 32000;  // px; Cairo's limit is 32767

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
    static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

void check(cairo_status_t status) {
    if (status == CAIRO_STATUS_SUCCESS) return;
    throw std::runtime_error(std::string("a page could not be drawn: ") +
                             cairo_status_to_string(status));
}

// A surface and a context on it whose unit is `scale` device units per mm.
class Canvas {
  public:
    Canvas(cairo_surface_t* surface, double scale) : surface_(surface), c_(cairo_create(surface)) {
        cairo_scale(c_, scale, scale);
    }
    ~Canvas() {
        cairo_destroy(c_);
        cairo_surface_destroy(surface_);
    }
    Canvas(const Canvas&) = delete;
    Canvas& operator=(const Canvas&) = delete;

    cairo_surface_t* surface() { return surface_; }
    void draw(const Page& page, double down = 0) {
        cairo_save(c_);
        cairo_translate(c_, 0, down);
        page.replay(c_);
        cairo_restore(c_);
    }
    void paint_white() {
        cairo_set_source_rgb(c_, 1, 1, 1);
        cairo_paint(c_);
    }
    void flush() {
        check(cairo_status(c_));
        cairo_surface_flush(surface_);
    }
    void end_page() { cairo_show_page(c_); }
    void finish() {
        check(cairo_status(c_));
        cairo_surface_finish(surface_);
        check(cairo_surface_status(surface_));
    }

  private:
    cairo_surface_t* surface_;
    cairo_t* c_;
};

// The size of the pages below each other, mm.
DVec2 stacked_size(const std::vector<Page>& pages) {
    DVec2 size(0);
    for (const Page& page : pages) {
        size = DVec2(std::max(size.x, page.size().x), size.y + page.size().y);
    }
    return size;
}

void draw_stacked(const std::vector<Page>& pages, Canvas& canvas) {
    canvas.paint_white();
    double down = 0;
    for (const Page& page : pages) {
        canvas.draw(page, down);
        down += page.size().y;
    }
}

}  // namespace

std::string pdf_of(const std::vector<Page>& pages, const std::string& title) {
    return pdf_of([&](const PageUse& use) { std::for_each(pages.begin(), pages.end(), use); },
                  title);
}

std::string pdf_of(const std::function<void(const PageUse&)>& make_pages,
                   const std::string& title) {
    std::string bytes;
    Canvas canvas(cairo_pdf_surface_create_for_stream(
                      append, &bytes, kA4.x * kPointsPerMm, kA4.y * kPointsPerMm),
                  kPointsPerMm);
    cairo_pdf_surface_set_metadata(canvas.surface(), CAIRO_PDF_METADATA_TITLE, title.c_str());
    make_pages([&](const Page& page) {
        cairo_pdf_surface_set_size(
            canvas.surface(), page.size().x * kPointsPerMm, page.size().y * kPointsPerMm);
        canvas.draw(page);
        canvas.end_page();
    });
    canvas.finish();
    return bytes;
}

std::string svg_of(const std::vector<Page>& pages) {
    std::string bytes;
    const DVec2 size = stacked_size(pages);
    cairo_surface_t* surface = cairo_svg_surface_create_for_stream(append, &bytes, size.x, size.y);
    cairo_svg_surface_set_document_unit(surface, CAIRO_SVG_UNIT_MM);
    Canvas canvas(surface, 1);
    draw_stacked(pages, canvas);
    canvas.finish();
    return bytes;
}

std::string png_of(const std::vector<Page>& pages, double dpi) {
    std::string bytes;
    const DVec2 size = stacked_size(pages);
    const double scale = std::min(dpi / kMmPerInch, kMostRows / std::max(size.y, 1.0));
    const auto pixels = [&](double mm) { return static_cast<int>(std::lround(mm * scale)); };
    Canvas canvas(cairo_image_surface_create(CAIRO_FORMAT_RGB24, pixels(size.x), pixels(size.y)),
                  scale);
    draw_stacked(pages, canvas);
    cairo_surface_flush(canvas.surface());
    check(cairo_surface_write_to_png_stream(canvas.surface(), append, &bytes));
    canvas.finish();
    return bytes;
}

Picture picture_of(const Page& page, double dpi) {
    const double scale = dpi / kMmPerInch;
    const auto pixels = [&](double mm) { return static_cast<int>(std::lround(mm * scale)); };
    Picture picture{pixels(page.size().x), pixels(page.size().y), {}};
    Canvas canvas(cairo_image_surface_create(CAIRO_FORMAT_RGB24, picture.width, picture.height),
                  scale);
    draw_stacked({page}, canvas);
    canvas.flush();
    const unsigned char* bytes = cairo_image_surface_get_data(canvas.surface());
    const int stride = cairo_image_surface_get_stride(canvas.surface());
    const auto part = [](uint32_t code) { return static_cast<float>(code & 0xFFU) / 255.0F; };
    for (int y = 0; y < picture.height; ++y) {
        const auto* row =
            reinterpret_cast<const uint32_t*>(bytes + static_cast<ptrdiff_t>(y) * stride);
        for (int x = 0; x < picture.width; ++x) {
            picture.pixels.emplace_back(part(row[x] >> 16U), part(row[x] >> 8U), part(row[x]));
        }
    }
    return picture;
}

}  // namespace dapple
