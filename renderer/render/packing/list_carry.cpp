// Like things are one line with a count and the names of those that need it. What holds a thing up
// is not in the set file, so our own rules decide: common practice, without a source.
#include "render/packing/list_carry.h"

#include <algorithm>
#include <array>

#include "geometry/nearest.h"
#include "render/packing/how_it_is_set.h"

namespace dapple {

namespace {

constexpr double kHighestOnStand = 2.6;  // m; what is higher hangs from a clamp
constexpr double kBondAbove = 2.0;       // m, as the caution about fixtures overhead
constexpr float kStandsOn = 0.02F;       // m, between a glass and the surface that it stands on
// Lengths in which cables are sold.
constexpr std::array<int, 5> kCableLengths = {5, 10, 15, 20, 25};  // m

class CarryLister {
  public:
    CarryLister(const Scene& scene, const DaySheet& sheet) : scene_(scene), sheet_(sheet) {}

    std::vector<CarryItem> list(const std::vector<CableRun>& cables) {
        add("camera", printed("camera with a %.4g mm lens", 1e3 * scene_.camera.focal_length), "");
        add("camera", "tripod", "");
        if (!scene_.meters.empty()) add("meter", "light meter and tape measure", "");
        add_fixtures();
        add_glasses();
        add_boards();
        add_supports();
        add_cables(cables);
        return std::move(items_);
    }

  private:
    // One more of a kind, for the thing `who`.
    void add(const std::string& kind,
             const std::string& name,
             const std::string& who,
             const std::string& detail = "") {
        const auto same = std::find_if(items_.begin(), items_.end(), [&](const CarryItem& item) {
            return item.kind == kind && item.name == name;
        });
        CarryItem& item = same == items_.end() ? items_.emplace_back() : *same;
        item.kind = kind;
        item.name = name;
        ++item.count;
        if (!who.empty()) item.users.push_back({who, detail});
    }

    static std::string with_kit(const std::string& words, const std::string& kit) {
        return kit.empty() ? words : words + " (" + kit + ")";
    }

    void add_fixtures() {
        for (const PackedFixture& packed : sheet_.list.fixtures) {
            const Fixture& f = fixture_named(packed.name);
            std::string words = fixture_words(f);
            if (f.power_w > 0) words += printed(" %g W", static_cast<double>(f.power_w));
            add("fixture", with_kit(words, f.kit), f.name);
        }
        for (const PackedFixture& packed : sheet_.list.fixtures) {
            const Fixture& f = fixture_named(packed.name);
            if (f.supply == Supply::kBattery) add("battery", "battery, charged", f.name);
            if (f.gel.is_there()) add("gel", "gel " + gel_words(f.gel), f.name);
            if (f.barn_doors) add("attachment", "barn doors", f.name);
            if (f.snoot_diameter > 0) add("attachment", "snoot", f.name);
            if (f.wide_beam_angle > 0) add("attachment", "wide-angle attachment", f.name);
            if (f.source != SourceKind::kTungsten || f.dimmer >= 1) continue;
            add("dimmer",
                f.dimmer_warms ? "dimmer" : "set of scrims",
                f.name,
                printed("%.0f %%", 100.0 * f.dimmer));
        }
    }

    void add_glasses() {
        for (const GlassObject& glass : scene_.glasses) {
            std::string words = glass_words(glass);
            const std::string fill = fill_words(glass, scene_);
            if (!fill.empty()) words += ", " + fill;
            add("glass", with_kit(words, glass.kit), glass.name);
        }
    }

    void add_boards() {
        for (const Board& board : scene_.boards) {
            if (board.kind == BoardKind::kDoor) continue;
            const char* kind = board.kind == BoardKind::kDiffuser ? "cloth"
                               : board.kind == BoardKind::kFlag   ? "flag"
                                                                  : "bounce";
            const std::string what = board.cloth.empty() ? kind : board.cloth;
            add(kind, with_kit(what + " " + board_size_words(board), board.kit), board.name);
        }
    }

    void add_supports() {
        int stands = 0;
        int clamps = 0;
        for (const PlacedThing& place : sheet_.places) {
            if (place.kind == PlaceKind::kFixture) {
                const bool hangs = place.at.height.value_or(0) > kHighestOnStand;
                ++(hangs ? clamps : stands);
                if (place.at.height.value_or(0) > kBondAbove) {
                    add("bond", "safety bond", place.name);
                }
            } else if (is_held(place)) {
                ++stands;
                ++clamps;
            }
        }
        put("stand",
            "stand",
            stands,
            "fixtures up to 2.6 m, and glass, cloths and flags in the air");
        put("clamp",
            "clamp",
            clamps,
            "glass, cloths and flags in the air, and fixtures above 2.6 m");
        put("weight", "sandbag", stands, "one for each stand");
    }

    // Whether the thing needs a stand and a clamp of its own.
    bool is_held(const PlacedThing& place) const {
        if (place.kind == PlaceKind::kGlass) return !stands_on_something(place.at);
        const bool is_board = place.kind == PlaceKind::kCloth || place.kind == PlaceKind::kFlag ||
                              place.kind == PlaceKind::kBounce;
        return is_board && place.aim.has_value();  // a clipped one has no aim
    }

    bool stands_on_something(const TapePlace& at) const {
        return std::any_of(scene_.room.begin(), scene_.room.end(), [&](const Mesh& mesh) {
            return distance_to_mesh(at.position, mesh) < kStandsOn;
        });
    }

    void put(const char* kind, const char* name, int count, const char* note) {
        if (count > 0) items_.push_back({kind, name, count, note, {}});
    }

    void add_cables(const std::vector<CableRun>& cables) {
        for (const CableRun& cable : cables) {
            const auto enough = std::find_if(kCableLengths.begin(),
                                             kCableLengths.end(),
                                             [&](int metres) { return metres >= cable.length; });
            const std::string& who = scene_.fixtures[static_cast<size_t>(cable.fixture)].name;
            const std::string length = printed("%.1f m", cable.length);
            const int metres = enough != kCableLengths.end() ? *enough : kCableLengths.back();
            const std::string name = printed("mains cable %d m", metres);
            add("cable", name, who, length);
            for (double rest = cable.length - metres; rest > 0; rest -= metres) {
                add("cable", name, "");
            }
        }
    }

    const Fixture& fixture_named(const std::string& name) const {
        return *std::find_if(scene_.fixtures.begin(), scene_.fixtures.end(), [&](const Fixture& f) {
            return f.name == name;
        });
    }

    const Scene& scene_;
    const DaySheet& sheet_;
    std::vector<CarryItem> items_;
};

}  // namespace

std::vector<CarryItem> list_carry(const Scene& scene,
                                  const DaySheet& sheet,
                                  const std::vector<CableRun>& cables) {
    return CarryLister(scene, sheet).list(cables);
}

}  // namespace dapple
