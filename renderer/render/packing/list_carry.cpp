// Like things are one line with a count and the names of those that need it.
#include "render/packing/list_carry.h"

#include <algorithm>

#include "render/packing/column_under.h"
#include "render/packing/how_it_is_set.h"
#include "render/packing/list_supports.h"

namespace dapple {

namespace {

class CarryLister {
  public:
    CarryLister(const Scene& scene, const DaySheet& sheet, const std::vector<Gear>& gear)
        : scene_(scene), sheet_(sheet), gear_(gear) {}

    std::vector<CarryItem> list(const std::vector<CableRun>& cables) {
        add("camera", printed("camera with a %.4g mm lens", 1e3 * scene_.camera.focal_length), "");
        add("camera", "tripod", "");
        if (!scene_.meters.empty()) add("meter", "light meter and tape measure", "");
        add_fixtures();
        add_glasses();
        add_boards();
        add_props();
        for (CarryItem& item : list_supports(scene_, sheet_, cables, gear_)) {
            items_.push_back(std::move(item));
        }
        return std::move(items_);
    }

  private:
    // One more of a kind, for the thing `who`.
    CarryItem& add(const std::string& kind,
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
        return item;
    }

    static std::string with_kit(const std::string& words, const std::string& kit) {
        return kit.empty() ? words : words + " (" + kit + ")";
    }

    void add_fixtures() {
        for (const PackedFixture& packed : sheet_.list.fixtures) {
            const Fixture& f = fixture_named(packed.name);
            std::string words = fixture_words(f);
            if (f.power_w > 0) words += printed(" %g W", static_cast<double>(f.power_w));
            add("fixture", with_kit(words, f.kit), f.name).have = owned(gear_, "fixture", f.kit);
        }
        for (const PackedFixture& packed : sheet_.list.fixtures) {
            const Fixture& f = fixture_named(packed.name);
            if (f.supply == Supply::kBattery) {
                add("battery", "battery, charged", f.name).have = owned(gear_, "battery");
            }
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
            add("glass", with_kit(words, glass.kit), glass.name).have =
                owned(gear_, "glass", glass.kit);
        }
    }

    void add_boards() {
        for (const Board& board : scene_.boards) {
            if (board.kind == BoardKind::kDoor) continue;
            const char* table = board.kind == BoardKind::kDiffuser ? "diffuser"
                                : board.kind == BoardKind::kFlag   ? "flag"
                                                                   : "bounce";
            const char* kind = board.kind == BoardKind::kDiffuser ? "cloth" : table;
            const std::string what = board.cloth.empty() ? kind : board.cloth;
            add(kind, with_kit(what + " " + board_size_words(board), board.kit), board.name).have =
                owned(gear_, table, board.kit);
        }
    }

    enum class Brought { kNo, kPerhaps, kYes };

    // As the set says; else what one person can carry is brought, and what a glass stands on, or is
    // no higher than a counter, may be.
    Brought how_brought(const Column& column) const {
        constexpr float kCarriedHeight = 1.0F;  // m
        constexpr float kCarriedAcross = 0.6F;  // m
        constexpr float kLowHeight = 1.2F;      // m
        const std::optional<int> said = owned(gear_, "column", column.name);
        if (said) return *said > 0 ? Brought::kYes : Brought::kNo;
        const bool is_small = column.height <= kCarriedHeight &&
                              std::max(column.size.x, column.size.y) <= kCarriedAcross;
        if (is_small) return Brought::kYes;
        const bool carries =
            std::any_of(scene_.glasses.begin(), scene_.glasses.end(), [&](const GlassObject& g) {
                return column_under(scene_, g.position) == &column;
            });
        return carries || column.height <= kLowHeight ? Brought::kPerhaps : Brought::kNo;
    }

    // Columns that are brought: a stool, a box, a plinth. The note says where they stand.
    void add_props() {
        for (const Column& column : scene_.columns) {
            const Brought brought = how_brought(column);
            if (brought == Brought::kNo) continue;
            std::string words = column.name + printed(", %.2f", static_cast<double>(column.size.x));
            words += column.round ? " m round"
                                  : printed(" x %.2f m", static_cast<double>(column.size.y));
            words += printed(", %.2f m high", static_cast<double>(column.height));
            if (brought == Brought::kPerhaps) words += " (unless the room has it)";
            CarryItem& item = add("prop", words, "");
            if (!sheet_.room.box) continue;
            const Point& corner = sheet_.room.box->low;
            item.note = printed("stands %.2f m from the left wall and %.2f m from the back wall",
                                static_cast<double>(column.position.x - corner.x),
                                static_cast<double>(column.position.z - corner.z));
        }
    }

    const Fixture& fixture_named(const std::string& name) const {
        return *std::find_if(scene_.fixtures.begin(), scene_.fixtures.end(), [&](const Fixture& f) {
            return f.name == name;
        });
    }

    const Scene& scene_;
    const DaySheet& sheet_;
    const std::vector<Gear>& gear_;
    std::vector<CarryItem> items_;
};

}  // namespace

std::vector<CarryItem> list_carry(const Scene& scene,
                                  const DaySheet& sheet,
                                  const std::vector<CableRun>& cables,
                                  const std::vector<Gear>& gear) {
    return CarryLister(scene, sheet, gear).list(cables);
}

}  // namespace dapple
