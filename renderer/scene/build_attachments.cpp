#include "scene/build_attachments.h"

#include <algorithm>

#include "base/units.h"
#include "scene/checks.h"

namespace dapple {

namespace {

const std::vector<std::pair<std::string, Supply>> kSupplies{{"mains", Supply::kMains},
                                                            {"battery", Supply::kBattery}};

// A stand below a fixture that aims lower than this (the axis's y) would stand in its light.
constexpr float kSteepest = -0.9F;

void build_barn_doors(const FixtureDescription& description, Fixture& fixture, Problems& problems) {
    const Field<Quad>& doors = description.barn_doors_deg;
    if (!doors.given) return;
    if (fixture.form == FixtureForm::kBare) {
        problems.add(doors.place, doors.key, "belongs to form \"spot\" or \"panel\"");
        return;
    }
    std::array<float, 4> angles{};
    for (size_t i = 0; i < 4; ++i) {
        if (doors.value[i] < 0 || doors.value[i] > 180) {
            problems.add(
                doors.place,
                doors.key,
                "has " + number_text(doors.value[i]) +
                    "; must be from 0 (shut) over 90 (straight ahead) to 180 (folded back)");
            return;
        }
        angles[i] = static_cast<float>(radians_from_degrees(doors.value[i]));
    }
    fixture.barn_doors = angles;
}

void build_snoot(const FixtureDescription& description, Fixture& fixture, Problems& problems) {
    const Field<Pair>& snoot = description.snoot_mm;
    if (!snoot.given) return;
    if (fixture.form != FixtureForm::kSpot) {
        problems.add(snoot.place, snoot.key, "belongs to form \"spot\"");
        return;
    }
    if (description.barn_doors_deg.written) {
        problems.add(snoot.place, snoot.key, "stands beside barn_doors_deg; give one of the two");
        return;
    }
    const Vec2 size = 1e-3F * checked_size(snoot, Vec2(0), 1e4, problems);
    if (size.x > 0 && size.x < fixture.source_diameter) {
        problems.add(snoot.place,
                     snoot.key,
                     "is " + number_text(snoot.value[0]) +
                         " across; must not be narrower than source_mm, " +
                         number_text(1e3 * fixture.source_diameter));
        return;
    }
    fixture.snoot_diameter = size.x;
    fixture.snoot_length = size.y;
}

void build_stand(const FixtureDescription& description, Fixture& fixture, Problems& problems) {
    if (!description.stand.given || !description.stand.value) return;
    if (fixture.form != FixtureForm::kBare && fixture.axis.y < kSteepest) {
        problems.add(description.stand.place,
                     description.stand.key,
                     "would stand in the light of a fixture that aims straight down; leave it out");
        return;
    }
    fixture.stand = true;
}

}  // namespace

void build_attachments(const FixtureDescription& description,
                       Fixture& fixture,
                       Problems& problems) {
    build_barn_doors(description, fixture, problems);
    build_snoot(description, fixture, problems);
    build_stand(description, fixture, problems);
}

void build_supply(const FixtureDescription& description, Fixture& fixture, Problems& problems) {
    fixture.power_w =
        static_cast<float>(checked_range(description.power_w, fixture.power_w, 0, 1e5, problems));
    fixture.supply = checked_word(description.supply, kSupplies, fixture.supply, problems);
    fixture.clearance =
        static_cast<float>(checked_positive(description.clearance_m, 0, 100, problems));
    fixture.circuit = description.circuit.value;
    if (fixture.supply == Supply::kBattery) {
        note_unused(description.circuit, "the fixture has a battery", problems);
        fixture.circuit.clear();
    }
}

PowerSupply build_power(const PowerDescription& description, Problems& problems) {
    PowerSupply power;
    power.volts = checked_range(description.volts, power.volts, 1, 1000, problems);
    power.circuit_a = checked_positive(description.circuit_a, 0, 1000, problems);
    return power;
}

}  // namespace dapple
