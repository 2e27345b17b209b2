// One view of the set on paper, to scale: from above or from the side.
#pragma once

#include "scene/day_sheet.h"
#include "sheets/page.h"

namespace dapple {

// What a view shows, in its own coordinates, m. From the side, y points up.
struct ViewExtent {
    DVec2 low{0}, high{0};

    DVec2 size() const { return high - low; }
};

ViewExtent extent_of(const DaySheet& sheet, SheetView view);

// Space around a view for its title, its marks and its scale bar, mm.
inline const DVec2 kBeforeView{9, 11};
inline const DVec2 kAfterView{8, 12};

// The size of a view with the space around it, mm. `scale` is that of "1 : scale".
DVec2 size_on_page(const ViewExtent& extent, double scale);

// Where points of a view are on the page.
class ViewOnPage {
  public:
    // `corner` is the top left corner, with the space around the view.
    ViewOnPage(const DaySheet& sheet, SheetView view, double scale, const DVec2& corner);

    SheetView view() const { return view_; }
    double scale() const { return scale_; }
    double mm_per_m() const { return 1000 / scale_; }
    const ViewExtent& extent() const { return extent_; }
    PageBox whole() const { return whole_; }  // with the space around it
    PageBox shown() const { return shown_; }  // the extent alone

    DVec2 at(const DVec2& own) const;
    DVec2 at(const Point& p) const;
    std::vector<DVec2> at(const FlatPolygon& polygon) const;
    // The part of a direction that the view shows, mm on paper for 1 m.
    DVec2 along(const Vec3& direction) const;

  private:
    SheetView view_;
    bool side_shows_z_;
    double scale_;
    ViewExtent extent_;
    PageBox whole_, shown_;
};

// The largest usual scale, as the number after "1 :", at which both views fit into the space, and
// whether they are beside each other there.
struct ViewLayout {
    double scale = 100;
    bool beside = true;
    DVec2 size{0};  // of both, mm
};
ViewLayout choose_layout(const DaySheet& sheet, const DVec2& space);

}  // namespace dapple
