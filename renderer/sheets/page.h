// One page to draw on, in millimetres from its top left corner, x right, y down.
//
// A page remembers what was drawn and can replay it on any kind of file (page_files.h), so one
// drawing makes the PDF, the SVG and the PNG. Only this folder includes Cairo and Pango.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "develop/develop.h"
#include "math/vec.h"

struct _cairo;  // Cairo's drawing context

namespace dapple {

inline constexpr double kMmPerInch = 25.4;
inline constexpr double kMmPerPoint = kMmPerInch / 72;  // a typographic point
inline const DVec2 kA4{210, 297};                       // mm, ISO 216

struct Ink {
    double red = 0, green = 0, blue = 0;  // sRGB encoded, 0 to 1
    double opacity = 1;
};

inline Ink grey_ink(double level) {
    return {level, level, level};
}

struct Pen {
    double width = 0.25;  // mm
    Ink ink;
    std::vector<double> dashes;  // mm on, mm off, …; empty: a full line
};

// A rectangle of the page, mm.
struct PageBox {
    DVec2 low{0}, high{0};

    double width() const { return high.x - low.x; }
    double height() const { return high.y - low.y; }
    // Whether they share more than an edge.
    bool overlaps(const PageBox& other) const {
        return low.x < other.high.x && other.low.x < high.x && low.y < other.high.y &&
               other.low.y < high.y;
    }
    bool contains(const PageBox& other) const {
        return low.x <= other.low.x && low.y <= other.low.y && high.x >= other.high.x &&
               high.y >= other.high.y;
    }
    PageBox grown(double by) const { return {low - DVec2(by), high + DVec2(by)}; }
};

class Page {
  public:
    using Act = std::function<void(_cairo*)>;

    explicit Page(const DVec2& size = kA4) : size_(size) {}

    const DVec2& size() const { return size_; }

    void line(std::vector<DVec2> points, const Pen& pen, bool closed = false);
    void fill(std::vector<DVec2> points, const Ink& ink);
    void circle(const DVec2& centre, double radius, const Pen& pen);
    void disc(const DVec2& centre, double radius, const Ink& ink);
    void rectangle(const PageBox& box, const Pen& pen);
    void fill(const PageBox& box, const Ink& ink);
    // `picture` comes from develop_display: sRGB encoded, 0 to 1. It is stretched to the box.
    void picture(const PageBox& box, const Picture& picture);

    // Everything drawn until end_clip() is cut off outside the box.
    void begin_clip(const PageBox& box);
    void end_clip();

    // Where text was drawn, to check that none covers another.
    struct PlacedText {
        std::string text;
        PageBox box;
    };
    const std::vector<PlacedText>& texts() const { return texts_; }
    void add_text(PlacedText placed, Act act);

    // Draws everything on a context whose unit is 1 mm.
    void replay(_cairo* context) const;

  private:
    DVec2 size_;
    std::vector<Act> acts_;
    std::vector<PlacedText> texts_;
};

}  // namespace dapple
