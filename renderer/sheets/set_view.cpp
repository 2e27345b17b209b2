#include "sheets/set_view.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

constexpr double kGap = 3;          // mm, between the views
constexpr double kAroundAll = 0.5;  // m, around the things of a set without walls

DVec2 wide(const Vec2& v) {
    return {v.x, v.y};
}

void add(ViewExtent& extent, const DVec2& p) {
    extent.low = glm::min(extent.low, p);
    extent.high = glm::max(extent.high, p);
}

}  // namespace

ViewExtent extent_of(const DaySheet& sheet, SheetView view) {
    ViewExtent extent{DVec2(1e9), DVec2(-1e9)};
    const auto add_point = [&](const Point& p) {
        add(extent, wide(in_view(p, view, sheet.side_shows_z)));
    };
    for (const PlacedThing& thing : sheet.places) {
        add_point(thing.at.position);
        if (thing.aim && !sheet.room.box) add_point(thing.aim->position);
        for (const FlatPolygon& polygon :
             view == SheetView::kAbove ? thing.from_above : thing.from_side) {
            for (const Vec2& p : polygon) add(extent, wide(p));
        }
    }
    for (const Point& socket : sheet.sockets) add_point(socket);
    if (sheet.room.box) {
        add_point(sheet.room.box->low);
        add_point(sheet.room.box->high);
    } else {
        extent.low -= kAroundAll;
        extent.high += kAroundAll;
    }
    return extent;
}

DVec2 size_on_page(const ViewExtent& extent, double scale) {
    return 1000 / scale * extent.size() + kBeforeView + kAfterView;
}

ViewOnPage::ViewOnPage(const DaySheet& sheet, SheetView view, double scale, const DVec2& corner)
    : view_(view),
      side_shows_z_(sheet.side_shows_z),
      scale_(scale),
      extent_(extent_of(sheet, view)),
      whole_{corner, corner + size_on_page(extent_, scale)},
      shown_{whole_.low + kBeforeView, whole_.high - kAfterView} {}

DVec2 ViewOnPage::at(const DVec2& own) const {
    const double k = mm_per_m();
    if (view_ == SheetView::kAbove) return shown_.low + k * (own - extent_.low);
    return {shown_.low.x + k * (own.x - extent_.low.x),
            shown_.high.y - k * (own.y - extent_.low.y)};
}

DVec2 ViewOnPage::at(const Point& p) const {
    return at(wide(in_view(p, view_, side_shows_z_)));
}

std::vector<DVec2> ViewOnPage::at(const FlatPolygon& polygon) const {
    std::vector<DVec2> points;
    for (const Vec2& p : polygon) points.push_back(at(wide(p)));
    return points;
}

DVec2 ViewOnPage::along(const Vec3& direction) const {
    const DVec2 own = wide(in_view(direction, view_, side_shows_z_));
    return mm_per_m() * (view_ == SheetView::kAbove ? own : DVec2(own.x, -own.y));
}

ViewLayout choose_layout(const DaySheet& sheet, const DVec2& space) {
    constexpr std::array<double, 11> kSteps = {1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 7.5, 8};
    constexpr int kMostDecades = 7;
    const ViewExtent above = extent_of(sheet, SheetView::kAbove);
    const ViewExtent side = extent_of(sheet, SheetView::kSide);
    ViewLayout layout;
    double decade = 10;
    for (int i = 0; i < kMostDecades; ++i, decade *= 10) {
        for (const double step : kSteps) {
            layout.scale = decade * step;
            const DVec2 a = size_on_page(above, layout.scale);
            const DVec2 b = size_on_page(side, layout.scale);
            const DVec2 beside(a.x + kGap + b.x, std::max(a.y, b.y));
            const DVec2 stacked(std::max(a.x, b.x), a.y + b.y);
            layout.beside = glm::all(glm::lessThanEqual(beside, space));
            layout.size = layout.beside ? beside : stacked;
            if (layout.beside || glm::all(glm::lessThanEqual(stacked, space))) return layout;
        }
    }
    return layout;
}

}  // namespace dapple
