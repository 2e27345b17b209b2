#include "scene/build_gear.h"

#include "scene/checks.h"

namespace dapple {

namespace {

constexpr int kMostOwned = 10000;
constexpr double kMostReach = 50;    // m
constexpr double kMostLength = 500;  // m
constexpr double kMostFrame = 20;    // m

}  // namespace

std::vector<Gear> build_gear(const std::vector<GearDescription>& descriptions, Problems& problems) {
    std::vector<Gear> all;
    for (const GearDescription& d : descriptions) {
        Gear& gear = all.emplace_back();
        gear.kind = d.kind;
        gear.name = d.name;
        if (d.count.given) gear.count = checked_whole(d.count, 0, 0, kMostOwned, problems);
        if (d.kind == "stand" && check_written(d.reach_m, "how high it holds a lamp", problems)) {
            gear.reach = static_cast<float>(checked_positive(d.reach_m, 1, kMostReach, problems));
        }
        if (d.kind == "cable" && check_written(d.length_m, "give its length", problems)) {
            gear.length =
                static_cast<float>(checked_positive(d.length_m, 1, kMostLength, problems));
        }
        if (d.kind == "frame" && check_written(d.size_m, "give width and height", problems)) {
            gear.size = checked_size(d.size_m, Vec2(1), kMostFrame, problems);
        }
    }
    return all;
}

void add_columns(const std::vector<ColumnDescription>& columns, std::vector<Gear>& gear) {
    for (const ColumnDescription& column : columns) {
        if (!column.carry.given) continue;
        Gear& brought = gear.emplace_back();
        brought.kind = "column";
        brought.name = name_or_label(column.name, column);
        brought.count = column.carry.value ? 1 : 0;
    }
}

}  // namespace dapple
