#include "sheets/contact_grid.h"

#include <algorithm>
#include <optional>

#include "sheets/page.h"

namespace dapple {

namespace {

constexpr double kGridColumnGap = 4;  // mm
constexpr double kMostGridColumnGap = 14;
constexpr double kGridRowGap = 5;
constexpr int kMostGridColumns = 7;
constexpr int kMostGridRows = 10;
constexpr int kFittings = 4;

double widest_frame(const ContactGrid& grid, const std::vector<double>& aspects) {
    double widest = 0;
    for (const double aspect : aspects) widest = std::max(widest, grid.frame_size(aspect).x);
    return widest;
}

bool are_mixed(const std::vector<double>& aspects) {
    const auto [least, most] = std::minmax_element(aspects.begin(), aspects.end());
    return *least < 1 && *most > 1;
}

// Sets the sizes of a grid's cells; false if the frames become too small. Cells that are wider than
// their frames are made narrower, which can make captions higher and frames smaller, and so on.
bool fit_cells(const GridNeeds& needs, const DVec2& room, ContactGrid& grid) {
    const double most_width = (room.x - (grid.columns - 1) * kGridColumnGap) / grid.columns;
    const double row = (room.y - (grid.rows - 1) * kGridRowGap) / grid.rows;
    grid.cell_width = most_width;
    if (most_width < kLeastFrame) return false;
    for (int i = 0; i < kFittings; ++i) {
        grid.caption_height = needs.caption_height(grid.cell_width);
        grid.frame_height = row - kCaptionGap - grid.caption_height;
        if (are_mixed(needs.aspects)) {
            grid.frame_height = std::min(grid.frame_height, grid.cell_width);
        }
        if (grid.frame_height <= 0) return false;
        const double widest = std::max(kLeastFrame, widest_frame(grid, needs.aspects));
        if (widest > grid.cell_width - 0.5) break;
        if (i + 1 < kFittings) grid.cell_width = widest;
    }
    double highest = 0;
    for (const double aspect : needs.aspects) {
        const DVec2 size = grid.frame_size(aspect);
        if (std::max(size.x, size.y) < kLeastFrame - 1e-9) return false;
        highest = std::max(highest, size.y);
        grid.covered += size.x * size.y;
    }
    grid.frame_height = highest;
    return true;
}

std::optional<ContactGrid> try_grid(const GridNeeds& needs,
                                    const DVec2& page,
                                    int columns,
                                    int rows) {
    ContactGrid grid;
    grid.page = page;
    grid.columns = columns;
    grid.rows = rows;
    grid.top = kSheetMargin + needs.heading_height(page.x - 2 * kSheetMargin);
    const DVec2 room(page.x - 2 * kSheetMargin, page.y - grid.top - kSheetMargin - kSheetFooter);
    if (!fit_cells(needs, room, grid)) return std::nullopt;
    // Columns spread over the page's width if that does not tear them apart.
    const double spread = (room.x - columns * grid.cell_width) / std::max(1, columns - 1);
    grid.column_gap = spread <= kMostGridColumnGap ? spread : kGridColumnGap;
    return grid;
}

}  // namespace

DVec2 ContactGrid::frame_size(double aspect) const {
    const double width = std::min(cell_width, frame_height * aspect);
    return {width, width / aspect};
}

std::vector<double> ContactGrid::row_heights(std::span<const double> aspects) const {
    std::vector<double> heights;
    for (size_t i = 0; i < aspects.size(); ++i) {
        if (i % static_cast<size_t>(columns) == 0) heights.push_back(0);
        heights.back() = std::max(heights.back(), frame_size(aspects[i]).y);
    }
    return heights;
}

DVec2 ContactGrid::cell(int place, const std::vector<double>& heights) const {
    const int column = place % columns;
    double y = top;
    for (int row = 0; row < place / columns; ++row) {
        y += heights[static_cast<size_t>(row)] + kCaptionGap + caption_height + kGridRowGap;
    }
    return {kSheetMargin + column * (cell_width + column_gap), y};
}

ContactGrid choose_grid(const GridNeeds& needs) {
    const auto frames = static_cast<int>(needs.aspects.size());
    std::optional<ContactGrid> best;
    for (const DVec2& page : {kA4, DVec2(kA4.y, kA4.x)}) {
        for (int columns = 1; columns <= std::min(frames, kMostGridColumns); ++columns) {
            for (int rows = 1; rows <= kMostGridRows && (rows - 1) * columns < frames; ++rows) {
                ContactGrid size;
                size.columns = columns;
                size.rows = rows;
                const int pages = size.pages(needs.aspects.size());
                if (best && pages > best->pages(needs.aspects.size())) continue;
                const std::optional<ContactGrid> grid = try_grid(needs, page, columns, rows);
                if (!grid) continue;
                const bool fewer = !best || pages < best->pages(needs.aspects.size());
                if (fewer || grid->covered > best->covered) best = grid;
            }
        }
    }
    return best.value_or(ContactGrid{});
}

}  // namespace dapple
