#include "sheets/place_labels.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <optional>

#include "base/units.h"

namespace dapple {

namespace {

constexpr double kPoints = 6.5;     // size of the type
constexpr double kMargin = 0.45;    // mm, around a text
constexpr double kFreePoint = 0.6;  // mm, around the points of all labels
constexpr double kNeedsLine = 1.6;  // mm, from the anchor to the label
constexpr int kAngles = 24;
constexpr std::array<double, 14> kRings = {
    1.4, 2.2, 3.2, 4.5, 6, 8, 10.5, 13.5, 17, 21, 26, 32, 40, 50};  // mm
constexpr size_t kRingsForLongText = 6;

DVec2 nearest_point(const PageBox& box, const DVec2& p) {
    return glm::clamp(p, box.low, box.high);
}

// Whether the segment from a to b meets the box (Liang and Barsky 1984).
bool crosses(const DVec2& a, const DVec2& b, const PageBox& box) {
    double first = 0;
    double last = 1;
    for (int axis = 0; axis < 2; ++axis) {
        const double step = b[axis] - a[axis];
        if (step == 0) {
            if (a[axis] < box.low[axis] || a[axis] > box.high[axis]) return false;
            continue;
        }
        const double in = (box.low[axis] - a[axis]) / step;
        const double out = (box.high[axis] - a[axis]) / step;
        first = std::max(first, std::min(in, out));
        last = std::min(last, std::max(in, out));
    }
    return first < last;
}

double shared_area(const PageBox& a, const PageBox& b) {
    const DVec2 size = glm::min(a.high, b.high) - glm::max(a.low, b.low);
    return size.x > 0 && size.y > 0 ? size.x * size.y : 0;
}

class LabelPlacer {
  public:
    LabelPlacer(const std::vector<LabelWish>& wishes, const LabelRoom& room)
        : wishes_(wishes), room_(room) {}

    std::vector<PlacedLabel> place() {
        for (const size_t i : crowded_first()) {
            if (try_text(i, wishes_[i].text, kRingsForLongText)) continue;
            try_text(i, wishes_[i].brief, kRings.size());
        }
        return std::move(placed_);
    }

  private:
    std::vector<size_t> crowded_first() const {
        constexpr double kCrowd = 12;  // mm
        std::vector<int> neighbours(wishes_.size(), 0);
        for (size_t i = 0; i < wishes_.size(); ++i) {
            for (const LabelWish& other : wishes_) {
                if (glm::distance(wishes_[i].anchor, other.anchor) < kCrowd) ++neighbours[i];
            }
        }
        std::vector<size_t> order(wishes_.size());
        std::iota(order.begin(), order.end(), 0);
        std::stable_sort(order.begin(), order.end(), [&](size_t a, size_t b) {
            return neighbours[a] > neighbours[b];
        });
        return order;
    }

    bool try_text(size_t wish, const std::string& text, size_t rings) {
        TextStyle style;
        style.points = kPoints;
        const TextBox words(text, style);
        std::optional<PageBox> best;
        double least = 1e9;
        for (size_t ring = 0; ring < rings; ++ring) {
            if (kRings[ring] > least) break;  // a wider ring only costs more
            for (int k = 0; k < kAngles; ++k) {
                const double angle = 2 * kPi * (k + 0.5) / kAngles;
                const DVec2 way(std::cos(angle), std::sin(angle));
                const DVec2 half = 0.5 * words.size() + kMargin;
                const DVec2 centre =
                    wishes_[wish].anchor + kRings[ring] * way +
                    half * glm::sign(way) * glm::min(DVec2(1), 1.5 * glm::abs(way));
                const PageBox box{centre - half, centre + half};
                const double cost = kRings[ring] + cost_of(wish, box);
                if (cost < least) {
                    least = cost;
                    best = box;
                }
            }
        }
        if (!best) return false;
        add(wish, words, *best);
        return true;
    }

    // What a place costs, mm; very much if it may not be used.
    double cost_of(size_t wish, const PageBox& box) const {
        constexpr double kNever = 1e9;
        constexpr double kPerArea = 1.2;  // per mm² of what is drawn
        const DVec2& anchor = wishes_[wish].anchor;
        const DVec2 end = nearest_point(box, anchor);
        if (!room_.area.contains(box)) return kNever;
        for (const PageBox& other : room_.forbidden) {
            if (box.overlaps(other) || crosses(anchor, end, other)) return kNever;
        }
        for (const PlacedLabel& other : placed_) {
            if (box.overlaps(other.box) || crosses(anchor, end, other.box)) return kNever;
            if (crosses(wishes_[other.wish].anchor, other.line_end, box)) return kNever;
        }
        // A label on another one's point would leave it no place for its line.
        for (const LabelWish& other : wishes_) {
            if (box.overlaps({other.anchor - kFreePoint, other.anchor + kFreePoint})) return kNever;
        }
        double cost = 0;
        for (const PageBox& drawn : room_.drawn) cost += kPerArea * shared_area(box, drawn);
        return cost;
    }

    void add(size_t wish, const TextBox& text, const PageBox& box) {
        const DVec2 end = nearest_point(box, wishes_[wish].anchor);
        const bool has_line = glm::distance(end, wishes_[wish].anchor) > kNeedsLine;
        placed_.push_back({wish, text, box, end, has_line});
    }

    const std::vector<LabelWish>& wishes_;
    const LabelRoom& room_;
    std::vector<PlacedLabel> placed_;
};

}  // namespace

std::vector<PlacedLabel> place_labels(const std::vector<LabelWish>& wishes, const LabelRoom& room) {
    return LabelPlacer(wishes, room).place();
}

void draw_labels(Page& page,
                 const std::vector<LabelWish>& wishes,
                 const std::vector<PlacedLabel>& labels) {
    for (const PlacedLabel& label : labels) {
        if (!label.has_line) continue;
        page.line({wishes[label.wish].anchor, label.line_end}, {0.15, grey_ink(0.35), {}});
    }
    for (const PlacedLabel& label : labels) {
        page.fill(label.box, {1, 1, 1, 0.85});
        label.text.draw(page, label.box.low + kMargin);
    }
}

}  // namespace dapple
