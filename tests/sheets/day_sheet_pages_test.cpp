// The pages of the day sheet: nothing covers anything else, and little takes one page.
#include "sheets/day_sheet_pages.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "sheets/day_sheets.h"
#include "sheets/page_files.h"
#include "sheets/set_view.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// Pairs of texts that cover each other, and texts that leave the page.
std::vector<std::string> collisions(const std::vector<Page>& pages) {
    std::vector<std::string> found;
    for (const Page& page : pages) {
        const PageBox paper = PageBox{DVec2(0), page.size()}.grown(-5);
        const std::vector<Page::PlacedText>& texts = page.texts();
        for (size_t i = 0; i < texts.size(); ++i) {
            if (!paper.contains(texts[i].box)) found.push_back(texts[i].text + " leaves the page");
            for (size_t j = i + 1; j < texts.size(); ++j) {
                // Less than the rounding of the layout's units.
                if (texts[i].box.grown(-0.01).overlaps(texts[j].box)) {
                    found.push_back(texts[i].text + " covers " + texts[j].text);
                }
            }
        }
    }
    return found;
}

int count_of(const std::vector<Page>& pages, const std::string& text) {
    int count = 0;
    for (const Page& page : pages) {
        count += static_cast<int>(
            std::count_if(page.texts().begin(), page.texts().end(), [&](const auto& placed) {
                return placed.text == text;
            }));
    }
    return count;
}

}  // namespace

TEST_CASE("no text covers another, with one fixture or twenty-five, with short or long names" *
          doctest::test_suite("figures")) {
    for (const int fixtures : {1, 5, 9, 25}) {
        for (const std::string& name :
             {std::string("key "),
              std::string("the lamp on the ladder behind the old piano in the far corner, number "),
              std::string(70, 'w')}) {
            const std::vector<Page> pages = draw_day_sheet(crowded_sheet(fixtures, name));
            CAPTURE(fixtures);
            CAPTURE(name);
            for (const std::string& collision : collisions(pages)) FAIL_CHECK(collision);
            CHECK(pdf_of(pages, "x").starts_with("%PDF-"));
        }
    }
}

TEST_CASE("no text covers another in a hall of kilometres or in a set without walls") {
    DaySheet sheet = crowded_sheet(5, "key ");
    sheet.room.box = RoomBox{Point(-5000, 0, -4500), Point(5000, 800, 4500)};
    for (const std::string& collision : collisions(draw_day_sheet(sheet))) FAIL_CHECK(collision);
    sheet.room.box.reset();
    for (const std::string& collision : collisions(draw_day_sheet(sheet))) FAIL_CHECK(collision);
}

TEST_CASE("five fixtures take one page, twenty-five take more") {
    CHECK(draw_day_sheet(crowded_sheet(1, "key ")).size() == 1);
    CHECK(draw_day_sheet(crowded_sheet(5, "key ")).size() == 1);
    CHECK(draw_day_sheet(crowded_sheet(25, "key ")).size() > 1);
}

TEST_CASE("every thing of a crowded set has its label in both views and its row in the table") {
    const DaySheet sheet = crowded_sheet(9, "a lamp with a name that is too long for a label ");
    const std::vector<Page> pages = draw_day_sheet(sheet);
    for (const PlacedThing& place : sheet.places) {
        if (place.kind == PlaceKind::kCamera) continue;
        CAPTURE(place.label);
        const int labels =
            count_of(pages, place.label) + count_of(pages, place.label + " " + place.name);
        CHECK(labels >= 3);  // above, side, table of places
        CHECK(count_of(pages, place.name) >= 1);
    }
}

TEST_CASE("a view is to scale") {
    const DaySheet sheet = crowded_sheet(1, "key ");
    const ViewOnPage view(sheet, SheetView::kAbove, 50, DVec2(10, 20));
    const DVec2 a = view.at(Point(-3, 0, -2));
    const DVec2 b = view.at(Point(3, 1, 2));
    CHECK(b.x - a.x == doctest::Approx(6000.0 / 50));
    CHECK(b.y - a.y == doctest::Approx(4000.0 / 50));
    const ViewOnPage side(sheet, SheetView::kSide, 50, DVec2(10, 20));
    CHECK(side.at(Point(0, 0, 0)).y - side.at(Point(0, 3, 0)).y == doctest::Approx(60));
}

TEST_CASE("the scale is the largest at which both views fit") {
    const DaySheet sheet = crowded_sheet(1, "key ");
    const DVec2 space(190, 120);
    const ViewLayout layout = choose_layout(sheet, space);
    CHECK(layout.size.x <= space.x);
    CHECK(layout.size.y <= space.y);
    CHECK(layout.scale == 80);  // 2 × 6000/75 and the space around the views is over 190 mm
}
