#include "sheets/day_sheet_pages.h"

#include "sheets/day_sheet_tables.h"
#include "sheets/draw_set.h"
#include "sheets/page_flow.h"

namespace dapple {

namespace {

// Heights that are tried for the drawings, mm. The first with which everything is on one page is
// taken; if there is none, the drawings fill the first page.
constexpr double kDrawingHeights[] = {120, 105, 90, 78};
constexpr double kWholePage = 262;  // mm

void add_title(PageFlow& flow, const DaySheet& sheet) {
    TextStyle style;
    style.points = 12;
    style.bold = true;
    const std::string title = sheet.list.title.empty() ? "Day sheet" : sheet.list.title;
    flow.add({paragraph(title, flow.width(), style)});
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

void append(std::vector<FlowRow>& rows, const std::vector<FlowRow>& more) {
    rows.insert(rows.end(), more.begin(), more.end());
}

std::vector<Page> draw_with(const DaySheet& sheet, double drawing_height) {
    PageFlow flow;
    add_title(flow, sheet);
    add_drawings(flow, sheet, drawing_height);
    flow.add(rows_of(places_table(sheet), flow.width()));
    for (const TableBlock& block : targets_tables(sheet)) flow.add(rows_of(block, flow.width()));
    std::vector<FlowRow> rest;
    for (const TableBlock& block :
         {carry_table(sheet), circuits_table(sheet), order_table(sheet), cautions_table(sheet)}) {
        append(rest, rows_of(block, flow.column_width()));
    }
    flow.add_in_columns(rest);
    return flow.finish(sheet.list.title);
}

}  // namespace

std::vector<Page> draw_day_sheet(const DaySheet& sheet) {
    for (const double height : kDrawingHeights) {
        std::vector<Page> pages = draw_with(sheet, height);
        if (pages.size() == 1) return pages;
    }
    return draw_with(sheet, kWholePage);
}

}  // namespace dapple
