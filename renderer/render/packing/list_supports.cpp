#include "render/packing/list_supports.h"

#include <algorithm>
#include <cmath>

#include "geometry/nearest.h"
#include "render/packing/column_under.h"
#include "render/packing/how_it_is_set.h"

namespace dapple {

namespace {

constexpr double kBondAbove = 2.0;   // m, as the caution about fixtures overhead
constexpr double kSameFrame = 0.01;  // m
constexpr float kUsualReach = 2.6F;  // m, of a stand if the kit lists none
constexpr float kUsualCable = 25;    // m, if the kit lists none

// One piece that is needed: its size is the height of a lamp or the length of a cable.
struct Need {
    double size = 0;
    CarryItem::User user;  // no thing: the item's note says what it is for
};

// Gives the needs, from the largest on, pieces of one kind.
class Allotment {
  public:
    Allotment(const std::vector<Gear>& gear, const std::string& kind, float Gear::*size)
        : size_(size) {
        for (const Gear& g : gear) {
            if (g.kind == kind) pieces_.push_back({g, g.count.value_or(0)});
        }
        counts_ = owned(gear, kind).has_value();
    }

    float largest(float fallback) const {
        float most = pieces_.empty() ? fallback : 0;
        for (const Piece& piece : pieces_) most = std::max(most, piece.gear.*size_);
        return most;
    }

    const Gear* take(double size) {
        Piece* best = nullptr;
        for (Piece& piece : pieces_) {
            if (piece.gear.*size_ < size) continue;
            if (best == nullptr || is_better(piece, *best)) best = &piece;
        }
        if (best == nullptr) return nullptr;
        --best->left;
        return &best->gear;
    }

    // How many pieces of one size the user owns, whatever entries of the kit they are.
    std::optional<int> have(double size) const {
        if (!counts_) return std::nullopt;
        int sum = 0;
        for (const Piece& piece : pieces_) {
            if (piece.gear.*size_ == static_cast<float>(size)) sum += piece.gear.count.value_or(0);
        }
        return sum;
    }

  private:
    struct Piece {
        Gear gear;
        int left = 0;
    };

    bool is_better(const Piece& a, const Piece& b) const {
        if ((a.left > 0) != (b.left > 0)) return a.left > 0;
        return a.gear.*size_ < b.gear.*size_;
    }

    float Gear::*size_;
    std::vector<Piece> pieces_;
    bool counts_ = false;
};

bool larger(const Need& a, const Need& b) {
    return a.size > b.size;
}

class SupportLister {
  public:
    SupportLister(const Scene& scene, const DaySheet& sheet, const std::vector<Gear>& gear)
        : scene_(scene), sheet_(sheet), gear_(gear) {}

    std::vector<CarryItem> list(const std::vector<CableRun>& cables) {
        add_stands();
        add_frames();
        add_cables(cables);
        return std::move(items_);
    }

  private:
    CarryItem& item(const std::string& kind, const std::string& name) {
        const auto same = std::find_if(items_.begin(), items_.end(), [&](const CarryItem& i) {
            return i.kind == kind && i.name == name;
        });
        if (same != items_.end()) return *same;
        CarryItem& added = items_.emplace_back();
        added.kind = kind;
        added.name = name;
        return added;
    }

    void put(const char* kind, const char* name, int count, const char* note) {
        if (count == 0) return;
        items_.push_back({kind, name, count, note, {}, owned(gear_, kind)});
    }

    void add_stands() {
        Allotment stands(gear_, "stand", &Gear::reach);
        const double highest = stands.largest(kUsualReach);
        std::vector<Need> needs;
        int clamps = 0;
        for (const PlacedThing& place : sheet_.places) {
            const double height = place.at.height.value_or(0);
            if (place.kind == PlaceKind::kFixture) {
                if (height > highest) ++clamps;
                if (height <= highest) needs.push_back({height, {}});
                if (height > kBondAbove) add_bond(place.name);
            } else if (is_held(place)) {
                needs.push_back({std::min(height, highest), {}});
                ++clamps;
            }
        }
        std::stable_sort(needs.begin(), needs.end(), larger);
        for (const Need& need : needs) add_stand(stands.take(need.size), stands);
        put("clamp",
            "clamp",
            clamps,
            "glass, cloths and flags in the air, and fixtures that no stand reaches");
        put("weight", "sandbag", static_cast<int>(needs.size()), "one for each stand");
    }

    void add_stand(const Gear* stand, const Allotment& stands) {
        const double reach = stand == nullptr ? kUsualReach : stand->reach;
        CarryItem& added = item("stand", printed("stand up to %.3g m", reach));
        ++added.count;
        added.have = stands.have(reach);
        added.note = "fixtures, and glass, cloths and flags in the air";
    }

    void add_bond(const std::string& who) {
        CarryItem& bond = item("bond", "safety bond");
        ++bond.count;
        bond.users.push_back({who, ""});
    }

    // Whether the thing needs a stand and a clamp of its own.
    bool is_held(const PlacedThing& place) const {
        if (place.kind == PlaceKind::kGlass) return !stands_on_something(place.at);
        const bool is_board = place.kind == PlaceKind::kCloth || place.kind == PlaceKind::kFlag ||
                              place.kind == PlaceKind::kBounce;
        return is_board && place.aim.has_value();  // a clipped one has no aim
    }

    bool stands_on_something(const TapePlace& at) const {
        if (column_under(scene_, at.position) != nullptr) return true;
        return std::any_of(scene_.room.begin(), scene_.room.end(), [&](const Mesh& mesh) {
            return distance_to_mesh(at.position, mesh) < kStandsOn;
        });
    }

    // Every square cloth that hangs in the air is on a frame of its size.
    void add_frames() {
        for (const Board& board : scene_.boards) {
            const bool is_framed = board.kind == BoardKind::kDiffuser && !board.round && board.aim;
            if (!is_framed) continue;
            CarryItem& frame = item("frame", "frame " + board_size_words(board));
            ++frame.count;
            frame.users.push_back({board.name, ""});
            if (!owned(gear_, "frame")) continue;
            int sum = 0;
            for (const Gear& g : gear_) {
                if (g.kind == "frame" && fits(g.size, board.size)) sum += g.count.value_or(0);
            }
            frame.have = sum;
        }
    }

    static bool fits(const Vec2& frame, const Vec2& cloth) {
        const auto same = [](const Vec2& a, const Vec2& b) {
            return std::abs(a.x - b.x) < kSameFrame && std::abs(a.y - b.y) < kSameFrame;
        };
        return same(frame, cloth) || same({frame.y, frame.x}, cloth);
    }

    void add_cables(const std::vector<CableRun>& runs) {
        Allotment cables(gear_, "cable", &Gear::length);
        std::vector<Need> needs;
        for (const CableRun& run : runs) {
            const std::string& who = scene_.fixtures[static_cast<size_t>(run.fixture)].name;
            needs.push_back({run.length, {who, printed("%.1f m", run.length)}});
        }
        std::stable_sort(needs.begin(), needs.end(), larger);
        const double longest = cables.largest(kUsualCable);
        for (Need need : needs) {
            for (; need.size > longest; need.size -= longest) add_cable(longest, {}, cables);
            add_cable(need.size, need.user, cables);
        }
    }

    void add_cable(double length, const CarryItem::User& user, Allotment& cables) {
        const Gear* cable = cables.take(length);
        const double metres = cable == nullptr ? kUsualCable : cable->length;
        CarryItem& added = item("cable", printed("mains cable %.3g m", metres));
        ++added.count;
        added.have = cables.have(metres);
        if (!user.thing.empty()) added.users.push_back(user);
    }

    const Scene& scene_;
    const DaySheet& sheet_;
    const std::vector<Gear>& gear_;
    std::vector<CarryItem> items_;
};

}  // namespace

std::optional<int> owned(const std::vector<Gear>& gear, const std::string& kind) {
    std::optional<int> sum;
    for (const Gear& g : gear) {
        if (g.kind == kind && g.count) sum = sum.value_or(0) + *g.count;
    }
    return sum;
}

std::optional<int> owned(const std::vector<Gear>& gear,
                         const std::string& kind,
                         const std::string& name) {
    for (const Gear& g : gear) {
        if (g.kind == kind && g.name == name && !name.empty()) return g.count;
    }
    return std::nullopt;
}

std::vector<CarryItem> list_supports(const Scene& scene,
                                     const DaySheet& sheet,
                                     const std::vector<CableRun>& cables,
                                     const std::vector<Gear>& gear) {
    return SupportLister(scene, sheet, gear).list(cables);
}

}  // namespace dapple
