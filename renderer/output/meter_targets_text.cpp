#include "output/meter_targets_text.h"

#include <algorithm>

#include "develop/meter_targets.h"
#include "output/text_table.h"

namespace dapple {

namespace {

using Rows = std::vector<std::vector<std::string>>;

// The row of a light; "" is all together.
std::vector<std::string>& row_of(Rows& rows, const MeterTarget& target) {
    std::string name = target.fixture.empty() ? "all together" : target.fixture;
    if (target.is_window) name += " (from outside)";
    const auto row = std::find_if(rows.begin(), rows.end(), [&](const auto& cells) {
        return !cells.empty() && cells.front() == name;
    });
    return row != rows.end() ? *row : rows.emplace_back(std::vector{name});
}

}  // namespace

std::string meter_targets_text(const DaySheet& sheet) {
    if (sheet.meters.empty()) return "";
    const std::string title = "What the light meter must read";
    if (!sheet.targets) return title + ": not read yet; -o DIR reads the meters\n\n";
    Rows rows = {{"alone"}};
    rows.front().insert(rows.front().end(), sheet.meters.begin(), sheet.meters.end());
    Rows together;
    for (const MeterTarget& target : *sheet.targets) {
        row_of(target.fixture.empty() ? together : rows, target).push_back(target_words(target));
    }
    rows.insert(rows.end(), together.begin(), together.end());
    return title + ", at ISO " + formatted("%.0f", static_cast<double>(sheet.camera.iso)) +
           " and " + shutter_words(sheet.camera) + "\n" + table_text(rows) + "\n";
}

}  // namespace dapple
