#include "sheets/table_block.h"

#include <algorithm>
#include <stdexcept>

namespace dapple {

namespace {

constexpr double kCellPoints = 6.3;
constexpr double kTitleSize = 7.5;    // pt
constexpr double kColumnGap = 2.2;    // mm
constexpr double kRowGap = 0.35;      // mm
constexpr double kBlockGap = 2.2;     // mm, below a block
constexpr size_t kKeptWhole = 12;     // rows; a longer table may be divided
constexpr double kLeastColumn = 9.0;  // mm, of a column that is made narrower

TextStyle cell_style(TextSide side, bool bold, double wrap) {
    TextStyle style;
    style.points = kCellPoints;
    style.bold = bold;
    style.side = side;
    style.wrap = wrap;
    if (bold) style.ink = grey_ink(0.25);
    return style;
}

// Makes the widths add up to `room` at most: those that may be narrower get a common upper limit.
void make_fit(std::vector<double>& widths, const std::vector<bool>& may_shrink, double room) {
    const auto total_with = [&](double limit) {
        double total = 0;
        for (size_t i = 0; i < widths.size(); ++i) {
            total += may_shrink[i] ? std::min(widths[i], limit) : widths[i];
        }
        return total;
    };
    double limit = *std::max_element(widths.begin(), widths.end());
    constexpr double kStep = 0.25;  // mm
    while (limit > kLeastColumn && total_with(limit) > room) limit -= kStep;
    for (size_t i = 0; i < widths.size(); ++i) {
        if (may_shrink[i]) widths[i] = std::min(widths[i], limit);
    }
}

std::vector<double> widths_of(const TableBlock& block, double width) {
    const size_t columns = block.columns.size();
    std::vector<double> widths(columns, 0.0);
    std::vector<bool> may_shrink;
    for (size_t i = 0; i < columns; ++i) {
        const TableColumn& column = block.columns[i];
        may_shrink.push_back(column.wraps);
        widths[i] = TextBox(column.heading, cell_style(column.side, true, 0)).width();
    }
    for (const std::vector<std::string>& row : block.rows) {
        if (row.size() != columns) throw std::logic_error("a row does not fit its table");
        for (size_t i = 0; i < columns; ++i) {
            const TextStyle style = cell_style(block.columns[i].side, false, 0);
            widths[i] = std::max(widths[i], TextBox(row[i], style).width());
        }
    }
    // A spare hair against rounding: a text as wide as its column must not be broken.
    for (double& w : widths) w += 0.05;
    make_fit(widths, may_shrink, width - kColumnGap * static_cast<double>(columns - 1));
    return widths;
}

struct Cell {
    TextBox text;
    double x = 0;
};

FlowRow table_row(const TableBlock& block,
                  const std::vector<double>& widths,
                  const std::vector<std::string>& texts,
                  bool is_head) {
    std::vector<Cell> cells;
    double x = 0;
    double height = 0;
    for (size_t i = 0; i < widths.size(); ++i) {
        const TextSide side = block.columns[i].side;
        Cell cell{TextBox(texts[i], cell_style(side, is_head, widths[i])), x};
        if (side == TextSide::kRight) cell.x += widths[i] - cell.text.width();
        height = std::max(height, cell.text.height());
        x += widths[i] + kColumnGap;
        cells.push_back(std::move(cell));
    }
    const double whole = x - kColumnGap;
    FlowRow row;
    row.height = height + kRowGap;
    row.draw = [cells = std::move(cells), whole, height, is_head](Page& page, const DVec2& at) {
        for (const Cell& cell : cells) {
            if (!cell.text.text().empty()) cell.text.draw(page, at + DVec2(cell.x, 0));
        }
        const double below = at.y + height + 0.5 * kRowGap;
        const Pen pen{is_head ? 0.2 : 0.05, grey_ink(is_head ? 0.3 : 0.7), {}};
        page.line({DVec2(at.x, below), DVec2(at.x + whole, below)}, pen);
    };
    return row;
}

}  // namespace

FlowRow paragraph(const std::string& text, double width, const TextStyle& style) {
    TextStyle wrapped = style;
    wrapped.wrap = width;
    const TextBox box(text, wrapped);
    FlowRow row;
    row.height = box.height() + kRowGap;
    row.draw = [box](Page& page, const DVec2& at) { box.draw(page, at); };
    return row;
}

std::vector<FlowRow> rows_of(const TableBlock& block, double width) {
    std::vector<FlowRow> rows;
    TextStyle title;
    title.points = kTitleSize;
    title.bold = true;
    rows.push_back(paragraph(block.title, width, title));
    rows.back().keeps_next = true;
    if (!block.columns.empty() && !block.rows.empty()) {
        const std::vector<double> widths = widths_of(block, width);
        std::vector<std::string> headings;
        for (const TableColumn& column : block.columns) headings.push_back(column.heading);
        const auto head = std::make_shared<const FlowRow>(table_row(block, widths, headings, true));
        rows.push_back(*head);
        rows.back().keeps_next = true;
        for (size_t i = 0; i < block.rows.size(); ++i) {
            rows.push_back(table_row(block, widths, block.rows[i], false));
            if (i > 0) rows.back().head = head;
        }
    }
    if (!block.note.empty()) {
        rows.back().keeps_next = true;
        TextStyle note;
        note.points = kCellPoints;
        note.ink = grey_ink(0.25);
        rows.push_back(paragraph(block.note, width, note));
    }
    rows.back().height += kBlockGap;
    if (block.rows.size() <= kKeptWhole) {
        for (size_t i = 0; i + 1 < rows.size(); ++i) rows[i].keeps_next = true;
    }
    return rows;
}

double height_of(const std::vector<FlowRow>& rows) {
    double height = 0;
    for (const FlowRow& row : rows) height += row.height;
    return height;
}

}  // namespace dapple
