// Sets rows on A4 pages from the top down, and adds pages as they fill.
#pragma once

#include "sheets/table_block.h"

namespace dapple {

inline constexpr double kPageMargin = 10;  // mm

class PageFlow {
  public:
    PageFlow();

    double width() const { return kA4.x - 2 * kPageMargin; }
    // Space that is left on the last page, mm.
    double space_left() const { return bottom() - y_; }
    // Takes a strip of the last page, on a new page if there is no space for it, and returns its
    // top left corner.
    DVec2 take(double height);
    void add(const std::vector<FlowRow>& rows);
    // In two columns of about the same height.
    void add_in_columns(const std::vector<FlowRow>& rows);
    // The width of each of two columns.
    double column_width() const { return 0.5 * (width() - kBetweenColumns); }

    Page& page() { return pages_.back(); }
    // Draws the foot of every page: `left`, and "2 / 3" on the right.
    std::vector<Page> finish(const std::string& left);

  private:
    static constexpr double kBetweenColumns = 6;  // mm
    static constexpr double kFoot = 5;            // mm

    static double bottom() { return kA4.y - kPageMargin - kFoot; }
    void next_page();

    std::vector<Page> pages_;
    double y_ = kPageMargin;
};

}  // namespace dapple
