#include "sheets/draw_set.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "sheets/draw_room_lines.h"
#include "sheets/place_labels.h"

namespace dapple {

namespace {

constexpr double kLeastSymbol = 1.1;  // mm, half the size of the smallest symbol
constexpr Ink kBeamInk{0.95, 0.72, 0.15, 0.16};
constexpr Ink kFieldInk{0.95, 0.72, 0.15, 0.10};
constexpr Ink kGlassInk{0.62, 0.80, 0.92, 0.9};

const std::vector<FlatPolygon>& outlines(const PlacedThing& thing, const ViewOnPage& view) {
    return view.view() == SheetView::kAbove ? thing.from_above : thing.from_side;
}

// The direction of the view's own sight, from which the views look.
Direction sight_of(const DaySheet& sheet, const ViewOnPage& view) {
    if (view.view() == SheetView::kAbove) return {0, -1, 0};
    return sheet.side_shows_z ? Direction(1, 0, 0) : Direction(0, 0, -1);
}

// A fan of directions in the plane that the view shows best, around an axis.
std::vector<DVec2> fan(const ViewOnPage& view,
                       const Point& from,
                       const Direction& axis,
                       const Direction& sight,
                       double half_angle,
                       double length) {
    constexpr int kSteps = 16;
    constexpr double kWidest = 1.4;  // rad
    std::vector<DVec2> points = {view.at(from)};
    Vec3 side = glm::cross(axis, sight);
    if (glm::dot(side, side) < 1e-8F) return points;
    side = glm::normalize(side);
    const double half = std::min(half_angle, kWidest);
    for (int i = 0; i <= kSteps; ++i) {
        const double angle = half * (2.0 * i / kSteps - 1);
        const Vec3 way =
            static_cast<float>(std::cos(angle)) * axis + static_cast<float>(std::sin(angle)) * side;
        points.push_back(view.at(from) + length * view.along(way));
    }
    return points;
}

class SetDrawer {
  public:
    SetDrawer(Page& page, const DaySheet& sheet, const ViewOnPage& view)
        : page_(page), sheet_(sheet), view_(view), sight_(sight_of(sheet, view)) {}

    void draw() {
        draw_room_lines(page_, sheet_, view_);
        page_.begin_clip(walls_on_page(sheet_, view_));
        draw_camera_field();
        for (const PlacedThing& thing : sheet_.places) draw_beam(thing);
        page_.end_clip();
        draw_cables();
        for (const PlacedThing& thing : sheet_.places) draw_thing(thing);
        const size_t before = page_.texts().size();
        draw_view_frame(page_, sheet_, view_);
        draw_all_labels(before);
    }

  private:
    void draw_camera_field() {
        const Camera& camera = sheet_.camera;
        const bool above = view_.view() == SheetView::kAbove;
        const double half =
            std::atan(static_cast<double>(above ? sheet_.half_view.x : sheet_.half_view.y));
        // From the side the field only means something if the camera looks along the view.
        const double seen = glm::length(view_.along(camera.frame.n)) / view_.mm_per_m();
        if (seen < 0.6) return;
        const double far = glm::length(view_.extent().size());
        const std::vector<DVec2> field =
            fan(view_, camera.position, camera.frame.n, sight_, half, 2 * far);
        if (field.size() < 3) return;
        const Pen pen{0.2, {0.2, 0.35, 0.6}, {2.5, 0.8, 0.5, 0.8}};
        page_.line({field[0], field[1]}, pen);
        page_.line({field[0], field.back()}, pen);
    }

    void draw_beam(const PlacedThing& thing) {
        if (!thing.beam) return;
        const DrawnBeam& beam = *thing.beam;
        const auto cone = [&](double angle) {
            return fan(view_, thing.at.position, beam.axis, sight_, 0.5 * angle, beam.length);
        };
        if (beam.beam_angle > 0) {
            page_.fill(cone(beam.field_angle), fainter(kFieldInk));
            page_.fill(cone(beam.beam_angle), fainter(kBeamInk));
            page_.line(cone(beam.beam_angle), {0.1, fainter({0.75, 0.5, 0.05, 0.8}), {}}, true);
        }
        const DVec2 from = view_.at(thing.at.position);
        page_.line({from, from + beam.length * view_.along(beam.axis)},
                   {0.12, {0.6, 0.4, 0.05, 0.9}, {1, 1}});
    }

    // Many beams lie over each other, and must not cover what is below.
    Ink fainter(Ink ink) const {
        constexpr double kMostFull = 6;  // beams
        const auto beams = static_cast<double>(sheet_.list.fixtures.size());
        ink.opacity *= std::min(1.0, kMostFull / std::max(beams, 1.0));
        return ink;
    }

    void draw_cables() {
        const Pen pen{0.35, {0.35, 0.2, 0.45}, {}};
        for (const DrawnCable& cable : sheet_.cables) {
            page_.line({view_.at(cable.top), view_.at(cable.from), view_.at(cable.to)}, pen);
        }
        for (const Point& socket : sheet_.sockets) {
            const DVec2 at = view_.at(socket);
            page_.disc(at, 1.2, grey_ink(1));
            page_.circle(at, 1.2, {0.25, pen.ink, {}});
            page_.disc(at - DVec2(0.45, 0), 0.22, pen.ink);
            page_.disc(at + DVec2(0.45, 0), 0.22, pen.ink);
        }
    }

    void draw_outlines(const PlacedThing& thing, const Ink& fill, const Pen& pen) {
        for (const FlatPolygon& polygon : outlines(thing, view_)) {
            if (fill.opacity > 0) page_.fill(view_.at(polygon), fill);
            page_.line(view_.at(polygon), pen, true);
        }
    }

    void draw_thing(const PlacedThing& thing) {
        const Ink none{0, 0, 0, 0};
        const Pen thin{0.15, grey_ink(0.1), {}};
        switch (thing.kind) {
            case PlaceKind::kCamera:
                return draw_camera(thing);
            case PlaceKind::kFixture:
                draw_outlines(thing, {0.25, 0.25, 0.25, 0.85}, thin);
                return draw_small_lamp(thing);
            case PlaceKind::kGlass:
                return draw_outlines(thing, kGlassInk, {0.2, {0.1, 0.35, 0.55}, {}});
            case PlaceKind::kCloth:
                return draw_outlines(thing, {0.75, 0.75, 0.85, 0.5}, {0.45, {0.45, 0.45, 0.6}, {}});
            case PlaceKind::kFlag:
                return draw_outlines(thing, {0, 0, 0, 0.6}, {0.5, grey_ink(0), {}});
            case PlaceKind::kBounce:
                return draw_outlines(thing, none, {0.5, {0.5, 0.5, 0.2}, {}});
            case PlaceKind::kFigure:
                for (const FlatPolygon& part : outlines(thing, view_)) {
                    page_.fill(view_.at(part), grey_ink(0.62));
                }
                return;
            case PlaceKind::kMeter:
                return draw_meter(thing);
        }
    }

    // A ring and a pointer, for lamps that would be too small to see.
    void draw_small_lamp(const PlacedThing& thing) {
        const DVec2 at = view_.at(thing.at.position);
        page_.disc(at, 0.5 * kLeastSymbol, grey_ink(1));
        page_.circle(at, 0.5 * kLeastSymbol, {0.25, grey_ink(0.1), {}});
        if (!thing.beam) return;
        const DVec2 way = view_.along(thing.beam->axis);
        const double length = glm::length(way);
        if (length < 0.2 * view_.mm_per_m()) return;
        const DVec2 unit = way / length;
        page_.line({at + 0.5 * kLeastSymbol * unit, at + 2.2 * unit}, {0.3, grey_ink(0.1), {}});
    }

    void draw_camera(const PlacedThing& thing) {
        const DVec2 at = view_.at(thing.at.position);
        DVec2 way = view_.along(sheet_.camera.frame.n);
        way = glm::length(way) > 0 ? way / glm::length(way) : DVec2(1, 0);
        const DVec2 side(-way.y, way.x);
        const Ink ink{0.2, 0.35, 0.6};
        page_.fill({at - 3.2 * way + 1.2 * side,
                    at - 0.9 * way + 1.2 * side,
                    at - 0.9 * way - 1.2 * side,
                    at - 3.2 * way - 1.2 * side},
                   ink);
        page_.fill({at - 1.1 * way, at + 0.9 * side, at - 0.9 * side}, ink);
    }

    void draw_meter(const PlacedThing& thing) {
        const DVec2 at = view_.at(thing.at.position);
        const Ink ink{0.7, 0.1, 0.1};
        page_.circle(at, 0.75, {0.25, ink, {}});
        page_.disc(at, 0.25, ink);
        if (!thing.aim) return;
        const DVec2 to = view_.at(thing.aim->position) - at;
        const double length = glm::length(to);
        if (length < 1e-6) return;
        page_.line({at + 0.75 / length * to, at + 2.4 / length * to}, {0.25, ink, {}});
    }

    void draw_all_labels(size_t first_text) {
        constexpr size_t kLongName = 18;  // characters
        std::vector<LabelWish> wishes;
        LabelRoom room;
        room.area = PageBox{view_.whole().low + DVec2(0, 4), view_.whole().high};
        for (const PlacedThing& thing : sheet_.places) {
            const bool is_long = thing.name.size() > kLongName;
            const std::string full = thing.kind == PlaceKind::kCamera
                                         ? thing.name
                                         : thing.label + (is_long ? "" : " " + thing.name);
            wishes.push_back({full, thing.label, view_.at(thing.at.position)});
            for (const FlatPolygon& polygon : outlines(thing, view_)) {
                PageBox box{DVec2(1e9), DVec2(-1e9)};
                for (const DVec2& p : view_.at(polygon)) {
                    box = {glm::min(box.low, p), glm::max(box.high, p)};
                }
                room.drawn.push_back(box);
            }
        }
        for (size_t i = 0; i < sheet_.sockets.size(); ++i) {
            const std::string label = "socket";
            wishes.push_back({label, label, view_.at(sheet_.sockets[i])});
        }
        for (size_t i = first_text; i < page_.texts().size(); ++i) {
            room.forbidden.push_back(page_.texts()[i].box.grown(0.3));
        }
        draw_labels(page_, wishes, place_labels(wishes, room));
    }

    Page& page_;
    const DaySheet& sheet_;
    const ViewOnPage& view_;
    const Direction sight_;
};

}  // namespace

void draw_set(Page& page, const DaySheet& sheet, const ViewOnPage& view) {
    SetDrawer(page, sheet, view).draw();
}

}  // namespace dapple
