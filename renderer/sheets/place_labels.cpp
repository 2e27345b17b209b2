#include "sheets/place_labels.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <optional>

#include "base/units.h"

namespace dapple {

namespace {

constexpr double kPoints = 6.5;        // size of the type
constexpr double kLabelMargin = 0.45;  // mm, around a text
constexpr double kFreePoint = 0.6;     // mm, around the points of all labels
constexpr double kNeedsLine = 1.6;     // mm, from the anchor to the label
constexpr int kAngles = 48;
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
    // `crowd`: points with at least this many others near them have short labels, on a ring that is
    // wide enough for all of them. Nearer labels would enclose the points of the others.
    LabelPlacer(const std::vector<LabelWish>& wishes, const LabelRoom& room, int crowd)
        : wishes_(wishes), room_(room), crowd_(crowd) {}

    std::vector<PlacedLabel> place() {
        constexpr double kOnRing = 4.2;  // mm, of the ring for each label
        for (const size_t i : crowded_first()) {
            const int near = neighbours(i, kNear);
            const bool is_crowded = near >= crowd_;
            const double least_ring = is_crowded ? near * kOnRing / (2 * kPi) : 0;
            if (!is_crowded && try_text(i, wishes_[i].text, kRingsForLongText, 0)) continue;
            try_text(i, wishes_[i].brief, kRings.size(), least_ring);
        }
        return std::move(placed_);
    }

  private:
    static constexpr double kNear = 6;  // mm

    // The points nearer than that, its own included.
    int neighbours(size_t wish, double distance) const {
        int count = 0;
        for (const LabelWish& other : wishes_) {
            if (glm::distance(wishes_[wish].anchor, other.anchor) < distance) ++count;
        }
        return count;
    }

    std::vector<size_t> crowded_first() const {
        std::vector<size_t> order(wishes_.size());
        std::iota(order.begin(), order.end(), 0);
        std::stable_sort(order.begin(), order.end(), [&](size_t a, size_t b) {
            return neighbours(a, 2 * kNear) > neighbours(b, 2 * kNear);
        });
        return order;
    }

    bool try_text(size_t wish, const std::string& text, size_t rings, double least_ring) {
        TextStyle style;
        style.points = kPoints;
        const TextBox words(text, style);
        std::optional<PageBox> best;
        double least = 1e9;
        for (size_t ring = 0; ring < rings; ++ring) {
            if (kRings[ring] < least_ring) continue;
            if (kRings[ring] > least) break;  // a wider ring only costs more
            for (int k = 0; k < kAngles; ++k) {
                const double angle = 2 * kPi * (k + 0.5) / kAngles;
                const DVec2 way(std::cos(angle), std::sin(angle));
                const DVec2 half = 0.5 * words.size() + kLabelMargin;
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
    int crowd_;
    std::vector<PlacedLabel> placed_;
};

}  // namespace

std::vector<PlacedLabel> place_labels(const std::vector<LabelWish>& wishes, const LabelRoom& room) {
    std::vector<PlacedLabel> best;
    for (const int crowd : {1000000, 8, 5, 3, 1}) {
        std::vector<PlacedLabel> labels = LabelPlacer(wishes, room, crowd).place();
        if (labels.size() > best.size()) best = std::move(labels);
        if (best.size() == wishes.size()) break;
    }
    return best;
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
        label.text.draw(page, label.box.low + kLabelMargin);
    }
}

}  // namespace dapple
