// Pages, text boxes and the files made of them.
#include <doctest/doctest.h>

#include "sheets/page_files.h"
#include "sheets/text_box.h"

using namespace dapple;

namespace {

// The size of a PNG, from its header (PNG specification, 11.2.2).
glm::ivec2 png_size(const std::string& bytes) {
    REQUIRE(bytes.size() > 24);
    const auto number = [&](size_t at) {
        int value = 0;
        for (size_t i = 0; i < 4; ++i)
            value = value * 256 + static_cast<unsigned char>(bytes[at + i]);
        return value;
    };
    return {number(16), number(20)};
}

}  // namespace

TEST_CASE("a text box is as wide as its text, and higher when its lines are broken") {
    const std::string text = "a rather long name for a fixture";
    const TextBox whole(text);
    const TextBox twice(text + text);
    TextStyle style;
    style.wrap = 0.6 * whole.width();
    const TextBox broken(text, style);
    CHECK(twice.width() == doctest::Approx(2 * whole.width()).epsilon(0.02));
    CHECK(broken.width() <= style.wrap + 1e-9);
    CHECK(broken.height() == doctest::Approx(2 * whole.height()).epsilon(0.01));
    // A line is about 1.2 times as high as the size of the type, in every common face.
    CHECK(whole.height() > 1.0 * 8 * kMmPerPoint);
    CHECK(whole.height() < 1.6 * 8 * kMmPerPoint);
}

TEST_CASE("a word that is too long for its box is broken too") {
    TextStyle style;
    style.wrap = 10;
    CHECK(TextBox(std::string(200, 'm'), style).width() <= 10 + 1e-9);
}

TEST_CASE("a page remembers where its text is") {
    Page page;
    const PageBox box = draw_text(page, DVec2(10, 20), "key");
    REQUIRE(page.texts().size() == 1);
    CHECK(page.texts()[0].text == "key");
    CHECK(page.texts()[0].box.low == DVec2(10, 20));
    CHECK(page.texts()[0].box.high == box.high);
}

TEST_CASE("the same pages make a PDF, an SVG and a PNG") {
    std::vector<Page> pages(2);
    for (Page& page : pages) {
        page.fill(PageBox{DVec2(10, 10), DVec2(40, 30)}, grey_ink(0.5));
        draw_text(page, DVec2(10, 40), "seven");
    }
    CHECK(pdf_of(pages, "a title").starts_with("%PDF-"));
    CHECK(svg_of(pages).find("height=\"594mm\"") != std::string::npos);
    const glm::ivec2 size = png_size(png_of(pages, 50.8));  // 2 px/mm
    CHECK(size.x == 420);
    CHECK(size.y == 1188);
}

TEST_CASE("a picture with more rows than a file can have is made smaller") {
    const std::vector<Page> pages(20);
    CHECK(png_size(png_of(pages, 150)).y == 32000);
}
