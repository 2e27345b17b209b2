// Tables and paragraphs as rows of known height, ready to be set on pages (page_flow.h).
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "sheets/text_box.h"

namespace dapple {

struct TableColumn {
    std::string heading;
    TextSide side = TextSide::kLeft;
    bool wraps = true;  // its texts may be broken into lines; numbers are not
};

struct TableBlock {
    std::string title;
    std::string note;  // below the table
    std::vector<TableColumn> columns;
    std::vector<std::vector<std::string>> rows;
};

// One row, or a heading or a paragraph, that is never divided between pages.
struct FlowRow {
    double height = 0;  // mm, the space below it included
    std::function<void(Page&, const DVec2& corner)> draw;
    bool keeps_next = false;              // is never the last one on a page
    std::shared_ptr<const FlowRow> head;  // drawn again where the table goes on
};

// The block's rows when it is `width` mm wide. Throws std::logic_error if a row has another number
// of cells than the table has columns.
std::vector<FlowRow> rows_of(const TableBlock& block, double width);

// A paragraph.
FlowRow paragraph(const std::string& text, double width, const TextStyle& style);

double height_of(const std::vector<FlowRow>& rows);

}  // namespace dapple
