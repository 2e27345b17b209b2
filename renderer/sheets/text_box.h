// Text that knows its size before it is drawn.
//
// A box measures itself with the same layout that draws it, without rounding to any device's
// pixels. Its size is therefore the same in the PDF, the SVG and the PNG. Lengths in millimetres.
#pragma once

#include <string>

#include "sheets/page.h"

namespace dapple {

enum class TextSide { kLeft, kMiddle, kRight };

struct TextStyle {
    double points = 8;  // size of the type, pt
    bool bold = false;
    Ink ink;
    TextSide side = TextSide::kLeft;  // where lines begin; matters with several lines
    double wrap = 0;                  // mm, the most width; longer lines are broken. 0: no limit
};

class TextBox {
  public:
    explicit TextBox(const std::string& text, const TextStyle& style = {});

    const std::string& text() const { return text_; }
    double width() const { return size_.x; }
    double height() const { return size_.y; }
    const DVec2& size() const { return size_; }
    // The box that the text covers with its top left corner there.
    PageBox at(const DVec2& corner) const { return {corner, corner + size_}; }

    void draw(Page& page, const DVec2& corner) const;

  private:
    std::string text_;
    TextStyle style_;
    DVec2 size_{0};
};

// Draws text with its top left corner at `corner` and returns the box that it covers.
PageBox draw_text(Page& page,
                  const DVec2& corner,
                  const std::string& text,
                  const TextStyle& style = {});

}  // namespace dapple
