#include "plausible/beams/find_unmet.h"

#include <algorithm>

#include "plausible/beams/sight_lines.h"
#include "plausible/in_words.h"
#include "plausible/room/room_walls.h"

namespace dapple {

namespace {

constexpr size_t kMostPoints = 64;    // of a body that are looked at
constexpr int kBoardPoints = 5;       // across a board
constexpr float kStandsOn = 0.06F;    // m, from the lowest point to what it stands on
constexpr float kNearPane = 0.5F;     // m, beyond the diagonal of a window
constexpr float kNearFigure = 1.5F;   // m, within which black takes light away from it
constexpr float kLargeFlag = 0.25F;   // m², that can
constexpr float kNearLens = 1.2F;     // m, within which a flag shades the lens
constexpr float kRippleReach = 2.5F;  // m, that glass throws light about
constexpr float kFarthest = 20.0F;    // m, of a beam that nothing stops
constexpr float kFromLamp = 0.15F;    // m, the nearest place before a lamp

// What might be lit: a body and points on it.
struct Candidate {
    Thing thing;
    std::vector<Point> points;
    Point middle{0};
    const Field<Triple>* position = nullptr;
    std::string word;  // "glass", "cloth", "flag"
};

class UnmetFinder {
  public:
    UnmetFinder(const StagedSet& set, const std::vector<Mover>& movers, const QuickLight& light)
        : set_(set), scene_(set.scene), movers_(movers), emitters_(light.emitters()) {}

    Doubts find() {
        for (const Mover& mover : movers_) {
            if (mover.thing.kind == ThingKind::kGlass) add_glass(mover);
        }
        for (size_t b = 0; b < scene_.boards.size(); ++b) add_board(static_cast<int>(b));
        return std::move(doubts_);
    }

  private:
    bool is_lit(size_t fixture) const { return emitters_[fixture].lumens() > 0; }

    bool has_fixtures() const {
        for (size_t i = 0; i < scene_.fixtures.size(); ++i) {
            if (!scene_.fixtures[i].is_window && is_lit(i)) return true;
        }
        return false;
    }

    // Whether light of the fixture gets to one of the points.
    bool meets(size_t fixture, const Candidate& c) const {
        const Fixture& f = scene_.fixtures[fixture];
        return std::any_of(c.points.begin(), c.points.end(), [&](const Point& p) {
            return outside_field(f, emitters_[fixture], p) <= 0 &&
                   !stop_between(set_, f.position, p, static_cast<int>(fixture));
        });
    }

    bool is_in_a_field(const Candidate& c) const {
        for (size_t i = 0; i < scene_.fixtures.size(); ++i) {
            for (const Point& p : c.points) {
                if (is_lit(i) && outside_field(scene_.fixtures[i], emitters_[i], p) <= 0)
                    return true;
            }
        }
        return false;
    }

    // `is_glass`: a window only counts for glass that is near it.
    bool is_met(const Candidate& c, bool is_glass) const {
        for (size_t i = 0; i < scene_.fixtures.size(); ++i) {
            const Fixture& f = scene_.fixtures[i];
            const bool is_far =
                f.is_window && is_glass && has_fixtures() &&
                glm::length(c.middle - f.position) > glm::length(f.panel_size) + kNearPane;
            if (is_lit(i) && !is_far && meets(i, c)) return true;
        }
        return false;
    }

    bool is_seen(const Candidate& c) const {
        return std::any_of(
            c.points.begin(), c.points.end(), [&](const Point& p) { return lens_sees(set_, p); });
    }

    bool stands_on_something(const Candidate& c) const {
        float lowest = kInfinity;
        for (const Point& p : c.points) lowest = std::min(lowest, p.y);
        const Point from(c.middle.x, lowest + kStandsOn / 2, c.middle.z);
        const Counts counts = [&](const Thing& thing, const SurfacePoint&) {
            return thing != c.thing;
        };
        Thing thing;
        SurfacePoint at;
        const Ray ray{from, Vec3(0, -1, 0), 0.0F, 1.5F * kStandsOn};
        return first_counting(set_.world, ray, counts, thing, at);
    }

    void add_glass(const Mover& mover) {
        Candidate c;
        c.thing = mover.thing;
        c.word = "glass";
        c.position = written_position(set_, mover.thing);
        const size_t step = std::max<size_t>(1, mover.cage.size() / kMostPoints);
        for (size_t i = 0; i < mover.cage.size(); i += step) c.points.push_back(mover.cage[i].a);
        c.middle = bounds_of(mover.cage).centre();
        if (c.points.empty()) return;
        if (is_met(c, true)) {
            lit_glass_.push_back(c.middle);
            return;
        }
        const bool is_seen_glass = is_seen(c);
        if (is_seen_glass && stands_on_something(c)) return;
        add_doubt(c, is_seen_glass);
    }

    void add_board(int index) {
        const Board& board = scene_.boards[static_cast<size_t>(index)];
        const bool is_flag = board.kind == BoardKind::kFlag;
        if (!is_flag && board.kind != BoardKind::kDiffuser) return;
        if (!board.clipped_to.empty()) return;
        Candidate c;
        c.thing = {ThingKind::kBoard, index};
        c.word = is_flag ? "flag" : "cloth";
        c.position = written_position(set_, c.thing);
        c.middle = board.centre;
        const Frame frame = looking_frame(board.facing);
        const float shrunk = board.round ? 0.7F : 0.95F;
        const float height = board.round ? board.size.x : board.size.y;
        for (int i = 0; i < kBoardPoints * kBoardPoints; ++i) {
            const auto at = [&](int n) {
                return shrunk * (static_cast<float>(n) / (kBoardPoints - 1) - 0.5F);
            };
            c.points.push_back(board.centre + at(i % kBoardPoints) * board.size.x * frame.s +
                               at(i / kBoardPoints) * height * frame.t);
        }
        const bool does_something =
            is_flag ? flag_may_act(c, board.size.x * height) : is_met(c, false) || is_seen(c);
        if (!does_something && !is_by_lit_glass(c)) add_doubt(c, is_flag);
    }

    bool flag_may_act(const Candidate& c, float area) const {
        if (is_in_a_field(c) || is_seen(c)) return true;
        const Point& lens = scene_.camera.position;
        if (glm::length(c.middle - lens) < kNearLens) return true;
        for (const StandIn& figure : scene_.stand_ins) {
            const Vec3 to = c.middle - figure.position;
            if (area > kLargeFlag && glm::length(Vec2(to.x, to.z)) < kNearFigure) return true;
        }
        for (size_t i = 0; i < scene_.fixtures.size(); ++i) {
            const auto stop =
                stop_between(set_, lens, scene_.fixtures[i].position, static_cast<int>(i));
            if (is_lit(i) && stop && *stop == c.thing) return true;
        }
        return false;
    }

    bool is_by_lit_glass(const Candidate& c) const {
        return std::any_of(lit_glass_.begin(), lit_glass_.end(), [&](const Point& glass) {
            return glm::length(glass - c.middle) < kRippleReach &&
                   std::any_of(c.points.begin(), c.points.end(), [&](const Point& p) {
                       return !stop_between(set_, glass, p);
                   });
        });
    }

    // The beam that passes nearest, and the point of its axis that is nearest to the middle.
    struct NearBeam {
        int fixture = -1;
        float distance = kInfinity;  // m, from the edge of its field
        Point on_axis{0};
    };

    // To what stops the axis of the beam.
    float axis_length(size_t fixture, const Thing& except) const {
        const Fixture& f = scene_.fixtures[fixture];
        const Counts counts = [&](const Thing& thing, const SurfacePoint& at) {
            return thing != except && thing.index != static_cast<int>(fixture) &&
                   blocks_light(scene_, at);
        };
        Thing thing;
        SurfacePoint at;
        const Ray ray{f.position, f.axis, kFromLamp, kInfinity};
        if (!first_counting(set_.world, ray, counts, thing, at)) return kFarthest;
        return glm::length(at.position - f.position);
    }

    NearBeam nearest_beam(const Candidate& c) const {
        NearBeam best;
        for (size_t i = 0; i < scene_.fixtures.size(); ++i) {
            const Fixture& f = scene_.fixtures[i];
            if (f.is_window || f.form != FixtureForm::kSpot || f.photometry || !is_lit(i)) continue;
            float distance = kInfinity;
            for (const Point& p : c.points) {
                distance = std::min(distance, outside_field(f, emitters_[i], p));
            }
            if (distance >= best.distance) continue;
            const float reach = std::max(kFromLamp, axis_length(i, c.thing) - kFromLamp);
            const float along =
                std::clamp(glm::dot(c.middle - f.position, f.axis), kFromLamp, reach);
            best = {static_cast<int>(i), distance, f.position + along * f.axis};
        }
        return best;
    }

    // "4 cm above it", "1.2 m from it, to camera left"
    std::string passing_words(const NearBeam& beam, const Point& middle) const {
        const Vec3 to_beam = beam.on_axis - middle;
        const Direction way = glm::normalize(to_beam);
        const std::string length = length_text(static_cast<double>(beam.distance));
        if (way.y > 0.7F) return length + " above it";
        if (way.y < -0.7F) return length + " below it";
        return length + " from it, " + way_text(way, scene_.camera);
    }

    void add_doubt(const Candidate& c, bool is_guess) {
        const NearBeam beam = nearest_beam(c);
        std::string message = "no beam meets the " + c.word;
        if (beam.fixture < 0) {
            message += ", and no fixture's light gets there; move it into the light";
        } else {
            const auto index = static_cast<size_t>(beam.fixture);
            const std::string name = "\"" + scene_.fixtures[index].name + "\"";
            const auto stop =
                stop_between(set_, scene_.fixtures[index].position, c.middle, beam.fixture);
            if (beam.distance > 0) {
                message += "; that of " + name + " passes " + passing_words(beam, c.middle) +
                           ": aim " + name + " at " +
                           triple_text({c.middle.x, c.middle.y, c.middle.z});
                if (RoomWalls(set_).may_move(c.middle, beam.on_axis)) {
                    message += ", or move the " + c.word + ": " +
                               moved_text(*c.position, beam.on_axis - c.middle);
                }
            } else if (stop && *stop == Thing{ThingKind::kHousing, beam.fixture}) {
                message += "; the barn doors or the snoot of " + name + " keep its beam off it";
            } else {
                message += "; " + (stop ? words_of(set_, *stop) : std::string("something")) +
                           " is between it and " + name;
            }
        }
        doubts_.push_back(doubt_at(*c.position, message, is_guess));
    }

    const StagedSet& set_;
    const Scene& scene_;
    const std::vector<Mover>& movers_;
    const std::vector<Emitter>& emitters_;
    std::vector<Point> lit_glass_;
    Doubts doubts_;
};

}  // namespace

Doubts find_unmet(const StagedSet& set, const std::vector<Mover>& movers, const QuickLight& light) {
    return UnmetFinder(set, movers, light).find();
}

}  // namespace dapple
