#include "sheets/page_flow.h"

#include <algorithm>

namespace dapple {

namespace {

// The height of the row with those after it that must stay with it.
double height_with_kept(const std::vector<FlowRow>& rows, size_t i) {
    double height = rows[i].height;
    while (rows[i].keeps_next && i + 1 < rows.size()) height += rows[++i].height;
    return height;
}

// Whether the row begins a new place: the one before it does not have to stay with it.
bool may_break_before(const std::vector<FlowRow>& rows, size_t i) {
    return i == 0 || !rows[i - 1].keeps_next;
}

}  // namespace

PageFlow::PageFlow() : pages_(1) {}

void PageFlow::next_page() {
    pages_.emplace_back();
    y_ = kPageMargin;
}

DVec2 PageFlow::take(double height) {
    if (height > space_left() && y_ > kPageMargin) next_page();
    const DVec2 corner(kPageMargin, y_);
    y_ += height;
    return corner;
}

void PageFlow::add(const std::vector<FlowRow>& rows) {
    for (size_t i = 0; i < rows.size(); ++i) {
        const FlowRow& row = rows[i];
        const bool breaks = may_break_before(rows, i) && height_with_kept(rows, i) > space_left() &&
                            y_ > kPageMargin;
        if (breaks) {
            next_page();
            if (row.head) row.head->draw(page(), take(row.head->height));
        }
        const DVec2 corner(kPageMargin, y_);
        row.draw(page(), corner);
        y_ += row.height;
    }
}

void PageFlow::add_in_columns(const std::vector<FlowRow>& rows) {
    double rest = height_of(rows);
    size_t i = 0;
    while (i < rows.size()) {
        const double top = y_;
        double lowest = top;
        // A little more than half on the left, so that the right column is not the longer one.
        const double limit = std::min(space_left(), 0.5 * rest + 4);
        for (int column = 0; column < 2 && i < rows.size(); ++column) {
            const double x = kPageMargin + column * (column_width() + kBetweenColumns);
            double y = top;
            bool is_first = true;
            const double most = column == 0 ? limit : space_left();
            while (i < rows.size()) {
                const bool full = may_break_before(rows, i) && !is_first &&
                                  y - top + height_with_kept(rows, i) > most;
                if (full) break;
                if (is_first && rows[i].head) {
                    rows[i].head->draw(page(), DVec2(x, y));
                    y += rows[i].head->height;
                }
                rows[i].draw(page(), DVec2(x, y));
                y += rows[i].height;
                rest -= rows[i].height;
                is_first = false;
                ++i;
            }
            lowest = std::max(lowest, y);
        }
        y_ = lowest;
        if (i < rows.size()) next_page();
    }
}

std::vector<Page> PageFlow::finish(const std::string& left) {
    TextStyle style;
    style.points = 5.5;
    style.ink = grey_ink(0.35);
    const double top = kA4.y - kPageMargin - 2.5;
    for (size_t i = 0; i < pages_.size(); ++i) {
        draw_text(pages_[i], DVec2(kPageMargin, top), left, style);
        const TextBox number(std::to_string(i + 1) + " / " + std::to_string(pages_.size()), style);
        number.draw(pages_[i], DVec2(kA4.x - kPageMargin - number.width(), top));
    }
    return std::move(pages_);
}

}  // namespace dapple
