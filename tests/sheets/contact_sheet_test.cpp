// The contact sheet: its grid, its captions, and what happens to long names.
#include "sheets/contact_sheet.h"

#include <doctest/doctest.h>

#include <set>

#include "sheets/contact_grid.h"
#include "sheets/fit_text.h"

using namespace dapple;

namespace {

Picture grey_picture(int width, int height) {
    Picture picture{width, height, {}};
    picture.pixels.assign(static_cast<size_t>(width) * static_cast<size_t>(height), Rgb(0.5F));
    return picture;
}

// 60 characters that differ in the middle and at the end.
std::string long_name(int number) {
    std::string name = "ribbed jar turned by " + std::to_string(1000 + number) +
                       " degrees, moon at 4800 K, tungsten at half";
    name.resize(60, '.');
    return name;
}

const std::string kLongLight =
    "Warm key from camera left through the tumbler, warm fill from camera right through the fill "
    "diffuser, cool net from camera left through the ribbed jar and 4 more lights; flat contrast.";

// Frames of 3:2, 2:3 and 21:9 in turn.
ContactSheet sheet_of(int frames, bool mixed) {
    ContactSheet sheet{"A set with a name", "frames", {}};
    const int widths[] = {90, 60, 210};
    const int heights[] = {60, 90, 90};
    for (int i = 0; i < frames; ++i) {
        const int kind = mixed ? i % 3 : 0;
        sheet.frames.push_back(make_contact_frame(
            grey_picture(widths[kind], heights[kind]), long_name(i), kLongLight));
    }
    return sheet;
}

void check_texts(const std::vector<Page>& pages) {
    for (const Page& page : pages) {
        const PageBox paper{DVec2(0), page.size()};
        const auto& texts = page.texts();
        for (size_t i = 0; i < texts.size(); ++i) {
            CAPTURE(texts[i].text);
            CHECK(paper.contains(texts[i].box));
            for (size_t j = 0; j < i; ++j) CHECK_FALSE(texts[i].box.overlaps(texts[j].box));
        }
    }
}

}  // namespace

TEST_CASE("no two texts of a contact sheet overlap, and none leaves its page") {
    for (const int frames : {1, 5, 25, 60}) {
        for (const bool mixed : {false, true}) {
            CAPTURE(frames);
            CAPTURE(mixed);
            const ContactSheet sheet = sheet_of(frames, mixed);
            const std::vector<Page> pages = make_contact_sheet(sheet);
            check_texts(pages);
            // Heading, note and number on each page; name and light of each frame, uncut.
            size_t texts = 0;
            std::multiset<std::string> all;
            for (const Page& page : pages) {
                texts += page.texts().size();
                for (const auto& text : page.texts()) all.insert(text.text);
            }
            CHECK(texts == 3 * pages.size() + 2 * sheet.frames.size());
            CHECK(all.count(kLongLight) == sheet.frames.size());
            for (const ContactFrame& frame : sheet.frames) CHECK(all.count(frame.name) == 1);
        }
    }
}

TEST_CASE("names without end lose their middle and stay apart from each other") {
    ContactSheet sheet = sheet_of(25, true);
    for (size_t i = 0; i < sheet.frames.size(); ++i) {
        sheet.frames[i].name = std::string(300, 'w') + " " + std::to_string(i);
    }
    sheet.heading = std::string(1000, 'm');
    const std::vector<Page> pages = make_contact_sheet(sheet);
    check_texts(pages);
    size_t shortened = 0;
    for (const Page& page : pages) {
        for (const auto& text : page.texts()) {
            shortened += text.text.starts_with("www") && text.text.find("…") != std::string::npos;
        }
    }
    CHECK(shortened == sheet.frames.size());
}

TEST_CASE("a text that loses its middle keeps its beginning, its end and whole characters") {
    TextStyle style;
    style.wrap = 20;
    const std::string text = "äöü the beginning and a long middle part and the end äöü";
    const TextBox box = fit_text(text, style, 2);
    CHECK(box.height() <= TextBox("Ag\nAg", style).height() + 1e-9);
    CHECK(box.text().starts_with("äöü the"));
    CHECK(box.text().ends_with("end äöü"));
    CHECK(fit_text("short", style, 2).text() == "short");
}

TEST_CASE("a wide frame lies on a landscape page, a tall one stands on a portrait page") {
    ContactSheet sheet = sheet_of(1, false);
    CHECK(make_contact_sheet(sheet).front().size().x == 297);
    sheet.frames.front() = make_contact_frame(grey_picture(60, 90), "tall", "");
    CHECK(make_contact_sheet(sheet).front().size().x == 210);
}

TEST_CASE("pictures are made when their page is drawn, each once") {
    ContactSheet sheet = sheet_of(60, false);
    size_t made = 0;
    for (ContactFrame& frame : sheet.frames) {
        frame.picture = [&made, frame] {
            ++made;
            return grey_picture(frame.width, frame.height);
        };
    }
    std::vector<size_t> by_page;
    draw_contact_sheet(sheet, [&](const Page&) { by_page.push_back(made); });
    CHECK(by_page.size() > 1);
    CHECK(by_page.front() < 60);
    CHECK(made == 60);
}

TEST_CASE("frames keep their proportions and fit their cells") {
    GridNeeds needs;
    needs.aspects = {1.5, 2.0 / 3, 1.0, 21.0 / 9, 1.5, 1.5, 0.5};
    needs.heading_height = [](double) { return 15.0; };
    needs.caption_height = [](double width) { return 600 / width; };
    const ContactGrid grid = choose_grid(needs);
    const int last = static_cast<int>(needs.aspects.size()) - 1;
    for (int i = 0; i <= last; ++i) {
        const double aspect = needs.aspects[static_cast<size_t>(i)];
        const DVec2 size = grid.frame_size(aspect);
        CHECK(size.x / size.y == doctest::Approx(aspect));
        CHECK(size.x <= grid.cell_width + 1e-9);
        CHECK(size.y <= grid.frame_height + 1e-9);
        CHECK(std::max(size.x, size.y) >= kLeastFrame - 1e-9);
    }
    REQUIRE(grid.pages(needs.aspects.size()) == 1);
    const std::vector<double> heights = grid.row_heights(needs.aspects);
    const DVec2 end = grid.cell(last, heights) +
                      DVec2(grid.cell_width, heights.back() + kCaptionGap + grid.caption_height);
    CHECK(end.y <= grid.page.y - kSheetMargin - kSheetFooter + 1e-9);
    const DVec2 corner = grid.cell(grid.columns - 1, heights);
    CHECK(corner.x + grid.cell_width <= grid.page.x - kSheetMargin + 1e-9);
}

TEST_CASE("a row is as high as its highest frame, and tall frames are no larger than wide ones") {
    GridNeeds needs;
    needs.aspects = {1.5, 1.5, 2.0 / 3, 1.5};
    needs.heading_height = [](double) { return 15.0; };
    needs.caption_height = [](double) { return 10.0; };
    const ContactGrid grid = choose_grid(needs);
    const DVec2 wide = grid.frame_size(1.5);
    const DVec2 tall = grid.frame_size(2.0 / 3);
    CHECK(tall.y <= grid.cell_width + 1e-9);
    const std::vector<double> heights = grid.row_heights(needs.aspects);
    for (size_t row = 0; row < heights.size(); ++row) {
        const bool has_tall = 2 / static_cast<size_t>(grid.columns) == row;
        CHECK(heights[row] == doctest::Approx(has_tall ? tall.y : wide.y));
    }
}

TEST_CASE("a sentence that all frames have in common is said once") {
    ContactSheet sheet = sheet_of(5, false);
    say_common_light_once(sheet);
    CHECK(sheet.note == "frames\n" + kLongLight);
    CHECK(sheet.frames[3].light.empty());
    check_texts(make_contact_sheet(sheet));
    ContactSheet unlike = sheet_of(5, false);
    unlike.frames[2].light = "Moonlight.";
    say_common_light_once(unlike);
    CHECK(unlike.note == "frames");
    CHECK(unlike.frames[3].light == kLongLight);
}
