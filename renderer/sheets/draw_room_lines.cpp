#include "sheets/draw_room_lines.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "sheets/text_box.h"

namespace dapple {

namespace {

constexpr double kMarkPoints = 5.5;
constexpr double kTitlePoints = 7.5;

TextStyle small_grey() {
    TextStyle style;
    style.points = kMarkPoints;
    style.ink = grey_ink(0.25);
    return style;
}

void draw_pairs(Page& page, const std::vector<Vec2>& ends, const ViewOnPage& view, const Pen& pen) {
    for (size_t i = 0; i + 1 < ends.size(); i += 2) {
        page.line(view.at(FlatPolygon{ends[i], ends[i + 1]}), pen);
    }
}

// The ends of a flat opening as the view shows it.
void draw_opening(Page& page, const WallOpening& opening, const ViewOnPage& view) {
    PageBox box{DVec2(1e9), DVec2(-1e9)};
    for (const Point& p : opening.corners) {
        box.low = glm::min(box.low, view.at(p));
        box.high = glm::max(box.high, view.at(p));
    }
    const DVec2 size = box.high - box.low;
    constexpr double kThin = 0.8;  // mm
    if (std::min(size.x, size.y) < kThin) box = box.grown(0.5 * kThin);
    const Ink glass{0.72, 0.86, 0.95, opening.is_window ? 1.0 : 0.0};
    page.fill(box, opening.is_window ? glass : grey_ink(0.8));
    page.rectangle(box, {0.15, grey_ink(0.35), {}});
}

// The distance between marks: 1, 2, 5, 10 … m, at least 5 mm on paper.
double mark_step(double mm_per_m) {
    double step = 1;
    for (const double factor : {1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0}) {
        step = factor;
        if (step * mm_per_m >= 5) break;
    }
    return step;
}

// Where the tape begins, in the view's coordinates: the left and back walls, and the floor.
DVec2 tape_zero(const DaySheet& sheet, const ViewOnPage& view) {
    if (!sheet.room.box) return DVec2(0);
    const Vec2 low = in_view(sheet.room.box->low, view.view(), sheet.side_shows_z);
    return {low.x, low.y};
}

// Whether no text is there yet.
bool is_free(const Page& page, const PageBox& box) {
    return std::none_of(page.texts().begin(), page.texts().end(), [&](const Page::PlacedText& t) {
        return t.box.overlaps(box.grown(0.3));
    });
}

void draw_marks(Page& page, const DaySheet& sheet, const ViewOnPage& view) {
    const double step = mark_step(view.mm_per_m());
    const DVec2 zero = tape_zero(sheet, view);
    const PageBox shown = view.shown();
    const bool above = view.view() == SheetView::kAbove;
    const Pen pen{0.15, grey_ink(0.35), {}};
    const auto draw = [&](int axis, double metres) {
        DVec2 own = zero;
        own[axis] += metres;
        if (own[axis] < view.extent().low[axis] - 1e-6) return;
        char number[16];
        std::snprintf(number, sizeof number, "%g", metres + 0.0);
        const TextBox text(number, small_grey());
        const DVec2 on = view.at(own);
        const double edge = above ? shown.low.y : shown.high.y;
        const double out = above ? -1 : 1;
        const DVec2 foot = axis == 1 ? DVec2(shown.low.x, on.y) : DVec2(on.x, edge);
        const DVec2 end = foot + (axis == 1 ? DVec2(-1, 0) : DVec2(0, out));
        const DVec2 corner =
            axis == 1
                ? DVec2(end.x - 0.3 - text.width(), on.y - 0.5 * text.height())
                : DVec2(on.x - 0.5 * text.width(), above ? edge - 1.1 - text.height() : edge + 1.1);
        page.line({foot, end}, pen);
        if (is_free(page, text.at(corner))) text.draw(page, corner);
    };
    for (int axis = 0; axis < 2; ++axis) {
        const double last = view.extent().high[axis] - zero[axis];
        const double before = (view.extent().low[axis] - zero[axis]) / step;
        const double first = std::ceil(before - 1e-6) * step;
        for (double m = first; m <= last + 1e-6; m += step) draw(axis, m);
    }
}

void draw_scale_bar(Page& page, const ViewOnPage& view, const DVec2& corner) {
    const double step = mark_step(view.mm_per_m());
    const double width = step * view.mm_per_m();
    const Pen pen{0.2, grey_ink(0), {}};
    page.fill(PageBox{corner, corner + DVec2(width, 1)}, grey_ink(0));
    page.rectangle(PageBox{corner, corner + DVec2(2 * width, 1)}, pen);
    char text[64];
    std::snprintf(text, sizeof text, "%g m, 1 : %g on A4", 2 * step, view.scale());
    draw_text(page, corner + DVec2(2 * width + 1.2, -0.7), text, small_grey());
}

std::string title_of(const DaySheet& sheet, const ViewOnPage& view) {
    if (view.view() == SheetView::kAbove) return "From above";
    return sheet.side_shows_z ? "From the left side" : "From the front";
}

}  // namespace

PageBox walls_on_page(const DaySheet& sheet, const ViewOnPage& view) {
    if (!sheet.room.box) return view.shown();
    const DVec2 a = view.at(sheet.room.box->low);
    const DVec2 b = view.at(sheet.room.box->high);
    return {glm::min(a, b), glm::max(a, b)};
}

void draw_room_lines(Page& page, const DaySheet& sheet, const ViewOnPage& view) {
    const bool above = view.view() == SheetView::kAbove;
    const DrawnRoom& room = sheet.room;
    page.begin_clip(view.shown().grown(1));
    if (above) {
        draw_pairs(page, room.cut_low, view, {0.1, grey_ink(0.75), {}});
        draw_pairs(page, room.cut_high, view, {0.15, grey_ink(0.5), {}});
    } else {
        draw_pairs(page, room.cut_side, view, {0.1, grey_ink(0.7), {}});
    }
    page.end_clip();
    if (room.box) {
        const Pen full{0.5, grey_ink(0.15), {}};
        const Pen dashed{0.2, grey_ink(0.3), {1.5, 1}};
        page.rectangle(walls_on_page(sheet, view), room.is_plain_box ? full : dashed);
    }
    for (const WallOpening& opening : room.openings) draw_opening(page, opening, view);
    for (const FlatPolygon& column : above ? room.columns_from_above : room.columns_from_side) {
        page.fill(view.at(column), {0.8, 0.8, 0.8, 0.8});
        page.line(view.at(column), {0.2, grey_ink(0.35), {}}, true);
    }
}

void draw_view_frame(Page& page, const DaySheet& sheet, const ViewOnPage& view) {
    TextStyle title;
    title.points = kTitlePoints;
    title.bold = true;
    draw_text(page, view.whole().low, title_of(sheet, view), title);
    const PageBox shown = view.shown();
    const bool above = view.view() == SheetView::kAbove;
    const double below = shown.high.y + (above ? 1 : 4);
    if (sheet.room.box) {
        const auto middle = [&](const std::string& name, double top) {
            const TextBox text(name, small_grey());
            text.draw(page, DVec2(0.5 * (shown.low.x + shown.high.x - text.width()), top));
        };
        const bool z = !above && sheet.side_shows_z;
        if (above) {
            middle("back wall", view.whole().low.y + 4.2);
            middle("front wall", below);
        }
        const double level = 0.5 * (shown.low.y + shown.high.y);
        const TextBox left(z ? "back" : "left", small_grey());
        const TextBox right(z ? "front" : "right", small_grey());
        left.draw(page, DVec2(view.whole().low.x, level));
        right.draw(page, DVec2(shown.high.x + 0.8, level));
    }
    draw_scale_bar(page, view, DVec2(shown.low.x, below + 3.6));
    draw_marks(page, sheet, view);
}

}  // namespace dapple
