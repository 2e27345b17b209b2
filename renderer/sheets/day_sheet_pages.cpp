#include "sheets/day_sheet_pages.h"

#include <optional>

#include "sheets/day_sheet_tables.h"
#include "sheets/draw_set.h"
#include "sheets/page_flow.h"

namespace dapple {

namespace {

// Heights of the drawings that are tried, mm.
constexpr double kDrawingHeights[] = {
    262, 245, 230, 215, 200, 185, 170, 155, 140, 125, 110, 95, 80};
// Drawings are at most this much smaller than on a page of their own: so that everything is on one
// page, or so that the table of places is not divided.
constexpr double kSmallerForOnePage = 2.05;
constexpr double kSmallerForPlaces = 1.35;

void add_title(PageFlow& flow, const DaySheet& sheet) {
    TextStyle style;
    style.points = 12;
    style.bold = true;
    flow.add({paragraph(sheet.list.title, flow.width(), style)});
    flow.take(1.5);
}

void add_drawings(PageFlow& flow, const DaySheet& sheet, double height) {
    const ViewLayout layout = choose_layout(sheet, DVec2(flow.width(), height));
    const DVec2 corner = flow.take(layout.size.y + 1);
    const ViewOnPage above(sheet, SheetView::kAbove, layout.scale, corner);
    draw_set(flow.page(), sheet, above);
    const DVec2 second =
        layout.beside ? DVec2(corner.x + layout.size.x -
                                  size_on_page(extent_of(sheet, SheetView::kSide), layout.scale).x,
                              corner.y)
                      : DVec2(corner.x, above.whole().high.y);
    draw_set(flow.page(), sheet, ViewOnPage(sheet, SheetView::kSide, layout.scale, second));
}

void append_rows(std::vector<FlowRow>& rows, const std::vector<FlowRow>& more) {
    rows.insert(rows.end(), more.begin(), more.end());
}

struct DrawnSheet {
    std::vector<Page> pages;
    bool places_divided = false;
};

DrawnSheet draw_with(const DaySheet& sheet, double drawing_height) {
    DrawnSheet drawn;
    PageFlow flow;
    add_title(flow, sheet);
    add_drawings(flow, sheet, drawing_height);
    const std::vector<FlowRow> places = rows_of(places_table(sheet), flow.width());
    drawn.places_divided = height_of(places) > flow.space_left();
    flow.add(places);
    for (const TableBlock& block : targets_tables(sheet)) flow.add(rows_of(block, flow.width()));
    std::vector<FlowRow> rest;
    for (const TableBlock& block :
         {carry_table(sheet), circuits_table(sheet), order_table(sheet), cautions_table(sheet)}) {
        append_rows(rest, rows_of(block, flow.column_width()));
    }
    flow.add_in_columns(rest);
    drawn.pages = flow.finish(sheet.list.title);
    return drawn;
}

}  // namespace

std::vector<Page> draw_day_sheet(const DaySheet& sheet) {
    const DVec2 page_of_drawings(kA4.x - 2 * kPageMargin, kDrawingHeights[0]);
    const double best = choose_layout(sheet, page_of_drawings).scale;
    std::optional<DrawnSheet> whole;
    for (const double height : kDrawingHeights) {
        const double scale = choose_layout(sheet, DVec2(page_of_drawings.x, height)).scale;
        if (scale > kSmallerForOnePage * best) break;
        DrawnSheet drawn = draw_with(sheet, height);
        if (drawn.pages.size() == 1) return std::move(drawn.pages);
        const bool better = whole && whole->places_divided && !drawn.places_divided &&
                            scale <= kSmallerForPlaces * best;
        if (!whole || better) whole = std::move(drawn);
    }
    return std::move(whole->pages);
}

}  // namespace dapple
