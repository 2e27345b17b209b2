#include "sheets/contact_sheet.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "sheets/contact_grid.h"
#include "sheets/fit_text.h"

namespace dapple {

namespace {

constexpr double kSharpDpi = 300;  // common practice in print, no source
constexpr int kMostNameLines = 3;
constexpr int kMostLightLines = 8;
constexpr int kMostNoteLines = 16;
constexpr double kNameGap = 0.3;     // mm between a name and its sentence
constexpr double kHeadingGap = 0.8;  // mm between heading and note
constexpr double kBelowHeading = 6;
const Ink kText = grey_ink(0.1);
const Ink kQuiet = grey_ink(0.4);
const Ink kKeyline = grey_ink(0.75);

// The type of captions grows with the cells, pt.
double caption_points(double cell_width) {
    return std::clamp(7 + (cell_width - 40) / 30, 6.8, 10.0);
}

struct Caption {
    TextBox name, light;
    double height() const {
        return name.height() + (light.text().empty() ? 0 : kNameGap + light.height());
    }
    void draw(Page& page, const DVec2& corner) const {
        name.draw(page, corner);
        if (!light.text().empty()) light.draw(page, corner + DVec2(0, name.height() + kNameGap));
    }
};

Caption make_caption(const ContactFrame& frame, double width) {
    const double points = caption_points(width);
    return {
        fit_text(frame.name,
                 {.points = points, .bold = true, .ink = kText, .wrap = width},
                 kMostNameLines),
        fit_text(
            frame.light, {.points = points - 1, .ink = kQuiet, .wrap = width}, kMostLightLines)};
}

struct Heading {
    TextBox title, note;
    double height() const { return title.height() + kHeadingGap + note.height() + kBelowHeading; }
};

Heading make_heading(const ContactSheet& sheet, double width) {
    return {fit_text(sheet.heading, {.points = 15, .bold = true, .ink = kText, .wrap = width}, 2),
            fit_text(sheet.note, {.points = 8.5, .ink = kQuiet, .wrap = width}, kMostNoteLines)};
}

double aspect_of(const ContactFrame& frame) {
    return static_cast<double>(frame.width) / frame.height;
}

ContactGrid grid_of(const ContactSheet& sheet) {
    std::map<double, double> known;  // height of the highest caption, by width, mm
    GridNeeds needs;
    for (const ContactFrame& f : sheet.frames) {
        needs.aspects.push_back(aspect_of(f));
    }
    needs.heading_height = [&](double width) { return make_heading(sheet, width).height(); };
    needs.caption_height = [&](double width) {
        const auto [entry, is_new] = known.emplace(width, 0.0);
        if (!is_new) return entry->second;
        for (const ContactFrame& f : sheet.frames) {
            entry->second = std::max(entry->second, make_caption(f, width).height());
        }
        return entry->second;
    };
    return choose_grid(needs);
}

// The frames of a row stand on one line, with their captions below. `below` is that line.
void draw_frame(Page& page,
                const ContactFrame& frame,
                const ContactGrid& grid,
                const DVec2& below) {
    const DVec2 size = grid.frame_size(aspect_of(frame));
    const DVec2 corner = below - DVec2(0, size.y);
    const PageBox box{corner, corner + size};
    page.picture(box, frame.picture());
    page.rectangle(box, {0.15, kKeyline, {}});
    make_caption(frame, grid.cell_width).draw(page, below + DVec2(0, kCaptionGap));
}

// The frames of one page, from `first` to before `last`.
void draw_frames(
    Page& page, const ContactSheet& sheet, const ContactGrid& grid, int first, int last) {
    std::vector<double> aspects;
    for (int i = first; i < last; ++i) {
        aspects.push_back(aspect_of(sheet.frames[static_cast<size_t>(i)]));
    }
    const std::vector<double> heights = grid.row_heights(aspects);
    for (int i = first; i < last; ++i) {
        const auto row = static_cast<size_t>((i - first) / grid.columns);
        const DVec2 below = grid.cell(i - first, heights) + DVec2(0, heights[row]);
        draw_frame(page, sheet.frames[static_cast<size_t>(i)], grid, below);
    }
}

void draw_around(Page& page, const ContactSheet& sheet, int number, int pages) {
    const double width = page.size().x - 2 * kSheetMargin;
    const Heading heading = make_heading(sheet, width);
    heading.title.draw(page, DVec2(kSheetMargin));
    heading.note.draw(page,
                      DVec2(kSheetMargin, kSheetMargin + heading.title.height() + kHeadingGap));
    const TextBox foot(std::to_string(number) + " / " + std::to_string(pages),
                       {.points = 8, .ink = kQuiet});
    foot.draw(page, page.size() - DVec2(kSheetMargin) - foot.size());
}

}  // namespace

ContactFrame make_contact_frame(Picture picture, std::string name, std::string light) {
    const int width = picture.width;
    const int height = picture.height;
    return {width,
            height,
            [picture = std::move(picture)] { return picture; },
            std::move(name),
            std::move(light)};
}

void say_common_light_once(ContactSheet& sheet) {
    const std::string light = sheet.frames.front().light;
    for (const ContactFrame& frame : sheet.frames) {
        if (frame.light != light || sheet.frames.size() == 1) return;
    }
    sheet.note += (sheet.note.empty() ? "" : "\n") + light;
    for (ContactFrame& frame : sheet.frames) frame.light.clear();
}

void draw_contact_sheet(const ContactSheet& sheet, const std::function<void(const Page&)>& use) {
    const ContactGrid grid = grid_of(sheet);
    const int count = static_cast<int>(sheet.frames.size());
    const int pages = grid.pages(sheet.frames.size());
    for (int p = 0; p < pages; ++p) {
        Page page(grid.page);
        page.fill(PageBox{DVec2(0), grid.page}, grey_ink(1));
        draw_around(page, sheet, p + 1, pages);
        const int first = p * grid.per_page();
        draw_frames(page, sheet, grid, first, std::min(count, first + grid.per_page()));
        use(page);
    }
}

std::vector<Page> make_contact_sheet(const ContactSheet& sheet) {
    std::vector<Page> pages;
    draw_contact_sheet(sheet, [&](const Page& page) { pages.push_back(page); });
    return pages;
}

int contact_frame_side(size_t frames) {
    // A page's long side shared by as many frames as stand beside each other at least.
    const double beside = std::max(1.0, std::floor(std::sqrt(static_cast<double>(frames))));
    return static_cast<int>(kA4.y / std::min(beside, 7.0) / kMmPerInch * kSharpDpi);
}

}  // namespace dapple
