// How the frames of a contact sheet share its pages: portrait or landscape, columns and rows.
//
// Of all grids whose frames are at least kLeastFrame mm on their longer side, the one with the
// fewest pages is taken, and of those the one whose frames cover most. Where wide and tall frames
// are mixed, no frame is taller than the widest may be wide, so tall ones leave no holes beside
// them.
#pragma once

#include <functional>
#include <span>
#include <vector>

#include "math/vec.h"

namespace dapple {

inline constexpr double kLeastFrame = 34;  // mm

// What the layout needs to know. Heights of captions are those of the highest one, mm.
struct GridNeeds {
    std::vector<double> aspects;                              // width over height, by frame
    std::function<double(double page_width)> heading_height;  // mm, with the space below it
    std::function<double(double cell_width)> caption_height;  // mm
};

struct ContactGrid {
    DVec2 page{0};  // mm
    int columns = 1, rows = 1;
    double top = 0;             // mm from the page's top to the first row
    double cell_width = 0;      // mm, of frames and captions
    double column_gap = 0;      // mm between cells
    double frame_height = 0;    // mm, the most that a frame has
    double caption_height = 0;  // mm
    double covered = 0;         // mm², by the frames

    int per_page() const { return columns * rows; }
    int pages(size_t frames) const {
        return (static_cast<int>(frames) + per_page() - 1) / per_page();
    }
    // The size of a frame in this grid, mm.
    DVec2 frame_size(double aspect) const;
    // The heights of the rows of one page, mm: each is that of its highest frame. `aspects` are of
    // the page's frames.
    std::vector<double> row_heights(std::span<const double> aspects) const;
    // The top left corner of a cell's frame area, by the frame's place on its page.
    DVec2 cell(int place, const std::vector<double>& heights) const;
};

inline constexpr double kSheetMargin = 11;  // mm
inline constexpr double kSheetFooter = 7;   // mm above the lower margin
inline constexpr double kCaptionGap = 1.6;  // mm between a frame and its caption

ContactGrid choose_grid(const GridNeeds& needs);

}  // namespace dapple
